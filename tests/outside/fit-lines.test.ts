import { describe, expect, test } from 'vitest';
import { stringify } from 'yaml';
import { checkBeds } from '../../src/fit/beds.ts';
import { type Bench, lay } from '../../src/fit/bench.ts';
import { check } from '../../src/fit/check.ts';
import { checkGates } from '../../src/fit/gates.ts';
import { checkHead } from '../../src/fit/head.ts';
import { checkHoops } from '../../src/fit/hoops.ts';
import { limitsOf } from '../../src/fit/limits.ts';
import { checkRims } from '../../src/fit/rims.ts';
import { checkScrews } from '../../src/fit/screws.ts';
import { checkSnare } from '../../src/fit/snare.ts';
import { checkStrainer } from '../../src/fit/strainer.ts';
import { checkThreads } from '../../src/fit/thread.ts';
import { resolveJig } from '../../src/jig/resolve.ts';
import { parseText } from '../../src/jig/text.ts';
import { layOut } from '../../src/layout/layout.ts';
import type { Fact } from '../../src/model/finding.ts';
import { changed, factsBy, factsOf, jigOf, sound } from '../helpers/jig-cases.ts';

type Check = (bench: Bench) => readonly Fact[];

/** With four lugs a row, at 45 deg and so on, which is quicker to check. */
const four = { 'lugs.count': 4, 'hoops.top.ears': 4, 'hoops.bottom.ears': 4, 'fittings.2.at': 90, 'fittings.3.at': 90 };
const snare = changed(sound('snare-13x6'), four);
/** What one check alone finds when the drum is changed, or all of them. */
function asking(one?: Check) {
  const all = (set: Record<string, unknown>) => {
    const raw = changed(snare, set);
    return one ? factsBy(one, raw) : factsOf(raw);
  };
  const told = (set: Record<string, unknown>, id: string): Fact[] => all(set).filter((f) => f.id === id);
  const level = (set: Record<string, unknown>, id: string): string => told(set, id)[0]?.level ?? 'silent';
  const needs = (set: Record<string, unknown>, what: string): unknown[] =>
    told(set, 'not-checked').flatMap((f) =>
      f.facts?.['check'] === what ? [`${f.facts['places'] ?? f.at}: ${f.facts['needs']}`] : [],
    );
  return { all, told, level, needs };
}

/** What is found in a jig file's text, and on which line each key of it stands. */
function read(text: string, one: Check): { facts: readonly Fact[]; lines: Readonly<Record<string, number>> } {
  const parsed = parseText(text);
  if (!parsed.ok) throw new Error(parsed.issues[0]?.found);
  const resolved = resolveJig(parsed.raw, { lines: parsed.lines });
  if (!resolved.ok) throw new Error(resolved.issues[0]?.found);
  const bench = lay(resolved.jig, layOut(resolved.jig), limitsOf(resolved.jig));
  return { facts: one(bench), lines: parsed.lines };
}

test('of a head size that only lacks its unit the size is told, of another not', () => {
  const bare = (nominal: number): unknown =>
    read(stringify(changed(snare, { 'shell.nominal': nominal })), checkHead).facts[0]?.facts?.['bare'];
  expect([13, 11, 15].map(bare)).toEqual([13, undefined, undefined]);
});

