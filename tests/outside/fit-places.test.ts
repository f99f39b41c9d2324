import { describe, expect, test } from 'vitest';
import { factsOf, type Raw } from '../helpers/jig-cases.ts';
import { found, level, perDeg, plates, R } from '../helpers/plates.ts';

describe('feet on the unrolled shell', () => {
  const square = { foot: { width: 30, height: 30 } };
  // The half width of a flat foot lies at R asin(15 / R) = 15.0211 mm round the shell.
  const half = R * Math.asin(15 / R);

  test.each([
    [2 * half - 0.01, 'stop'],
    [2 * half + 0.01, 'silent'],
  ])('side by side, %s mm apart: %s', (apart, want) => {
    expect(level(plates(square, { ...square, at: 90 + apart / perDeg }), 'feet-overlap')).toBe(want);
  });
  test.each([
    [29.99, 'stop'],
    [30, 'silent'],
    [30.01, 'silent'],
  ])('one above the other, %s mm apart: %s', (distance, want) => {
    expect(level(plates(square, { ...square, distance }), 'feet-overlap')).toBe(want);
  });
  test('with wrap-around at 360 deg', () => {
    expect(level(plates({ ...square, at: 359 }, { ...square, at: 2 }), 'feet-overlap')).toBe('stop');
    expect(level(plates({ ...square, at: 354 }, { ...square, at: 6 }), 'feet-overlap')).toBe('silent');
  });
  test('round feet pass where their boxes overlap: two discs of 30 stand 30 apart on the slant', () => {
    const disc = { foot: { width: 30, height: 30, shape: 'ellipse' } };
    const slant = (d: number) => plates(disc, { ...disc, at: 90 + d / Math.SQRT2 / perDeg, distance: d / Math.SQRT2 });
    expect(level(slant(29.9), 'feet-overlap')).toBe('stop');
    expect(level(slant(30.1), 'feet-overlap')).toBe('silent');
    expect(
      level(
        plates(square, { ...square, at: 90 + 30 / Math.SQRT2 / perDeg, distance: 30 / Math.SQRT2 }),
        'feet-overlap',
      ),
    ).toBe('stop');
  });
  test('round corners pass where square ones hit: corners of radius 10 leave 10 (sqrt 2 - 1) each', () => {
    const corner = (c: number) => ({ foot: { width: 30, height: 30, corner: c } });
    const at = 90 + (2 * half - 2) / perDeg;
    expect(level(plates(corner(0), { ...corner(0), at, distance: 28 }), 'feet-overlap')).toBe('stop');
    expect(level(plates(corner(10), { ...corner(10), at, distance: 28 }), 'feet-overlap')).toBe('silent');
  });
  test('a foot with a notch lets another stand in it', () => {
    const points: [number, number][] = [
      [-20, -20],
      [20, -20],
      [20, 20],
      [10, 20],
      [10, -10],
      [-10, -10],
      [-10, 20],
      [-20, 20],
    ];
    const notched = { foot: { outline: points.map(([across, upright]) => ({ across, upright })) } };
    const post = { foot: { width: 10, height: 20 }, distance: 5 };
    expect(level(plates(notched, post), 'feet-overlap')).toBe('silent');
    expect(level(plates(notched, { ...post, at: 93 }), 'feet-overlap')).toBe('stop');
    expect(level(plates(notched, { ...post, distance: -1 }), 'feet-overlap')).toBe('stop');
  });
  test('how far to go is told both ways', () => {
    const f = found(plates(square, { ...square, at: 90 + 20 / perDeg, distance: 4 }), 'feet-overlap');
    expect(f?.facts?.['around']).toBeCloseTo(2 * half - 20, 2);
    expect(f?.facts?.['upright']).toBeCloseTo(26, 2);
    expect(f?.measured).toBeCloseTo(2 * half - 20, 2);
  });
  test('a badge beside its vent hides it', () => {
    const beside = { role: 'badge', at: 92, foot: { width: 40, height: 30 } };
    const vent = { role: 'vent', at: 90, holes: { layout: 'single', drill: 11 } };
    const stops = (b: Record<string, unknown>) =>
      factsOf(plates(vent, b))
        .filter((f) => f.level === 'stop')
        .map((f) => f.id);
    // 2 deg at R = 163.7 is 5.7 mm round the shell: no grommet holds both.
    expect(stops(beside)).toContain('hole-under-foot');
    expect(stops({ ...beside, at: 90.5 })).toEqual([]);
  });
  test('a badge on its vent is normal, a vent under any other foot is not', () => {
    const vent = { name: 'vent', role: 'vent', holes: { layout: 'single', drill: 10 } };
    expect(
      factsOf(plates(vent, { role: 'badge', foot: { width: 40, height: 30 } })).filter((f) => f.level === 'stop'),
    ).toEqual([]);
    expect(level(plates(vent, { role: 'bracket', foot: { width: 40, height: 30 } }), 'hole-under-foot', 'vent')).toBe(
      'stop',
    );
  });
  test('close feet are told: 0.9 mm', () => {
    expect(level(plates(square, { ...square, distance: 30.9 }), 'feet-close')).toBe('care');
    expect(level(plates(square, { ...square, distance: 31 }), 'feet-close')).toBe('silent');
  });
});

