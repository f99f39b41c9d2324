import { describe, expect, test } from 'vitest';
import { checkBeds } from '../../src/fit/beds.ts';
import type { Bench } from '../../src/fit/bench.ts';
import { checkGates } from '../../src/fit/gates.ts';
import { checkSnare } from '../../src/fit/snare.ts';
import { checkStrainer } from '../../src/fit/strainer.ts';
import type { Fact } from '../../src/model/finding.ts';
import { changed, factsBy, type Raw } from '../helpers/jig-cases.ts';

/**
 * A shell, R = 160, wall 10, 150 deep, with one lug, and strainer and butt 40 mm above the bottom edge: round it, one degree
 * is 2.792527 mm. A strap 16 mm off its screws lies asin(16 / 160) = 5.739170 deg further round.
 */
const strainer: Raw = {
  name: 'strainer',
  role: 'strainer',
  at: 0,
  edge: 'bottom',
  distance: 40,
  foot: { width: 20, height: 30 },
};
const butt: Raw = { ...strainer, name: 'butt', role: 'butt', at: 180 };
const drum: Raw = {
  jig: 1,
  name: 'Snares',
  shell: { diameter: 320, depth: 150, wall: 10 },
  lugs: { count: 1, first: 90, rows: [{ edge: 'bottom', distance: 40 }], holes: { layout: 'single', drill: 5 } },
  fittings: [strainer, butt],
  beds: { width: 90, depth: 2 },
};
const perDeg = (Math.PI * 160) / 180;
const STRAP = 5.73917;
/** What one check alone finds in a drum. */
function asking(one: (bench: Bench) => readonly Fact[]) {
  const all = (raw: Raw) => factsBy(one, raw);
  const told = (raw: Raw, id: string): Fact[] => all(raw).filter((f) => f.id === id);
  const found = (raw: Raw, id: string): Fact | undefined => told(raw, id)[0];
  const level = (raw: Raw, id: string): string => found(raw, id)?.level ?? 'silent';
  const needs = (raw: Raw): unknown[] =>
    told(raw, 'not-checked').map((f) => `${f.at}: ${f.facts?.['check']} needs ${f.facts?.['needs']}`);
  return { all, told, found, level, needs };
}
const ends = (one: Raw, other: Raw, more: Raw = {}): Raw =>
  changed(drum, {
    fittings: [
      { ...strainer, ...one },
      { ...butt, ...other },
    ],
    ...more,
  });
const vent: Raw = { role: 'vent', at: 90, edge: 'middle', distance: 0, holes: { layout: 'single', drill: 10 } };

