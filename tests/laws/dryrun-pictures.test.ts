import { Resvg } from '@resvg/resvg-js';
import { expect, test } from 'vitest';
import { startDryRun } from '../../src/dryrun/dry-run.ts';
import { inspect } from '../../src/dryrun/measure.ts';
import { startRemoval } from '../../src/dryrun/removal.ts';
import { loadRows, measuredMarks, sectionOf, toolShares, wayPoints } from '../../src/dryrun/views.ts';
import { loadPicture } from '../../src/picture/dryrun-load.ts';
import { pathPicture, removalMap } from '../../src/picture/dryrun-map.ts';
import { sectionPicture, timePicture } from '../../src/picture/dryrun-section.ts';
import { context, soundProgram, TOOLS } from '../helpers/drill-program.ts';

const c = context();
const gone = startRemoval(c);
const run = startDryRun(c, gone.step);
// One hole is left out, one drilled where none is planned.
const lines = soundProgram(c).map((l) => l.replace(/^G0 X32 Y0 A180$/, 'G0 X40 Y0 A200'));
run.push(lines.join('\n'));
const { value: report } = run.finish();
const removal = gone.finish();
const holes = inspect(removal, c.layout);
const drawn = (svg: string): number => new Resvg(svg).render().asPng().length;
const count = (svg: string, re: RegExp): number => [...svg.matchAll(re)].length;

test('the removal map draws every hole and every planned ring, and names what has no partner', () => {
  const svg = removalMap(c.layout, measuredMarks(holes));
  expect(count(svg, /<ellipse/g)).toBe(21);
  expect(count(svg, /<circle/g)).toBe(21);
  expect(svg).toContain('butt-b: missing');
  expect(svg).toContain('21 holes, 1 missing, 1 not planned');
  expect(drawn(svg)).toBeGreaterThan(1000);
});

test('the way of the work has a leg between every two stops', () => {
  const stops = wayPoints(report);
  // 20 pilots, 20 full holes, 3 rings of the vent.
  expect(stops).toHaveLength(43);
  const svg = pathPicture(c.layout, stops);
  expect(count(svg, /class="(chord2?|tear)"/g)).toBe(stops.length - 1 + 2);
  expect(drawn(svg)).toBeGreaterThan(1000);
});

test('a section shows the hole to scale, through the wall', () => {
  const section = sectionOf(removal, holes, 'vent', c.layout)!;
  expect(section.x).toBeCloseTo(76, 3);
  for (const slice of section.slices) {
    expect(slice.gone).toHaveLength(1);
    expect(slice.gone[0]![1] - slice.gone[0]![0]).toBeCloseTo(11, 2);
  }
  expect(section.slices.reduce((sum, s) => sum + s.thickness, 0)).toBeCloseTo(6.6, 9);
  expect(sectionPicture(section)).toContain('vent: 11 mm outside, 11 mm inside');
  expect(sectionOf(removal, holes, 'nowhere', c.layout)).toBeUndefined();
  expect(drawn(sectionPicture(section))).toBeGreaterThan(1000);
});

test('time by tool adds up to the whole', () => {
  const shares = toolShares(report, TOOLS);
  expect(shares.reduce((sum, t) => sum + t.feed + t.other, 0)).toBeCloseTo(report.seconds, 6);
  expect(drawn(timePicture(shares))).toBeGreaterThan(500);
});

test('chip load is drawn against the band of each bit, and a bar outside it is told apart', () => {
  const { seconds_each } = report.chip_load;
  const rows = loadRows(report, TOOLS);
  expect(rows.map((r) => r.name)).toEqual(['T2 twist 2.5', 'T3 twist 6', 'T4 twist 5', 'T5 end-mill 3.175']);
  const svg = loadPicture(rows, seconds_each, report.seconds);
  expect(count(svg, /class="good"/g)).toBe(4);
  expect(count(svg, /class="(rod|bad)"/g)).toBe(rows.reduce((sum, r) => sum + r.series.length, 0));
  const over = rows.map((r) => ({ ...r, allowed: [0, r.series[0]![1] / 2] as const }));
  expect(count(loadPicture(over, seconds_each, report.seconds), /class="rod"/g)).toBe(0);
  expect(drawn(svg)).toBeGreaterThan(1000);
});