describe('what stands out from the shell', () => {
  const tom = (leg: Raw): Raw => ({
    jig: 1,
    name: 'Legs',
    shell: { diameter: 2 * R, depth: 300, wall: 6.6 },
    lugs: {
      count: 8,
      first: 0,
      rows: [{ edge: 'bottom', distance: 40 }],
      holes: { layout: 'single', drill: 5 },
      foot: { width: 20, height: 40 },
    },
    hoops: { bottom: { ear: 4 } },
    fittings: [
      {
        name: 'leg',
        role: 'leg',
        at: 90,
        edge: 'bottom',
        distance: 120,
        foot: { width: 40, height: 50 },
        rod: { diameter: 10 },
        ...leg,
      },
    ],
  });
  // A foot 20 wide reaches 10.006 mm round the shell, a rod of 10 half of that: 15 mm clear it, and so an ear of 20.
  test.each([
    [90, 'stop', 'silent'],
    [90 + 4.9 / perDeg, 'stop', 'silent'],
    [90 + 5.1 / perDeg, 'stop', 'care'],
    [90 + 14.9 / perDeg, 'stop', 'care'],
    [90 + 15.1 / perDeg, 'silent', 'silent'],
    [112.5, 'silent', 'silent'],
  ])('a leg at %s deg over a lug at 90', (at, lug, ear) => {
    expect(level(tom({ at }), 'leg-rod-over-lug')).toBe(lug);
    expect(level(tom({ at }), 'leg-rod-near-ear')).toBe(ear);
    // Within half of its own 10 mm it stands on the line of the tension rods.
    expect(level(tom({ at }), 'leg-rod-on-rod')).toBe(Math.abs(at - 90) * perDeg < 5 ? 'stop' : 'silent');
  });
  test('a rod that is known to run outside lugs and tension rods passes', () => {
    const high = (clear: number, stands: number, circle: number): Raw => {
      const raw = tom({ at: 90, rod: { diameter: 10, clear } });
      (raw['lugs'] as { foot: Raw }).foot['stands'] = stands;
      return { ...raw, hoops: { bottom: { ear: 4, 'ear-circle': circle } } };
    };
    expect(level(high(24, 24, 2 * R + 40), 'leg-rod-over-lug')).toBe('silent');
    expect(level(high(23.9, 24, 2 * R + 40), 'leg-rod-over-lug')).toBe('stop');
    // The rods stand on a circle 20 mm off the shell; no thread is given, so the line counts.
    expect(level(high(20, 24, 2 * R + 40), 'leg-rod-on-rod')).toBe('silent');
    expect(level(high(19.9, 24, 2 * R + 40), 'leg-rod-on-rod')).toBe('stop');
  });
  test('a leg over another casting is told by that name', () => {
    const raw = tom({ at: 112.5 });
    const bracket = { role: 'bracket', edge: 'bottom', distance: 60, foot: { width: 30, height: 30 } };
    const both = (at: number): Raw => ({ ...raw, fittings: [...(raw['fittings'] as Raw[]), { ...bracket, at }] });
    expect(level(both(112.5), 'leg-rod-over-fitting')).toBe('stop');
    // Half the rod and half the bracket, which reaches a little further round than across: 5 + 15.02.
    expect(level(both(112.5 + 20 / perDeg), 'leg-rod-over-fitting')).toBe('stop');
    expect(level(both(112.5 + 20.1 / perDeg), 'leg-rod-over-fitting')).toBe('silent');
  });
  test('an open lever that sweeps over a lug is told, and one that is not given is asked for', () => {
    const lever = (width: number): Raw =>
      tom({ name: 'strainer', role: 'strainer', at: 112.5, distance: 60, rod: null, lever: { width, height: 60 } });
    const strip = (raw: Raw): Raw => ({ ...raw, fittings: (raw['fittings'] as Raw[]).map(({ rod: _, ...f }) => f) });
    // Lugs stand 22.5 deg, 64.285 mm, to either side.
    expect(level(strip(lever(130)), 'lever-over-lug')).toBe('stop');
    expect(level(strip(lever(100)), 'lever-over-lug')).toBe('silent');
    const needs = factsOf(strip(tom({ name: 'strainer', role: 'strainer', at: 112.5 }))).map((f) =>
      String(f.facts?.['needs']),
    );
    expect(needs).toContain('lever of strainer');
  });
  test('hoop gates must lie over the strap', () => {
    const gated = (at: number): Raw => ({
      ...tom({ name: 'strainer', role: 'strainer', at: 0, rod: undefined }),
      lugs: undefined,
      hoops: { bottom: { ear: 4, gates: [{ at, width: 40 }] } },
    });
    const clean = (raw: Raw): Raw => JSON.parse(JSON.stringify(raw)) as Raw;
    // Half a gate of 40 is 20 mm: 7 deg.
    expect(level(clean(gated(6.9)), 'gate-not-over-strap')).toBe('silent');
    expect(level(clean(gated(7.1)), 'gate-not-over-strap')).toBe('care');
  });
});

