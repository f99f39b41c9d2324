import type { Fact } from '../model/finding.ts';
import type { Foot } from '../model/jig.ts';
import type { Placed } from '../model/layout.ts';
import { type Mm, toRad, wrapDeg } from '../units/scalar.ts';
import { type Bench, type Group, outlineOf, type Print, raise } from './bench.ts';
import { overlaps } from './contact.ts';
import { waysOut } from './feet.ts';
import { type Gathered, gather } from './gather.ts';
import { eachNear, ground } from './neighbours.ts';
import { footOutline, fromPoints, moved, type Outline } from './outline.ts';

/**
 * What hangs over the shell: a strainer's open lever, the rod of a leg down past its hoop. Their outlines against the
 * castings of everything else, which stand out from the shell as feet do: two things on one spot are a stop. Only where
 * the gap under lever or rod and the height of the casting are both given, and the one is the larger, do they pass.
 */
export function checkOverhang(bench: Bench): Fact[] {
  const feet = ground(
    bench.prints.filter((p) => p.kind === 'foot' && p.placed?.role !== 'vent' && p.placed?.role !== 'badge'),
    bench.girth,
  );
  const found: Gathered[] = [];
  for (const group of bench.groups) {
    for (const placed of group.placed) {
      for (const over of overhangs(bench, group, placed)) {
        eachNear(feet, over.outline, 0, (foot, shift) => {
          const other = outlineOf(foot, shift) as Outline;
          if (foot.placed === placed || passes(over.clear, foot) || !overlaps(over.outline, other)) return;
          found.push(onTop(bench, group, placed, over, foot, other));
        });
      }
    }
  }
  return gather(found);
}

interface Overhang {
  readonly part: 'open lever' | 'rod';
  readonly outline: Outline;
  /** Gap between the shell and the part. */
  readonly clear?: Mm;
}

function overhangs(bench: Bench, { fitting }: Group, placed: Placed): Overhang[] {
  const gap = (clear: Mm | undefined) => (clear === undefined ? {} : { clear });
  return [
    ...(fitting?.lever
      ? [{ part: 'open lever' as const, outline: onShell(bench, placed, fitting.lever), ...gap(fitting.lever.clear) }]
      : []),
    ...(fitting?.rod
      ? [{ part: 'rod' as const, outline: rodStrip(bench, placed, fitting.rod), ...gap(fitting.rod.clear) }]
      : []),
  ];
}

const passes = (clear: Mm | undefined, foot: Print): boolean => {
  const stands = foot.placed?.foot?.stands;
  return clear !== undefined && stands !== undefined && clear >= stands;
};

function onTop(bench: Bench, group: Group, placed: Placed, o: Overhang, foot: Print, other: Outline): Gathered {
  const under = foot.placed as Placed;
  const what = under.role === 'lug' ? 'lug' : 'fitting';
  const { outline } = o;
  const fact = raise(bench, {
    level: 'stop',
    id: `${o.part === 'rod' ? 'leg-rod' : 'lever'}-over-${what}`,
    at: placed.id,
    limit: 0,
    facts: { part: o.part, one: placed.id, other: under.id, what: group.title },
    keys: [`${group.key}.${o.part === 'rod' ? 'rod' : 'lever'}`, `${group.key}.at`, group.key, under.key],
  });
  return {
    key: `${o.part} ${group.key} ${under.key}`,
    over: Math.min(outline.right - other.left, other.right - outline.left),
    fact,
    other: under.id,
    finish: (f) => waysOut(bench, f, other, outline),
  };
}

const onShell = (bench: Bench, placed: Placed, foot: Foot): Outline =>
  moved(footOutline(foot, bench.layout.radius), bench.layout.radius * toRad(wrapDeg(placed.angle)), placed.height);

/** A leg's rod runs along the shell's axis from its foot past the bottom edge. */
function rodStrip(bench: Bench, placed: Placed, rod: { diameter: Mm; across: Mm }): Outline {
  const x =
    bench.layout.radius *
    (toRad(wrapDeg(placed.angle)) + Math.asin(Math.max(-1, Math.min(1, rod.across / bench.layout.radius))));
  const half = rod.diameter / 2;
  const top = placed.height + (placed.foot?.up ?? 0);
  return fromPoints([
    { x: x - half, y: 0 },
    { x: x + half, y: 0 },
    { x: x + half, y: top },
    { x: x - half, y: top },
  ]);
}