describe('butt and strainer face each other', () => {
  const { told, found, level, needs } = asking(checkStrainer);
  test('what is said of a butt at 170 deg', () => {
    const f = found(ends({}, { at: 170 }), 'butt-not-opposite');
    expect(f).toMatchObject({ level: 'stop', at: 'butt', limit: 1, unit: 'deg' });
    expect(f?.measured).toBeCloseTo(10, 9);
    const facts = { strainer: 'strainer', butt: 'butt', strainerAt: 0, buttAt: 170, want: 180, wantStrainer: 350 };
    expect(f?.facts).toMatchObject({ ...facts, group: 'fittings.1' });
    expect(f?.facts?.['off']).toBeCloseTo(10 * perDeg, 9);
  });
  test('a strap off its screws: what is put opposite is the strap', () => {
    const askew = found(ends({}, { 'snare-line': 16 }), 'strap-askew');
    expect(askew).toMatchObject({ level: 'care', at: 'butt', limit: 0.25, unit: 'deg' });
    expect(askew?.measured).toBeCloseTo(STRAP, 5);
    expect(askew?.facts?.['off']).toBeCloseTo(160 * Math.asin(0.1), 9);
    // The butt's strap at 185.739; at 174.261 its screws would bring it opposite, or the strainer at 5.739.
    expect(askew?.facts?.['buttAt']).toBeCloseTo(180 + STRAP, 5);
    expect(askew?.facts?.['want']).toBeCloseTo(180 - STRAP, 5);
    expect(askew?.facts?.['wantStrainer']).toBeCloseTo(STRAP, 5);
    const other = found(ends({ 'snare-line': 16 }, {}), 'strap-askew')?.facts;
    expect(other?.['strainerAt']).toBeCloseTo(STRAP, 5);
    expect(other?.['want']).toBeCloseTo(180 + STRAP, 5);
    expect(other?.['wantStrainer']).toBeCloseTo(360 - STRAP, 5);
  });
  test.each([
    [180.25, 'silent'],
    [180.26, 'care'],
    [179.75, 'silent'],
    [179.74, 'care'],
  ])('a quarter of a degree is near enough: butt at %s, %s', (at, want) =>
    expect(level(ends({}, { at }), 'strap-askew')).toBe(want),
  );
  test('the screws or the strap must be opposite to a degree, whichever is nearer', () => {
    const at = (deg: number) => ends({}, { at: deg, 'snare-line': 16 });
    // Strap opposite at 174.261, screws at 180.
    expect(level(at(180 - STRAP - 0.99), 'butt-not-opposite')).toBe('silent');
    expect(level(at(180 - STRAP - 1.01), 'butt-not-opposite')).toBe('stop');
    expect(level(at(180.99), 'butt-not-opposite')).toBe('silent');
    expect(found(at(181.5), 'butt-not-opposite')?.measured).toBeCloseTo(1.5, 9);
    expect(level(at(181.5), 'strap-askew')).toBe('silent');
  });
  test('the workshop may be stricter, or not', () => {
    const limits = { facing: 2, 'facing-bad': 3 };
    expect(level(ends({}, { at: 182 }, { limits }), 'strap-askew')).toBe('silent');
    expect(level(ends({}, { at: 182.1 }, { limits }), 'strap-askew')).toBe('care');
    expect(level(ends({}, { at: 183 }, { limits }), 'butt-not-opposite')).toBe('silent');
    expect(level(ends({}, { at: 183.1 }, { limits }), 'butt-not-opposite')).toBe('stop');
  });
  test('a strap beyond the shell is taken as at its side, and no figure is lost', () => {
    expect(found(ends({}, { 'snare-line': 170 }), 'strap-askew')?.measured).toBeCloseTo(90, 9);
    expect(found(ends({}, { 'snare-line': -170 }), 'strap-askew')?.facts?.['buttAt']).toBeCloseTo(90, 9);
  });
  test('of several butts the one that faces it best counts', () => {
    expect(level(ends({}, { at: [120, 180] }), 'butt-not-opposite')).toBe('silent');
    expect(level(ends({}, { at: [180, 120] }), 'butt-not-opposite')).toBe('silent');
    expect(found(ends({}, { at: [150, 178, 190] }), 'butt-not-opposite')).toMatchObject({ at: 'butt-2', measured: 2 });
    // As good as each other: the one written first.
    expect(found(ends({}, { at: [190, 170] }), 'butt-not-opposite')?.at).toBe('butt-1');
  });
  test('two strainers face each other in place of a butt, which is asked for', () => {
    const two = (at: number) => ends({}, { role: 'strainer', name: 'other', at });
    expect(told(two(180), 'butt-not-opposite')).toEqual([]);
    expect(needs(two(180))).toContain(
      'strainer: butt opposite the strainer (there are two strainers) needs a fitting with role: butt',
    );
    expect(told(two(100), 'butt-not-opposite').map((f) => [f.at, f.facts?.['strainer'], f.measured])).toEqual([
      ['other', 'strainer', 80],
      ['strainer', 'other', 80],
    ]);
    // Both on one spot: each is told of the other, not of itself.
    expect(told(two(0), 'butt-not-opposite').map((f) => [f.at, f.facts?.['strainer'], f.measured])).toEqual([
      ['other', 'strainer', 180],
      ['strainer', 'other', 180],
    ]);
  });
  test('with a butt there, strainers are held against it and not each other', () => {
    const three = changed(drum, { fittings: [strainer, { ...strainer, name: 'second', at: 178 }, butt] });
    expect(told(three, 'butt-not-opposite').map((f) => [f.at, f.facts?.['strainer'], f.measured])).toEqual([
      ['butt', 'second', 178],
    ]);
  });
  test('one alone asks for the other, and for the beds', () => {
    const only = (one: Raw) => needs(changed(drum, { fittings: [one] }));
    const [wantsButt, wantsStrainer] = [
      'strainer: butt opposite the strainer needs a fitting with role: butt',
      'butt: butt opposite the strainer needs a fitting with role: strainer',
    ];
    expect(only(strainer)).toContain(wantsButt);
    expect(only(strainer)).not.toContain(wantsStrainer);
    expect(only(butt)).toContain(wantsStrainer);
    expect(only(butt).join()).not.toContain('role: butt');
    expect(needs(drum).join()).not.toContain('opposite');
    const beds = 'strainer: strainer and butt on their snare beds needs beds';
    expect(needs(changed(drum, { beds: null }))).toContain(beds);
    expect(needs(drum)).not.toContain(beds);
    expect(needs(changed(drum, { fittings: [vent], beds: null })).join()).not.toMatch(/strainer|butt|snare/);
  });
});

