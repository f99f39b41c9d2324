import { describe, expect, test } from 'vitest';
import type { Cure } from '../../src/fit/cure-kit.ts';
import { slipsFor } from '../../src/fit/slips.ts';
import type { Fact } from '../../src/model/finding.ts';
import { changed, type Raw } from '../helpers/changed.ts';

const fact = (id: string, facts: Fact['facts'] = {}): Fact => ({
  level: 'stop',
  id,
  at: 'here',
  measured: null,
  limit: null,
  unit: 'mm',
  facts,
});
/** What is tried of a file with these values, for a finding at the top lugs. */
const slips = (
  id: string,
  set: Record<string, unknown>,
  facts: Fact['facts'] = { side: 'top', group: 'lugs.rows.0' },
) => slipsFor([fact(id, facts)], changed({ jig: 1 }, set));
const other: Cure = { set: { units: 'in' }, say: 'say units: in: the bare numbers were perhaps inches', cost: 3 };
/** `measure KEY again: WORDS (SIZE)` with its cost. */
const again = (key: string, words: string, size: string, cost: number): Cure => ({
  set: { [key]: size },
  say: `measure ${key} again: ${words} (${size})`,
  cost: expect.closeTo(cost, 9) as unknown as number,
});

describe('a slip of the unit', () => {
  test('in the order of how often it happens: cm, inches, a comma, and a tape with both', () => {
    expect(slips('rod-bottoms', { 'hoops.top.ear': '10 mm' })).toEqual([
      other,
      again('hoops.top.ear', 'centimetres were perhaps meant', '100 mm', 3),
      again('hoops.top.ear', 'inches were perhaps meant', '254 mm', 3.1),
      again('hoops.top.ear', 'it looks ten times too large', '1 mm', 3.2),
      again('hoops.top.ear', 'centimetres were perhaps read, not inches', '3.937 mm', 3.3),
      again('hoops.top.ear', 'inches were perhaps read, not centimetres', '25.4 mm', 3.4),
    ]);
  });
  test('bare numbers are what the file says, and perhaps the other', () => {
    const [file, first] = slips('rod-bottoms', { units: 'in', 'hoops.top.ear': 1 });
    expect(file).toEqual({
      set: { units: 'mm' },
      say: 'say units: mm: the bare numbers were perhaps millimetres',
      cost: 3,
    });
    expect(first?.set).toEqual({ 'hoops.top.ear': '254 mm' });
    expect(slips('rod-bottoms', { units: 'mm', 'hoops.top.ear': 1 })[0]).toEqual(other);
    // A bare number in quotes is one too.
    expect(slips('rod-bottoms', { 'hoops.top.ear': '1' })[1]?.set).toEqual({ 'hoops.top.ear': '10 mm' });
    expect(slips('rod-bottoms', {})).toEqual([other]);
  });
  test('nothing, and what is no length, is no slip', () => {
    for (const value of [0, '0 mm', 'half', true, { at: 4 }, undefined])
      expect(slips('rod-bottoms', { 'rods.washer': value })).toEqual([other]);
    expect(slips('rod-bottoms', { 'rods.washer': 0.1 })).toHaveLength(6);
    expect(slipsFor([fact('rod-bottoms', { side: 'top' })], { rods: null, hoops: { top: null } })).toEqual([other]);
    // A length for both ends stands under its own key alone.
    const all = slips('rod-bottoms', { 'rods.length': '4 mm' });
    expect(new Set(all.slice(1).flatMap((c) => Object.keys(c.set)))).toEqual(new Set(['rods.length']));
  });
  test('two findings that owe to one key are one slip', () => {
    const raw = changed({}, { 'hoops.top.ear': '10 mm' });
    const facts = [fact('rod-bottoms', { side: 'top' }), fact('rod-jams', { side: 'top' })];
    expect(slipsFor(facts, raw)).toHaveLength(6);
    expect(slipsFor([], raw)).toEqual([other]);
    expect(slipsFor([fact('joint-under-hole')], raw)).toEqual([other]);
    expect(slipsFor([{ ...facts[0]!, facts: undefined } as unknown as Fact], raw)).toEqual([other]);
  });
});

