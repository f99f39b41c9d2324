import type { Fact } from '../model/finding.ts';
import type { Jig, LugRow } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Deg, Mm } from '../units/scalar.ts';
import { fromEdge, sidesServed } from './bench.ts';
import {
  betweenLugs,
  type Case,
  type Cure,
  downTo,
  flipEdge,
  inMm,
  moveIn,
  num,
  placedAt,
  putAt,
  setFrom,
  shiftRound,
  shiftUp,
  sideOf,
  subject,
  thingAt,
  upTo,
  within,
  word,
} from './cure-kit.ts';
import { drillCures, headCures, outsideCures, patternCures, screwCures } from './cures-hardware.ts';

/** Cures worth trying for one finding. Whether they cure, and what else they break, only a new check can tell. */
export function curesFor(fact: Fact, jig: Jig, layout: Layout): readonly Cure[] {
  return CURES[fact.id]?.({ fact, jig, layout }) ?? [];
}

const CURES: Readonly<Record<string, (c: Case) => readonly Cure[]>> = {
  'rod-bottoms': rodCures,
  'rod-too-short': rodCures,
  'rod-jams': (c) => [...rodCures(c), ...moreThread(c)],
  'rods-meet': shorterPair,
  'thread-mismatch': (c) => [{ set: { 'rods.thread': word(c, 'lugs') }, say: `get ${word(c, 'lugs')} rods`, cost: 2 }],
  'rod-binds': hoopCures,
  'ears-mismatch': earCures,
  'hoop-on-lug': (c) => moveIn(c, sideOf(c), num(c, 'over')),
  'hoop-on-lever': (c) => moveIn(c, sideOf(c), num(c, 'over')),
  'hoop-without-lugs': (c) => [
    { set: { 'lugs.ends': 'both' }, say: 'call the lugs double-ended', cost: 1 },
    ...c.jig.rows.flatMap((_, i) => flipEdge(thingAt(c.jig, `lugs.rows.${i}`))),
  ],
  'foot-over-rim': (c) => [...flipEdge(subject(c)), ...moveIn(c, sideOf(c), num(c, 'over'))],
  'hole-over-rim': (c) => [...flipEdge(subject(c)), ...moveIn(c, sideOf(c), num(c, 'over'))],
  'foot-in-bed': (c) => moveIn(c, 'bottom', num(c, 'over')),
  'hole-in-bed': (c) => moveIn(c, 'bottom', num(c, 'over')),
  'feet-overlap': overlapCures,
  'lever-over-lug': overhangCures,
  'lever-over-fitting': overhangCures,
  'leg-rod-over-lug': overhangCures,
  'leg-rod-over-fitting': overhangCures,
  'leg-rod-on-rod': (c) => betweenLugs(c, placedAt(c, c.fact.at)),
  'hole-under-foot': overlapCures,
  'holes-overlap': (c) =>
    word(c, 'same') === 'yes' ? patternCures(c, 'spacing', num(c, 'need') + 3) : overlapCures(c),
  'hole-outside-foot': outsideCures,
  'butt-not-opposite': (c) => [
    ...putAt(c, placedAt(c, word(c, 'butt')), num(c, 'want')),
    ...putAt(c, placedAt(c, word(c, 'strainer')), num(c, 'wantStrainer')),
  ],
  'strainer-not-at-snare-edge': snareEdgeCures,
  'butt-not-at-snare-edge': snareEdgeCures,
  'strainer-off-bed': (c) => putAt(c, placedAt(c, c.fact.at), 0),
  'butt-off-bed': (c) => putAt(c, placedAt(c, c.fact.at), 180),
  'hole-smaller-than-screw': drillCures,
  'screw-too-short': screwCures,
  'screw-bottoms': screwCures,
  'shell-too-large': headCures,
  'shell-too-small': headCures,
  'snare-longer-than-shell': wireCures,
  'snare-implausible': wireCures,
  'wall-implausible': (c) => {
    const wall = c.fact.measured ?? 0;
    const meant = word(c, 'way') === 'thin' ? `${wall} in` : inMm(wall / 10);
    return [{ set: { 'shell.wall': meant }, say: `measure the wall again: ${meant} was probably meant`, cost: 1 }];
  },
};