describe('what is unusual', () => {
  const bare = (more: Raw): Raw => ({
    jig: 1,
    name: 'Bare',
    shell: { diameter: 2 * R, depth: 150, wall: 6.6 },
    fittings: [{ role: 'vent', at: 90, edge: 'middle', distance: 0, holes: { layout: 'single', drill: 10 } }],
    ...more,
  });
  test.each([
    [{ beds: { width: 24, depth: 1 } }, 'bed-narrow', 'care'],
    [{ beds: { width: 26, depth: 1 } }, 'bed-narrow', 'silent'],
    [{ beds: { width: 90, depth: 6.1 } }, 'bed-deep', 'care'],
    [{ beds: { width: 515, depth: 1 } }, 'contradiction', 'stop'],
    [{ beds: { width: 514, depth: 1 } }, 'contradiction', 'silent'],
    [{ hoops: { top: { 'ear-circle': 2 * R } } }, 'contradiction', 'stop'],
    [{ hoops: { top: { 'ear-circle': 2 * R + 1 } } }, 'contradiction', 'silent'],
    [{ shell: { diameter: 2 * R, depth: 150, wall: 1.4 } }, 'wall-implausible', 'stop'],
    [{ shell: { diameter: 2 * R, depth: 150, wall: 1.6 } }, 'wall-implausible', 'silent'],
    [{ shell: { diameter: 2 * R, depth: 150, wall: 25.1 } }, 'wall-implausible', 'stop'],
    [{ shell: { diameter: 2 * R, depth: 150, wall: 24.9 } }, 'wall-implausible', 'silent'],
  ])('%o: %s %s', (more, id, want) => expect(level(bare(more), id)).toBe(want));
});

describe('rims', () => {
  const plate = (distance: number) =>
    plates(
      { edge: 'top', distance, foot: { width: 20, height: 30 }, holes: { layout: 'single', drill: 8 } },
      { at: 270, foot: { width: 9, height: 9 } },
    );
  test.each([
    [15, 'silent'],
    [14.9, 'stop'],
  ])('a foot 30 high, %s mm from the edge: %s', (d, want) => expect(level(plate(d), 'foot-over-rim')).toBe(want));
  test.each([
    [4, 'silent'],
    [3.9, 'stop'],
  ])('a hole of 8, %s mm from the edge: %s', (d, want) => expect(level(plate(d), 'hole-over-rim')).toBe(want));
  test.each([
    [8, 'silent'],
    [7.9, 'care'],
  ])('half a diameter of wood is left: %s mm, %s', (d, want) => expect(level(plate(d), 'hole-near-rim')).toBe(want));
});