describe('at the snare edge, on the line', () => {
  const { all, found, level } = asking(checkStrainer);
  test.each<[string, Raw, Raw, string | undefined, number | undefined]>([
    ['butt high up', {}, { distance: 90.1 }, 'butt-not-at-snare-edge', 90],
    ['butt just low enough', {}, { distance: 90 }, undefined, undefined],
    ['butt from the top edge', {}, { edge: 'top', distance: 40 }, 'butt-not-at-snare-edge', 75],
    ['strainer from the top edge', { edge: 'top', distance: 40 }, {}, 'strainer-not-at-snare-edge', 75],
    ['strainer from the top edge, low', { edge: 'top', distance: 75 }, {}, undefined, undefined],
    ['strainer above the middle', { edge: 'middle', distance: 15.1 }, {}, 'strainer-not-at-snare-edge', 90],
    ['strainer about the middle', { edge: 'middle', distance: 15 }, {}, undefined, undefined],
  ])('%s', (_, one, other, id, limit) => {
    const f = all(ends(one, other)).find((x) => x.id.endsWith('-at-snare-edge'));
    expect([f?.id, f?.limit]).toEqual([id, limit]);
  });
  test('what is said of it', () => {
    const f = found(ends({ edge: 'top', distance: 40 }, {}), 'strainer-not-at-snare-edge');
    expect(f).toMatchObject({ level: 'stop', at: 'strainer', measured: 110, limit: 75, unit: 'mm' });
    expect(f?.facts).toMatchObject({ edge: 'top', distance: 40, fromTop: 40, role: 'strainer', group: 'fittings.0' });
  });
  test('a shallow shell: 60 mm up is always near enough, though 0.6 of 80 is 48', () => {
    const shallow = (distance: number) => ends({ distance }, { distance: 40 }, { 'shell.depth': 80 });
    expect(level(shallow(60), 'strainer-not-at-snare-edge')).toBe('silent');
    expect(found(shallow(60.1), 'strainer-not-at-snare-edge')?.limit).toBe(60);
  });

  // A bed 90 wide is flat over its middle half: 22.5 mm to either side.
  test('what is said of a butt off its bed', () => {
    const f = found(ends({}, { at: 190 }), 'butt-off-bed');
    expect(f).toMatchObject({ level: 'stop', at: 'butt', limit: 22.5, facts: { at: 190, width: 90, role: 'butt' } });
    expect(f?.measured).toBeCloseTo(10 * perDeg, 9);
    expect(f?.facts).toMatchObject({ group: 'fittings.1' });
    expect(found(ends({ at: 10 }, { at: 190 }), 'strainer-off-bed')?.facts).toMatchObject({ role: 'strainer' });
  });
  test('the strap must lie on the bed, wherever the screws are', () => {
    // 16.027 mm of strap and 6.4 mm of screws are 22.43, 6.6 mm make 22.63.
    const at = (mm: number) => ends({ at: mm / perDeg, 'snare-line': 16 }, {});
    expect(level(at(6.4), 'strainer-off-bed')).toBe('silent');
    expect(level(at(6.6), 'strainer-off-bed')).toBe('stop');
    expect(level(at(-22.6), 'strainer-off-bed')).toBe('silent');
  });
  test.each([
    [22.49, 'silent'],
    [22.51, 'stop'],
  ])('%s mm off the middle of the bed: %s', (mm, want) =>
    expect(level(ends({ at: mm / perDeg }, {}), 'strainer-off-bed')).toBe(want),
  );
  test('without beds there is nothing to lie on', () => {
    expect(level(ends({ at: 20 }, { at: 200 }, { beds: null }), 'strainer-off-bed')).toBe('silent');
  });

  test.each<[Raw, string]>([
    [{ at: 0.25 }, 'silent'],
    [{ at: 0.26 }, 'care'],
    [{ at: 359.75 }, 'silent'],
    [{ at: 359.74 }, 'care'],
    [{ at: 180 }, 'care'],
    // The strap on the line is as good as the screws.
    [{ at: 360 - STRAP, 'snare-line': 16 }, 'silent'],
    [{ at: 360 - STRAP - 0.3, 'snare-line': 16 }, 'care'],
    [{ at: 0, 'snare-line': 16 }, 'silent'],
  ])('strainer at %j against the line of the drum: %s', (one, want) =>
    expect(level(ends(one, { at: 90 }, { beds: null }), 'strainer-off-line')).toBe(want),
  );
  test('how far off the line, by the best of several strainers', () => {
    const f = found(ends({ at: [100, 20] }, {}, { beds: null }), 'strainer-off-line');
    expect(f).toMatchObject({ level: 'care', at: 'strainer-2', measured: 20, limit: 0, unit: 'deg' });
    expect(f?.facts).toMatchObject({ at: 20, group: 'fittings.0' });
    expect(found(ends({ at: [20, 340] }, {}), 'strainer-off-line')?.at).toBe('strainer-1');
    expect(found(ends({ at: [100, 350] }, {}), 'strainer-off-line')?.at).toBe('strainer-2');
    expect(found(ends({ at: 340, 'snare-line': 16 }, {}), 'strainer-off-line')?.measured).toBeCloseTo(20 - STRAP, 5);
  });
  test('a butt alone has no line to be on', () => {
    expect(level(changed(drum, { fittings: [{ ...butt, at: 100 }] }), 'strainer-off-line')).toBe('silent');
  });
});