describe('what a value can be at all, both ends (common practice, no source)', () => {
  test.each<[string, string, number | undefined, number]>([
    ['shell-too-large', 'shell.diameter', 140, 800],
    ['shell-too-large', 'shell.nominal', 140, 800],
    ['rod-binds', 'hoops.top.ear-circle', 140, 800],
    ['shell-too-large', 'shell.circumference', 440, 2400],
    ['foot-over-rim', 'shell.depth', 40, 700],
    ['wall-implausible', 'shell.wall', 0.8, 30],
    ['foot-over-rim', 'lugs.rows.0.distance', 10, 350],
    ['rod-bottoms', 'rods.length', 20, 250],
    ['rod-bottoms', 'rods.length.top', 20, 250],
    ['rod-bottoms', 'rods.travel', 0.5, 15],
    ['contradiction', 'shell.rings.top.width', 8, 130],
    ['screw-too-short', 'lugs.foot.gasket', undefined, 6],
    ['screw-too-short', 'lugs.holes.washer', undefined, 6],
    ['rod-bottoms', 'lugs.rod.catch', undefined, 30],
    ['rod-bottoms', 'lugs.rod.face', 0.5, 400],
    ['snare-implausible', 'snare.length', 0.5, 400],
    ['contradiction', 'beds.width', 0.5, 400],
    ['screw-too-short', 'shell.rings.top.thickness', 0.5, 400],
  ])('%s: %s from %s to %s mm', (id, key, low, high) => {
    const cm = (mm: number) =>
      slips(id, { [key]: `${mm / 10} mm` }).some((c) => c.say.includes('centimetres were perhaps meant'));
    expect(cm(high)).toBe(true);
    expect(cm(high + 0.1)).toBe(false);
    if (low === undefined) {
      expect(cm(0.1)).toBe(true);
      expect(cm(-0.1)).toBe(false);
    } else {
      expect(cm(low)).toBe(true);
      expect(cm(low - 0.1)).toBe(false);
    }
  });
});

describe('what is measured across or round', () => {
  const girth = 'shell.circumference';
  const misread = (key: string, sizes: readonly string[], cost: number) =>
    sizes.map((size, i) =>
      again(key, `it was perhaps misread by one ${i < 2 ? 'centimetre' : 'inch'}`, size, cost + i / 10),
    );
  test('a girth: by a centimetre or an inch, then the unit', () => {
    expect(slips('shell-too-large', { [girth]: '900 mm' }).slice(1)).toEqual([
      ...misread(girth, ['910 mm', '890 mm', '925.4 mm', '874.6 mm'], 3),
      again(girth, 'inches were perhaps read, not centimetres', '2286 mm', 3.8),
    ]);
  });
  test('a diameter: the inside, the radius, the girth, then as a girth', () => {
    const key = 'shell.diameter';
    expect(slips('shell-too-large', { [key]: '300 mm', 'shell.wall': '6.5 mm' }).slice(1)).toEqual([
      again(key, 'the inside diameter was perhaps given', '313 mm', 3),
      again(key, 'the radius was perhaps given', '600 mm', 3.1),
      ...misread(key, ['310 mm', '290 mm', '325.4 mm', '274.6 mm'], 3.3),
      again(key, 'inches were perhaps read, not centimetres', '762 mm', 4.1),
    ]);
    // 500 / pi.
    expect(slips('shell-too-large', { [key]: '500 mm' })).toContainEqual(
      again(key, 'the girth was perhaps given', '159.155 mm', 3.2),
    );
  });
  test('an ear circle: the radius, or the unit, for no tape goes round it', () => {
    const key = 'hoops.top.ear-circle';
    expect(slips('rod-binds', { [key]: '178.7 mm' }).slice(1)).toEqual([
      again(key, 'the radius was perhaps given', '357.4 mm', 3),
      again(key, 'inches were perhaps read, not centimetres', '453.898 mm', 3.6),
    ]);
  });
  test('a diameter under the name of the girth', () => {
    const swapped = (mm: number, id = 'shell-too-small') =>
      slips(id, { [girth]: `${mm} mm` }).filter((c) => girth in c.set && 'shell.diameter' in c.set);
    expect(swapped(330)).toEqual([
      {
        set: { [girth]: null, 'shell.diameter': '330 mm' },
        say: 'measure the girth again: 330 mm was perhaps the diameter',
        cost: 3,
      },
    ]);
    expect([139.9, 140, 800, 800.1].map((mm) => swapped(mm).length)).toEqual([0, 1, 1, 0]);
    expect(swapped(330, 'rod-bottoms')).toEqual([]);
    expect(slips('shell-too-small', {})).toEqual([other]);
  });
});