describe('snare beds', () => {
  // Bed 90 wide: its end lies 45 mm round the shell from 0 deg; 2 deep.
  const low = (at: number, distance: number) =>
    plates(
      { at, edge: 'bottom', distance, foot: { width: 20, height: 20 }, holes: { layout: 'single', drill: 6 } },
      { at: 270, foot: { width: 9, height: 9 } },
      { beds: { width: 90, depth: 2 } },
    );
  test.each([
    [0, 12, 'silent'],
    [0, 11.9, 'stop'],
    [180, 11.9, 'stop'],
    [90, 11.9, 'silent'],
    [54.9 / perDeg, 11.9, 'stop'],
    [55.2 / perDeg, 11.9, 'silent'],
    [360 - 54.9 / perDeg, 11.9, 'stop'],
  ])('a foot at %s deg, %s mm up: %s', (at, d, want) => expect(level(low(at, d), 'foot-in-bed')).toBe(want));
  test.each([
    [5, 'silent'],
    [4.9, 'stop'],
  ])('a hole of 6, %s mm up: %s', (d, want) => expect(level(low(0, d), 'hole-in-bed')).toBe(want));
});

describe('holes', () => {
  const hole = { holes: { layout: 'single', drill: 8 } };
  test.each([
    [7.9, 'stop', 'silent'],
    [8.1, 'silent', 'care'],
    [10.9, 'silent', 'care'],
    [11, 'silent', 'silent'],
  ])('two of 8 mm, %s mm apart', (distance, overlap, close) => {
    const raw = plates(hole, { ...hole, distance });
    expect(level(raw, 'holes-overlap')).toBe(overlap);
    expect(level(raw, 'holes-close')).toBe(close);
  });
  test.each([
    [22, 'silent'],
    [22.1, 'stop'],
  ])('two holes of 8 in a foot 30 high, %s mm apart: %s', (spacing, want) => {
    const raw = plates(
      { foot: { width: 20, height: 30 }, holes: { layout: 'upright', spacing, drill: 8 } },
      { at: 270, foot: { width: 9, height: 9 } },
    );
    expect(level(raw, 'hole-outside-foot')).toBe(want);
  });
  test('a hole in the rounded corner of a foot lies outside it', () => {
    const points = { holes: { layout: 'points', points: [{ across: 6, upright: 11 }], drill: 6 } };
    const other = { at: 270, foot: { width: 9, height: 9 } };
    expect(level(plates({ ...points, foot: { width: 20, height: 30 } }, other), 'hole-outside-foot')).toBe('silent');
    expect(level(plates({ ...points, foot: { width: 20, height: 30, corner: 10 } }, other), 'hole-outside-foot')).toBe(
      'stop',
    );
  });

  const old = (holes: Raw[], drill = 8) =>
    plates(
      { holes: { layout: 'single', drill }, foot: { width: 24, height: 24 } },
      { at: 270, foot: { width: 9, height: 9 } },
      { shell: { diameter: 2 * R, depth: 150, wall: 6.6, holes } },
    );
  const at = (distance: number, diameter: number): Raw => ({ at: 90, edge: 'middle', distance, diameter });
  test('an old hole is an obstacle, or reused, swallowed, covered, shown or open', () => {
    expect(level(old([at(5, 6)]), 'hole-into-old-hole')).toBe('stop');
    expect(level(old([at(0, 8)]), 'old-hole-reused')).toBe('note');
    expect(level(old([at(0.2, 7.9)]), 'old-hole-reused')).toBe('note');
    expect(level(old([at(1, 5)]), 'old-hole-reused')).toBe('note');
    expect(level(old([at(0, 12)]), 'old-hole-wider')).toBe('care');
    expect(level(old([at(9.5, 4)]), 'old-hole-covered')).toBe('note');
    expect(level(old([at(11, 4)]), 'old-hole-shows')).toBe('care');
    expect(level(old([at(40, 4)]), 'old-hole-open')).toBe('care');
    expect(level(old([at(0, 8)]), 'hole-into-old-hole')).toBe('silent');
  });

  test('joints, ring edges and ring joints', () => {
    const joint = (off: number) =>
      plates(
        hole,
        { at: 270, foot: { width: 9, height: 9 } },
        { shell: { diameter: 2 * R, depth: 150, wall: 6.6, joints: [90 + off / perDeg] } },
      );
    expect(level(joint(3.9), 'hole-on-joint')).toBe('care');
    expect(level(joint(4.1), 'hole-on-joint')).toBe('silent');
    const ring = (width: number, more: Raw = {}) =>
      plates(
        hole,
        { at: 270, foot: { width: 9, height: 9 } },
        { shell: { diameter: 2 * R, depth: 150, wall: 6.6, rings: { bottom: { width, thickness: 4, ...more } } } },
      );
    expect(level(ring(71.1), 'hole-on-ring-edge')).toBe('care');
    expect(level(ring(70.9), 'hole-on-ring-edge')).toBe('silent');
    expect(level(ring(100, { joint: 91 }), 'hole-on-ring-joint')).toBe('care');
    expect(level(ring(40, { joint: 91 }), 'hole-on-ring-joint')).toBe('silent');
  });
});

