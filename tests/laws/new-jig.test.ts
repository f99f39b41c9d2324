import { describe, expect, test } from 'vitest';
import { resolveJig } from '../../src/jig/resolve.ts';
import { parseText } from '../../src/jig/text.ts';
import { checkFindings } from '../../src/jobs/check.ts';
import { KINDS, type NewJig, newJigText } from '../../src/jobs/new-jig.ts';
import { layOut } from '../../src/layout/layout.ts';

const SIZES: Readonly<Record<NewJig['kind'], Pick<NewJig, 'girth' | 'depth' | 'wall' | 'lugs'>>> = {
  snare: { girth: { key: 'diameter', value: '14 in' }, depth: '6.5 in', wall: '7 mm', lugs: 10 },
  tom: { girth: { key: 'diameter', value: '13 in' }, depth: '9 in', wall: '6.5mm', lugs: 6 },
  'floor-tom': { girth: { key: 'circumference', value: '50 1/4 in' }, depth: '16 in', wall: '7 mm', lugs: 8 },
  bass: { girth: { key: 'circumference', value: '69 1/8 in' }, depth: '18 in', wall: '8 mm', lugs: 8 },
};

describe.each(KINDS)('a new jig file for a %s', (kind) => {
  const text = newJigText({ name: 'T', kind, units: 'mm', ...SIZES[kind] });
  const found = (yaml: string) => {
    const parsed = parseText(yaml);
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
    const read = resolveJig(parsed.raw);
    if (!read.ok) throw new Error(JSON.stringify(read.issues));
    return checkFindings(read.jig, layOut(read.jig));
  };

  test('stops at nothing, nor does it when its hints are taken up, and then all they speak of is checked', () => {
    const bare = found(text);
    const taken = found(text.replace(/^( *)# ( *[a-z-]+: )/gm, '$1$2'));
    const stops = [...bare, ...taken].filter((f) => f.level === 'stop');
    expect(stops.map((f) => f.text)).toEqual([]);
    const unchecked = (all: typeof bare) => all.filter((f) => f.id === 'not-checked').map((f) => f.text);
    expect(unchecked(bare).join()).toMatch(/hole against screw/);
    // What the hints speak of is checked then: head, rods, hoops, feet, screws, seasons and chances.
    const left = unchecked(taken).join('\n');
    expect(left).not.toMatch(/shell\.nominal|lugs\.rod|of (top|bottom) lugs|lugs\.foot|climate|method|ear-circle/);
  });
});
