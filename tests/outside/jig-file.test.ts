import { describe, expect, test } from 'vitest';
import { check } from '../../src/fit/check.ts';
import { slugOf, uniqueSlugs } from '../../src/jig/slug.ts';
import { complaints, demo, planned } from '../helpers/jigs.ts';

const sound = `jig: 1
name: Test
shell: { diameter: 300 mm, depth: 150 mm, wall: 6 mm }
lugs:
  count: 6
  rows: [{ edge: top, distance: 36 mm }]
  holes: { layout: upright, spacing: 25.4 mm, drill: 6 mm }
`;
const one = (text: string): string => {
  const all = complaints(text);
  expect(all.length).toBeGreaterThan(0);
  return all.join('\n');
};

test('the sound file has no complaint', () => expect(complaints(sound)).toEqual([]));

describe('a complaint says where, what, what is allowed and what to try', () => {
  test('unknown key: line, column, the keys, the nearest', () => {
    const c = one(sound.replace('depth: 150 mm', 'dept: 150 mm'));
    expect(c).toMatch(/^3:\d+ shell\.dept: unknown key "dept" \| the keys diameter, .* \| write "depth"/m);
    expect(c).toMatch(/shell\.depth: nothing: this key is required/);
  });
  test('a word outside the list names the list and the nearest', () => {
    expect(one(sound.replace('edge: top', 'edge: tpo'))).toMatch(
      /6:\d+ lugs\.rows\[1\]\.edge: .*tpo.*top, bottom, middle.*write top/,
    );
  });
  test('turns are read as builders write them, and what is none is told what turns are', () => {
    const turns = (travel: string) => complaints(`${sound}rods: { travel: "${travel}" }\n`);
    for (const read of ['3 turns', '1 turn', '2 1/2 turns', '2½ turns', '2.5turns', '3 mm'])
      expect(turns(read)).toEqual([]);
    for (const [refused, why] of [
      ['3,5 turns', 'write 3.5'],
      ['-1 turns', 'no turns'],
      ['3 deg turns', 'no turns'],
      ['some turns', 'not a number'],
    ] as const)
      expect(turns(refused).join()).toMatch(new RegExp(`^8:17 rods\\.travel: .*${why}.*2 1/2 turns`));
  });
  test('part of a name is nearer than another name of like letters', () => {
    const wood = (name: string) => one(sound.replace('wall: 6 mm', `wall: 6 mm, wood: ${name}`));
    expect(wood('maple')).toMatch(/write red-maple if/);
    expect(wood('walnut')).toMatch(/write black-walnut if/);
    expect(wood('sapelle')).toMatch(/write sapele if/);
  });
  test('what two rows share is complained of once', () => {
    const rows = sound.replace('36 mm }]', '36 mm }, { edge: bottom, distance: 36 mm }]');
    expect(complaints(rows.replace('25.4 mm', 'wide'))).toHaveLength(1);
    expect(complaints(rows.replace('spacing: 25.4 mm, ', ''))).toHaveLength(1);
  });
  test('a grid of one column or row needs no spacing between them', () => {
    const grid = (keys: string) => complaints(sound.replace('upright, spacing: 25.4 mm', `grid, ${keys}`));
    expect(grid('columns: 1, rows: 3, upright: 20 mm')).toEqual([]);
    expect(grid('columns: 3, rows: 1, across: 20 mm')).toEqual([]);
    expect(grid('columns: 2, rows: 1')).toHaveLength(1);
  });
  test('several complaints at once', () => {
    expect(
      complaints(sound.replace('300 mm', '-3 mm').replace('6 mm }', '0 }').replace('25.4 mm', 'nonsense')).length,
    ).toBe(3);
  });
  test.each([
    ['wrong type', sound.replace('count: 6', 'count: six'), /lugs\.count/],
    ['fraction of a lug', sound.replace('count: 6', 'count: 6.5'), /lugs\.count/],
    ['negative', sound.replace('depth: 150 mm', 'depth: -150 mm'), /shell\.depth: -150 mm.*more than 0/],
    ['zero', sound.replace('wall: 6 mm', 'wall: 0'), /shell\.wall/],
    ['NaN', sound.replace('wall: 6 mm', 'wall: .nan'), /shell\.wall/],
    ['infinite', sound.replace('wall: 6 mm', 'wall: .inf'), /shell\.wall/],
    ['absurdly large', sound.replace('depth: 150 mm', 'depth: 1500000 mm'), /shell\.depth.*at most/],
    ['mixed units', sound.replace('150 mm', '5 in 3 mm'), /shell\.depth: 5 in 3 mm/],
    ['wall thicker than the radius', sound.replace('wall: 6 mm', 'wall: 160 mm'), /shell\.wall.*less than the radius/],
    [
      'more holes than there is room for',
      sound
        .replace('count: 6', 'count: 500')
        .replace('upright, spacing: 25.4 mm', 'grid, columns: 11, rows: 1, across: 1'),
      /lugs\.rows\[1\]: 5500 holes, 5500 in all.*at most 5000/,
    ],
    [
      'an outline that crosses itself',
      sound.replace(
        '  holes:',
        '  foot: { outline: [{ across: -9, upright: -20 }, { across: 9, upright: 20 }, { across: 9, upright: -20 }, { across: -9, upright: 20 }] }\n  holes:',
      ),
      /lugs\.foot\.outline: an outline that crosses itself/,
    ],
    [
      'a ring that leaves no hollow',
      sound.replace('wall: 6 mm', 'wall: 6 mm, rings: { top: { width: 20 mm, thickness: 144 mm } }'),
      /shell\.rings\.top\.thickness: a ring of 144 mm.*less than the radius, 150\.0 mm/,
    ],
    [
      'both girth and diameter',
      sound.replace('diameter: 300 mm', 'diameter: 300 mm, circumference: 942 mm'),
      /exactly one/,
    ],
    ['neither girth nor diameter', sound.replace('diameter: 300 mm, ', ''), /exactly one/],
    [
      'a list where keys belong',
      sound.replace('shell: {', 'shell: [').replace('wall: 6 mm }', 'wall: 6 mm ]'),
      /shell/,
    ],
    ['spacing with single', sound.replace('layout: upright', 'layout: single'), /spacing/],
    ['upright without spacing', sound.replace('spacing: 25.4 mm, ', ''), /spacing/],
    [
      'a hole finer than any drill',
      sound.replace('drill: 6 mm', 'drill: 0.009 mm'),
      /holes\.drill: 0\.009 mm.*0\.01 to 200 mm/,
    ],
    ['neither drill nor screw', sound.replace(', drill: 6 mm', ''), /drill/],
    ['another version', sound.replace('jig: 1', 'jig: 2'), /jig: .*1/],
    [
      'nothing to put on',
      'jig: 1\nname: x\nshell: { diameter: 300 mm, depth: 150 mm, wall: 6 mm }\n',
      /neither lugs nor fittings/,
    ],
    [
      'across beyond the shell',
      sound.replace('layout: upright, spacing: 25.4 mm', 'layout: across, spacing: 400 mm'),
      /less than the shell's radius/,
    ],
    ['no such wood', sound.replace('wall: 6 mm', 'wall: 6 mm, wood: sugar-mapel'), /sugar-maple/],
    ['no such sheet', `${sound}wrap: { sheet: laser-600 }\n`, /laser-600x400/],
    [
      'two bits of one number',
      `${sound}rotary: { tools: [{ id: 1, kind: twist, diameter: 6 }, { id: 1, kind: twist, diameter: 5 }] }\n`,
      /number 1 twice/,
    ],
    [
      'between without lugs',
      'jig: 1\nname: x\nshell: { diameter: 300, depth: 150, wall: 6 }\nfittings: [{ role: vent, at: { between: [1, 2] }, edge: middle, distance: 0, holes: { layout: single, drill: 9 } }]\n',
      /between/,
    ],
    [
      'every that does not divide',
      `${sound}fittings: [{ role: leg, at: { every: 100 }, edge: bottom, distance: 60, holes: { layout: single, drill: 9 } }]\n`,
      /divides 360/,
    ],
    [
      'three lugs between',
      `${sound}fittings: [{ role: vent, at: { between: [1, 2, 3] }, edge: middle, distance: 0, holes: { layout: single, drill: 9 } }]\n`,
      /at\.between: a list \[1,2,3\].*at most 2/,
    ],
    [
      'a misspelt every',
      `${sound}fittings: [{ role: vent, at: { evry: 90 }, edge: middle, distance: 0, holes: { layout: single, drill: 9 } }]\n`,
      /unknown key "evry".*write "every"/,
    ],
    ['two documents', `${sound}---\njig: 1\n`, /second document/],
    ['a foot of half a set', sound.replace('  holes:', '  foot: { width: 20 mm }\n  holes:'), /width and height/],
  ])('%s', (_, text, said) => expect(one(text)).toMatch(said));
});