describe('a slip is shown at the line where it stands in the jig file', () => {
  const leg = { name: 'leg', role: 'leg', at: 45, edge: 'bottom', distance: 110, foot: { width: 9, height: 9 } };
  const gates = [{ at: 90, width: 40 }];
  const own = { edge: 'bottom', distance: 36, rod: { takes: 'M6' } };
  const screws = { layout: 'single', drill: 4.5, screw: 'M4 x 10', from: 'outside', through: 4 };
  test.each<[id: string, set: Record<string, unknown>, key: string, one: Check]>([
    ['shell-too-large-for-hoop', { 'hoops.bottom.inside': 300 }, 'hoops.bottom.inside', checkHead],
    ['shell-too-large', { 'shell.diameter': 331 }, 'shell.diameter', checkHead],
    ['shell-too-large', { 'shell.nominal': 13 }, 'shell.nominal', checkHead],
    // Heads of 11 and 15 in do not go with it either: it is not the unit.
    ['shell-too-large', { 'shell.nominal': 11 }, 'shell.diameter', checkHead],
    ['shell-too-large', { 'shell.nominal': 15 }, 'shell.diameter', checkHead],
    ['shell-loose', { 'shell.diameter': null, 'shell.circumference': 1023 }, 'shell.circumference', checkHead],
    ['not-checked: shell against its head', { 'shell.nominal': null }, 'shell', checkHead],
    ['thread-mismatch', { 'rods.thread': 'M6' }, 'rods.thread', checkThreads],
    ['thread-mismatch', { 'lugs.rows.1': own }, 'lugs.rows.1.rod.takes', checkThreads],
    ['not-checked: rod thread against lug thread', { 'rods.thread': null }, 'lugs.rod', checkThreads],
    ['not-checked: rod thread against lug thread', { 'lugs.rod.takes': null }, 'rods.thread', checkThreads],
    ['hoop-on-lug', { 'lugs.rows.1.distance': 18 }, 'lugs.rows.1.distance', checkHoops],
    ['hoop-on-lug', { 'hoops.top': { ear: -25 } }, 'lugs.rows.0.distance', checkHoops],
    ['hoop-over-foot', { 'lugs.foot.height': 60 }, 'lugs.rows.0.distance', checkHoops],
    ['not-checked: room between bottom hoop and lugs', { 'hoops.bottom.skirt': null }, 'hoops.bottom', checkHoops],
    ['hoop-near-fitting', { 'fittings.0.distance': 36 }, 'fittings.0.distance', checkHoops],
    ['hoop-on-lever', { 'fittings.0.lever': { width: 20, height: 90 } }, 'fittings.0.distance', checkHoops],
    ['hoop-without-lugs', { 'lugs.rows': [{ edge: 'top', distance: 36 }] }, 'lugs.rows', checkHoops],
    ['foot-over-rim', { 'fittings.1.distance': 20 }, 'fittings.1.distance', checkRims],
    ['hole-near-rim', { 'fittings.1.distance': 18 }, 'fittings.1.distance', checkRims],
    ['foot-in-bed', { 'fittings.1.distance': 23 }, 'fittings.1.distance', checkBeds],
    ['butt-not-opposite', { 'fittings.1.at': 170 }, 'fittings.1.at', checkStrainer],
    ['butt-not-at-snare-edge', { 'fittings.1.edge': 'top' }, 'fittings.1.edge', checkStrainer],
    ['strainer-off-bed', { 'fittings.0.at': 22.5 }, 'fittings.0.at', checkStrainer],
    ['strainer-off-line', { 'fittings.0.at': 22.5 }, 'fittings.0.at', checkStrainer],
    ['not-checked: strainer and butt on their snare beds', { beds: null }, 'fittings.0', checkStrainer],
    [
      'not-checked: butt opposite the strainer',
      { 'fittings.1': { role: 'vent', at: 180, edge: 'bottom', distance: 60, holes: { layout: 'single', drill: 10 } } },
      'fittings.0',
      checkStrainer,
    ],
    ['not-checked: butt opposite the strainer', { 'fittings.0.role': 'other' }, 'fittings.1', checkStrainer],
    [
      'not-checked: butt opposite the strainer (there are two strainers)',
      { 'fittings.1.role': 'strainer' },
      'fittings.0',
      checkStrainer,
    ],
    ['gate-not-over-strap', { 'hoops.bottom.gates': gates }, 'hoops.bottom.gates', checkGates],
    ['not-checked: gates over the straps', {}, 'hoops.bottom', checkGates],
    ['leg-rod-near-ear', { 'fittings.4': { ...leg, rod: { diameter: 9, across: 10 } } }, 'fittings.4.at', checkGates],
    ['snare-long', { 'snare.length': 325 }, 'snare.length', checkSnare],
    ['not-checked: wires against the shell', { snare: null }, 'fittings.0', checkSnare],
    ['screw-too-short', { 'fittings.0.holes': screws }, 'fittings.0.holes.screw', checkScrews],
    [
      'not-checked: length of the screws from outside',
      { 'lugs.holes': { ...screws, through: undefined } },
      'lugs.holes.screw',
      checkScrews,
    ],
  ])('%s with %j: %s', (what, set, key, one) => {
    const [id, sort] = what.split(': ');
    const { facts, lines } = read(stringify(changed(snare, set), { aliasDuplicateObjects: false }), one);
    const f = facts.find((x) => x.id === id && (sort === undefined || x.facts?.['check'] === sort));
    expect(lines[key]).toBeGreaterThan(1);
    expect(f?.line).toBe(lines[key]);
  });
  test('where the key lies in what an alias stands for, at the line of the alias', () => {
    const text = `jig: 1
name: Alias
shell: { diameter: 320, depth: 150, wall: 10 }
hoops:
  top: &hoop
    inside: 321
  bottom:
    *hoop
`;
    const vent = 'fittings: [{ role: vent, at: 0, edge: middle, distance: 0, holes: { layout: single, drill: 10 } }]\n';
    const at = (t: string) =>
      read(t + vent, checkHead)
        .facts.filter((f) => f.id === 'shell-too-large-for-hoop')
        .map((f) => f.line);
    expect(at(text)).toEqual([]);
    expect(at(text.replace('321', '319'))).toEqual([6, 7]);
  });
  test('a jig that was never text has no lines', () => {
    expect(factsOf(snare).filter((f) => 'line' in f)).toEqual([]);
  });
  test('no line is better than a wrong one', () => {
    const jig = jigOf(changed(snare, { 'shell.nominal': null, 'shell.diameter': 331 }));
    const facts = check({ ...jig, lines: { lugs: 3, 'fittings.0': 9 } }, layOut(jig));
    expect(facts.find((f) => f.facts?.['check'] === 'shell against its head')).not.toHaveProperty('line');
    // What holds the key, however far up.
    const rows = check({ ...jigOf(changed(snare, { 'lugs.rows.0.distance': 18 })), lines: { lugs: 3 } }, layOut(jig));
    expect(rows.find((f) => f.id === 'hoop-on-lug')?.line).toBe(3);
  });
});

