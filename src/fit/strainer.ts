import type { Fact } from '../model/finding.ts';
import type { Fitting } from '../model/jig.ts';
import type { Placed } from '../model/layout.ts';
import { type Deg, type Mm, shorterTurn, toRad, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { BED_ANGLES } from './beds.ts';
import { type Bench, lineAcross, notChecked, raise } from './bench.ts';

interface End {
  readonly placed: Placed;
  readonly fitting: Fitting;
  /** Line of its screws, and line of the strap where that is off the screws. */
  readonly line: Deg;
  readonly strap: Deg;
}

/** Strainer and butt: opposite each other, at the snare edge (the bottom one), on their beds. */
export function checkStrainer(bench: Bench): Fact[] {
  const ends = endsOf(bench);
  const strainers = ends.filter((e) => e.fitting.role === 'strainer');
  const butts = ends.filter((e) => e.fitting.role === 'butt');
  const [first] = ends;
  if (!first) return [];
  const { at, key } = { at: first.placed.id, key: first.placed.key };
  return [
    ...(bench.jig.beds ? [] : [notChecked(bench, at, 'strainer and butt on their snare beds', ['beds'], key)]),
    ...facing(bench, strainers, butts),
    ...ends.flatMap((e) => [...atSnareEdge(bench, e), ...onBed(bench, e)]),
    ...offLine(bench, strainers),
  ];
}

function endsOf(bench: Bench): End[] {
  return bench.groups.flatMap(({ fitting, placed }) => {
    if (!fitting || (fitting.role !== 'strainer' && fitting.role !== 'butt')) return [];
    return placed.map((p) => ({
      placed: p,
      fitting,
      line: p.angle,
      strap: lineAcross(bench, p.angle, fitting.snareLine ?? 0),
    }));
  });
}

const offOpposite = (a: Deg, b: Deg): Deg => Math.abs(shorterTurn(a + 180, b));

function facing(bench: Bench, strainers: readonly End[], butts: readonly End[]): Fact[] {
  if (strainers.length === 0) {
    const [butt] = butts;
    return butt
      ? [
          notChecked(
            bench,
            butt.placed.id,
            'butt opposite the strainer',
            ['a fitting with role: strainer'],
            butt.placed.key,
          ),
        ]
      : [];
  }
  const partners = butts.length > 0 ? butts : strainers;
  if (butts.length === 0) {
    const only = strainers[0] as End;
    const what =
      strainers.length > 1 ? 'butt opposite the strainer (there are two strainers)' : 'butt opposite the strainer';
    const missing = notChecked(bench, only.placed.id, what, ['a fitting with role: butt'], only.placed.key);
    if (strainers.length < 2) return [missing];
    return [missing, ...facingEachOther(bench, strainers, partners)];
  }
  return facingEachOther(bench, strainers, partners);
}

function facingEachOther(bench: Bench, strainers: readonly End[], partners: readonly End[]): Fact[] {
  const { limits } = bench;
  return strainers.flatMap((s) => {
    const others = partners.filter((b) => b !== s);
    const missOf = (b: End) => Math.min(offOpposite(s.line, b.line), offOpposite(s.strap, b.strap));
    const butt = others.reduce((best, b) => (missOf(b) < missOf(best) ? b : best));
    const strapMiss = offOpposite(s.strap, butt.strap);
    const miss = missOf(butt);
    const stop = miss > limits.facingBad + tolerance.noise;
    if (!stop && strapMiss <= limits.facing + tolerance.noise) return [];
    const shown = stop ? miss : strapMiss;
    return [
      raise(bench, {
        level: stop ? 'stop' : 'care',
        id: stop ? 'butt-not-opposite' : 'strap-askew',
        at: butt.placed.id,
        measured: shown,
        limit: stop ? limits.facingBad : limits.facing,
        unit: 'deg',
        facts: {
          strainer: s.placed.id,
          butt: butt.placed.id,
          strainerAt: s.strap,
          buttAt: butt.strap,
          want: wrapDeg(s.strap + 180 + (butt.line - butt.strap)),
          wantStrainer: wrapDeg(butt.strap + 180 + (s.line - s.strap)),
          off: bench.layout.radius * toRad(shown),
        },
        keys: [`${butt.placed.key}.at`],
      }),
    ];
  });
}

/**
 * Above this share of the depth a fitting measured from the bottom edge no longer reaches the snare edge with its strap;
 * within NEAR (mm) it always does, however shallow the shell (common practice, no source).
 */
const FAR_SHARE = 0.6;
const NEAR: Mm = 60;

/**
 * The snare edge is the bottom one. A fitting measured from the top edge must still sit in the lower half; one measured
 * from the bottom edge or the middle may pass the middle a little, as on a shallow shell.
 */
function atSnareEdge(bench: Bench, e: End): Fact[] {
  const { depth } = bench.layout;
  const limit = e.fitting.edge === 'top' ? depth / 2 : Math.max(NEAR, FAR_SHARE * depth);
  if (e.placed.height <= limit + tolerance.same) return [];
  return [
    raise(bench, {
      level: 'stop',
      id: e.fitting.role === 'strainer' ? 'strainer-not-at-snare-edge' : 'butt-not-at-snare-edge',
      at: e.placed.id,
      measured: e.placed.height,
      limit,
      facts: {
        edge: e.fitting.edge,
        distance: e.fitting.distance,
        fromTop: depth - e.placed.height,
        role: e.fitting.role,
      },
      keys: [`${e.placed.key}.edge`],
    }),
  ];
}

/** A bed has its full depth over the middle half of its width (derived: it rises to the edge over a quarter at each end). */
const FLAT_SHARE = 0.25;

function onBed(bench: Bench, e: End): Fact[] {
  const beds = bench.jig.beds;
  if (!beds) return [];
  const off = (line: Deg): Mm =>
    bench.layout.radius * toRad(Math.min(...BED_ANGLES.map((a) => Math.abs(shorterTurn(a, line)))));
  // The strap pulls at the bed, wherever its screws are.
  const miss = off(e.strap);
  const limit = FLAT_SHARE * beds.width;
  if (miss <= limit + tolerance.noise) return [];
  return [
    raise(bench, {
      level: 'stop',
      id: e.fitting.role === 'strainer' ? 'strainer-off-bed' : 'butt-off-bed',
      at: e.placed.id,
      measured: miss,
      limit,
      facts: { at: e.strap, width: beds.width, role: e.fitting.role },
      keys: [`${e.placed.key}.at`],
    }),
  ];
}

/** The strainer's line is the 0 deg line of the whole drum. */
function offLine(bench: Bench, strainers: readonly End[]): Fact[] {
  if (strainers.length === 0) return [];
  const best = strainers.reduce((a, b) =>
    Math.abs(shorterTurn(0, a.line)) <= Math.abs(shorterTurn(0, b.line)) ? a : b,
  );
  const off = Math.min(Math.abs(shorterTurn(0, best.line)), Math.abs(shorterTurn(0, best.strap)));
  if (off <= bench.limits.facing) return [];
  return [
    raise(bench, {
      level: 'care',
      id: 'strainer-off-line',
      at: best.placed.id,
      measured: off,
      limit: 0,
      unit: 'deg',
      facts: { at: best.line },
      keys: [`${best.placed.key}.at`],
    }),
  ];
}