describe('text that is no jig file', () => {
  test.each([
    ['empty', '', /empty file/],
    ['only a comment', '# nothing\n', /empty file/],
    ['truncated', sound.slice(0, -30), /./],
    ['binary', `jig: 1\u0000\u0001name`, /control character/],
    ['a list', '- 1\n- 2\n', /a list/],
    ['a word', 'hello', /hello/],
    ['duplicate key', `${sound}name: again\n`, /the same key twice/],
    ['unclosed bracket', 'jig: [1', /./],
    ['tab indentation', 'jig: 1\nshell:\n\tdepth: 3\n', /./],
  ])('%s', (_, text, said) => expect(one(text)).toMatch(said));
  test('over 256 KB is refused before parsing', () => {
    expect(one(`${sound}# ${'x'.repeat(10_000_000)}`)).toMatch(/256 KB/);
  });
  test.each([
    ['brackets', `jig: ${'['.repeat(5000)}`],
    ['braces', `jig: ${'{a: '.repeat(5000)}`],
    ['dashes', `${'- '.repeat(5000)}x`],
    ['indentation', Array.from({ length: 200 }, (_, i) => `${' '.repeat(i)}k:`).join('\n')],
  ])('deep nesting by %s is refused before parsing', (_, text) =>
    expect(one(text)).toMatch(/nesting deeper than 64|control/),
  );
  test('an alias bomb is refused', () => {
    const bomb = `a: &a [1,1,1,1,1,1,1,1,1]\n${'bcdefgh'
      .split('')
      .map((k, i) => `${k}: &${k} [${Array(9).fill(`*${'abcdefgh'[i]}`).join(',')}]`)
      .join('\n')}\n`;
    expect(one(bomb)).toMatch(/alias/i);
  });
  test.each([
    ['an alias of the list it stands in', sound.replace('rows: [', 'rows: &r [*r, '), /^6:13 : an alias of what it/],
    ['an alias of nothing', sound.replace('count: 6', 'count: *six'), /^5:10 : an alias of nothing, \*six/],
    ['a tag', sound.replace('150 mm', '!mm 150'), /^3:35 : Unresolved tag: !mm/],
    ['a list for a key', sound.replace('count: 6', '? [count]\n  : 6'), /^5:5 : a key that is no word/],
    ['a key left out', sound.replace('count: 6', '? \n  : 6'), /^5:5 : an empty key/],
    ['values merged', sound.replace('count: 6', '<<: { count: 6 }'), /lugs\.<<: .*write the values out/],
  ])('%s is refused in its place', (_, text, said) => expect(one(text)).toMatch(said));
  test('an alias of a value that is whole is read', () =>
    expect(
      complaints(sound.replace('distance: 36 mm }', 'distance: &d 36 mm }, { edge: bottom, distance: *d }')),
    ).toEqual([]));
  test('control and direction-changing characters never reach a terminal raw', () => {
    const c = one(sound.replace('edge: top', 'edge: "t\\u202eop\\u001b[31m"'));
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that is the point
    expect(c).not.toMatch(/[\u001b\u202e]/);
  });
});

