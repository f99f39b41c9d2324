import fc from 'fast-check';
import type { Raw } from './jigs.ts';

/** Sixteenths of an inch, so that inches and millimetres can both say a length exactly. */
const sixteenths = (min: number, max: number) =>
  fc.integer({ min: Math.ceil((min * 16) / 25.4), max: Math.floor((max * 16) / 25.4) });

/** A jig in whole sixteenths: `inches(n)` and `mm(n)` are two spellings of the same length. */
export interface SixteenthJig {
  readonly depth: number;
  readonly diameter: number;
  readonly count: number;
  readonly first: number;
  readonly rows: readonly { readonly edge: 'top' | 'bottom' | 'middle'; readonly distance: number }[];
  readonly spacing: number;
  readonly layout: 'single' | 'upright' | 'across';
  readonly fittings: readonly {
    readonly at: number;
    readonly distance: number;
    readonly points: readonly (readonly [number, number])[];
  }[];
}

export const anyJig: fc.Arbitrary<SixteenthJig> = fc.record({
  depth: sixteenths(120, 500),
  diameter: sixteenths(200, 640),
  count: fc.integer({ min: 2, max: 16 }),
  first: fc.integer({ min: 0, max: 3599 }).map((t) => t / 10),
  rows: fc.array(fc.record({ edge: fc.constantFrom('top', 'bottom', 'middle'), distance: sixteenths(20, 50) }), {
    minLength: 1,
    maxLength: 3,
  }),
  spacing: sixteenths(10, 40),
  layout: fc.constantFrom('single', 'upright', 'across'),
  fittings: fc.array(
    fc.record({
      at: fc.integer({ min: 0, max: 3599 }).map((t) => t / 10),
      distance: sixteenths(40, 60),
      points: fc.array(fc.tuple(fc.integer({ min: -20, max: 20 }), fc.integer({ min: -20, max: 20 })), {
        minLength: 1,
        maxLength: 4,
      }),
    }),
    { maxLength: 4 },
  ),
});

export interface Spelling {
  readonly length: (sixteenths: number) => unknown;
  readonly units: 'mm' | 'in';
  /** Added to every angle. */
  readonly turn?: number;
  /** Every angle and across offset changes its sign. */
  readonly mirror?: boolean;
  readonly reorder?: boolean;
}

export const inMm: Spelling = { units: 'mm', length: (n) => (n * 25.4) / 16 };
export const inInches: Spelling = {
  units: 'in',
  length: (n) => (n % 16 === 0 ? n / 16 : `${Math.trunc(n / 16)} ${Math.abs(n % 16)}/16`),
};
export const inWords: Spelling = { units: 'in', length: (n) => `${((n * 25.4) / 16).toFixed(4)} mm` };

/** The jig file's object in one spelling. */
export function spell(j: SixteenthJig, s: Spelling): Raw {
  const angle = (a: number) => (s.mirror ? -a : a) + (s.turn ?? 0);
  const signed = (n: number) => (n < 0 ? `-${String(s.length(-n))}` : s.length(n));
  const fittings = j.fittings.map((f, i) => ({
    name: `part ${i}`,
    role: 'other',
    at: angle(f.at),
    edge: 'bottom',
    distance: s.length(f.distance),
    holes: {
      layout: 'points',
      drill: '5 mm',
      points: f.points.map(([x, y]) => ({ across: signed(s.mirror ? -x : x), upright: signed(y) })),
    },
  }));
  return {
    jig: 1,
    name: 'any',
    units: s.units,
    shell: { diameter: s.length(j.diameter), depth: s.length(j.depth), wall: s.length(4) },
    lugs: {
      count: j.count,
      first: angle(j.first),
      rows: j.rows.map((r) => ({ edge: r.edge, distance: s.length(r.distance) })),
      holes: { layout: j.layout, ...(j.layout === 'single' ? {} : { spacing: s.length(j.spacing) }), drill: '6 mm' },
    },
    fittings: s.reorder ? fittings.reverse() : fittings,
  };
}
