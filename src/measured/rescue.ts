import { fitRigid, type Reach, type RigidFit, type Vector } from '../geometry/rigid.ts';
import type { Foot } from '../model/jig.ts';
import type { Thread } from '../model/thread.ts';
import { type Deg, type Mm, toDeg, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Beside, underFoot, woodBeside } from './beside.ts';
import { type Cover, farRim, insideFoot, LAND, type Opening, washerFor } from './cover.ts';

/** A fitting against its holes as drilled, in the fitting's own frame (x across, y upright, origin at the plan's place). */
export interface Drilled {
  readonly ids: readonly string[];
  /** Screw on the hardware and the hole meant for it. */
  readonly reaches: readonly Reach[];
  readonly drill: Mm;
  readonly thread: Thread;
  readonly foot?: Foot;
  /** Holes and feet of what is around it. */
  readonly beside: Beside;
  /** Whether the hardware works as well the other way up. */
  readonly turns: boolean;
}

export interface OpenedHole {
  readonly hole: string;
  /** How far the rim moves. */
  readonly by_mm: Mm;
  /** Which way, degrees from straight up, growing to the right (clockwise) as seen from outside. */
  readonly towards_deg: Deg;
  /** In words: `up`, `down and to the right`, … */
  readonly towards: string;
  /** Round drill that would open as far, on the same middle. */
  readonly drill_mm: Mm;
}

export interface Redrilled {
  readonly hole: string;
  /** From the hole as drilled: right and up. */
  readonly across_mm: Mm;
  readonly upright_mm: Mm;
}

/** One way to get the fitting on. `damage_mm2`: the wood cut, plus a handicap for each hole touched and each plug. */
export interface Cure {
  readonly kind: 'turn' | 'open' | 'slot' | 'plug';
  readonly openings: readonly OpenedHole[];
  readonly redrills: readonly Redrilled[];
  readonly damage_mm2: number;
  readonly cover: Cover;
  /** Every opening stays under foot and washer, and clear of what is around. `unknown`: the jig does not say how large the foot is. */
  readonly covered: 'yes' | 'no' | 'unknown';
  /** How the hardware stands once it is on. */
  readonly pose: { readonly across_mm: Mm; readonly upright_mm: Mm; readonly turn_deg: Deg };
}

/** A hole opened by more than this part of its diameter is a slot and no longer a hole eased with a file. */
const EASED = 0.25;
/** A slot longer than the hole is wide holds no washer. */
const LONGEST_SLOT = 1;
/** Wood that must stay between two openings, mm (common practice, no source). */
const BRIDGE = 2;
/** Each hole that has to be touched at all, as if this much more were cut, mm^2: one hole opened beats two. */
const TOUCHED = 2;
/** A plug and a new hole are more work and more harm than their wood: as if this much more were cut, mm^2. */
const PLUG_HARM = 100;

/**
 * The cures that get the fitting on, least damaging first: turned round; one hole opened; several opened; the fewest
 * holes plugged and drilled afresh. Each is proven: the screws are checked against the holes as they would be, and the
 * openings against foot and washer, and against holes and feet around it. Cures that would show, or cut into a neighbour,
 * are left out while another is there.
 */
export function cures(d: Drilled): readonly Cure[] {
  const found: Cure[] = [];
  if (d.turns) {
    const turned = fitRigid(d.reaches, { from: 180 });
    if (turned !== undefined && turned.miss <= tolerance.fit) found.push(proven(d, 'turn', turned, []));
  }
  for (let i = 0; i < d.reaches.length; i++) {
    const fit = fitRigid(d.reaches.map((r, k) => ({ ...r, opens: k === i })));
    if (fit !== undefined) add(found, opened(d, fit));
  }
  const all = fitRigid(d.reaches);
  if (all !== undefined) add(found, opened(d, all));
  add(found, plugged(d));
  const ranked = found.sort((a, b) => showing(a) - showing(b) || a.damage_mm2 - b.damage_mm2);
  const covered = ranked.filter((c) => showing(c) === 0);
  return covered.length > 0 ? covered : ranked;
}