describe('names become safe folder names', () => {
  test.each([
    ['Lantern 13 x 6', 'lantern-13-x-6'],
    ['../../etc/passwd', 'etc-passwd'],
    ['a/b\\c', 'a-b-c'],
    ['...', 'jig'],
    ['\u202eevil\u0007', 'evil'],
    ['<script>', 'script'],
    ['CON', 'jig-con'],
    ['14 inch', 'jig-14-inch'],
    ['😀', 'jig'],
  ])('%j', (name, slug) => expect(slugOf(name)).toBe(slug));
  test('long names are cut', () => expect(slugOf('x'.repeat(10_000)).length).toBeLessThanOrEqual(60));
});

test('fittings of one name are told apart, and none is taken for a lug', () => {
  expect(uniqueSlugs(['leg', 'Leg', 'lug-top-1', 'lug top 1', 'lug', '🥁', '🥁'])).toEqual([
    'leg',
    'leg-2',
    'fitting-lug-top-1',
    'fitting-lug-top-1-2',
    'fitting-lug',
    'fitting',
    'fitting-2',
  ]);
});

describe("the workshop's own limits", () => {
  test('a reserve of 6 mm below the rod is asked for where 2 mm is usual', () => {
    const raw = demo('jigs/kettle-row-snare.yaml');
    const stops = (limits: object) => {
      const { jig, layout } = planned({ ...raw, limits });
      return check(jig, layout)
        .filter((f) => f.level === 'stop')
        .map((f) => f.id);
    };
    expect(stops({ reserve: '4 mm' })).toEqual([]);
    expect(stops({ reserve: '6 mm' })).toContain('rod-bottoms');
  });
  test('an unknown limit names the known ones', () =>
    expect(one(`${sound}limits: { reserves: 3 mm }\n`)).toMatch(/reserve/));
});
