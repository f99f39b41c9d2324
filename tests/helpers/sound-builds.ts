import type { Raw } from './jig-cases.ts';

/**
 * Sound builds of many sizes, as a builder would lay them out with a pencil: choose lug and rod, let the rod stand a few
 * turns and a little more in the lug, and set the lugs where that puts them.
 */
interface LugKind {
  readonly name: string;
  readonly spacing: number;
  readonly width: number;
  readonly height: number;
  readonly face: number;
  readonly catch: number;
  readonly bottom: number;
  readonly standoff: number;
  readonly screw: string;
  readonly drill: number;
  readonly tapped: number;
}

const SMALL: LugKind = {
  name: 'small',
  spacing: 19,
  width: 14,
  height: 32,
  face: 13,
  catch: 4,
  bottom: 24,
  standoff: 11,
  screw: 'M4 x 14',
  drill: 4.5,
  tapped: 10,
};
const MIDDLE: LugKind = {
  name: 'middle',
  spacing: 25.4,
  width: 18,
  height: 46,
  face: 18,
  catch: 6,
  bottom: 28,
  standoff: 14,
  screw: 'M4 x 16',
  drill: 4.8,
  tapped: 12,
};
const LARGE: LugKind = {
  name: 'large',
  spacing: 38.1,
  width: 22,
  height: 62,
  face: 24,
  catch: 8,
  bottom: 40,
  standoff: 18,
  screw: 'M5 x 20',
  drill: 5.5,
  tapped: 16,
};

export interface SoundBuild {
  readonly name: string;
  readonly raw: Raw;
}

interface Size {
  readonly inches: number;
  readonly depth: number;
  readonly count: number;
  readonly build: 'ply' | 'stave' | 'steam-bent' | 'segment';
  readonly wall: number;
  readonly lug: LugKind;
  readonly rod: number;
  readonly first?: number | 'half';
  readonly heads?: 'both' | 'top';
  readonly snare?: boolean;
  readonly extras?: readonly Raw[];
}

const PITCH = 25.4 / 24;

function separate(s: Size): SoundBuild {
  const diameter = s.inches * 25.4 - 2.6;
  const ear = 4.5;
  const washer = 1.5;
  const stands = s.lug.catch + 3 * PITCH + 2.5;
  const distance = s.rod - stands - washer - ear + s.lug.face;
  const heads = s.heads ?? 'both';
  const circle = diameter + 2 * (1 + s.lug.standoff);
  const hoop = { ear, skirt: 6, ears: s.count, 'ear-circle': circle };
  const pitch = 360 / s.count;
  const ends: Raw[] = s.snare
    ? ['strainer', 'butt'].map((role, i) => ({
        name: role,
        role,
        at: 180 * i,
        edge: 'bottom',
        distance: Math.min(46, s.depth / 2),
        holes: { layout: 'upright', spacing: 28, drill: 4.5, screw: `M4 x ${s.wall > 8 ? 18 : 14}`, tapped: 10 },
        foot: { width: 28, height: 52 },
      }))
    : [];
  return {
    name: `${s.inches} in x ${s.depth} mm, ${s.count} ${s.lug.name} lugs, ${s.build}${s.snare ? ', snare' : ''}${heads === 'top' ? ', one head' : ''}`,
    raw: {
      jig: 1,
      name: `Sound ${s.inches}`,
      shell: { diameter, depth: s.depth, wall: s.wall, nominal: `${s.inches} in`, build: s.build },
      lugs: {
        count: s.count,
        ...(s.first === undefined ? {} : { first: s.first }),
        rows: [{ edge: 'top', distance }, ...(heads === 'top' ? [] : [{ edge: 'bottom', distance }])],
        holes: {
          layout: 'upright',
          spacing: s.lug.spacing,
          drill: s.lug.drill,
          screw: s.lug.screw,
          tapped: s.lug.tapped,
        },
        foot: { width: s.lug.width, height: s.lug.height, gasket: 1 },
        rod: {
          face: s.lug.face,
          catch: s.lug.catch,
          bottom: s.lug.bottom,
          takes: '12-24 UNC',
          standoff: s.lug.standoff,
        },
      },
      rods: {
        length: heads === 'top' ? { top: s.rod } : s.rod,
        thread: '12-24',
        threaded: 30,
        washer,
        travel: '3 turns',
      },
      hoops: heads === 'top' ? { top: hoop } : { top: hoop, bottom: hoop },
      fittings: [
        ...ends,
        {
          name: 'vent',
          role: 'vent',
          at: s.count > 2 ? { between: [1, 2] } : pitch,
          edge: 'middle',
          distance: 0,
          holes: { layout: 'single', drill: 10 },
        },
        ...(s.extras ?? []),
      ],
      ...(s.snare ? { beds: { width: 80, depth: 1.5 }, snare: { length: diameter - 25 } } : {}),
    },
  };
}

