import { describe, expect, test } from 'vitest';
import { dryRun } from '../../src/dryrun/dry-run.ts';
import { seeded } from '../../src/geometry/random.ts';
import { context, MACHINE, type ProgramStyle, plan, soundProgram } from '../helpers/drill-program.ts';
import { FAULTS } from '../helpers/faults.ts';

const SEEDS = [1, 2];
const text = (lines: readonly string[]): string => `${lines.join('\n')}\n`;

describe('sound programs raise no stop and no care', () => {
  const styles: (ProgramStyle & { turned?: number })[] = [
    {},
    { cycles: true },
    { inch: true },
    { inch: true, cycles: true },
  ];
  for (const datum of ['bottom', 'top'] as const)
    for (const a of ['iso', 'reversed'] as const)
      for (const style of styles)
        test(`datum ${datum}, A ${a}, ${JSON.stringify(style)}`, () => {
          const c = context({ datum, machine: { ...MACHINE, a } });
          const { value, facts } = dryRun([text(soundProgram(c, { ...style, reversed: a === 'reversed' }))], c);
          expect(facts.filter((f) => f.level !== 'note')).toEqual([]);
          expect(value.kind).toBe('drilling');
          expect(value.inPlace).toBe(21);
          expect(value.holes.map((h) => h.id).sort()).toEqual(c.layout.holes.map((h) => h.id).sort());
          for (const hole of value.holes) {
            const planned = c.layout.holes.find((p) => p.id === hole.id)!;
            expect(hole.height_mm).toBeCloseTo(planned.height, 3);
            expect(hole.angle_deg).toBeCloseTo(planned.angle, 3);
            expect(Math.abs(hole.diameter_mm - planned.drill)).toBeLessThan(0.02);
          }
        });

  test('several shells one after the other, with a pause to change them, are no holes drilled twice', () => {
    const c = context();
    const body = soundProgram(c).slice(0, -1);
    const batch = [...body, 'M0', ...body, 'M0', ...body, 'M2'];
    const { facts, value } = dryRun([text(batch)], c);
    expect(facts.map((f) => f.id)).toEqual(['several-shells', 'change-not-awaited']);
    expect(value.inPlace).toBe(21);
  });

  describe('a program that is there twice', () => {
    const c = context();
    const body = soundProgram(c).slice(0, -1);
    const byHand = body.flatMap((l) => (/^T\d M6$/.test(l) ? [l, 'M0'] : [l]));
    const middle = [...body.slice(0, 56), 'M5', 'M0', 'S3000 M3', 'G4 P3', ...body.slice(56)];
    const found = (...lines: string[]): string[] =>
      dryRun([text([...lines, 'M2'])], c)
        .facts.filter((f) => f.level !== 'note')
        .map((f) => f.id);
    test.each<[string, string[], string[]]>([
      ['no stop between', [...body, ...body], ['job-doubled']],
      ['no stops but those for the bits', [...byHand, ...byHand], ['job-doubled']],
      ['a stop between, and those for the bits', [...byHand, 'M0', ...byHand], []],
      ['an optional stop between', [...body, 'M1', ...body], []],
      ['a stop to look in each pass, none between', [...middle, ...middle], ['hole-doubled']],
      ['a stop to look in each pass, one between', [...middle, 'M0', ...middle], []],
      ['three times, one stop', [...body, 'M0', ...body, ...body], ['job-doubled']],
    ])('%s', (_, lines, want) => expect([...new Set(found(...lines))]).toEqual(want));

    test('one bit, fitted once, for two shells', () => {
      const alone = body.slice(0, body.indexOf('M5', body.indexOf('T2 M6')));
      const start = alone.indexOf('S3000 M3');
      const judged = { ...c, partial: true };
      const two = [
        ...alone.slice(0, start),
        'M0',
        ...alone.slice(start),
        'M5',
        'M0',
        ...alone.slice(start),
        'M5',
        'M2',
      ];
      expect(dryRun([text(two)], judged).facts.filter((f) => f.level !== 'note')).toEqual([]);
    });
  });

  test('feed a turn is told for each tool', () => {
    const c = context();
    const perTool = dryRun([text(soundProgram(c))], c).value.perTool;
    // Pilots: 300 mm/min at 3000 rev/min.
    const pilot = perTool.find((t) => t.tool === 2)!.feed_per_turn_mm!;
    expect(pilot[0]).toBeCloseTo(0.1, 9);
    expect(pilot[1]).toBeCloseTo(0.1, 9);
  });

  test('a drum that is its own mirror says that it cannot tell', () => {
    const c = context({ layout: plan(180) });
    const { facts } = dryRun([text(soundProgram(c))], c);
    expect(facts.map((f) => f.id)).toEqual(['mirror-cannot-tell', 'change-not-awaited']);
    const wrong = dryRun([text(soundProgram(c, { reversed: true }))], c);
    expect(wrong.facts.map((f) => f.id)).toEqual(['mirror-cannot-tell', 'change-not-awaited']);
  });
});

describe(`faults: ${FAULTS.length} kinds`, () => {
  test('there are at least thirty, each named once', () => {
    expect(new Set(FAULTS.map((f) => f.name)).size).toBe(FAULTS.length);
    expect(FAULTS.length).toBeGreaterThanOrEqual(30);
  });

  for (const fault of FAULTS)
    test(fault.name, () => {
      const base = context();
      const sound = soundProgram(base, fault.style);
      const judge = fault.context?.(base) ?? base;
      for (const seed of SEEDS) {
        const random = seeded(seed);
        const planted = fault.plant(sound, (n) => Math.floor(random.uniform() * n));
        const { facts } = dryRun([text(planted)], judge);
        const raised = facts.filter((f) => f.level === (fault.level ?? 'stop')).map((f) => f.id);
        expect(
          raised.some((id) => fault.expect.includes(id)),
          `seed ${seed}: ${fault.expect.join(' | ')} not in ${[...new Set(facts.map((f) => `${f.level} ${f.id}`))].join(', ')}`,
        ).toBe(true);
      }
    });
});