describe('what is measured or counted with one slip', () => {
  test('both sides of a foot', () => {
    const foot = (more: Raw) =>
      slips('feet-overlap', { 'lugs.foot': more }).filter((c) => Object.keys(c.set).length === 2);
    expect(foot({ width: '2 mm', height: '3 mm' })).toEqual([
      {
        set: { 'lugs.foot.width': '20 mm', 'lugs.foot.height': '30 mm' },
        say: 'measure lugs.foot again: centimetres were perhaps meant',
        cost: 3,
      },
      {
        set: { 'lugs.foot.width': '50.8 mm', 'lugs.foot.height': '76.2 mm' },
        say: 'measure lugs.foot again: inches were perhaps meant',
        cost: 3.1,
      },
    ]);
    expect(foot({ width: '2 mm' })).toEqual([]);
    expect(foot({ height: '2 mm' })).toEqual([]);
    // A lever's sides are swept, not measured with one rule.
    const lever = slips(
      'lever-over-lug',
      { fittings: { 1: { lever: { width: 2, height: 3 } } } },
      { group: 'fittings.1' },
    );
    expect(lever.filter((c) => Object.keys(c.set).length === 2)).toEqual([]);
    expect(lever.length).toBeGreaterThan(4);
  });
  test('turns', () => {
    const turns = (travel: unknown, id = 'rod-bottoms') =>
      slips(id, { 'rods.travel': travel })
        .filter((c) => c !== other && 'rods.travel' in c.set)
        .map((c) => c.set['rods.travel']);
    expect(slips('rod-bottoms', { 'rods.travel': '30 turns' })).toEqual([
      { set: { 'rods.travel': '3 turns' }, say: 'count the turns again: it was perhaps 3', cost: 3 },
      other,
    ]);
    expect(turns('10 turns')).toEqual(['1 turns']);
    expect(turns('35 turn')).toEqual(['3.5 turns']);
    expect(turns('25.25turns')).toEqual(['2.525 turns']);
    expect(turns('9.9 turns')).toEqual([]);
    expect(turns('about 30 turns')).toEqual([]);
    expect(turns('30 turns or so')).toEqual([]);
    expect(turns('30 turns', 'foot-over-rim')).toEqual([]);
    expect(turns('1 mm')).toEqual(['10 mm', '2.54 mm']);
  });
});