/** Double-ended lugs in the middle of the shell: the rod is chosen for the depth. */
function doubleEnded(inches: number, depth: number, count: number, wall: number, snare: boolean): SoundBuild {
  const diameter = inches * 25.4 - 2.2;
  const face = Math.min(45, depth / 4);
  const rod = Math.round(1 + 5 + depth / 2 - face + 3 + 3 * 1 + 3);
  const hoop = { ear: 5, skirt: 5, ears: count, 'ear-circle': diameter + 26 };
  return {
    name: `${inches} in x ${depth} mm, ${count} double-ended lugs${snare ? ', snare' : ''}`,
    raw: {
      jig: 1,
      name: `Sound double-ended ${inches}`,
      shell: { diameter, depth, wall, nominal: `${inches} in` },
      lugs: {
        count,
        ends: 'both',
        rows: [{ edge: 'middle', distance: 0 }],
        holes: { layout: 'upright', spacing: face, drill: 5.5, screw: `M5 x ${Math.ceil(wall) + 6}`, tapped: 9 },
        foot: { width: 15, height: face + 16, shape: 'ellipse' },
        rod: { face, catch: 3, bottom: face - 0.5, takes: 'M6', standoff: 13 },
      },
      rods: { length: rod, thread: 'M6', threaded: 25, washer: 1, travel: '3 turns' },
      hoops: { top: hoop, bottom: hoop },
      fittings: snare
        ? ['strainer', 'butt'].map((role, i) => ({
            role,
            at: 180 * i,
            edge: 'bottom',
            distance: depth / 2,
            holes: { layout: 'upright', spacing: 24, drill: 4.5, screw: 'M4 x 12' },
            foot: { width: 26, height: 40 },
          }))
        : [{ role: 'badge', at: { between: [1, 2] }, edge: 'middle', distance: 0, foot: { width: 30, height: 20 } }],
      ...(snare ? { beds: { width: 80, depth: 1 } } : {}),
    },
  };
}