/** Two rows of lugs that are called double-ended. */
const singleEnded = (c: Case): Cure[] =>
  c.jig.ends === 'both' && c.jig.rows.length > 1
    ? [{ set: { 'lugs.ends': 'one' }, say: 'call the lugs single-ended', cost: 1 }]
    : [];

function rodCures(c: Case): Cure[] {
  if (word(c, 'window') === 'closed') return [];
  const side = sideOf(c);
  const length = Number.isFinite(num(c, 'buy'))
    ? num(c, 'buy')
    : within(num(c, 'shortest'), num(c, 'longest'), num(c, 'length'));
  const it = subject(c);
  const nearest = (now: Mm) => within(num(c, 'nearest'), num(c, 'furthest'), now);
  return [
    ...(it ? setFrom(c, it, side, nearest(fromEdge(side, it.thing.height, c.jig.shell.depth))) : []),
    { set: { [`rods.length.${side}`]: inMm(length) }, say: `use ${inMm(length)} rods at the ${side}`, cost: 2 },
    { set: { 'rods.length': inMm(length) }, say: `use ${inMm(length)} rods`, cost: 2 },
    ...singleEnded(c),
  ];
}

function moreThread(c: Case): Cure[] {
  const need = upTo(num(c, 'threaded') + num(c, 'over'));
  return need > num(c, 'length')
    ? []
    : [{ set: { 'rods.threaded': inMm(need) }, say: `get rods threaded ${inMm(need)} from the tip`, cost: 2 }];
}

function shorterPair(c: Case): Cure[] {
  const rods = c.jig.rods;
  if (rods?.length.top === undefined || rods.length.bottom === undefined) return [];
  const less = (num(c, 'over') + num(c, 'reserve')) / 2;
  const [top, bottom] = [rods.length.top - less, rods.length.bottom - less].map(
    (l) => rods.stock.findLast((s) => s <= l) ?? downTo(l),
  ) as [number, number];
  return [
    {
      set: { 'rods.length.top': inMm(top), 'rods.length.bottom': inMm(bottom) },
      say: `use shorter rods, ${inMm(top)} at the top and ${inMm(bottom)} at the bottom`,
      cost: 2,
    },
  ];
}

function hoopCures(c: Case): Cure[] {
  if (word(c, 'way') === 'sideways') return [];
  const side = sideOf(c);
  return [
    {
      set: { [`hoops.${side}.ear-circle`]: inMm(num(c, 'line')) },
      say: `use a ${side} hoop with an ear circle of ${inMm(num(c, 'line'))}, or measure it again`,
      cost: 3,
    },
  ];
}

function earCures(c: Case): Cure[] {
  const side = sideOf(c);
  const [ears, lugs] = [num(c, 'ears'), num(c, 'lugs')];
  const serving = c.jig.rows.filter((r) => sidesServed(c.jig, r).includes(side));
  if (c.fact.unit === 'deg' || serving.length !== 1) return singleEnded(c);
  const row = c.jig.rows.indexOf(serving[0] as LugRow);
  return [
    { set: { 'lugs.count': ears }, say: `lay out ${ears} lugs`, cost: 1 },
    { set: { [`lugs.rows.${row}.count`]: ears }, say: `lay out ${ears} lugs in that row`, cost: 1 },
    { set: { [`hoops.${side}.ears`]: lugs }, say: `get a ${side} hoop with ${lugs} ears`, cost: 3 },
  ];
}