describe('what a finding speaks of', () => {
  const { told } = asking();
  const post = (at: number) => ({ role: 'other', at, edge: 'middle', distance: 0, foot: { width: 20, height: 20 } });
  test('rows and fittings, by their number in the file, each once', () => {
    const many = { fittings: Array.from({ length: 12 }, (_, i) => post(i < 10 ? 30 * i : 310 + 2 * (i - 10))) };
    expect(told(many, 'feet-overlap').map((f) => [f.facts?.['group'], f.facts?.['group2']].sort())).toEqual([
      ['fittings.10', 'fittings.11'],
    ]);
    const lug = told({ fittings: [{ ...post(45), distance: 40 }] }, 'feet-overlap')[0];
    expect([lug?.facts?.['group'], lug?.facts?.['group2']].sort()).toEqual(['fittings.0', 'lugs.rows.0']);
    const one = told({ fittings: [{ ...post(0), at: [80, 82] }] }, 'feet-overlap')[0];
    expect(one?.facts?.['group']).toBe('fittings.0');
    expect(one?.facts).not.toHaveProperty('group2');
    expect(told({ 'shell.diameter': 331 }, 'shell-too-large')[0]?.facts).not.toHaveProperty('group');
    // A rod too long is first of all the rods' matter, and then of the row it goes into.
    expect(told({ 'rods.length.top': 57 }, 'rod-bottoms')[0]?.facts).toMatchObject({ group: 'lugs.rows.0' });
  });
  test('millimetres unless said otherwise, and null where nothing was measured', () => {
    expect(told({ 'shell.diameter': 331 }, 'shell-too-large')[0]?.unit).toBe('mm');
    expect(told({ 'shell.edges': 'uncut' }, 'edges-uncut')[0]).toMatchObject({
      measured: null,
      limit: null,
      unit: 'mm',
    });
    expect(told({ 'shell.edges': null }, 'not-checked')[0]).toMatchObject({ level: 'note', unit: '', measured: null });
  });
  test('old holes by their number, wherever they lie', () => {
    const holes = [
      { at: 200, edge: 'middle', distance: 20, diameter: 4 },
      { at: 359.9, edge: 'middle', distance: -20, diameter: 4 },
      { at: 0.1, edge: 'middle', distance: 40, diameter: 4 },
    ];
    const open = told({ 'shell.holes': holes, fittings: null, snare: null }, 'old-hole-open');
    expect(open.map((f) => f.at)).toEqual(['old-hole-1', 'old-hole-2', 'old-hole-3']);
  });
});

