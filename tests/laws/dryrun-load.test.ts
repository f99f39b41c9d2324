import { expect, test } from 'vitest';
import { benchOf } from '../../src/dryrun/context.ts';
import { dryRun } from '../../src/dryrun/dry-run.ts';
import { recordLoad } from '../../src/dryrun/load.ts';
import { recommend } from '../../src/feeds/feeds.ts';
import { context, SHELL, soundProgram, TOOLS } from '../helpers/drill-program.ts';

const c = context();
const run = (lines: readonly string[]) => dryRun([`${lines.join('\n')}\n`], c).value;
const report = run(soundProgram(c));
const loadOf = (tool: number) => report.chip_load.tools.find((t) => t.tool === tool)!;

test('chip load is feed over speed and lips, for each bit in each stretch of time', () => {
  // Pilots: 300 / (3000 x 2); 6 mm: 220 / (1500 x 2); 5 mm: 200 / (1500 x 2).
  for (const [tool, chip] of [
    [2, 300 / 6000],
    [3, 220 / 3000],
    [4, 200 / 3000],
  ] as const)
    for (const [at, least, most] of loadOf(tool).series) {
      expect(at % report.chip_load.seconds_each).toBe(0);
      expect([least, most]).toEqual([chip, chip]);
    }
  expect(loadOf(5).series.length).toBeGreaterThan(0);
  // Few stretches whatever the time, and they reach over all of it.
  const reach = report.chip_load.seconds_each * 240;
  expect(reach).toBeGreaterThan(report.seconds);
  expect(reach / 2 <= report.seconds || report.chip_load.seconds_each === 1).toBe(true);
});

test('every hole has the chips of each bit that made it, pilot before full size', () => {
  for (const hole of report.holes.filter((h) => h.id.startsWith('lug'))) {
    expect(hole.chip_load.map((l) => l.tool)).toEqual([2, 3]);
    const [pilot, full] = hole.chip_load;
    expect([pilot!.least_mm, pilot!.most_mm]).toEqual([0.05, 0.05]);
    expect([full!.least_mm, full!.most_mm]).toEqual([220 / 3000, 220 / 3000]);
    expect(pilot!.to_s).toBeLessThan(full!.from_s);
    expect(full!.to_s).toBeLessThan(report.seconds);
  }
});

test('the band is what the feeds of this wood allow: a quarter of the advice to twice it', () => {
  const tool = TOOLS.find((t) => t.id === 3)!;
  const { feedPerLip } = recommend({ wood: SHELL.wood, tool, depth: SHELL.wall, machine: c.machine }).value;
  expect(loadOf(3).allowed_mm).toEqual([feedPerLip / 4, 2 * feedPerLip]);
});

test('where the shell turns under a mill the chip is that of the way over the skin', () => {
  // 1 deg of R 163.7 is 2.857 mm; with F 10 in inverse time 28.57 mm a minute, at 6000 rev/min and two lips.
  const lips = TOOLS.find((t) => t.id === 5)!.lips;
  const slot = ['G21 G17 G90 G94', 'G0 Z40', 'T5 M6', 'S6000 M3', 'G4 P3', 'G0 X40 Y0 A0', 'G0 Z1', 'G1 Z-2 F100'];
  const value = run([...slot, 'G93 G1 A1 F10', 'G94 G0 Z40', 'M5', 'M2']);
  const series = value.chip_load.tools.find((t) => t.tool === 5)!.series;
  const chips = series.flatMap(([, least, most]) => [least, most]);
  expect(Math.min(...chips)).toBeCloseTo((10 * (Math.PI / 180) * SHELL.radius) / (6000 * lips), 9);
  expect(Math.max(...chips)).toBeCloseTo(100 / (6000 * lips), 9);
});

test('memory does not grow with the time, and nothing is lost when stretches are joined', () => {
  const recorder = recordLoad();
  for (let t = 0; t < 1e5; t++) recorder.add(3, t, t + 0.5, 0.01 + (t === 54_321 ? 1 : 0));
  const { seconds_each, tools } = recorder.result(benchOf(c));
  expect(tools[0]!.series.length).toBeLessThanOrEqual(240);
  expect(seconds_each).toBe(512);
  expect(tools[0]!.series.filter(([, , most]) => most > 1).map(([at]) => at)).toEqual([Math.floor(54_321 / 512) * 512]);
});
