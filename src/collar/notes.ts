import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import { type Mm, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { CollarFrame } from './collar-frame.ts';
import { lineAt } from './level.ts';
import type { CollarPlan, Post } from './plan.ts';
import { largestRadius, smallestRadius } from './posts.ts';

/** What a builder must know of a sound collar before using it. */
export function noteUse(jig: Jig, layout: Layout, frames: readonly CollarFrame[]): Fact[] {
  return [...noteFeet(jig, layout, frames), ...noteBeds(jig, frames), ...noteLoose(jig, frames), ...noteMirror(frames)];
}

/** Feet that lie where the rings slide: everything is drilled before anything is screwed on. */
function noteFeet(jig: Jig, layout: Layout, frames: readonly CollarFrame[]): Fact[] {
  return frames
    .filter((c) => c.arc === undefined)
    .flatMap((c) => {
      const deep = (c.rings.at(-1) ?? 0) + c.band;
      const under = layout.placed
        .filter((p) => p.foot !== undefined)
        .map((p) => {
          const nearest =
            c.edge === 'bottom' ? p.height - (p.foot?.down ?? 0) : layout.depth - p.height - (p.foot?.up ?? 0);
          return { group: p.group, nearest };
        })
        .filter((p) => p.nearest < deep);
      if (under.length === 0) return [];
      const nearest = Math.min(...under.map((p) => p.nearest));
      return [
        {
          level: 'note',
          id: 'foot-under-ring',
          at: `${c.tag} collar`,
          measured: nearest,
          limit: deep,
          unit: 'mm',
          facts: { groups: [...new Set(under.map((p) => p.group))].join(', '), edge: c.edge },
          ...lineAt(jig, 'collar'),
        } satisfies Fact,
      ];
    });
}

/** A lip bridges a snare bed when it is a whole ring; a sector's lip may lie wholly over one. */
function noteBeds(jig: Jig, frames: readonly CollarFrame[]): Fact[] {
  const beds = jig.beds;
  if (beds === undefined || beds.depth <= 0) return [];
  const half = (beds.width / 2 / jig.shell.radius) * (180 / Math.PI);
  return frames
    .filter((c) => c.edge === 'bottom')
    .flatMap((c) => {
      const over = c.arc === undefined || [0, 180].some((bed) => touches(c, bed, half));
      if (!over) return [];
      return [
        {
          level: c.arc !== undefined && jig.collar.asked ? 'care' : 'note',
          id: 'lip-over-bed',
          at: `${c.tag} collar`,
          measured: beds.depth,
          limit: 0,
          unit: 'mm',
          facts: { width: beds.width, build: c.arc === undefined ? 'rings' : 'sector' },
          ...lineAt(jig, 'beds', 'collar'),
        } satisfies Fact,
      ];
    });
}

function touches(c: CollarFrame, bed: number, half: number): boolean {
  if (c.arc === undefined) return true;
  const from = wrapDeg(c.ref + c.arc.from - half - bed);
  const sweep = c.arc.to - c.arc.from + 2 * half;
  return from === 0 || 360 - from < sweep;
}

/**
 * A gap wider than a bit keeps the guide too far from the skin: the bit walks before it bites. The clearance makes it so,
 * or a batch whose smallest shell lies that far inside its largest.
 */
function noteLoose(jig: Jig, frames: readonly CollarFrame[]): Fact[] {
  const posts = frames.flatMap((c) => c.posts);
  const worst = (least: Mm): readonly [gap: Mm, bit: Mm] | undefined =>
    posts
      .flatMap((p) => p.bores.map((b) => [p.inner - least, b.bit] as const))
      .sort((a, b) => b[0] - b[1] - (a[0] - a[1]))
      .find(([gap, bit]) => gap > bit + tolerance.noise);
  const level = jig.collar.asked ? 'care' : 'note';
  const common = { level, id: 'collar-loose', at: 'collar', unit: 'mm' } as const;
  const alone = worst(largestRadius(jig));
  if (alone !== undefined) {
    const [gap, bit] = alone;
    const facts = { why: 'clearance' };
    return [{ ...common, measured: gap, limit: bit, facts, ...lineAt(jig, 'collar.clearance', 'collar') }];
  }
  const batch = worst(smallestRadius(jig));
  if (batch === undefined) return [];
  const [gap, bit] = batch;
  const girth = 2 * Math.PI * (smallestRadius(jig) + gap - bit);
  return [{ ...common, measured: gap, limit: bit, facts: { why: 'batch', girth }, ...lineAt(jig, 'batch', 'collar') }];
}

/** Two edges whose posts mirror each other about the strainer line: one collar turned over could serve both. */
function noteMirror(frames: readonly CollarFrame[]): Fact[] {
  const [top, bottom] = [frames.find((c) => c.tag === 'top'), frames.find((c) => c.tag === 'bottom')];
  if (!top || !bottom || top.posts.length !== bottom.posts.length) return [];
  const key = (p: Post, flip: 1 | -1): string =>
    [
      wrapDeg(Number((flip * p.angle).toFixed(2))).toFixed(2),
      ...p.bores.map((b) => `${(flip * b.x + 0).toFixed(2)} ${b.s.toFixed(2)} ${b.diameter.toFixed(2)}`).sort(),
    ]
      .join(' ')
      .replace(/-0\.00/g, '0.00');
  const there = new Set(bottom.posts.map((p) => key(p, 1)));
  if (!top.posts.every((p) => there.has(key(p, -1)))) return [];
  return [
    {
      level: 'note',
      id: 'collar-mirror',
      at: 'collar',
      measured: top.posts.length,
      limit: null,
      unit: '',
      facts: { posts: top.posts.length },
    },
  ];
}

/** What each way of building costs and gives, and which shells the collar serves: for a builder who asked for one. */
export function noteFigures(
  jig: Jig,
  { tradeoff, layouts, serves }: Pick<CollarPlan, 'tradeoff' | 'layouts' | 'serves'>,
): Fact[] {
  const { rings, sector } = tradeoff;
  if (!jig.collar.asked || rings === undefined || sector === undefined) return [];
  const line = lineAt(jig, 'collar.build', 'collar');
  return [
    {
      level: 'note',
      id: 'collar-builds',
      at: 'collar',
      measured: rings.sheetArea / 100,
      limit: sector.sheetArea / 100,
      unit: 'cm2',
      facts: {
        build: jig.collar.build,
        ringParts: rings.parts,
        sectorParts: sector.parts,
        ringGuide: rings.guideLength,
        sectorGuide: sector.guideLength,
        ringError: rings.accuracy.around,
        sectorError: sector.accuracy.around,
        systematic: sector.closing.systematic,
        random: sector.closing.random,
      },
      ...line,
    },
    noteLayouts(layouts, (jig.collar.build === 'rings' ? rings : sector).sheetArea, line),
    {
      level: 'note',
      id: 'collar-serves',
      at: 'collar',
      measured: serves.girth[0],
      limit: serves.girth[1],
      unit: 'mm',
      facts: { round: serves.round, wear: serves.wear },
      ...line,
    },
  ];
}

/** Sheet of the layout that is cut against the least of the three. */
function noteLayouts(layouts: CollarPlan['layouts'], cut: number, line: { line?: number }): Fact {
  const least = Math.min(...Object.values(layouts));
  const cm2 = (mm2: number | undefined): number => (mm2 ?? 0) / 100;
  return {
    level: 'note',
    id: 'collar-layouts',
    at: 'collar',
    measured: cut / 100,
    limit: least / 100,
    unit: 'cm2',
    facts: {
      whole: cm2(layouts.whole),
      pieces: cm2(layouts.pieces),
      sector: cm2(layouts.sector),
      times: cut / least,
    },
    ...line,
  };
}