describe('all that is found', () => {
  // Too large for its head, rods too long, butt off its bed: three stops of three checks, in that order.
  const set = {
    'shell.diameter': 331,
    'rods.length.top': 57,
    'fittings.1.at': 170,
    'shell.edges': 'uncut',
    snare: null,
  };
  const facts = () => factsOf(changed(snare, set));
  test('stops come first, then what to look at twice, then notes', () => {
    const levels = facts().map((f) => f.level);
    expect(new Set(levels)).toEqual(new Set(['stop', 'care', 'note']));
    expect(levels).toEqual([...levels].sort((a, b) => 'scn'.indexOf(a.charAt(0)) - 'scn'.indexOf(b.charAt(0))));
  });
  test('and within a level the shell before its hardware', () => {
    const order = facts()
      .map((f) => f.id)
      .filter((id) => /^(shell-too-large|rod-bottoms|butt-not-opposite)$/.test(id));
    expect(order).toEqual(['shell-too-large', 'rod-bottoms', 'butt-not-opposite']);
  });
  test("limits given at the call stand above the file's, which stand above common practice", () => {
    const jig = jigOf(changed(snare, { limits: { round: 3, square: 3 }, 'shell.round': 2.5, 'shell.square': 2.5 }));
    const ids = (limits = {}) => check(jig, layOut(jig), limits).map((f) => f.id);
    expect(ids()).not.toContain('out-of-round');
    expect(ids({ round: 2 })).toContain('out-of-round');
    expect(ids({ round: 2 })).not.toContain('out-of-square');
  });
});

describe('a shell, its head and its hoops', () => {
  const { all, told, level, needs } = asking(checkHead);
  test.each([
    [327.4, 'stop'],
    [327.3, 'stop'],
    [327.5, 'silent'],
  ])('a hoop of %s inside over a shell of 327.4: %s', (inside, want) => {
    for (const [side, other] of [
      ['top', 'bottom'],
      ['bottom', 'top'],
    ]) {
      const set = { [`hoops.${side}`]: { inside }, [`hoops.${other}`]: null };
      const f = told(set, 'shell-too-large-for-hoop');
      expect(f.map((x) => x.facts?.['side'])).toEqual(want === 'stop' ? [side] : []);
      if (f[0]) expect(f[0]).toMatchObject({ level: 'stop', at: 'shell', measured: 327.4, limit: inside });
    }
  });
  // 13 in = 330.2 mm: usual shells are 1 to 4.5 mm smaller, and at 5.7 mm the head floats.
  test.each<[diameter: number, id: string, level: string, limit: number, exact: string]>([
    [330.3, 'shell-too-large', 'stop', 330.2, 'no'],
    [330.24, 'shell-too-large', 'stop', 330.2, 'yes'],
    [330.2, 'shell-tight', 'care', 329.2, 'yes'],
    [330.16, 'shell-tight', 'care', 329.2, 'yes'],
    [330.14, 'shell-tight', 'care', 329.2, 'no'],
    [329.21, 'shell-tight', 'care', 329.2, 'no'],
    [325.69, 'shell-loose', 'care', 325.7, 'no'],
    [324.51, 'shell-loose', 'care', 325.7, 'no'],
    [324.49, 'shell-too-small', 'stop', 324.5, 'no'],
  ])('%s mm under a head of 13 in: %s', (diameter, id, lvl, limit, exact) => {
    const f = told({ 'shell.diameter': diameter }, id)[0];
    expect(f).toMatchObject({ level: lvl, at: 'shell', facts: { nominal: 330.2, inches: 13, exact } });
    expect(f?.measured).toBeCloseTo(diameter, 9);
    expect(f?.limit).toBeCloseTo(limit, 9);
    expect(f?.facts?.['under']).toBeCloseTo(330.2 - diameter, 9);
    expect(f?.facts?.['girth']).toBeCloseTo(Math.PI * diameter, 9);
  });
  test.each([329.19, 325.71])('%s mm is as shells are', (diameter) => {
    const ids = all({ 'shell.diameter': diameter }).map((f) => f.id);
    expect(ids.filter((id) => /^shell-(too|tight|loose)/.test(id))).toEqual([]);
  });
  test.each([
    [330, 329, []],
    [330, 325.5, []],
    [600, 594, ['shell-loose']],
  ])('just at the limit of a head of %s mm a shell of %s is still within', (nominal, diameter, want) => {
    const ids = all({ 'shell.diameter': diameter, 'shell.nominal': nominal }).map((f) => f.id);
    expect(ids.filter((id) => /^shell-(too|tight|loose)/.test(id))).toEqual(want);
  });
  test('a large head floats from one part in a hundred on: 24 in is 609.6 mm, so 6.096 mm', () => {
    const bass = (diameter: number) => ({ 'shell.diameter': diameter, 'shell.nominal': '24 in' });
    expect(level(bass(603.51), 'shell-loose')).toBe('care');
    const f = told(bass(603.49), 'shell-too-small')[0];
    expect(f?.limit).toBeCloseTo(603.504, 9);
  });
  // A tape misread by 10 or 25.4 mm moves the diameter by 3.18 or 8.09 mm; the size meant must be one that shells have.
  test.each<[diameter: number, misread: string | undefined, slip: number]>([
    [330.5, 'one centimetre too long', -10],
    [330.1, 'one centimetre too long', -10],
    [332.3, 'one centimetre too long', -10],
    [332.5, undefined, 0],
    [333.7, undefined, 0],
    [333.9, 'one inch too long', -25.4],
    [337.2, 'one inch too long', -25.4],
    [337.4, undefined, 0],
    [325.6, 'one centimetre too short', 10],
    [322.6, 'one centimetre too short', 10],
    [322.4, undefined, 0],
    [321.0, 'one inch too short', 25.4],
    [317.7, 'one inch too short', 25.4],
    [317.5, undefined, 0],
  ])('%s mm: the tape was perhaps read %s', (diameter, misread, slip) => {
    const f = all({ 'shell.diameter': diameter }).find((x) => /^shell-(too|tight|loose)/.test(x.id));
    expect(f?.facts?.['misread']).toBe(misread);
    if (misread !== undefined) expect(f?.facts?.['meant']).toBeCloseTo(Math.PI * diameter + slip, 6);
  });
  test('a head size is asked for, and the hoops are held against the shell all the same', () => {
    const check = 'shell against its head';
    expect(needs({ 'shell.nominal': null }, check)).toEqual(['shell: shell.nominal']);
    expect(needs({}, check)).toEqual([]);
    expect(level({ 'shell.nominal': null, 'hoops.top.inside': 320 }, 'shell-too-large-for-hoop')).toBe('stop');
  });
});

