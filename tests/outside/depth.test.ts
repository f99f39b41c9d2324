import { describe, expect, test } from 'vitest';
import { completeTool } from '../../src/data/tools.ts';
import type { Jig, Shell } from '../../src/model/jig.ts';
import type { Hole, Layout } from '../../src/model/layout.ts';
import { type Bore, boreSteps, boreTaper, chordsFor } from '../../src/rotary/bore.ts';
import { fullDepth, insideAt, leadOf, saddle, showingDepth, throughDepth } from '../../src/rotary/depth.ts';
import { breaksEdge, edgePath, edgeSteps } from '../../src/rotary/edge.ts';
import { depthOf } from '../../src/rotary/stroke.ts';
import type { Step } from '../../src/rotary/types.ts';

describe('right triangles in whole numbers: a shell 65 out, 50 and 39 in', () => {
  // 39-52-65, 30-40-50, 14-48-50, 15-36-39.
  test('a rim of radius 30 is through a wall of 15 when it is 25 down, wherever the 30 comes from', () => {
    expect(throughDepth(65, 50, 30)).toBeCloseTo(25, 12);
    expect(throughDepth(65, 50, 10, 20)).toBeCloseTo(25, 12);
    expect(throughDepth(65, 50, 10, -20)).toBeCloseTo(25, 12);
    expect(throughDepth(65, 39, 15)).toBeCloseTo(29, 12);
  });

  test('39 beside the crown the skin lies 13 lower', () => {
    expect(saddle(65, 39)).toBeCloseTo(13, 12);
    expect(saddle(65, 0)).toBe(0);
  });

  test('full depth adds lead, runout and half a millimetre; a showing point is less than all of these', () => {
    const tool = completeTool({ id: 1, kind: 'brad-point', diameter: 20, lead: 4 });
    const input = { radius: 65, inside: 50, hole: 10, tool, y: 20, runout: 0.3 };
    expect(fullDepth(input)).toBeCloseTo(25 + 4 + 0.3 + 0.5, 12);
    // The axis itself, 14 beside: 48 of 50; the point shows 0.8, or half of what it leads if that is less.
    expect(showingDepth({ ...input, y: 14 })).toBeCloseTo(17 + 0.3 + 0.8, 12);
    expect(showingDepth({ ...input, y: 14, tool: { ...tool, lead: 1 } })).toBeCloseTo(17 + 0.3 + 0.5, 12);
  });
});

describe('how far the tip leads', () => {
  test.each([
    // A point of 90 deg leads by the radius, one of 60 deg by radius times root 3, of 118 deg by 0.3004 of the diameter.
    [{ kind: 'v-bit', diameter: 6, point: 90 }, 3],
    [{ kind: 'twist', diameter: 6, point: 60 }, 3 * Math.sqrt(3)],
    [{ kind: 'twist', diameter: 10 }, 3.0043],
    [{ kind: 'v-bit', diameter: 10 }, 5],
    [{ kind: 'stepped', diameter: 10 }, 3.0043],
    [{ kind: 'stepped', diameter: 10, point: 90 }, 5],
    [{ kind: 'stepped', diameter: 10, step: { diameter: 4, length: 7 } }, 7],
    [{ kind: 'spur', diameter: 10, lead: 1.5 }, 1.5],
    [{ kind: 'end-mill', diameter: 3, lead: 1.5 }, 0],
  ] as const)('%o: %d', (tool, lead) => {
    // Bare, as a builder's own list may give it: no point and no lead filled in.
    expect(leadOf({ id: 1, ...tool } as never)).toBeCloseTo(lead, 4);
  });

  test('a brad point of unknown lead leads by nothing', () => {
    expect(leadOf({ id: 1, kind: 'brad-point', diameter: 6 } as never)).toBe(0);
  });
});

