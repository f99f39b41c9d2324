import { budget } from '../budget/budget.ts';
import { findMethod, termsOf } from '../data/methods.ts';
import { findWood } from '../data/wood.ts';
import { emc, shellMovement } from '../geometry/moisture.ts';
import { leastWhere } from '../geometry/statistics.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { lineAt, unchecked } from './level.ts';
import type { Post, Serves } from './plan.ts';
import { guideLength, largestRadius, smallestRadius } from './posts.ts';

/** Chance wanted that a whole drum goes together, as the accuracy budget's own. */
const WANTED = 0.95;
/** Wear looked at, mm wider than new. */
const WORN: readonly Mm[] = [0, 0.1, 0.2, 0.4];
const MOST_WORN: Mm = 2;
/** Enough for a chance to a per cent or two where no closed form exists. */
const SAMPLES = 400;

/** How far a hole moves for each mm of play in its guide: half of it aside, and its lean over the gap and half the wall. */
export function shiftOfPlay(jig: Jig, post: Post): number {
  const guide = guideLength(post, jig.collar.thickness, jig.collar.bushing);
  const beyond = post.inner - jig.shell.radius + jig.shell.wall / 2;
  return 0.5 + beyond / guide;
}

/** What a builder asks before the next shell: does the season still let it in, and are the bushings still good. */
export function noteRepeat(jig: Jig, layout: Layout, posts: readonly Post[], serves: Serves): Fact[] {
  if (!jig.collar.asked || posts.length === 0) return [];
  return [season(jig, serves), wear(jig, layout, posts)];
}

/**
 * The humidity between which every shell of the batch still slides in and is still held, at the workshop's temperature; the shells were measured in the workshop's climate, and the collar's own movement is left out, which for a
 * collar of ply is on the safe side.
 */
function season(jig: Jig, serves: Serves): Fact {
  const { climate, shell } = jig;
  const wood = shell.wood === undefined ? undefined : findWood(shell.wood)?.movement;
  const needs = [
    ...(climate ? [] : ['climate.workshop']),
    ...(shell.build ? [] : ['shell.build']),
    ...(wood ? [] : ['shell.wood, one whose movement is known']),
  ];
  if (climate === undefined || shell.build === undefined || wood === undefined)
    return unchecked('collar', 'in which season the shells go into the collar', needs.join(', '));
  const { build } = shell;
  const { temperature, humidity } = climate.workshop;
  const girthAt = (radius: Mm, percent: number): Mm => {
    const girth = 2 * Math.PI * radius;
    const from = emc(temperature, humidity);
    const to = emc(temperature, percent);
    const movement = { tangential: wood.CT, radial: wood.CR };
    const { depth, wall } = shell;
    return girth + shellMovement({ build, wood: movement, girth, depth, wall, from, to }).girth.most;
  };
  const [small, large] = [smallestRadius(jig), largestRadius(jig)];
  const wet = leastWhere((h) => girthAt(large, h) > serves.girth[1], humidity, 100, 0.1);
  const dry = 100 - leastWhere((d) => girthAt(small, 100 - d) < serves.held, 100 - humidity, 100, 0.1);
  return {
    level: 'note',
    id: 'collar-season',
    at: 'collar',
    measured: Math.max(0, dry),
    limit: Math.min(100, wet),
    unit: '%',
    facts: { temperature, humidity },
    ...lineAt(jig, 'climate', 'collar'),
  };
}

/**
 * What worn guides do to the chance that a drum goes together: the accuracy budget of a collar with the bit's play in its
 * bushing grown by what a worn guide lets the hole move.
 */
function wear(jig: Jig, layout: Layout, posts: readonly Post[]): Fact {
  const shift = Math.max(...posts.map((p) => shiftOfPlay(jig, p)));
  const terms = jig.accuracy?.terms.collar ?? termsOf(findMethod('collar'));
  const chances = (worn: Mm): { goesOn: number; straight: number | null } | undefined => {
    const grown = terms.map((t) => (t.id === 'bit' ? { ...t, size: t.size + shift * worn } : t));
    const { methods } = budget(jig, layout, { method: 'collar', terms: { collar: grown }, samples: SAMPLES }).value;
    const drum = methods[0]?.drum;
    return drum === undefined || drum.fittings === 0 || drum.goesOn === null
      ? undefined
      : { goesOn: drum.goesOn, straight: drum.straight };
  };
  const table = WORN.map((worn) => ({ worn, chance: chances(worn) }));
  const fresh = table[0]?.chance;
  if (fresh === undefined)
    return unchecked('collar', 'what a worn bushing does to the fit', 'holes.screw of fittings with two holes or more');
  const due = leastWhere((worn) => (chances(worn)?.goesOn ?? 1) < WANTED, 0, MOST_WORN, 0.02);
  return {
    level: 'note',
    id: 'collar-wear',
    at: 'collar',
    measured: 100 * fresh.goesOn,
    limit: 100 * WANTED,
    unit: '%',
    facts: {
      straight: 100 * (fresh.straight ?? 0),
      due: Math.min(due, MOST_WORN),
      shift,
      ...Object.fromEntries(
        table.slice(1).flatMap(({ worn, chance }, i) => [
          [`worn${i + 1}`, worn],
          [`goesOn${i + 1}`, 100 * (chance?.goesOn ?? 0)],
          [`straight${i + 1}`, 100 * (chance?.straight ?? 0)],
        ]),
      ),
    },
    ...lineAt(jig, 'collar.bushing', 'collar'),
  };
}
