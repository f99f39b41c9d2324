import Module from 'manifold-3d';
import { beforeAll, describe, expect, test } from 'vitest';
import { completeTool } from '../../src/data/tools.ts';
import type { DryRunContext } from '../../src/dryrun/context.ts';
import { dryRun } from '../../src/dryrun/dry-run.ts';
import { interpret } from '../../src/dryrun/interpret.ts';
import { inspect } from '../../src/dryrun/measure.ts';
import { removal } from '../../src/dryrun/removal.ts';
import type { Tool } from '../../src/model/machine.ts';
import type { Move } from '../../src/model/move.ts';
import { context, MACHINE, SHELL, soundProgram } from '../helpers/drill-program.ts';

const { radius: R, inside: RI, wall: WALL } = SHELL;

/** Simpson's rule. */
function integral(f: (x: number) => number, from: number, to: number, parts = 2000): number {
  const h = (to - from) / parts;
  let sum = f(from) + f(to);
  for (let i = 1; i < parts; i++) sum += f(from + i * h) * (i % 2 === 1 ? 4 : 2);
  return (sum * h) / 3;
}

/**
 * Wood between two cylinders that a cylinder of radius r across them takes out, straight from the definition:
 * the chord 2 sqrt(r^2 - y^2) times the way through the wall, sqrt(R^2 - y^2) - sqrt(Ri^2 - y^2); y = c + r sin t makes
 * the integrand smooth. `c`: axis beside the shell's.
 */
const bored = (r: number, c = 0): number =>
  integral(
    (t) => {
      const y = c + r * Math.sin(t);
      return 2 * r * r * Math.cos(t) ** 2 * (Math.sqrt(R * R - y * y) - Math.sqrt(RI * RI - y * y));
    },
    -Math.PI / 2,
    Math.PI / 2,
  );

/** Wood above a surface of revolution floor(r) below Z0, inside the wall; polar round the tool's axis. */
const dug = (rMax: number, floor: (r: number) => number): number =>
  integral(
    (r) =>
      r *
      integral(
        (phi) => {
          const y = r * Math.sin(phi);
          const outer = R - Math.sqrt(R * R - y * y);
          const inner = R - Math.sqrt(RI * RI - y * y);
          return Math.max(0, Math.min(inner, floor(r)) - outer);
        },
        0,
        2 * Math.PI,
        64,
      ),
    0,
    rMax,
    400,
  );

function moves(lines: readonly string[]): Move[] {
  return [...interpret(['G21 G17 G90 G94 G98 F100', ...lines, 'M2'], MACHINE)].filter(
    (m): m is Move => m.kind !== 'problem',
  );
}

const withTool = (tool: Tool, over: Partial<DryRunContext> = {}): DryRunContext => context({ tools: [tool], ...over });
const drill = (tool: Tool, z: number, y = 0): string[] => [
  `T${tool.id} M6`,
  'S1000 M3',
  'G0 Z40',
  `G0 X70 Y${y} A30`,
  'G0 Z1',
  `G1 Z${-z}`,
  'G0 Z40',
];