describe('strainer and butt', () => {
  const snare = (strainer: Raw, butt: Raw, more: Raw = {}): Raw =>
    plates(
      {
        name: 'strainer',
        role: 'strainer',
        at: 0,
        edge: 'bottom',
        distance: 40,
        foot: { width: 20, height: 30 },
        ...strainer,
      },
      { name: 'butt', role: 'butt', at: 180, edge: 'bottom', distance: 40, foot: { width: 20, height: 30 }, ...butt },
      { beds: { width: 90, depth: 2 }, ...more },
    );
  test.each([
    [180, 'silent'],
    [181, 'silent'],
    [181.1, 'stop'],
    [178.9, 'stop'],
    [170, 'stop'],
    [0, 'stop'],
  ])('butt at %s: %s', (at, want) => expect(level(snare({}, { at }), 'butt-not-opposite')).toBe(want));
  test('a strap off the screw line is what must be opposite', () => {
    // 10 mm across on R 163.7 lie asin(10 / 163.7) = 3.502 deg to the right.
    const off = { 'snare-line': 10 };
    expect(level(snare(off, {}), 'strap-askew')).toBe('care');
    expect(level(snare(off, {}), 'butt-not-opposite')).toBe('silent');
    expect(level(snare(off, { at: 183.502 }), 'strap-askew')).toBe('silent');
  });
  test.each([
    ['bottom', 40, 'silent'],
    ['bottom', 90, 'silent'],
    ['bottom', 90.1, 'stop'],
    ['top', 40, 'stop'],
    ['top', 75, 'silent'],
    ['middle', 0, 'silent'],
    ['middle', 30, 'stop'],
  ])('strainer %s mm… from the %s edge', (edge, distance, want) =>
    expect(level(snare({ edge, distance }, {}), 'strainer-not-at-snare-edge')).toBe(want),
  );
  // The flat middle half of a 90 mm bed ends 22.5 mm from its middle: 7.875 deg.
  test.each([
    [22.4 / perDeg, 'silent'],
    [22.6 / perDeg, 'stop'],
    [-22.6 / perDeg, 'stop'],
    [90, 'stop'],
    [180, 'silent'],
  ])('strainer at %s deg on its bed: %s', (at, want) =>
    expect(level(snare({ at }, {}), 'strainer-off-bed')).toBe(want),
  );
  test('two strainers may face each other', () => {
    const ids = factsOf(snare({}, { role: 'strainer' })).filter((f) => f.level === 'stop');
    expect(ids).toEqual([]);
  });
  test('wires against the shell', () => {
    const wires = (length: number) => snare({}, {}, { snare: { length } });
    expect(level(wires(327.5), 'snare-longer-than-shell')).toBe('stop');
    expect(level(wires(327.3), 'snare-longer-than-shell')).toBe('silent');
    expect(level(wires(321), 'snare-long')).toBe('care');
    expect(level(wires(300), 'snare-long')).toBe('silent');
  });
});