const separateSizes: readonly Size[] = [
  { inches: 6, depth: 110, count: 4, build: 'ply', wall: 5, lug: SMALL, rod: 32, heads: 'top' },
  { inches: 6, depth: 140, count: 5, build: 'segment', wall: 6, lug: SMALL, rod: 35 },
  { inches: 8, depth: 150, count: 5, build: 'stave', wall: 6.5, lug: SMALL, rod: 35 },
  { inches: 8, depth: 178, count: 6, build: 'ply', wall: 5, lug: SMALL, rod: 42, first: 0 },
  { inches: 10, depth: 178, count: 5, build: 'ply', wall: 5.4, lug: MIDDLE, rod: 42 },
  { inches: 10, depth: 140, count: 6, build: 'stave', wall: 7, lug: SMALL, rod: 35, snare: true },
  { inches: 10, depth: 203, count: 6, build: 'steam-bent', wall: 6, lug: MIDDLE, rod: 50, first: 0 },
  { inches: 12, depth: 127, count: 6, build: 'segment', wall: 8, lug: SMALL, rod: 35, snare: true },
  { inches: 12, depth: 203, count: 6, build: 'ply', wall: 5.8, lug: MIDDLE, rod: 42 },
  { inches: 12, depth: 229, count: 7, build: 'stave', wall: 7.5, lug: MIDDLE, rod: 50 },
  { inches: 12, depth: 203, count: 8, build: 'steam-bent', wall: 6, lug: MIDDLE, rod: 42, heads: 'top' },
  { inches: 13, depth: 152, count: 8, build: 'stave', wall: 8, lug: MIDDLE, rod: 42, snare: true },
  { inches: 13, depth: 229, count: 6, build: 'ply', wall: 6, lug: MIDDLE, rod: 50 },
  { inches: 13, depth: 178, count: 10, build: 'ply', wall: 7.2, lug: MIDDLE, rod: 42, snare: true },
  { inches: 14, depth: 127, count: 8, build: 'ply', wall: 6.6, lug: SMALL, rod: 35, snare: true },
  { inches: 14, depth: 140, count: 10, build: 'stave', wall: 9, lug: MIDDLE, rod: 42, snare: true },
  { inches: 14, depth: 165, count: 10, build: 'ply', wall: 6.6, lug: MIDDLE, rod: 42, snare: true },
  { inches: 14, depth: 165, count: 12, build: 'steam-bent', wall: 7, lug: MIDDLE, rod: 42, snare: true },
  { inches: 14, depth: 203, count: 16, build: 'segment', wall: 10, lug: MIDDLE, rod: 50, snare: true },
  { inches: 14, depth: 203, count: 20, build: 'ply', wall: 6, lug: SMALL, rod: 35, snare: true },
  { inches: 14, depth: 305, count: 9, build: 'ply', wall: 6, lug: MIDDLE, rod: 42 },
  { inches: 14, depth: 165, count: 6, build: 'ply', wall: 6, lug: MIDDLE, rod: 57, heads: 'top', first: 0 },
  { inches: 15, depth: 305, count: 8, build: 'ply', wall: 6, lug: MIDDLE, rod: 50 },
  { inches: 16, depth: 356, count: 8, build: 'stave', wall: 9, lug: LARGE, rod: 57, first: 0 },
  { inches: 16, depth: 406, count: 8, build: 'ply', wall: 7.2, lug: LARGE, rod: 65 },
  { inches: 16, depth: 254, count: 12, build: 'ply', wall: 7.2, lug: LARGE, rod: 57 },
  { inches: 18, depth: 406, count: 8, build: 'ply', wall: 7, lug: LARGE, rod: 65 },
  { inches: 18, depth: 356, count: 10, build: 'steam-bent', wall: 8, lug: LARGE, rod: 75 },
  { inches: 20, depth: 356, count: 8, build: 'ply', wall: 7, lug: LARGE, rod: 90 },
  { inches: 20, depth: 406, count: 16, build: 'stave', wall: 10, lug: LARGE, rod: 75 },
  { inches: 22, depth: 406, count: 10, build: 'ply', wall: 7.6, lug: LARGE, rod: 100, first: 0 },
  { inches: 22, depth: 508, count: 16, build: 'ply', wall: 8, lug: LARGE, rod: 100 },
  { inches: 24, depth: 356, count: 10, build: 'segment', wall: 11, lug: LARGE, rod: 100 },
  { inches: 24, depth: 356, count: 20, build: 'ply', wall: 8, lug: LARGE, rod: 90 },
  { inches: 26, depth: 356, count: 12, build: 'ply', wall: 8, lug: LARGE, rod: 105 },
  { inches: 26, depth: 508, count: 10, build: 'stave', wall: 12, lug: LARGE, rod: 90, first: 0 },
];