/** 0: nothing shows. 1: it shows beside the foot. 2: no washer lies on the wood all round it. 3: it spoils a neighbour. */
const showing = (c: Cure): 0 | 1 | 2 | 3 =>
  c.covered !== 'no' ? 0 : spoils(c.cover) ? 3 : (c.cover.washer_mm ?? 0) >= LAND ? 1 : 2;

const spoils = (c: Cover): boolean => c.under !== null || (c.beside_mm ?? BRIDGE) < BRIDGE;

const add = (list: Cure[], cure: Cure | undefined): void => {
  if (cure !== undefined) list.push(cure);
};

/** Holes opened just as far as the screws stand out of reach at this pose. */
function opened(d: Drilled, fit: RigidFit): Cure | undefined {
  const openings = d.reaches.flatMap((r, i): OpenedHole[] => {
    const off = fit.off[i]!;
    const away = Math.hypot(off.x, off.y);
    const by = away - Math.max(0, r.reach);
    if (by <= tolerance.fit) return [];
    const towards = toDeg(Math.atan2(off.x, off.y));
    return [
      {
        hole: d.ids[i]!,
        by_mm: by,
        towards_deg: (towards + 360) % 360,
        towards: inWords(towards),
        drill_mm: d.drill + 2 * by,
      },
    ];
  });
  const longest = Math.max(0, ...openings.map((o) => o.by_mm));
  if (openings.length === 0 || longest > LONGEST_SLOT * d.drill || leastWood(d, openings) < BRIDGE) return undefined;
  return proven(d, longest > EASED * d.drill ? 'slot' : 'open', fit, openings);
}

/** Least wood between two openings of the fitting, by their ends: slots are short beside the way between holes. */
function leastWood(d: Drilled, openings: readonly OpenedHole[]): Mm {
  const ends = d.reaches.map(({ hole }, i): readonly Vector[] => {
    const o = openings.find((p) => p.hole === d.ids[i]);
    if (o === undefined) return [hole];
    const a = toRad(o.towards_deg);
    return [hole, { x: hole.x + o.by_mm * Math.sin(a), y: hole.y + o.by_mm * Math.cos(a) }];
  });
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < ends.length; i++) {
    for (let j = 0; j < i; j++) {
      for (const p of ends[i]!) for (const q of ends[j]!) least = Math.min(least, Math.hypot(p.x - q.x, p.y - q.y));
    }
  }
  return least - d.drill;
}

/** The fewest holes to plug, so that the hardware goes on the rest; drilled afresh where its screws then stand. */
function plugged(d: Drilled): Cure | undefined {
  const n = d.reaches.length;
  for (let count = 1; count <= n; count++) {
    let best: { fit: RigidFit; which: readonly number[]; moved: Mm } | undefined;
    for (const which of choose(n, count)) {
      const rest = d.reaches.filter((_, i) => !which.includes(i));
      const fit = rest.length === 0 ? still(d) : fitRigid(rest);
      if (fit === undefined || fit.miss > tolerance.fit) continue;
      const pose = posed(d, fit);
      const moved = which.reduce((s, i) => s + Math.hypot(pose.off[i]!.x, pose.off[i]!.y), 0);
      if (best === undefined || moved < best.moved) best = { fit: pose, which, moved };
    }
    if (best === undefined) continue;
    const { fit, which } = best;
    const redrills = which.map((i) => ({
      hole: d.ids[i]!,
      across_mm: fit.off[i]!.x,
      upright_mm: fit.off[i]!.y,
    }));
    return proven(d, 'plug', fit, [], redrills);
  }
  return undefined;
}

/** Largest number of holes for which every choice is tried; beyond it all are drilled afresh. */
const MOST_CHOICES = 12;

function* choose(n: number, count: number): Generator<readonly number[]> {
  if (n > MOST_CHOICES && count > 1 && count < n) return;
  const pick = function* (from: number, left: number): Generator<readonly number[]> {
    if (left === 0) yield [];
    else for (let i = from; i <= n - left; i++) for (const rest of pick(i + 1, left - 1)) yield [i, ...rest];
  };
  yield* pick(0, count);
}

/** The hardware where the plan has it. */
const still = (d: Drilled): RigidFit => posed(d, { miss: 0, turn: 0, shift: { x: 0, y: 0 }, off: [], pull: [] });