describe('a reinforcement ring where the hole meets it', () => {
  const shell = {
    depth: 150,
    inside: 100,
    rings: { top: { width: 30, thickness: 5 }, bottom: { width: 20, thickness: 3 } },
  };
  const at = (height: number, s: object = shell) => insideAt({ ...shell, ...s } as Shell, { height, drill: 6 });

  test.each([
    // Hole of 6: its rim touches the top ring's edge (120) from 117, the bottom ring's (20) from 23; touching is not meeting.
    [75, 100],
    [117, 100],
    [117.001, 95],
    [140, 95],
    [23, 100],
    [22.999, 97],
    [5, 97],
  ])('at %d the inside is %d', (height, inside) => {
    expect(at(height)).toBe(inside);
  });

  test('both rings at once: the thicker; none: the shell', () => {
    const wide = { rings: { top: { width: 80, thickness: 5 }, bottom: { width: 80, thickness: 3 } } };
    expect(at(75, wide)).toBe(95);
    expect(at(140, { rings: {} })).toBe(100);
    expect(at(5, { rings: {} })).toBe(100);
  });
});

describe('how deep each visit goes', () => {
  // Only what a depth comes from: the triangles above.
  const of = (
    c: { kind: string; tool: object },
    more: { y?: number; backing?: number; unbacked?: 'two-sided'; hole?: object } = {},
  ) =>
    depthOf(
      {
        shell: { inside: 50, depth: 150, rings: {} },
        rotary: { backing: more.backing ?? 12, runout: 0.5 },
      } as unknown as Jig,
      { radius: 65 } as Layout,
      { height: 75, drill: 60, ...more.hole } as Hole,
      { because: '', ...c } as never,
      more.y ?? 0,
      (more.unbacked ? { unbacked: more.unbacked } : {}) as never,
    );
  const spur = { id: 1, kind: 'spur', diameter: 60, lead: 4 };

  test('drilled: the bit; bored: the hole', () => {
    expect(of({ kind: 'drill', tool: { id: 1, kind: 'end-mill', diameter: 60 } })).toBeCloseTo(26, 12);
    expect(of({ kind: 'drill', tool: { id: 1, kind: 'end-mill', diameter: 28 } })).toBeCloseTo(17 + 1, 12);
    expect(of({ kind: 'bore', tool: { id: 1, kind: 'end-mill', diameter: 6 } })).toBeCloseTo(26, 12);
  });

  test('from both sides only unbacked, only when asked, only by what has a spur', () => {
    // Axis: 15 of wall, and the point 0.8 beyond.
    const shows = 15 + 0.5 + 0.8;
    const through = 25 + 4 + 0.5 + 0.5;
    const brad = { ...spur, kind: 'brad-point' };
    expect(of({ kind: 'drill', tool: spur }, { backing: 0, unbacked: 'two-sided' })).toBeCloseTo(shows, 12);
    expect(of({ kind: 'drill', tool: brad }, { backing: 0, unbacked: 'two-sided' })).toBeCloseTo(shows, 12);
    expect(of({ kind: 'drill', tool: spur }, { unbacked: 'two-sided' })).toBeCloseTo(through, 12);
    expect(of({ kind: 'drill', tool: spur }, { backing: 0 })).toBeCloseTo(through, 12);
    const twist = { id: 1, kind: 'twist', diameter: 60, point: 90 };
    expect(of({ kind: 'drill', tool: twist }, { backing: 0, unbacked: 'two-sided' })).toBeCloseTo(56, 12);
  });

  test('a mark: a millimetre at the lowest spot, lower beside the axis, never wider than eight tenths', () => {
    const v = { id: 1, kind: 'v-bit', diameter: 6, point: 90 };
    expect(of({ kind: 'centre-mark', tool: v })).toBeCloseTo(1.5, 12);
    expect(of({ kind: 'centre-mark', tool: v }, { y: 39 })).toBeCloseTo(13 + 1.5, 12);
    // A hole of 3 leaves a mark of 2.4: at 90 deg 1.2 deep, at 60 deg 1.2 root 3, which is more than 1.5.
    expect(of({ kind: 'centre-mark', tool: v }, { hole: { drill: 3 } })).toBeCloseTo(1.2, 12);
    expect(of({ kind: 'centre-mark', tool: { ...v, point: undefined } }, { hole: { drill: 3 } })).toBeCloseTo(1.2, 12);
    expect(of({ kind: 'centre-mark', tool: { ...v, point: 60 } }, { hole: { drill: 3 } })).toBeCloseTo(1.5, 12);
    expect(of({ kind: 'centre-mark', tool: v }, { hole: { drill: 6, pilot: 3 } })).toBeCloseTo(1.2, 12);
  });

  test('an edge of 90 deg, half a millimetre wide, the tip a millimetre inside it: 1.5 below the lowest of the skin', () => {
    const v = { id: 1, kind: 'v-bit', diameter: 6, point: 90 };
    expect(of({ kind: 'edge-break', tool: v }, { hole: { drill: 78 } })).toBeCloseTo(1.5 + 13, 12);
    // A hole of 1 is broken from its middle: half of it and half a millimetre deep.
    expect(of({ kind: 'edge-break', tool: v }, { hole: { drill: 1 } })).toBeCloseTo(
      1 + 65 - Math.sqrt(65 ** 2 - 0.25),
      12,
    );
  });
});

