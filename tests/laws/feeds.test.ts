import { fc, test as prop } from '@fast-check/vitest';
import { describe, expect } from 'vitest';
import { DIAMETER_RANGE } from '../../src/data/cutting.ts';
import { findMachine, MACHINE_NAMES } from '../../src/data/machines.ts';
import { TOOL_KINDS } from '../../src/data/tools.ts';
import { WOOD_IDS } from '../../src/data/wood.ts';
import { recommend } from '../../src/feeds/feeds.ts';
import { feedSayings } from '../../src/say/feeds.ts';
import { sayAll } from '../../src/say/say.ts';

const input = fc.record({
  wood: fc.option(fc.constantFrom(...WOOD_IDS), { nil: undefined }),
  kind: fc.constantFrom(...TOOL_KINDS),
  part: fc.double({ min: 0, max: 1, noNaN: true }),
  lips: fc.constantFrom(1, 2, 3),
  depth: fc.double({ min: 0.5, max: 60, noNaN: true }),
  machine: fc.constantFrom(...MACHINE_NAMES),
});

describe('whatever is asked', () => {
  prop.prop([input], { numRuns: 400, seed: 61 })('the numbers hang together and stay inside the machine', (q) => {
    const [low, high] = DIAMETER_RANGE[q.kind];
    const diameter = low + q.part * (high - low);
    const machine = findMachine(q.machine)!;
    const { value: v, facts } = recommend({
      wood: q.wood,
      tool: { kind: q.kind, diameter, lips: q.lips },
      depth: q.depth,
      machine,
    });
    expect(v.speed).toBeGreaterThanOrEqual(machine.spindle.min);
    expect(v.speed).toBeLessThanOrEqual(machine.spindle.max);
    expect(v.feed).toBeLessThanOrEqual(machine.feed * (1 + 1e-12));
    expect(v.feed).toBeGreaterThan(0);
    expect(v.feed / (v.speed * v.feedPerRev)).toBeCloseTo(1, 9);
    expect(v.feedPerLip * q.lips).toBeCloseTo(v.feedPerRev, 9);
    expect(v.chipThickness).toBeLessThanOrEqual(v.feedPerLip * (1 + 1e-12));
    expect(v.power / (v.torque * 2 * Math.PI * (v.speed / 60))).toBeCloseTo(1, 9);
    expect(v.power).toBeLessThanOrEqual(machine.spindle.watts);
    expect(v.peck === null).toBe(v.pecks === 1);
    if (v.peck !== null) expect(v.peck * v.pecks).toBeCloseTo(q.depth, 6);
    for (const s of sayAll(facts, feedSayings)) expect(`${s.text} ${s.try}`).not.toMatch(/\?|NaN|undefined/);
  });
  prop.prop([input], { numRuns: 100, seed: 62 })('a limit that acted is named, and none acted that is not', (q) => {
    const [low, high] = DIAMETER_RANGE[q.kind];
    const tool = { kind: q.kind, diameter: low + q.part * (high - low), lips: q.lips };
    const free = recommend({ wood: q.wood, tool, depth: q.depth }).value;
    const held = recommend({ wood: q.wood, tool, depth: q.depth, machine: findMachine(q.machine)! }).value;
    const same = free.speed === held.speed && Math.abs(free.feed - held.feed) < 1e-9;
    const acted = held.limits.filter((l) => !free.limits.includes(l) && l !== 'thinnest-chip');
    expect(acted.length === 0).toBe(same);
  });
});
