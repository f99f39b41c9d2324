import { readdirSync, readFileSync } from 'node:fs';
import { parseSync } from 'oxc-parser';
import { expect, test } from 'vitest';

/** What a call is made on, at the end of `describe`, `test.each([...])(...)` and the like. */
function root(callee: Loose): string {
  return callee.type === 'Identifier' ? callee.name! : root((callee.callee ?? callee.object ?? callee.tag)!);
}
interface Loose {
  readonly type: string;
  readonly name?: string;
  readonly callee?: Loose;
  readonly object?: Loose;
  readonly tag?: Loose;
  readonly arguments?: readonly { readonly value?: unknown }[];
}

/** `file: title` of every test and group of tests that stands at the top of a file in tests/outside. */
function tests(): string[] {
  return readdirSync('tests/outside')
    .filter((file) => file.endsWith('.test.ts'))
    .flatMap((file) =>
      parseSync(file, readFileSync(`tests/outside/${file}`, 'utf8')).program.body.flatMap((statement) => {
        const call = 'expression' in statement ? (statement.expression as unknown as Loose) : undefined;
        if (call?.type !== 'CallExpression' || !['describe', 'test', 'it'].includes(root(call))) return [];
        return [`${file.replace('.test.ts', '')}: ${String(call.arguments?.[0]?.value)}`];
      }),
    );
}

const rows = readFileSync('tests/outside/README.md', 'utf8')
  .split('\n')
  .filter((line) => line.startsWith('| ') && !/^\| (check|---) /.test(line))
  .map((line) => line.slice(2, -2).split(' | '));

test('every row of tests/outside/README.md has its tests, and every test its row', () => {
  const named = rows.flatMap((cells) => [...(cells[4] ?? '').matchAll(/`([^`]+)`/g)].map((m) => m[1]!));
  expect(named.length).toBeGreaterThan(100);
  expect(named.toSorted()).toEqual(tests().toSorted());
});

test.each(rows.map((cells) => [cells[0], cells] as const))('%s: complete, and says how it is known', (_, cells) => {
  expect(cells).toHaveLength(5);
  for (const cell of cells) expect(cell).toMatch(/\S/);
  expect(cells[2]).toMatch(/\b(seen|memory|common|by hand|library|ours)\b/);
});