/** Where the tip stands after each step, skin turned back to millimetres across. */
function walked(steps: readonly Step[], from: { x: number; y: number; z: number; a: number }) {
  let at = from;
  return steps.map((s) => {
    if ('to' in s) at = { ...at, ...s.to };
    return { ...at, step: s };
  });
}

describe('boring', () => {
  const bore: Bore = {
    x: 40,
    y: 0,
    a: 90,
    hole: 10,
    mill: 4,
    approach: 1,
    bottom: -9,
    clearance: 8,
    pitch: 2.5,
    feed: 600,
  };
  const home = { x: 40, y: 0, z: 8, a: 90 };

  test('taper: 2 (10 - 4) (1 - 120 / 160) = 3', () => {
    expect(boreTaper(10, 4, 160, 120)).toBe(3);
  });

  test('chords: a sagitta of r (1 - cos 15 deg) takes twelve, a little less thirteen; never fewer than eight', () => {
    const sagitta = 1 - Math.cos(Math.PI / 12);
    expect(chordsFor(1, sagitta * (1 + 1e-9))).toBe(12);
    expect(chordsFor(1, sagitta * (1 - 1e-9))).toBe(13);
    expect(chordsFor(100, 100 * sagitta * (1 + 1e-9))).toBe(12);
    expect(chordsFor(0.01, 5)).toBe(8);
    expect(chordsFor(3, 2.9)).toBe(8);
  });

  test('with Y: two rings, each down by no more than the pitch, a level turn, and back to the middle', () => {
    // Orbit 6 in steps under 0.9 x 4: rings at 3 and 6. From 1 to -9 at 2.5 a turn: four turns, then one level.
    const spots = walked(boreSteps(bore, { by: 'y' }), home);
    const fed = spots.filter((s) => s.step.kind === 'feed');
    const radii = fed.map((s) => Math.hypot(s.x - 40, s.y));
    for (const orbit of [3, 6]) {
      const ring = fed.filter((_, i) => Math.abs(radii[i]! - orbit) < 1e-9);
      const chords = chordsFor(orbit, 0.01);
      // The way in, four turns down and one level.
      expect(ring).toHaveLength(1 + 5 * chords);
      expect(ring[0]).toMatchObject({ x: 40 + orbit, y: 0, z: 1 });
      ring.forEach((s, i) => {
        const phi = Math.atan2(s.y, s.x - 40);
        expect(Math.cos(phi - (2 * Math.PI * i) / chords)).toBeCloseTo(1, 12);
        // Down evenly: 10 mm over four turns.
        expect(s.z).toBeCloseTo(Math.max(-9, 1 - (2.5 * i) / chords), 9);
        // The wall goes at 600 where the middle of the mill goes at 600 orbit / (orbit + 4).
        expect(s.step).toMatchObject({ feed: (600 * orbit) / (orbit + 4) });
      });
    }
    expect(Math.max(...radii)).toBeCloseTo(6, 12);
    // Each ring begins with a rapid to the approach from the middle and ends in the middle at the bottom.
    expect(spots.filter((s) => s.step.kind === 'rapid').map((s) => [s.x, s.y, s.z])).toEqual([
      [40, 0, 1],
      [40, 0, 1],
      [40, 0, 8],
    ]);
    const ends = fed.filter((_, i) => radii[i]! < 1e-9);
    expect(ends.map((s) => s.z)).toEqual([-9, -9]);
    expect(spots.at(-2)).toMatchObject({ x: 40, y: 0, z: -9 });
  });

  test('with Y on a machine that knows arcs: a circle for each turn, down by the pitch, the last one level', () => {
    const steps = boreSteps(bore, { by: 'y', arcs: true });
    for (const orbit of [3, 6])
      expect(steps.filter((s) => s.kind === 'circle' && s.orbit === orbit)).toEqual(
        [-1.5, -4, -6.5, -9, -9].map((z) => ({
          kind: 'circle',
          x: 40,
          y: 0,
          orbit,
          z: expect.closeTo(z, 9),
          feed: (600 * orbit) / (orbit + 4),
        })),
      );
    expect(steps.filter((s) => s.kind === 'feed').map((s) => [s.to.x, s.to.z])).toEqual([
      [43, 1],
      [40, -9],
      [46, 1],
      [40, -9],
    ]);
  });

  test('a hole off the axis: the same about its own middle', () => {
    const there = walked(boreSteps({ ...bore, y: 5 }, { by: 'y' }), { ...home, y: 5 });
    const here = walked(boreSteps(bore, { by: 'y' }), home);
    expect(there.map((s) => [s.x, s.y, s.z])).toEqual(here.map((s) => [s.x, s.y + 5, s.z]));
  });

  test('a step less than the mill leaves no core: orbit 3.6 in one ring, more in two; a shallow hole has one turn', () => {
    const ways = (hole: number, more: Partial<Bore> = {}) =>
      boreSteps({ ...bore, hole, ...more }, { by: 'y' }).filter((s) => s.kind === 'rapid').length - 1;
    expect(ways(7.6)).toBe(1);
    expect(ways(7.601)).toBe(2);
    const shallow = boreSteps({ ...bore, hole: 7, approach: 1, bottom: 0.5 }, { by: 'y' });
    expect(shallow.filter((s) => s.kind === 'feed')).toHaveLength(2 + 2 * chordsFor(3, 0.01));
  });

  test.each([1, -1] as const)(
    'by A, wired %d: the same circle on the skin it is sized for, turned against + Y',
    (sign) => {
      const way = { by: 'a', radius: 120, outside: 160, sign } as const;
      const spots = walked(boreSteps(bore, way), home);
      const flat = walked(boreSteps(bore, { by: 'y' }), home);
      expect(spots).toHaveLength(flat.length);
      spots.forEach((s, i) => {
        expect(s.x).toBeCloseTo(flat[i]!.x, 12);
        expect(s.z).toBeCloseTo(flat[i]!.z, 12);
        // Work at + Y lies at the smaller angle.
        expect(-sign * ((s.a - 90) * Math.PI * 120)).toBeCloseTo(180 * flat[i]!.y, 9);
        expect(s.step.kind).toBe(flat[i]!.step.kind === 'feed' ? 'timed' : 'rapid');
        if (s.step.kind !== 'timed') return;
        const before = spots[i - 1]!;
        // In 1 / rate minutes the outside skin goes its way at the feed of its ring.
        const way = Math.hypot(s.x - before.x, ((s.a - before.a) * Math.PI * 160) / 180, s.z - before.z);
        const flatFeed = flat[i]!.step.kind === 'feed' ? flat[i]!.step.feed : 0;
        expect(s.step.rate * way).toBeCloseTo(flatFeed, 6);
      });
    },
  );
});

