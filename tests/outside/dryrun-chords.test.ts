import { expect, test } from 'vitest';
import { dryRun } from '../../src/dryrun/dry-run.ts';
import { context, SHELL } from '../helpers/drill-program.ts';

const base = context();
const [first] = base.layout.holes;
const { pilot: _, ...hole } = first!;
const c = context({ layout: { ...base.layout, holes: [hole] }, removal: true });
const MILL = 3.175 / 2;
const ORBIT = hole.drill / 2 - MILL;

/** A hole walked round in `n` chords whose corners lie on the circle, down in eight turns and once round on the level. */
function bored(n: number): string {
  const bottom = -(SHELL.radius - Math.sqrt(SHELL.inside ** 2 - (hole.drill / 2) ** 2) + 1);
  const lines = ['G21 G17 G90 G94', 'G0 Z40', 'T5 M6', 'S6000 M3', 'G4 P3', `G0 X${hole.height} Y0 A${hole.angle}`];
  lines.push('G0 Z1', `G1 X${(hole.height + ORBIT).toFixed(4)} F300`);
  for (let i = 1; i <= 9 * n; i++) {
    const t = (2 * Math.PI * i) / n;
    const z = Math.max(bottom, 1 + ((bottom - 1) * i) / (8 * n));
    const [x, y] = [hole.height + ORBIT * Math.cos(t), ORBIT * Math.sin(t)];
    lines.push(`G1 X${x.toFixed(4)} Y${y.toFixed(4)} Z${z.toFixed(4)}`);
  }
  return `${[...lines, `G1 X${hole.height} Y0`, 'G0 Z40', 'M5', 'M2'].join('\n')}\n`;
}

// The mill sweeps the polygon of its path widened by its radius r: the pin that fits has radius p cos(pi / n) + r (p the
// orbit), and by Steiner's formula the area is that of the polygon, its girth times r, and pi r^2.
test.each([27, 42, 60])('a bore in %i chords: the pin that fits, and the circle of the same area', (n) => {
  const half = Math.PI / n;
  const pin = 2 * (ORBIT * Math.cos(half) + MILL);
  const area = (n * ORBIT ** 2 * Math.sin(2 * half)) / 2 + 2 * n * ORBIT * Math.sin(half) * MILL + Math.PI * MILL ** 2;
  const { value } = dryRun([bored(n)], c);
  const [found] = value.holes;
  expect(Math.abs(found!.clear_mm - pin)).toBeLessThan(0.003);
  expect(found!.clear_mm).toBeLessThan(found!.diameter_mm);
  expect(Math.abs(found!.diameter_mm - Math.sqrt((4 * area) / Math.PI))).toBeLessThan(0.001);
  const [mouth] = value.removed!.holes;
  for (const open of [mouth!.entrance!, mouth!.exit!])
    expect(Math.abs(open.diameter_mm - Math.sqrt((4 * area) / Math.PI))).toBeLessThan(0.001);
  // All of them within the accuracy asked of sizes.
  expect(hole.drill - pin).toBeLessThan(0.02);
});