describe('one hole against the integral', () => {
  test.each([1.25, 2.5, 3, 5.5, 8, 12.7])('a straight bit of radius %s, right through', (r) => {
    const tool = completeTool({ id: 1, kind: 'end-mill', diameter: 2 * r });
    const gone = removal(moves(drill(tool, 12)), withTool(tool));
    expect(gone.volume / bored(r)).toBeCloseTo(1, 6);
  });

  test('beside the axis: the hole is longer', () => {
    const tool = completeTool({ id: 1, kind: 'end-mill', diameter: 6 });
    const gone = removal(moves(drill(tool, 16, 20)), withTool(tool));
    expect(gone.volume / bored(3, 20)).toBeCloseTo(1, 6);
    const [hole] = inspect(gone, withTool(tool).layout);
    // Parallel to the radius at A 30, 20 mm to the clockwise side: asin(20 / R).
    expect(hole!.entrance!.angle_deg).toBeCloseTo(30 - (Math.asin(20 / R) * 180) / Math.PI, 2);
    // It leans by that angle as well, and its exit walks.
    expect(hole!.lean_deg).toBeCloseTo((Math.asin(20 / R) * 180) / Math.PI, 1);
  });

  test.each([
    [
      'twist',
      { kind: 'twist', diameter: 6, point: 118 },
      (r: number) => (r > 3 ? 0 : -r / Math.tan((59 * Math.PI) / 180)),
    ],
    ['brad point', { kind: 'brad-point', diameter: 8, lead: 1.6 }, (r: number) => (r > 4 ? 0 : -1.6)],
    ['V bit', { kind: 'v-bit', diameter: 6, point: 90 }, (r: number) => -r],
    [
      'stepped',
      { kind: 'stepped', diameter: 7, step: { diameter: 3, length: 2 } },
      (r: number) => (r > 1.5 ? -2 : -r / Math.tan((59 * Math.PI) / 180)),
    ],
    ['end mill', { kind: 'end-mill', diameter: 6 }, () => 0],
  ] as const)('a blind hole of a %s bit', (_, words, lead) => {
    const tool = completeTool({ id: 1, ...words });
    // The shoulder of a stepped bit falls inside a slab: thinner slabs follow it.
    const options = words.kind === 'stepped' ? { layers: 256 } : {};
    for (const depth of [2.2, 3.3, 5]) {
      const gone = removal(moves(drill(tool, depth)), withTool(tool), options);
      const exact = dug(tool.diameter / 2, (r) => depth + lead(r));
      expect(Math.abs(gone.volume / exact - 1), `depth ${depth}`).toBeLessThan(0.004);
      expect(inspect(gone, withTool(tool).layout)[0]!.exit).toBeNull();
    }
  });

  test('a finer grid comes nearer', () => {
    const tool = completeTool({ id: 1, kind: 'twist', diameter: 6 });
    const exact = dug(3, (r) => 5 - r / Math.tan((59 * Math.PI) / 180));
    const error = (grid: number, layers: number): number =>
      Math.abs(removal(moves(drill(tool, 5)), withTool(tool), { grid, layers }).volume / exact - 1);
    expect(error(0.01, 256)).toBeLessThan(error(0.2, 8));
    expect(error(0.01, 256)).toBeLessThan(0.0005);
  });

  test('what an old hole has taken is not taken again', () => {
    const tool = completeTool({ id: 1, kind: 'end-mill', diameter: 8 });
    const shell = { ...SHELL, holes: [{ angle: 30, height: 70, diameter: 5 }] };
    const gone = removal(moves(drill(tool, 12)), withTool(tool, { shell }));
    expect(gone.volume / (bored(4) - bored(2.5))).toBeCloseTo(1, 3);
    // A hole inside an old one takes nothing, and one elsewhere does not see it.
    const wide = { ...SHELL, holes: [{ angle: 30, height: 70, diameter: 9 }] };
    expect(removal(moves(drill(tool, 12)), withTool(tool, { shell: wide })).volume).toBeCloseTo(0, 9);
    const far = { ...SHELL, holes: [{ angle: 90, height: 70, diameter: 9 }] };
    expect(removal(moves(drill(tool, 12)), withTool(tool, { shell: far })).volume / bored(4)).toBeCloseTo(1, 6);
  });

  test('drilling air, the same hole twice, or a pilot first takes no more wood', () => {
    const tool = completeTool({ id: 1, kind: 'twist', diameter: 6 });
    const pilot = completeTool({ id: 2, kind: 'twist', diameter: 2.5 });
    const c = context({ tools: [tool, pilot] });
    const once = removal(moves(drill(tool, 12)), c).volume;
    expect(removal(moves([...drill(tool, 12), ...drill(tool, 12)]), c).volume).toBe(once);
    expect(removal(moves([...drill(pilot, 12), ...drill(tool, 12)]), c).volume / once).toBeCloseTo(1, 4);
    expect(removal(moves(['G0 Z40', 'G0 X10 Y0 A0', 'G1 Z2']), c).volume).toBe(0);
  });
});