/** All screws at a pose found from some of them. */
function posed(d: Drilled, fit: RigidFit): RigidFit {
  const off = d.reaches.map(({ screw, hole }) => {
    const s = atPose(screw, fit);
    return { x: s.x - hole.x, y: s.y - hole.y };
  });
  return { ...fit, off };
}

const atPose = (p: Vector, fit: Pick<RigidFit, 'turn' | 'shift'>): Vector => {
  const c = Math.cos(toRad(fit.turn));
  const s = Math.sin(toRad(fit.turn));
  return { x: c * p.x - s * p.y + fit.shift.x, y: s * p.x + c * p.y + fit.shift.y };
};

/** From the shell back to the hardware's own frame, where its foot is known. */
const onHardware = (p: Vector, fit: Pick<RigidFit, 'turn' | 'shift'>): Vector => {
  const c = Math.cos(toRad(fit.turn));
  const s = Math.sin(toRad(fit.turn));
  const x = p.x - fit.shift.x;
  const y = p.y - fit.shift.y;
  return { x: c * x + s * y, y: -s * x + c * y };
};

function proven(
  d: Drilled,
  kind: Cure['kind'],
  fit: RigidFit,
  openings: readonly OpenedHole[],
  redrills: readonly Redrilled[] = [],
): Cure {
  const radius = d.drill / 2;
  const byHole = new Map(openings.map((o) => [o.hole, o]));
  const again = new Set(redrills.map((r) => r.hole));
  let foot: Mm | null = d.foot === undefined ? null : Number.POSITIVE_INFINITY;
  let far = 0;
  let wood = Number.POSITIVE_INFINITY;
  let under: string | undefined;
  for (const [i, { screw, hole }] of d.reaches.entries()) {
    const at = atPose(screw, fit);
    const o = byHole.get(d.ids[i]!);
    const a = toRad(o?.towards_deg ?? 0);
    const by = o?.by_mm ?? 0;
    const open: Opening = { from: hole, to: { x: hole.x + by * Math.sin(a), y: hole.y + by * Math.cos(a) }, radius };
    const fresh: Opening = { from: at, to: at, radius };
    const isFresh = again.has(d.ids[i]!);
    // What is left as it was drilled is not this cure's doing.
    if (o !== undefined || isFresh) {
      const cut = isFresh ? fresh : open;
      wood = Math.min(wood, woodBeside(cut, d.beside));
      under ??= underFoot(cut, d.beside);
    }
    // A plug needs no washer, but it must not show beside the foot.
    far = Math.max(far, farRim(at, isFresh ? fresh : open));
    if (foot !== null && d.foot !== undefined) {
      for (const p of [open.from, open.to, ...(isFresh ? [at] : [])]) {
        foot = Math.min(foot, insideFoot(d.foot, onHardware(p, fit)) - radius);
      }
    }
  }
  const washer = washerFor(d.thread, far);
  const cover: Cover = {
    foot_mm: foot,
    washer_mm: washer / 2 - far,
    washer,
    beside_mm: Number.isFinite(wood) ? wood : null,
    under: under ?? null,
  };
  const room = Math.min(foot ?? Number.POSITIVE_INFINITY, washer / 2 - far);
  const covered = room < LAND || spoils(cover) ? 'no' : foot === null ? 'unknown' : 'yes';
  const taken = openings.reduce((s, o) => s + o.by_mm * d.drill + TOUCHED, 0);
  const plugs = redrills.length * (Math.PI * radius * radius + PLUG_HARM);
  return {
    kind,
    openings,
    redrills,
    damage_mm2: taken + plugs,
    cover,
    covered,
    pose: { across_mm: fit.shift.x, upright_mm: fit.shift.y, turn_deg: fit.turn },
  };
}

/** Eight directions, as one looks at the outside of the shell with the top edge up. */
function inWords(fromUp: Deg): string {
  const words = [
    'up',
    'up and to the right',
    'to the right',
    'down and to the right',
    'down',
    'down and to the left',
    'to the left',
    'up and to the left',
  ];
  return words[Math.round((((fromUp % 360) + 360) % 360) / 45) % 8]!;
}