describe('shell and head', () => {
  const shell = (more: Raw): Raw => ({
    jig: 1,
    name: 'Head',
    shell: { diameter: 327.4, depth: 150, wall: 6.6, nominal: '13 in', ...more },
    fittings: [{ role: 'vent', at: 0, edge: 'middle', distance: 0, holes: { layout: 'single', drill: 10 } }],
  });
  // 13 in = 330.2 mm.
  test.each([
    [330.3, 'shell-too-large', 'stop'],
    [330.2, 'shell-too-large', 'silent'],
    [330.2, 'shell-tight', 'care'],
    [329.1, 'shell-tight', 'silent'],
    [325.6, 'shell-loose', 'care'],
    [325.8, 'shell-loose', 'silent'],
    [324.4, 'shell-too-small', 'stop'],
    [324.6, 'shell-too-small', 'silent'],
  ])('%s mm: %s %s', (diameter, id, want) => expect(level(shell({ diameter }), id)).toBe(want));

  // A sound shell of 327.4 has a girth of 1028.56; a slip of the tape moves it by 10 or 25.4 mm.
  test.each([
    [10, 'one centimetre too long'],
    [-10, 'one centimetre too short'],
    [25.4, 'one inch too long'],
    [-25.4, 'one inch too short'],
  ])('a girth misread by %s mm is named', (slip, want) => {
    const facts = factsOf(shell({ diameter: 327.4 + slip / Math.PI }));
    const f = facts.find((x) => x.level === 'stop');
    expect(String(f?.facts?.['misread'])).toContain(want);
  });
  test('edges, roundness, squareness, batch', () => {
    expect(level(shell({ edges: 'uncut' }), 'edges-uncut')).toBe('care');
    expect(level(shell({ round: 1 }), 'out-of-round')).toBe('silent');
    expect(level(shell({ round: 1.1 }), 'out-of-round')).toBe('care');
    expect(level(shell({ square: 1.1 }), 'out-of-square')).toBe('care');
    expect(level({ ...shell({}), batch: { girth: [1030, 1040], count: 3 } }, 'shell-outside-batch')).toBe('care');
    expect(level({ ...shell({}), batch: { girth: [1025, 1040], count: 3 } }, 'shell-outside-batch')).toBe('silent');
  });
  test('seasons: plain-sawn maple staves from 60 % to 35 % shrink, ply hardly', () => {
    const climate = { workshop: { temperature: 16, humidity: 60 }, home: { temperature: 21, humidity: 35 } };
    const of = (build: string) => found({ ...shell({ build, wood: 'sugar-maple' }), climate }, 'season-movement');
    // Wood Handbook table 4-2: 11.1 % at 60 deg F and 60 %, 6.8…7.0 % at 70 deg F and 35 %; C_T 0.00353, C_R 0.00165.
    expect(Number(of('stave')?.facts?.['from'])).toBeCloseTo(11.1, 1);
    expect(Number(of('stave')?.facts?.['to'])).toBeGreaterThan(6.7);
    expect(Number(of('stave')?.facts?.['to'])).toBeLessThan(7.1);
    expect(Math.abs(Number(of('stave')?.measured))).toBeGreaterThan(5);
    expect(Math.abs(Number(of('ply')?.measured))).toBeLessThan(1.5);
    expect(
      found({ ...shell({ build: 'stave', wood: 'sugar-maple', diameter: 325.9 }), climate }, 'season-head-floats')
        ?.level,
    ).toBe('care');
  });
});

describe('a flat foot on a round shell', () => {
  // 163.7 - sqrt(163.7^2 - 15^2) = 0.6887 mm open at the sides of a foot 30 wide.
  const flat = (gasket: number, face: string) =>
    plates({ foot: { width: 30, height: 40, gasket, face } }, { at: 270, foot: { width: 9, height: 9 } });
  test('rocks by what the shell drops over half its width, less what the gasket gives', () => {
    expect(found(flat(1, 'flat'), 'foot-rocks')?.measured).toBeCloseTo(0.6887, 4);
    expect(level(flat(1.3, 'flat'), 'foot-rocks')).toBe('care');
    expect(level(flat(1.4, 'flat'), 'foot-rocks')).toBe('silent');
    expect(level(flat(0, 'curved'), 'foot-rocks')).toBe('silent');
  });
});