describe('what a finding may owe to', () => {
  const holes = (...leaves: string[]) => leaves.flatMap((l) => [`lugs.holes.${l}`, `fittings.1.holes.${l}`]);
  const own = (...leaves: string[]) => leaves.map((l) => `fittings.1.${l}`);
  const rods = [
    ...['length', 'washer', 'threaded', 'travel'].map((k) => `rods.${k}`),
    ...['face', 'catch', 'bottom'].map((k) => `lugs.rod.${k}`),
    'hoops.top.ear',
    'fittings.1.distance',
  ];
  const place = ['shell.depth', 'fittings.1.distance', 'fittings.2.distance'];
  const foot = [
    ...own('holes.across', 'holes.upright', 'foot.width', 'foot.height'),
    ...holes('spacing', 'drill'),
    'lugs.foot.width',
    'lugs.foot.height',
  ];
  const screw = [
    'shell.rings.top.thickness',
    'shell.rings.bottom.thickness',
    'shell.wall',
    ...holes('tapped', 'washer'),
    'lugs.foot.gasket',
    'fittings.1.foot.gasket',
  ];
  const lever = own(...['left', 'right', 'width', 'rimward', 'inward', 'height'].map((k) => `lever.${k}`));
  const bed = ['beds.depth', 'beds.width', 'fittings.1.distance'];
  const size = ['shell.diameter', 'shell.circumference', 'shell.nominal'];
  const table: Readonly<Record<string, readonly string[]>> = {
    'rod-bottoms': rods,
    'rod-too-short': rods,
    'rod-jams': rods,
    'rod-binds': ['hoops.top.ear-circle', 'lugs.rod.standoff', 'lugs.foot.gasket'],
    'lever-over-lug': lever,
    'lever-over-fitting': lever,
    'hoop-on-lever': [...lever, 'hoops.top.skirt', 'rods.travel'],
    'leg-rod-over-lug': own('rod.diameter', 'rod.across'),
    'leg-rod-over-fitting': own('rod.diameter', 'rod.across'),
    contradiction: [
      'shell.holes.3.distance',
      'shell.rings.top.width',
      'shell.rings.bottom.width',
      'shell.depth',
      'beds.width',
      'beds.depth',
      'rods.length',
      'rods.washer',
      'rods.threaded',
    ],
    'hoop-on-lug': ['hoops.top.skirt', 'lugs.rod.face', 'fittings.1.distance', 'rods.travel'],
    'foot-over-rim': place,
    'hole-over-rim': place,
    'foot-in-bed': bed,
    'hole-in-bed': bed,
    'strainer-off-bed': bed,
    'butt-off-bed': bed,
    'strainer-not-at-snare-edge': place,
    'butt-not-at-snare-edge': place,
    'feet-overlap': [...place, ...foot],
    'hole-outside-foot': foot,
    'hole-under-foot': [...place, ...foot],
    'holes-overlap': [...place, ...foot],
    'hole-smaller-than-screw': holes('drill'),
    'screw-too-short': screw,
    'screw-bottoms': screw,
    'shell-too-large': size,
    'shell-too-small': size,
    'snare-longer-than-shell': ['snare.length'],
    'snare-implausible': ['snare.length'],
    'wall-implausible': ['shell.wall'],
  };
  // 15 mm everywhere, a girth of 50: each could be something in another unit.
  const raw = changed(
    {},
    Object.fromEntries(
      Object.values(table).flatMap((keys) => keys.map((k) => [k, k === 'shell.circumference' ? 50 : 15])),
    ),
  );
  const tried = (id: string, file: Raw) => {
    const facts = { side: 'top', group: 'fittings.1', group2: 'fittings.2', one: 'shell.holes.3' };
    const single = slipsFor([fact(id, facts)], file).filter(
      (c) => !('units' in c.set) && Object.keys(c.set).length === 1,
    );
    return [...new Set(single.flatMap((c) => Object.keys(c.set)))].sort();
  };
  test.each(Object.entries(table))('%s: to %j', (id, keys) => expect(tried(id, raw)).toEqual([...keys].sort()));
  test('of two lengths of rods, the one of its own end', () => {
    const two = changed(raw, { 'rods.length': { top: 15, bottom: 15 } });
    for (const id of ['rod-bottoms', 'contradiction']) {
      expect(tried(id, two)).toContain('rods.length.top');
      expect(tried(id, two)).not.toContain('rods.length.bottom');
    }
  });
});