describe('a bored hole', () => {
  const mill = completeTool({ id: 1, kind: 'end-mill', diameter: 3.175 });
  const orbit = 5.5 - 1.5875;
  const c = withTool(mill);

  test('walked out by Y is straight: centre within 0.01, size within 0.02, volume within 0.1 %', () => {
    const rings = [1.4, 2.7, orbit].flatMap((o) => [
      'G0 Z1',
      `G1 X${70 + o} Y0`,
      'G1 Z-8',
      `G2 X${70 + o} Y0 I${-o} J0`,
      'G1 X70',
      'G0 Z1',
    ]);
    const gone = removal(moves(['T1 M6', 'S9000 M3', 'G0 Z40', 'G0 X70 Y0 A10', ...rings]), c);
    const [hole] = inspect(gone, c.layout);
    expect(hole!.entrance!.height_mm).toBeCloseTo(70, 2);
    expect(hole!.entrance!.angle_deg).toBeCloseTo(10, 3);
    expect(Math.abs(hole!.entrance!.diameter_mm - 11)).toBeLessThan(0.02);
    expect(Math.abs(hole!.exit!.diameter_mm - 11)).toBeLessThan(0.02);
    expect(Math.abs(gone.volume / bored(5.5) - 1)).toBeLessThan(0.001);
  });

  test('in straight pieces: the size told is that of the circle as large as what is open', () => {
    for (const sides of [12, 27]) {
      const corner = (k: number): string =>
        `G1 X${(70 + orbit * Math.cos((2 * Math.PI * k) / sides)).toFixed(5)} Y${(orbit * Math.sin((2 * Math.PI * k) / sides)).toFixed(5)}`;
      const ring = Array.from({ length: sides + 1 }, (_, k) => corner(k));
      const start = ['T1 M6', 'S6000 M3', 'G0 Z40', 'G0 X70 Y0 A10', 'G0 Z1', 'G1 Z-8'];
      const program = ['G21 G17 G90 G94 G98 F100', ...start, ...ring, 'G1 X70 Y0', 'G0 Z40', 'M2'];
      // A polygon grown by the bit's radius r all round: its area, and r times its girth, and a circle of r.
      const r = mill.diameter / 2;
      const polygon = (sides / 2) * orbit ** 2 * Math.sin((2 * Math.PI) / sides);
      const girth = 2 * sides * orbit * Math.sin(Math.PI / sides);
      const wanted = 2 * Math.sqrt((polygon + girth * r + Math.PI * r * r) / Math.PI);
      const { holes } = dryRun([program.join('\n')], c).value;
      expect(Math.abs(holes[0]!.diameter_mm - wanted), `${sides} sides`).toBeLessThan(0.01);
    }
  });

  test('walked out by A is drawn in towards the inside by 2 (r - rt)(1 - Ri / R) across', () => {
    const turn = (mm: number): number => (mm / R) * (180 / Math.PI);
    const steps = Array.from({ length: 181 }, (_, i) => (i * Math.PI) / 90);
    const ring = (o: number): string[] => [
      'G0 Z1',
      `G1 X${70 + o} A10`,
      'G1 Z-8',
      ...steps.map((t) => `G1 X${(70 + o * Math.cos(t)).toFixed(5)} A${(10 + turn(o * Math.sin(t))).toFixed(6)}`),
      'G1 X70 A10',
      'G0 Z1',
    ];
    const gone = removal(
      moves(['T1 M6', 'S9000 M3', 'G0 Z40', 'G0 X70 Y0 A10', ...[1.4, 2.7, orbit].flatMap(ring)]),
      c,
    );
    const [hole] = inspect(gone, c.layout);
    expect(hole!.entrance!.along_mm).toBeCloseTo(11, 2);
    expect(hole!.exit!.along_mm).toBeCloseTo(11, 2);
    const taper = 2 * orbit * (1 - RI / R);
    expect(taper).toBeCloseTo(0.32, 2);
    expect(hole!.entrance!.around_mm - hole!.exit!.around_mm).toBeCloseTo(taper, 1);
  });
});

describe('a whole shell', () => {
  let solid: Awaited<ReturnType<typeof Module>>;
  beforeAll(async () => {
    solid = await Module();
    solid.setup();
  });

  const c = context({ removal: true });
  const text = `${soundProgram(c).join('\n')}\n`;

  test('every hole centred within 0.01 mm, sized within 0.02 mm; volume within 0.1 % of the integrals', () => {
    const { removed } = dryRun([text], c).value;
    expect(removed!.complete).toBe(true);
    expect(removed!.holes.map((h) => h.id).sort()).toEqual(c.layout.holes.map((h) => h.id).sort());
    for (const hole of removed!.holes) {
      expect(hole.off_mm!).toBeLessThan(0.01);
      expect(Math.abs(hole.entrance_error_mm!)).toBeLessThan(0.02);
      expect(Math.abs(hole.exit_error_mm!)).toBeLessThan(0.02);
      expect(hole.lean_deg).toBeLessThan(0.01);
      const drilled = c.layout.holes.find((p) => p.id === hole.id)!.drill;
      expect(Math.abs(hole.removed_mm3 / bored(drilled / 2) - 1)).toBeLessThan(0.001);
    }
    // Lug holes stand 25.4 mm apart: 19.4 mm of wood between them.
    expect(removed!.holes.find((h) => h.id === 'lug-1-a')!.wall_left_mm).toBeCloseTo(19.4, 2);
    const exact = c.layout.holes.reduce((sum, h) => sum + bored(h.drill / 2), 0);
    expect(Math.abs(removed!.volume_mm3 / exact - 1)).toBeLessThan(0.001);
  });

  test('an exact solid-geometry library takes out as much from the same shell', () => {
    const { Manifold } = solid;
    const round = 720;
    // Polygons of equal area stand in for the circles.
    const fat = (n: number): number => Math.sqrt((2 * Math.PI) / n / Math.sin((2 * Math.PI) / n));
    const tube = Manifold.cylinder(SHELL.depth, R * fat(round), R * fat(round), round).subtract(
      Manifold.cylinder(SHELL.depth, RI * fat(round), RI * fat(round), round),
    );
    const pegs = c.layout.holes.map((h) => {
      const r = (h.drill / 2) * fat(96);
      return Manifold.cylinder(2 * WALL + 20, r, r, 96)
        .translate([0, 0, RI - WALL - 4])
        .rotate([0, 90, 0])
        .rotate([0, 0, h.angle])
        .translate([0, 0, h.height]);
    });
    const left = tube.subtract(Manifold.union(pegs));
    const theirs = tube.volume() - left.volume();
    const ours = dryRun([text], c).value.removed!.volume_mm3;
    expect(Math.abs(ours / theirs - 1)).toBeLessThan(0.002);
  });
});
