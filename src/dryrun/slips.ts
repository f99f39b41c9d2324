import { MM_PER_INCH, type Mm, shorterTurn, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Bench } from './context.ts';
import type { Spot } from './match.ts';
import { skinPoint } from './place.ts';
import { SAME_PLACE } from './stations.ts';

/** How the whole job may have gone wrong: planned places moved by this are where the holes are. */
export type Slip =
  | { readonly kind: 'none' }
  | { readonly kind: 'mirrored'; readonly turn: number }
  | { readonly kind: 'turned'; readonly turn: number }
  /** All of it `by` beside the axis, which shows as a turn on the skin. */
  | { readonly kind: 'beside'; readonly by: Mm; readonly turn: number }
  | { readonly kind: 'shifted'; readonly along: Mm; readonly turn: number }
  /** X counted from the other edge; `turnedOver`: the whole shell end for end, so that A counts the other way too. */
  | { readonly kind: 'other-edge'; readonly turnedOver: boolean }
  /** Every X and Y so many times what it should be, and every A: another unit, or a scale left on. */
  | { readonly kind: 'scaled'; readonly lengths: number; readonly angles: number };

export function slipped(slip: Slip, p: Spot, depth: Mm): Spot {
  switch (slip.kind) {
    case 'none':
    case 'scaled':
      return p;
    case 'mirrored':
      return { ...p, angle: wrapDeg(slip.turn - p.angle) };
    case 'turned':
    case 'beside':
      return { ...p, angle: wrapDeg(p.angle + slip.turn) };
    case 'shifted':
      return { ...p, angle: wrapDeg(p.angle + slip.turn), height: p.height + slip.along };
    case 'other-edge':
      return { ...p, height: depth - p.height, angle: slip.turnedOver ? wrapDeg(-p.angle) : p.angle };
    default: {
      const never: never = slip;
      throw new Error(`unknown slip ${String(never)}`);
    }
  }
}

/** Every slip worth trying on what was found, beside none at all. */
export const slipsToTry = (planned: readonly Spot[], found: readonly Spot[], bench: Bench): Slip[] => [
  ...plainSlips(found, bench),
  ...turnsAndShifts(planned, found),
  ...scales(planned, found, bench),
];

/** Pairs of a try and a hole looked at for a turn or a shift: enough for any drum, and bounded. */
const MOST_WORK = 400_000;

export type Scaled = Extract<Slip, { kind: 'scaled' }>;
/** Inches for millimetres, either way. */
export const SCALES: readonly Scaled[] = [
  { kind: 'scaled', lengths: 1 / MM_PER_INCH, angles: 1 },
  { kind: 'scaled', lengths: MM_PER_INCH, angles: 1 },
];

function plainSlips(found: readonly Spot[], bench: Bench): Slip[] {
  const ys = found.map((f) => f.machine?.y ?? 0).sort((a, b) => a - b);
  const by = ys[ys.length >> 1]!;
  const turn = shorterTurn(0, skinPoint(0, by, 0, bench.radius, bench.frame).angle);
  return [
    { kind: 'mirrored', turn: 0 },
    { kind: 'other-edge', turnedOver: true },
    { kind: 'other-edge', turnedOver: false },
    ...SCALES,
    ...(Math.abs(by) > SAME_PLACE ? [{ kind: 'beside', by, turn } as const] : []),
  ];
}

/** Three found holes to try: one may be the hole that is wrong on its own account. */
const samples = (found: readonly Spot[]): Set<Spot> => new Set([found[0]!, found[found.length >> 1]!, found.at(-1)!]);

/** A found hole, tried against every planned one, gives every turn and shift there can be. */
function turnsAndShifts(planned: readonly Spot[], found: readonly Spot[]): Slip[] {
  const tries: Slip[] = [];
  for (const f of samples(found))
    for (const p of planned.slice(0, Math.ceil(MOST_WORK / 3 / planned.length))) {
      const turn = shorterTurn(p.angle, f.angle);
      if (Math.abs(p.height - f.height) <= SAME_PLACE)
        tries.push({ kind: 'turned', turn }, { kind: 'mirrored', turn: wrapDeg(f.angle + p.angle) });
      else tries.push({ kind: 'shifted', along: f.height - p.height, turn });
    }
  return tries;
}

/** A found hole against every planned one gives every scale of A, and of X, there can be. */
function scales(planned: readonly Spot[], found: readonly Spot[], { depth, frame }: Bench): Slip[] {
  const sense = (frame.datum === 'bottom') === (frame.a === 'iso') ? 1 : -1;
  const tries: Slip[] = [];
  const add = (ratio: number, make: (ratio: number) => Scaled): void => {
    if (ratio > 0 && Number.isFinite(ratio) && Math.abs(ratio - 1) > tolerance.same) tries.push(make(ratio));
  };
  for (const { machine, height } of samples(found)) {
    if (machine === undefined) continue;
    for (const p of planned.slice(0, Math.ceil(MOST_WORK / 9 / planned.length))) {
      if (Math.abs(p.height - height) <= SAME_PLACE)
        for (const turn of [p.angle, p.angle - 360])
          add(machine.a / (sense * turn), (angles) => ({ kind: 'scaled', lengths: 1, angles }));
      const x = frame.datum === 'bottom' ? p.height : depth - p.height;
      add(machine.x / x, (lengths) => ({ kind: 'scaled', lengths, angles: 1 }));
    }
  }
  return tries;
}