describe('breaking an edge', () => {
  const v = completeTool({ id: 1, kind: 'v-bit', diameter: 6, point: 90 });
  const edge = { x: 40, a: 90, hole: 39, radius: 65, tool: v, approach: 1, clearance: 8, feed: 380 };
  const home = { x: 40, y: 0, z: 8, a: 90 };

  test('the tip runs a millimetre inside the edge, as deep as the cone asks', () => {
    expect(edgePath(39, v).orbit).toBe(38);
    expect(edgePath(39, v).below).toBeCloseTo(1.5, 12);
    expect(edgePath(39, { ...v, point: 60 }).below).toBeCloseTo(1.5 * Math.sqrt(3), 12);
    // A hole smaller than that is broken from its middle: 0.6 and half a millimetre.
    expect(edgePath(0.6, v).orbit).toBe(0);
    expect(edgePath(0.6, v).below).toBeCloseTo(1.1, 12);
    const bare = { id: 1, kind: 'v-bit', diameter: 6 } as never;
    expect(edgePath(39, bare).below).toBeCloseTo(1.5, 12);
  });

  test('a cone of 3 is just wide enough at the skin; 2.9 is not, and no other bit will do', () => {
    expect(breaksEdge(39, { ...v, diameter: 3 })).toBe(true);
    expect(breaksEdge(39, { ...v, diameter: 2.9 })).toBe(false);
    expect(breaksEdge(39, { ...v, kind: 'twist' })).toBe(false);
  });

  test('a small hole: straight down and up', () => {
    expect(edgeSteps({ ...edge, hole: 0.5 }, { by: 'y' })).toEqual([
      { kind: 'rapid', to: { z: 1 } },
      { kind: 'feed', to: { z: expect.closeTo(-1, 12) }, feed: 380 },
      { kind: 'rapid', to: { z: 8 } },
    ]);
  });

  test('with Y: down in the middle, out, once round along the saddle, back in and up', () => {
    const spots = walked(edgeSteps(edge, { by: 'y' }), home);
    const chords = chordsFor(38, 0.01);
    const round = spots.slice(2, 3 + chords);
    expect(spots.map((s) => s.step.kind)).toEqual(['rapid', ...Array(chords + 3).fill('feed'), 'rapid']);
    expect(spots.filter((s) => s.step.kind === 'feed').every((s) => 'feed' in s.step && s.step.feed === 380)).toBe(
      true,
    );
    expect([spots[0]!.z, spots[1]!.x, spots[1]!.y, spots[1]!.z]).toEqual(
      [1, 40, 0, -1.5].map((n) => expect.closeTo(n, 9)),
    );
    round.forEach((s, i) => {
      const phi = (2 * Math.PI * i) / chords;
      expect(s.x).toBeCloseTo(40 + 38 * Math.cos(phi), 9);
      expect(s.y).toBeCloseTo(38 * Math.sin(phi), 9);
      // The edge above the tip lies 39 sin phi off the axis, on the skin x^2 + y^2 = 65^2.
      const skin = 65 + s.z + 1.5;
      expect(skin ** 2 + (39 * Math.sin(phi)) ** 2).toBeCloseTo(65 ** 2, 6);
    });
    // Back where it began: the round is closed to the last bit.
    expect(round.at(-1)).toMatchObject({ x: round[0]!.x, y: round[0]!.y, z: round[0]!.z });
    expect(spots.at(-2)).toMatchObject({ x: 40, y: 0 });
    expect(spots.at(-2)!.z).toBeCloseTo(-1.5, 9);
    expect(spots.at(-1)).toMatchObject({ x: 40, y: 0, z: 8 });
  });

  test.each([1, -1] as const)('by A, wired %d: one height all round, each chord in its own time', (sign) => {
    const spots = walked(edgeSteps(edge, { by: 'a', radius: 50, outside: 65, sign }), home);
    const chords = chordsFor(38, 0.01);
    expect(spots.map((s) => s.step.kind)).toEqual(['rapid', 'feed', ...Array(chords + 2).fill('timed'), 'rapid']);
    const flat = spots.map((s) => ({ ...s, y: (-sign * (s.a - 90) * Math.PI * 65) / 180 }));
    const round = flat.slice(2, 3 + chords);
    round.forEach((s, i) => {
      const phi = (2 * Math.PI * i) / chords;
      expect(s.x).toBeCloseTo(40 + 38 * Math.cos(phi), 9);
      expect(s.y).toBeCloseTo(38 * Math.sin(phi), 9);
      expect(s.z).toBeCloseTo(-1.5, 9);
      // 380 mm/min: the 38 out take a tenth of a minute; a stretch of the round its own part of 2 pi 38.
      const rate = 'rate' in s.step ? s.step.rate : 0;
      expect(rate).toBeCloseTo(i === 0 ? 10 : (10 * chords) / (2 * Math.PI), 6);
    });
    expect(flat.at(-2)).toMatchObject({ x: 40, a: 90 });
    expect(flat.at(-2)!.z).toBeCloseTo(-1.5, 9);
    expect(flat.at(-2)!.step).toMatchObject({ rate: 10 });
  });
});
