import { fc, test as prop } from '@fast-check/vitest';
import { describe, expect } from 'vitest';
import type { Machine } from '../../src/model/machine.ts';
import type { RotaryOptions } from '../../src/rotary/types.ts';
import { drum, judged, write } from '../helpers/rotary.ts';

const drums = fc.record({
  diameter: fc.integer({ min: 254, max: 560 }),
  depth: fc.integer({ min: 120, max: 480 }),
  wall: fc.double({ min: 4, max: 12, noNaN: true }),
  count: fc.integer({ min: 3, max: 7 }),
  first: fc.double({ min: 8, max: 30, noNaN: true }),
  drill: fc.constantFrom(4, 5, 5.5, 6.5, 8),
  pilot: fc.constantFrom(2, 2.5, 3),
  vent: fc.constantFrom(8, 11, 16),
  layout: fc.constantFrom('upright', 'across'),
  wood: fc.constantFrom('black-cherry', 'sugar-maple', 'douglas-fir-coast', 'birch-plywood'),
  ring: fc.boolean(),
});
const ways = fc.record({
  machine: fc.constantFrom('rotary-slow', 'rotary-fast'),
  datum: fc.constantFrom('top', 'bottom'),
  hasY: fc.boolean(),
  a: fc.constantFrom('iso' as const, 'reversed' as const),
  runout: fc.constantFrom(0, 0.05, 0.5),
  backing: fc.constantFrom(0, 12),
  units: fc.constantFrom('mm' as const, 'in' as const),
  style: fc.constantFrom('cycles' as const, 'long-hand' as const),
  parallel: fc.constantFrom('radial' as const, 'by-y' as const),
  alternate: fc.boolean(),
  arcs: fc.boolean(),
  lineNumbers: fc.boolean(),
  comments: fc.constantFrom('brackets' as const, 'semicolon' as const, 'none' as const),
  decimals: fc.constantFrom(3, 4, 6),
  rotary: fc.constantFrom<Machine['rotary']>('endless', [-180, 180], [0, 360], [-360, 0], [-10, 370]),
  toolChange: fc.constantFrom('hand' as const, 'machine' as const),
  feed: fc.constantFrom(200, 2000),
  mode: fc.constantFrom<Partial<RotaryOptions>>({}, {}, { markOnly: true }, { rehearse: true }, { batch: 2 }),
});

describe('any drum on any machine', () => {
  prop.prop([drums, ways], { numRuns: 20, seed: 66 })(
    'what the planner calls sound, the dry run finds drilled: every hole, in its place, nothing hit',
    (d, w) => {
      const raw = {
        jig: 1,
        name: 'any',
        shell: {
          diameter: d.diameter,
          depth: d.depth,
          wall: d.wall,
          wood: d.wood,
          ...(d.ring ? { rings: { bottom: { width: 25, thickness: 4 } } } : {}),
        },
        lugs: {
          count: d.count,
          first: d.first,
          rows: [
            { edge: 'top', distance: 36 },
            { edge: 'bottom', distance: 36 },
          ],
          holes: { layout: d.layout, spacing: 22, drill: d.drill, pilot: d.pilot },
        },
        fittings: [
          {
            name: 'vent',
            role: 'vent',
            at: 5,
            edge: 'middle',
            distance: 3,
            holes: { layout: 'single', drill: d.vent },
          },
        ],
        rotary: { machine: w.machine, datum: w.datum, backing: w.backing, runout: w.runout, tools: 'default' },
      };
      const { a, hasY, rotary, toolChange, feed, arcs, lineNumbers, comments, decimals } = w;
      const base = drum({}, {}, raw).jig.rotary.machine;
      const understands = { ...base.understands, arcs, lineNumbers, comments, decimals };
      const written = write(drum({}, { hasY, a, rotary, toolChange, feed, understands }, raw), {
        ...w.mode,
        units: w.units,
        style: w.style,
        parallel: w.parallel,
        alternate: w.alternate,
      });
      const stops = written.ids.filter((id) => id.startsWith('stop'));
      fc.pre(written.plan.made && stops.length === 0);
      const { report, bad } = judged(written, { rehearse: w.mode.rehearse === true });
      expect(bad.filter((b) => b.startsWith('stop'))).toEqual([]);
      expect(report.inPlace).toBe(written.layout.holes.length);
      if (w.mode.batch === undefined)
        expect(Math.abs(report.seconds - written.plan.seconds)).toBeLessThan(0.05 * report.seconds + 10);
    },
  );
});
