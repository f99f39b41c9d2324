import { describe, expect, test } from 'vitest';
import { dryRun } from '../../src/dryrun/dry-run.ts';
import { seeded } from '../../src/geometry/random.ts';
import { dryRunContext } from '../../src/jobs/dry-run.ts';
import type { Machine } from '../../src/model/machine.ts';
import type { RotaryOptions } from '../../src/rotary/plan.ts';
import { demo, type Raw } from '../helpers/jigs.ts';
import { PLANNER_FAULTS, type Sound } from '../helpers/planner-faults.ts';
import { drum, LANTERN, write } from '../helpers/rotary.ts';

function sound(
  name: string,
  raw: Raw,
  rotary: object,
  machine: Partial<Machine>,
  options: Partial<RotaryOptions>,
): Sound {
  const w = write(drum(rotary, machine, raw), options);
  return {
    name,
    lines: w.plan.text.trimEnd().split('\n'),
    context: dryRunContext(w.jig, w.layout),
    inch: options.units === 'in',
    cycles: options.style !== 'long-hand',
  };
}

/** Planner's programs in four dialects, none its own mirror. */
const SOUND: readonly Sound[] = [
  sound('snare', demo('jigs/kettle-row-snare.yaml'), {}, {}, {}),
  sound('long-hand, inches, top', LANTERN, { datum: 'top' }, { a: 'reversed' }, { units: 'in', style: 'long-hand' }),
  sound('unbacked, no Y', LANTERN, { backing: 0 }, { hasY: false }, { unbacked: 'through', alternate: true }),
  sound('tools changed by the machine', LANTERN, { datum: 'top' }, { toolChange: 'machine' }, { units: 'in' }),
];
const SEEDS = [1, 2];

describe.each(SOUND.map((s) => [s.name, s] as const))('%s', (_, s) => {
  test('is sound', () => {
    const { facts, value } = dryRun([s.lines.join('\n')], s.context);
    expect(facts.filter((f) => f.level !== 'note')).toEqual([]);
    expect(value.inPlace).toBe(s.context.layout.holes.length);
  });

  test.each(PLANNER_FAULTS.filter((f) => s.cycles || !f.cycles).map((f) => [f.name, f] as const))('%s', (_name, f) => {
    for (const seed of SEEDS) {
      const random = seeded(seed);
      const lines = f.plant(s, (n) => Math.floor(random.uniform() * n));
      const { facts } = dryRun([lines.join('\n')], f.context?.(s.context) ?? s.context);
      const raised = facts.filter((x) => x.level === (f.level ?? 'stop')).map((x) => x.id);
      const seen = [...new Set(facts.map((x) => `${x.level} ${x.id}`))].join(', ');
      expect(
        f.expect.some((id) => raised.includes(id)),
        `seed ${seed}: ${f.expect.join(' | ')} not in ${seen}`,
      ).toBe(true);
    }
  });
});