/** Inches throughout, a badge on the vent, and a tape reading instead of a diameter. */
const inInches: SoundBuild = {
  name: '14 in x 5-1/2 in, all in inches',
  raw: {
    jig: 1,
    name: 'Sound in inches',
    units: 'in',
    shell: { circumference: '43-3/4', tape: '1/128', depth: '5-1/2', wall: '1/4', nominal: 14, edges: 'cut' },
    lugs: {
      count: 8,
      rows: [
        { edge: 'top', distance: '1-1/2' },
        { edge: 'bottom', distance: '1 1/2"' },
      ],
      holes: { layout: 'upright', spacing: 1, drill: '3/16', screw: '8-32 x 5/8 in', tapped: '7/16' },
      foot: { width: '3/4', height: '1-3/4', gasket: '1/32' },
      rod: { face: '3/4', catch: '1/4', bottom: '1-1/8', takes: '12-24 UNC', standoff: '9/16' },
    },
    rods: {
      length: '1-3/4',
      thread: '12-24 UNC',
      threaded: 1,
      washer: '1/16',
      travel: '3 turns',
      stock: ['1-3/8', '1-3/4', '2'],
    },
    hoops: {
      top: { ear: '3/16', skirt: '1/4', ears: 8, 'ear-circle': '15-1/8' },
      bottom: { ear: '3/16', skirt: '1/4' },
    },
    fittings: [
      {
        role: 'vent',
        at: { between: [2, 3] },
        edge: 'middle',
        distance: 0,
        holes: { layout: 'single', drill: '7/16' },
      },
      { role: 'badge', at: { between: [2, 3] }, edge: 'middle', distance: 0, foot: { width: 2, height: 1 } },
    ],
  },
};

/** A short rod threaded all along beside a long one, a badge screwed into the wood, legs of a row of their own. */
const mixed: SoundBuild = {
  name: '12 in, long rods above and short ones below, a badge on small screws',
  raw: {
    jig: 1,
    name: 'Sound mixed',
    shell: { diameter: 302, depth: 180, wall: 6, nominal: '12 in' },
    lugs: {
      count: 6,
      rows: [
        { edge: 'top', distance: 60 },
        { edge: 'bottom', distance: 30 },
      ],
      holes: { layout: 'upright', spacing: 19, drill: 4.5, screw: 'M4 x 12', tapped: 9 },
      foot: { width: 14, height: 32 },
      rod: { face: 13, catch: 4, bottom: 24, takes: '12-24' },
    },
    rods: { length: { top: 63, bottom: 33 }, thread: '12-24', threaded: 35, washer: 1.5, travel: '3 turns' },
    hoops: { top: { ear: 4 }, bottom: { ear: 4 } },
    fittings: [
      {
        role: 'badge',
        at: 0,
        edge: 'middle',
        distance: 0,
        foot: { width: 50, height: 25 },
        holes: { layout: 'across', spacing: 40, drill: 1.2, screw: 'M2 x 5' },
      },
    ],
  },
};

/** Fittings alone, lugs alone, and as little as a jig file may say. */
const sparse: readonly SoundBuild[] = [
  {
    name: 'only a vent',
    raw: {
      jig: 1,
      name: 'Sound vent',
      shell: { diameter: 300, depth: 150, wall: 6 },
      fittings: [{ role: 'vent', at: 0, edge: 'middle', distance: 0, holes: { layout: 'single', drill: 12 } }],
    },
  },
  {
    name: 'only lug holes',
    raw: {
      jig: 1,
      name: 'Sound holes',
      shell: { diameter: 402, depth: 300, wall: 7 },
      lugs: { count: 6, rows: [{ edge: 'top', distance: 50 }], holes: { layout: 'single', drill: 6.5 } },
    },
  },
  {
    name: 'old holes under new feet and reused',
    raw: {
      jig: 1,
      name: 'Sound rebuild',
      shell: {
        diameter: 353,
        depth: 160,
        wall: 6,
        holes: [
          { at: 30, edge: 'top', distance: 40, diameter: 5 },
          { at: 90, edge: 'top', distance: 30, diameter: 5 },
          { at: 60, edge: 'middle', distance: 0, diameter: 12 },
        ],
      },
      lugs: {
        count: 6,
        rows: [{ edge: 'top', distance: 40 }],
        holes: { layout: 'upright', spacing: 20, drill: 5 },
        foot: { width: 18, height: 34 },
      },
    },
  },
];

export const soundBuilds: readonly SoundBuild[] = [
  ...separateSizes.map(separate),
  doubleEnded(8, 127, 5, 5, false),
  doubleEnded(10, 178, 6, 5.4, false),
  doubleEnded(12, 203, 6, 6, false),
  doubleEnded(13, 89, 8, 6.5, true),
  doubleEnded(14, 102, 10, 6.5, true),
  doubleEnded(14, 140, 8, 6, true),
  doubleEnded(16, 356, 8, 7, false),
  inInches,
  mixed,
  ...sparse,
];
