import type { Fact } from '../model/finding.ts';
import { readLength } from '../units/length.ts';
import { MM_PER_INCH } from '../units/scalar.ts';
import { type Cure, inMm } from './cure-kit.ts';

/**
 * Slips of the tape and of the unit: a value that would be sound in another unit, or read off the wrong thing. Tried only
 * where moving and buying do not help, for what was measured is measured; the cure is to measure again.
 */
type Slip = readonly [meant: (mm: number) => number, words: string];

const UNITS: readonly Slip[] = [
  [(v) => v * 10, 'centimetres were perhaps meant'],
  [(v) => v * MM_PER_INCH, 'inches were perhaps meant'],
  [(v) => v / 10, 'it looks ten times too large'],
  [(v) => v / (MM_PER_INCH / 10), 'centimetres were perhaps read, not inches'],
  [(v) => v * (MM_PER_INCH / 10), 'inches were perhaps read, not centimetres'],
];

const MISREAD: readonly Slip[] = [
  [(v) => v + 10, 'it was perhaps misread by one centimetre'],
  [(v) => v - 10, 'it was perhaps misread by one centimetre'],
  [(v) => v + MM_PER_INCH, 'it was perhaps misread by one inch'],
  [(v) => v - MM_PER_INCH, 'it was perhaps misread by one inch'],
];

const ACROSS: readonly Slip[] = [
  [(v) => v * 2, 'the radius was perhaps given'],
  [(v) => v / Math.PI, 'the girth was perhaps given'],
];

/** What a value of this key can be at all, mm: drums are 6 to 30 in across. */
const PLAUSIBLE: readonly (readonly [leaf: RegExp, low: number, high: number])[] = [
  [/shell\.diameter|nominal|ear-circle/, 140, 800],
  [/circumference/, 440, 2400],
  [/shell\.depth/, 40, 700],
  [/wall/, 0.8, 30],
  [/distance/, 10, 350],
  [/rods\.length/, 20, 250],
  [/travel/, 0.5, 15],
  [/rings.*width/, 8, 130],
  [/gasket|washer/, 0, 6],
  [/catch/, 0, 30],
  [/./, 0.5, 400],
];

const isPlausible = (path: string, value: number): boolean => {
  // The last row takes every key.
  const [, low, high] = PLAUSIBLE.find(([leaf]) => leaf.test(path)) as (typeof PLAUSIBLE)[number];
  return value >= low && value <= high;
};

/** Keys a finding may owe to a slip; `{side}`, `{group}`, `{group2}` stand for the finding's own. */
const ROD_KEYS = [
  'rods.length',
  'rods.length.{side}',
  'rods.washer',
  'rods.threaded',
  'rods.travel',
  'hoops.{side}.ear',
  'lugs.rod.face',
  'lugs.rod.catch',
  'lugs.rod.bottom',
  '{group}.distance',
];
const PLACE_KEYS = ['shell.depth', '{group}.distance', '{group2}.distance'];
const FOOT_KEYS = [
  '{group}.holes.across',
  '{group}.holes.upright',
  'lugs.holes.spacing',
  '{group}.holes.spacing',
  'lugs.holes.drill',
  '{group}.holes.drill',
  'lugs.foot.width',
  'lugs.foot.height',
  '{group}.foot.width',
  '{group}.foot.height',
];
const SCREW_KEYS = [
  'shell.rings.top.thickness',
  'shell.rings.bottom.thickness',
  'lugs.holes.tapped',
  '{group}.holes.tapped',
  'lugs.holes.washer',
  '{group}.holes.washer',
  'lugs.foot.gasket',
  '{group}.foot.gasket',
  'shell.wall',
];
const LEVER_KEYS = ['left', 'right', 'width', 'rimward', 'inward', 'height'].map((side) => `{group}.lever.${side}`);
const BED_KEYS = ['beds.depth', 'beds.width', '{group}.distance'];

const KEYS: Readonly<Record<string, readonly string[]>> = {
  'rod-bottoms': ROD_KEYS,
  'rod-too-short': ROD_KEYS,
  'rod-jams': ROD_KEYS,
  'rod-binds': ['hoops.{side}.ear-circle', 'lugs.rod.standoff', 'lugs.foot.gasket'],
  'lever-over-lug': LEVER_KEYS,
  'lever-over-fitting': LEVER_KEYS,
  'hoop-on-lever': [...LEVER_KEYS, 'hoops.{side}.skirt', 'rods.travel'],
  'leg-rod-over-lug': ['{group}.rod.diameter', '{group}.rod.across'],
  'leg-rod-over-fitting': ['{group}.rod.diameter', '{group}.rod.across'],
  contradiction: [
    '{one}.distance',
    'shell.rings.top.width',
    'shell.rings.bottom.width',
    'shell.depth',
    'beds.width',
    'beds.depth',
    'rods.length',
    'rods.length.{side}',
    'rods.washer',
    'rods.threaded',
  ],
  'hoop-on-lug': ['hoops.{side}.skirt', 'lugs.rod.face', '{group}.distance', 'rods.travel'],
  'foot-over-rim': PLACE_KEYS,
  'hole-over-rim': PLACE_KEYS,
  'foot-in-bed': BED_KEYS,
  'hole-in-bed': BED_KEYS,
  'strainer-off-bed': BED_KEYS,
  'butt-off-bed': BED_KEYS,
  'strainer-not-at-snare-edge': PLACE_KEYS,
  'butt-not-at-snare-edge': PLACE_KEYS,
  'feet-overlap': [...PLACE_KEYS, ...FOOT_KEYS],
  'hole-outside-foot': FOOT_KEYS,
  'hole-under-foot': [...PLACE_KEYS, ...FOOT_KEYS],
  'holes-overlap': [...PLACE_KEYS, ...FOOT_KEYS],
  'hole-smaller-than-screw': ['lugs.holes.drill', '{group}.holes.drill'],
  'screw-too-short': SCREW_KEYS,
  'screw-bottoms': SCREW_KEYS,
  'shell-too-large': ['shell.diameter', 'shell.circumference', 'shell.nominal'],
  'shell-too-small': ['shell.diameter', 'shell.circumference', 'shell.nominal'],
  'snare-longer-than-shell': ['snare.length'],
  'snare-implausible': ['snare.length'],
  'wall-implausible': ['shell.wall'],
};