describe('the thread of the rods against that of the lugs', () => {
  const { told, needs } = asking(checkThreads);
  // 12-24 UNC by ASME B1.1: 0.216 in and 1/24 in; M6: 6 and 1 mm.
  test('one finding for rows alike, with both threads', () => {
    const f = told({ 'rods.thread': 'M6' }, 'thread-mismatch');
    expect(f).toMatchObject([{ level: 'stop', at: 'top-lugs', measured: 6 }]);
    expect(f[0]?.limit).toBeCloseTo(0.216 * 25.4, 9);
    expect(f[0]?.facts).toMatchObject({ rods: 'M6', lugs: '12-24 UNC', rodDiameter: 6, rodPitch: 1, count: 2 });
    expect(f[0]?.facts?.['places']).toBe('top-lugs, bottom-lugs');
    expect(f[0]?.facts?.['lugDiameter']).toBeCloseTo(5.4864, 9);
    expect(f[0]?.facts?.['lugPitch']).toBeCloseTo(25.4 / 24, 9);
  });
  test('a row of its own is a finding of its own', () => {
    const set = { 'lugs.rows.1.rod': { takes: 'M5' } };
    expect(told(set, 'thread-mismatch').map((f) => [f.at, f.limit])).toEqual([['bottom-lugs', 5]]);
    expect(told({ ...set, 'rods.thread': 'M6' }, 'thread-mismatch').map((f) => f.at)).toEqual([
      'top-lugs',
      'bottom-lugs',
    ]);
    expect(told({}, 'thread-mismatch')).toEqual([]);
  });
  const check = 'rod thread against lug thread';
  test.each<[Record<string, unknown>, string[]]>([
    [{}, []],
    [{ 'rods.thread': null }, ['top-lugs, bottom-lugs: rods.thread']],
    [{ 'lugs.rod.takes': null }, ['top-lugs, bottom-lugs: lugs.rod.takes']],
    [{ 'rods.thread': null, 'lugs.rod.takes': null }, ['top-lugs, bottom-lugs: rods.thread, lugs.rod.takes']],
    [{ 'lugs.rod.takes': null, 'lugs.rows.1.rod': { takes: '12-24' } }, ['top-lugs: lugs.rod.takes']],
    [{ rods: null }, []],
    [{ 'lugs.rod': null }, []],
  ])('with %j it asks for %j', (set, want) => expect(needs(set, check)).toEqual(want));
});
