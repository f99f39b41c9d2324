import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { resolveJig } from '../../src/jig/resolve.ts';
import { parseText } from '../../src/jig/text.ts';
import { lugwright } from '../helpers/cli.ts';

const DOCUMENTS = ['README.md', 'jigs/README.md', 'output/README.md'];

/** Every whole `lugwright` command of a document's code blocks and code words; one with a placeholder in capitals is a form. */
const commands = DOCUMENTS.flatMap((file) => {
  const text = readFileSync(file, 'utf8').replaceAll('\\\n', ' ');
  const found = [...text.matchAll(/(?:^|[`]|npx )(lugwright [^`\n&|]+)/gm)].map((m) => m[1]!.trim());
  return found.map((line) => [file, line] as const);
});
// `new` with nothing but a file asks at a terminal.
const whole = commands
  .filter(([, line]) => !/^lugwright new \S+$/.test(line))
  .filter(([, line]) => !/\b[A-Z]+(\.\w+)?\b(?!")/.test(line.replace(/"[^"]*"/g, '""')));

const words = (line: string): string[] => [...line.matchAll(/"([^"]*)"|(\S+)/g)].map((m) => m[1] ?? m[2]!).slice(1);

describe('the commands in the documents', () => {
  const home = mkdtempSync(join(tmpdir(), 'lugwright-documents-'));
  beforeAll(() => {
    mkdirSync(join(home, 'output'));
    symlinkSync(join(process.cwd(), 'jigs'), join(home, 'jigs'));
  });
  afterAll(() => rmSync(home, { recursive: true, force: true }));

  test('are found', () => expect(whole.length).toBeGreaterThan(5));
  test.each(whole)('%s: %s', (_, line) => {
    const r = lugwright(words(line), { cwd: home });
    expect(r.err).not.toMatch(/fault of lugwright/);
    expect(r.status, r.err).toBe(/kettle-row-wrong/.test(line) ? 1 : 0);
  });
  test('the example in the help of every command runs too', () => {
    copyFileSync(join(home, 'output/kettle-row-snare-14-x-6-1-2/readings.csv'), join(home, 'readings.csv'));
    const names = [...lugwright(['--help']).out.matchAll(/^ {2}([a-z-]+) .*/gm)].map((m) => m[1]!);
    const examples = names
      .filter((name) => name !== 'help')
      .map((name) => /Example:\n {2}(lugwright .+)/.exec(lugwright([name, '--help']).out)?.[1] ?? `none for ${name}`);
    expect(examples.length).toBeGreaterThanOrEqual(8);
    for (const line of examples.filter((x) => !whole.some(([, y]) => x.startsWith(y)))) {
      const r = lugwright(words(line.replace(/ > .*/, '')), { cwd: home });
      expect(r.status, `${line}: ${r.err}`).toBe(0);
    }
  });
  test('forms name commands and options that there are', () => {
    for (const [file, line] of commands) {
      const [name, ...rest] = words(line);
      const help = lugwright([name!, '--help']).out;
      expect(help, `${file}: ${line}`).toMatch(/Usage: lugwright/);
      for (const option of rest.filter((w) => w.startsWith('--'))) expect(help, `${file}: ${line}`).toContain(option);
    }
  });
});

describe('the guide to the jig file', () => {
  const blocks = [...readFileSync('jigs/README.md', 'utf8').matchAll(/```yaml\n([\s\S]*?)```/g)].map((m) => m[1]!);
  const small = `jig: 1
name: Small
shell: { diameter: 300 mm, depth: 150 mm, wall: 6 mm }
lugs: { count: 4, rows: [{ edge: top, distance: 36 mm }], holes: { layout: single, drill: 6 mm } }
`;
  const raw = (text: string) => {
    const parsed = parseText(text);
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
    return parsed.raw;
  };
  test('its pieces of jig files and profiles are read as they stand', () => {
    expect(blocks.length).toBeGreaterThan(1);
    for (const block of blocks) {
      const [, name, key] = /^# (\S+\.yaml), named by {2}(.*)$/m.exec(block) ?? [];
      const read =
        name === undefined
          ? resolveJig(raw(small + block))
          : resolveJig(raw(`${small}${key}`), { profiles: { [name]: raw(block) } });
      expect(read.ok ? [] : read.issues, block).toEqual([]);
    }
  });

  interface Schema {
    readonly properties?: Readonly<Record<string, Schema>>;
    readonly [key: string]: unknown;
  }
  const keys = new Set<string>();
  const walk = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return;
    for (const key of Object.keys((node as Schema).properties ?? {})) keys.add(key);
    for (const inner of Object.values(node)) walk(inner);
  };
  walk(JSON.parse(readFileSync('jigs/jig.schema.json', 'utf8')));
  const guide = readFileSync('jigs/README.md', 'utf8');
  test.each([...keys].filter((k) => k !== '$schema').map((k) => [k]))('names %s', (key) => {
    expect(guide).toMatch(new RegExp(`[\`{ ,(]${key}[\`: ,)]`));
  });
});

test('every file that a document names is there', () => {
  for (const file of DOCUMENTS) {
    const folder = file.includes('/') ? file.split('/')[0]! : '.';
    for (const [, to] of readFileSync(file, 'utf8').matchAll(/\]\(([^)#]+)\)/g))
      expect(existsSync(join(folder, to!)), `${file}: ${to}`).toBe(true);
  }
  expect(readdirSync('jigs').filter((f) => f.startsWith('kettle-row-')).length).toBeGreaterThan(3);
});