type Node = Readonly<Record<string, unknown>>;

const at = (raw: unknown, path: string): unknown =>
  path.split('.').reduce<unknown>((v, k) => (typeof v === 'object' && v !== null ? (v as Node)[k] : undefined), raw);

/** Single slips that may be behind these findings, as the file is written. */
export function slipsFor(facts: readonly Fact[], raw: Node): readonly Cure[] {
  const units = at(raw, 'units') === 'in' ? 'in' : 'mm';
  const paths = new Set(
    // A key that the finding does not fill in leads nowhere in the file.
    facts.flatMap((f) =>
      (KEYS[f.id] ?? []).map((key) => key.replace(/\{(\w+)\}/, (_, name) => String(f.facts?.[name]))),
    ),
  );
  // Turns are counted, not measured: ten times too many is a slip of the pen.
  const turns = /^(\d+(?:\.\d+)?)\s*turns?$/.exec(String(at(raw, 'rods.travel') ?? ''))?.[1];
  const fewer = Number(turns) / 10;
  const miscounted: Cure[] =
    paths.has('rods.travel') && fewer >= 1
      ? [{ set: { 'rods.travel': `${fewer} turns` }, say: `count the turns again: it was perhaps ${fewer}`, cost: 3 }]
      : [];
  const lengthAt = (path: string): number | undefined => {
    const reading = readLength(at(raw, path), units);
    return reading.ok && reading.value !== 0 ? reading.value : undefined;
  };
  const wall = lengthAt('shell.wall') ?? 0;
  const single = [...paths].flatMap((path) => {
    const value = lengthAt(path);
    if (value === undefined) return [];
    return slipsOf(path, wall).flatMap(([meant, words], i): Cure[] => {
      const mm = meant(value);
      const set = { [path]: inMm(mm) };
      return isPlausible(path, mm)
        ? [{ set, say: `measure ${path} again: ${words} (${inMm(mm)})`, cost: 3 + i / 10 }]
        : [];
    });
  });
  return [
    ...miscounted,
    ...wholeFile(raw),
    ...swappedKeys(paths, lengthAt),
    ...single,
    ...[...paths].flatMap((path) => bothSides(path, lengthAt)),
  ];
}

/** Bare numbers were meant in the other unit. */
const wholeFile = (raw: Node): Cure[] => {
  const other = at(raw, 'units') === 'in' ? 'mm' : 'in';
  const meant = other === 'in' ? 'inches' : 'millimetres';
  return [{ set: { units: other }, say: `say units: ${other}: the bare numbers were perhaps ${meant}`, cost: 3 }];
};

/** The diameter was written under the girth's name. */
function swappedKeys(paths: ReadonlySet<string>, lengthAt: (path: string) => number | undefined): Cure[] {
  const girth = paths.has('shell.circumference') ? lengthAt('shell.circumference') : undefined;
  return girth === undefined || !isPlausible('shell.diameter', girth)
    ? []
    : [
        {
          set: { 'shell.circumference': null, 'shell.diameter': inMm(girth) },
          say: `measure the girth again: ${inMm(girth)} was perhaps the diameter`,
          cost: 3,
        },
      ];
}

/** A foot is measured both ways with one rule: both sizes share a slip. */
function bothSides(path: string, lengthAt: (path: string) => number | undefined): Cure[] {
  if (!path.endsWith('.foot.width')) return [];
  const foot = path.slice(0, -'.width'.length);
  const [width, height] = [lengthAt(path), lengthAt(`${foot}.height`)];
  if (width === undefined || height === undefined) return [];
  return UNITS.slice(0, 2).map(([meant, words], i) => ({
    set: { [path]: inMm(meant(width)), [`${foot}.height`]: inMm(meant(height)) },
    say: `measure ${foot} again: ${words}`,
    cost: 3 + i / 10,
  }));
}

function slipsOf(path: string, wall: number): readonly Slip[] {
  if (path === 'shell.circumference') return [...MISREAD, ...UNITS];
  if (path === 'shell.diameter')
    return [[(v) => v + 2 * wall, 'the inside diameter was perhaps given'], ...ACROSS, ...MISREAD, ...UNITS];
  return path.endsWith('ear-circle') ? [...ACROSS, ...UNITS] : UNITS;
}