describe('feet and holes in the snare beds', () => {
  const { told, found, level } = asking(checkBeds);
  // The bed: 45 mm to either side of 0 and 180 deg, 2 mm deep.
  const plate = (more: Raw): Raw =>
    changed(drum, {
      fittings: [{ name: 'plate', role: 'other', at: 5, edge: 'bottom', distance: 10, ...more }],
    });
  const square = { foot: { width: 20, height: 20 } };
  test.each([
    [12, 'silent'],
    [11.9, 'stop'],
  ])('a foot 20 high, %s mm up: %s', (distance, want) =>
    expect(level(plate({ ...square, distance }), 'foot-in-bed')).toBe(want),
  );
  test('what is said of it', () => {
    const f = found(plate({ ...square, distance: 11, at: 15 }), 'foot-in-bed');
    expect(f).toMatchObject({ level: 'stop', at: 'plate', measured: 1, limit: 2 });
    expect(f?.facts).toMatchObject({ what: 'foot', over: 1, width: 90, depth: 2, count: 1, group: 'fittings.0' });
    // Its near side lies 15 deg less asin(10 / 160) round the shell: 31.88 of the 45 mm.
    expect(f?.facts?.['inward']).toBeCloseTo(45 - (15 * perDeg - 160 * Math.asin(10 / 160)), 9);
    expect(found(plate({ ...square, distance: 11, at: 0 }), 'foot-in-bed')?.facts?.['inward']).toBe(45);
  });
  // Half a foot 20 wide: 160 asin(10 / 160) = 10.0065 mm round the shell.
  test.each([
    [55.0, 'stop'],
    [55.02, 'silent'],
    [-55.0, 'stop'],
    [-55.02, 'silent'],
  ])('a foot %s mm from the middle of either bed: %s', (off, want) => {
    for (const bed of [0, 180]) {
      expect(level(plate({ ...square, at: bed + off / perDeg }), 'foot-in-bed')).toBe(want);
      expect(level(plate({ holes: { layout: 'single', drill: 20 }, at: bed + off / perDeg }), 'hole-in-bed')).toBe(
        Math.abs(off) < 55 ? 'stop' : 'silent',
      );
    }
  });
  test('what lies wholly beyond the edge is told by the rim alone', () => {
    const under = (distance: number) => plate({ ...square, edge: 'middle', distance });
    expect(level(under(-85), 'foot-in-bed')).toBe('silent');
    expect(level(under(-84.9), 'foot-in-bed')).toBe('stop');
  });
  test('both feet and holes are told, each once for all places of a fitting', () => {
    const raw = plate({ ...square, holes: { layout: 'upright', spacing: 17, drill: 4 }, at: [0, 10, 90, 180] });
    expect(found(raw, 'foot-in-bed')).toMatchObject({
      at: 'plate-1',
      facts: { count: 3, places: 'plate-1, plate-2, plate-4' },
    });
    expect(found(raw, 'hole-in-bed')).toMatchObject({ at: 'plate-1-b', facts: { what: 'hole', count: 3 } });
    const two = changed(raw, { 'fittings.1': { role: 'other', at: 190, edge: 'bottom', distance: 5, ...square } });
    expect(told(two, 'foot-in-bed').map((f) => f.facts?.['over'])).toEqual([2, 7]);
  });
  test('a shell without beds has none to spoil, and an old hole is there already', () => {
    expect(level(changed(plate(square), { beds: null }), 'foot-in-bed')).toBe('silent');
    const old = { 'shell.holes': [{ at: 0, edge: 'bottom', distance: 3, diameter: 6 }] };
    expect(level(changed(plate({ ...square, distance: 40 }), old), 'hole-in-bed')).toBe('silent');
  });
});