/** Wires that end just inside the bearing edge. */
function wireCures(c: Case): readonly Cure[] {
  const most = downTo(num(c, 'inside') - CLEAR_OF_EDGE);
  return most > 0
    ? [{ set: { 'snare.length': inMm(most) }, say: `get wires of ${inMm(most)} or a little less`, cost: 2 }]
    : [];
}

/** End plates stay this far (mm) inside the wall at both ends together (common practice, no source). */
const CLEAR_OF_EDGE = 5;

/** One row of double-ended lugs in the middle, where two such rows were written. */
const oneRow = (c: Case): Cure[] =>
  c.jig.ends === 'both' && c.jig.rows.length > 1
    ? [
        {
          set: { 'lugs.rows': [{ edge: 'middle', distance: 0 }] },
          say: 'write one row of double-ended lugs, in the middle',
          cost: 1.5,
        },
      ]
    : [];

/** Two things on one spot: turn the lugs, measure from the other edge, go between lugs, or shift one of the two. */
function overlapCures(c: Case): Cure[] {
  const [one, other] = [placedAt(c, word(c, 'one')), placedAt(c, word(c, 'other'))];
  const groups = [word(c, 'group'), word(c, 'group2')];
  const lugs = [one, other].some((p) => p?.role === 'lug');
  // Two feet know which way is out; a hole goes either way.
  const over = num(c, 'over');
  const around = Number.isFinite(num(c, 'around')) ? [num(c, 'around')] : [over, -over];
  const upright = Number.isFinite(num(c, 'upright')) ? [num(c, 'upright')] : [over, -over];
  return [
    ...(lugs ? halfPitch(c) : []),
    ...(lugs ? oneRow(c) : []),
    ...groups.flatMap((g) => flipEdge(thingAt(c.jig, g))),
    ...betweenLugs(c, one),
    ...betweenLugs(c, other),
    ...[one, other].flatMap((p) =>
      p?.role === 'butt' ? putAt(c, p, 180) : p?.role === 'strainer' ? putAt(c, p, 0) : [],
    ),
    ...around.flatMap((way) => [...shiftRound(c, other, way), ...shiftRound(c, one, -way)]),
    ...upright.flatMap((way) => [...shiftUp(c, other, way), ...shiftUp(c, one, -way)]),
  ];
}

/** The other way round than two feet: what hangs over moves off what lies under it. */
function overhangCures(c: Case): readonly Cure[] {
  const it = placedAt(c, c.fact.at);
  const away = [...shiftRound(c, it, num(c, 'around')), ...shiftUp(c, it, num(c, 'upright'))];
  return [...betweenLugs(c, it), ...away, ...halfPitch(c)];
}

/** All lugs, or one row of them, turned half a pitch: a lug on the strainer line, or none. */
function halfPitch(c: Case): Cure[] {
  const rows = ['group', 'group2'].flatMap((key) => {
    const it = thingAt(c.jig, word(c, key));
    return it?.row ? [it] : [];
  });
  const turned = (first: string | Deg, words: string): Cure[] => [
    { set: { 'lugs.first': first }, say: `turn the lugs: ${words}`, cost: 1 },
    ...rows.map(
      ({ path, title }): Cure => ({ set: { [`${path}.first`]: first }, say: `turn ${title}: ${words}`, cost: 1 }),
    ),
  ];
  // With an odd count one lug is on the strainer line or opposite it, but for a quarter pitch.
  const quarter = 90 / Math.max(...c.jig.rows.map((r) => r.count));
  return [
    ...turned('half', 'half a pitch from the strainer line'),
    ...turned(0, 'one on the strainer line'),
    ...turned(quarter, 'a quarter of a pitch from the strainer line'),
    ...turned(3 * quarter, 'three quarters of a pitch from the strainer line'),
  ];
}

function snareEdgeCures(c: Case): Cure[] {
  const it = subject(c);
  return [...flipEdge(it), ...(it ? setFrom(c, it, 'bottom', downTo(c.fact.limit ?? 0)) : [])];
}