describe('straps through the gates of the bottom hoop', () => {
  const { told, level, needs } = asking(checkGates);
  const gated = (one: Raw, other: Raw, ...gates: Raw[]): Raw =>
    ends(one, other, { hoops: { bottom: { ear: 4, gates } } });
  const at = (deg: number): Raw => ({ at: deg, width: 40 });
  // Half a gate of 40 is 20 mm: 7.162 deg.
  test.each([
    [20.01, 'care'],
    [19.99, 'silent'],
    [-19.99, 'silent'],
    [-20.01, 'care'],
  ])('a gate %s mm off the strap: %s', (mm, want) => {
    expect(level(gated({}, {}, at(mm / perDeg), at(180)), 'gate-not-over-strap')).toBe(want);
    expect(level(gated({}, {}, at(0), at(180 + mm / perDeg)), 'gate-not-over-strap')).toBe(want);
  });
  test('what is said of it', () => {
    const f = told(gated({}, {}, at(10), at(180)), 'gate-not-over-strap');
    expect(f).toMatchObject([
      { level: 'care', at: 'strainer', limit: 0, facts: { what: 'strainer', gates: '10 deg, 180 deg' } },
    ]);
    expect(f[0]?.measured).toBeCloseTo(10 * perDeg - 20, 9);
    expect(told(gated({}, {}, at(90)), 'gate-not-over-strap').map((x) => x.at)).toEqual(['strainer', 'butt']);
  });
  test('the strap counts, not the screws', () => {
    // 16 mm off the screws, 16.03 mm round: a gate over the strap, and one over the screws that ends 20 mm off them.
    expect(level(gated({ 'snare-line': 16 }, {}, at(STRAP + 7.1), at(180)), 'gate-not-over-strap')).toBe('silent');
    expect(level(gated({ 'snare-line': 16 }, {}, at(-1.5), at(180)), 'gate-not-over-strap')).toBe('care');
    expect(level(gated({ 'snare-line': 16 }, {}, at(-1.3), at(180)), 'gate-not-over-strap')).toBe('silent');
  });
  test('only straps need gates', () => {
    const plate = { ...strainer, name: 'plate', role: 'bracket', at: 90 };
    const raw = changed(gated({}, {}, at(0), at(180)), { 'fittings.2': plate });
    expect(told(raw, 'gate-not-over-strap')).toEqual([]);
  });
  const asks = 'hoop-bottom: gates over the straps needs hoops.bottom.gates';
  test.each<[string, Raw, boolean]>([
    ['a hoop and no gate', changed(drum, { hoops: { bottom: { ear: 4 } } }), true],
    ['gates', gated({}, {}, at(0), at(180)), false],
    ['no hoop', drum, false],
    ['the other hoop', changed(drum, { hoops: { top: { ear: 4 } } }), false],
    ['no strainer', changed(drum, { fittings: [butt, vent], hoops: { bottom: { ear: 4 } } }), false],
  ])('%s: gates asked for', (_, raw, want) => {
    expect(needs(raw).includes(asks)).toBe(want);
    expect(told(raw, 'gate-not-over-strap')).toEqual([]);
  });
});

describe('wires against the shell', () => {
  const { all, needs } = asking(checkSnare);
  // 320 over all; 320 - 10 over the middle of the walls; 300 inside, less 70; and no wires are shorter than half of that.
  test.each([
    [320.1, 'snare-longer-than-shell', 'stop', 320],
    [320, 'snare-long', 'care', 310],
    [310.1, 'snare-long', 'care', 310],
    [310, undefined, undefined, undefined],
    [230, undefined, undefined, undefined],
    [229.9, 'snare-short', 'care', 230],
    [150, 'snare-short', 'care', 230],
    [149.9, 'snare-implausible', 'stop', 150],
  ])('%s mm: %s', (length, id, lvl, limit) => {
    const f = all(changed(drum, { snare: { length } })).find((x) => x.at === 'snare');
    expect([f?.id, f?.level, f?.limit]).toEqual([id, lvl, limit]);
    if (f) expect(f).toMatchObject({ measured: length, unit: 'mm', facts: { outside: 320, inside: 300 } });
  });
  const asks = 'snare: wires against the shell needs snare.length';
  test('are asked for where there is a strainer', () => {
    expect(needs(drum)).toContain(asks);
    expect(needs(changed(drum, { snare: { length: 300 } }))).not.toContain(asks);
    expect(needs(changed(drum, { fittings: [butt, vent] }))).not.toContain(asks);
  });
});
