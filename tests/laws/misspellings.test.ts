import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { main } from '../../src/cli/main.ts';
import { fromValidator } from '../../src/jig/issue.ts';
import { jsonSchema, type ProfileKind } from '../../src/jig/json-schema.ts';
import { machineProfile, materialProfile, paperProfile, sheetProfile } from '../../src/jig/profile.ts';
import { resolveJig } from '../../src/jig/resolve.ts';
import { accuracyProfileSchema, PROFILE_SCHEMAS } from '../../src/jig/schema-profile.ts';
import { editDistance } from '../../src/units/nearest.ts';

/** One slip of the fingers in every way and place: a letter lost, doubled, or exchanged with the next; case; underscores. */
function slips(word: string): string[] {
  const places = [...word].map((_, i) => [word.slice(0, i), word[i]!, word.slice(i + 1)] as const);
  const all = [
    ...places.map(([before, , after]) => before + after),
    ...places.map(([before, letter, after]) => before + letter + letter + after),
    ...places.map(([before, letter, after]) => before + after.slice(0, 1) + letter + after.slice(1)),
    word.toUpperCase(),
    word[0]!.toUpperCase() + word.slice(1),
    word.replaceAll('-', '_'),
    word.replaceAll('-', ''),
  ];
  return [...new Set(all)].filter((w) => w !== word && w !== '');
}

/** The word itself, or another that is no farther from the slip. */
const isNearest = (answer: string, slip: string, word: string): boolean =>
  answer === word || editDistance(slip.toLowerCase(), answer.toLowerCase()) <= editDistance(slip.toLowerCase(), word);

describe('commands and options', () => {
  let said = '';
  beforeEach(() => {
    said = '';
    vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
      said += String(text);
      return true;
    });
    vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
      said += String(text);
      return true;
    });
  });
  afterEach(() => vi.restoreAllMocks());

  const asked = async (...argv: string[]): Promise<{ status: number; said: string }> => {
    said = '';
    return { status: await main(argv), said };
  };
  const names = async (): Promise<string[]> =>
    [...(await asked('--help')).said.matchAll(/^ {2}([a-z][a-z-]*) /gm)].map((m) => m[1]!).filter((n) => n !== 'help');

  test('every slip in every command is answered with the nearest', async () => {
    const commands = await names();
    expect(commands.length).toBeGreaterThanOrEqual(8);
    for (const command of commands) {
      for (const slip of slips(command)) {
        if (commands.includes(slip)) continue;
        const r = await asked(slip, 'x');
        expect(r.status, slip).toBe(2);
        const answer = /Try: ([a-z-]+), or see/.exec(r.said)?.[1] ?? r.said;
        expect(isNearest(answer, slip, command), `${slip}: ${r.said}`).toBe(true);
      }
    }
  });

  test('every third slip in every option is answered with the nearest', async () => {
    let options = 0;
    for (const command of await names()) {
      const own = [...(await asked(command, '--help')).said.matchAll(/^ {2}(?:-\w, )?--([a-z-]+)/gm)].map((m) => m[1]!);
      for (const option of own) {
        options++;
        for (const slip of slips(option).filter((_, i) => i % 3 === options % 3)) {
          if (own.includes(slip)) continue;
          const r = await asked(command, `--${slip}`);
          expect(r.status, slip).toBe(2);
          const answer = /Try: --([a-z-]+), or see/.exec(r.said)?.[1] ?? r.said;
          expect(isNearest(answer, slip, option), `${command} --${slip}: ${r.said}`).toBe(true);
          expect(r.said, slip).not.toMatch(/undefined|TypeError/);
        }
      }
    }
    expect(options).toBeGreaterThan(50);
  });
});

interface Schema {
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly items?: Schema;
  readonly prefixItems?: readonly Schema[];
  readonly anyOf?: readonly Schema[];
}
type Path = readonly (string | number)[];

/** Every group of keys of a schema: where it stands, and what it may hold there. */
function groups(schema: Schema, path: Path = []): [Path, string[]][] {
  const own = Object.entries(schema.properties ?? {});
  return [
    ...(own.length > 0 ? [[path, own.map(([key]) => key)] as [Path, string[]]] : []),
    ...own.flatMap(([key, inner]) => groups(inner, [...path, key])),
    ...(schema.items ? groups(schema.items, [...path, 0]) : []),
    ...(schema.prefixItems ?? []).flatMap((inner, i) => groups(inner, [...path, i])),
    ...(schema.anyOf ?? []).flatMap((inner) => groups(inner, path)),
  ];
}

const nest = (path: Path, value: unknown): unknown =>
  path.reduceRight<unknown>(
    (inner, key) => (typeof key === 'number' ? Array(key).fill({}).concat([inner]) : { [key]: inner }),
    value,
  );

interface Issue {
  readonly path: Path;
  readonly onKey?: boolean;
  readonly found: string;
  readonly try: string;
}

/** Every slip in every key that a schema knows must be answered with a key as near. */
function everyKey(schema: Schema, issuesOf: (raw: unknown) => readonly Issue[]): number {
  const known = new Map<string, Set<string>>();
  for (const [path, keys] of groups(schema)) {
    const at = JSON.stringify(path);
    known.set(at, new Set([...(known.get(at) ?? []), ...keys]));
  }
  let keys = 0;
  for (const [at, here] of known) {
    const path = JSON.parse(at) as Path;
    for (const key of here) {
      keys++;
      const wrong = slips(key).filter((slip) => !here.has(slip));
      const said = issuesOf(nest(path, Object.fromEntries(wrong.map((slip) => [slip, 1]))));
      for (const slip of wrong) {
        const issue = said.find((i) => i.onKey && i.path.at(-1) === slip);
        const answer = /^write "(.+)" if/.exec(issue?.try ?? '')?.[1] ?? `${issue?.found}; ${issue?.try}`;
        expect(isNearest(answer, slip, key), `${[...path, slip].join('.')}: ${answer}`).toBe(true);
      }
    }
  }
  return keys;
}

const issues = (r: { ok: boolean; issues?: readonly Issue[] }): readonly Issue[] => r.issues ?? [];

describe('keys', () => {
  test('of the jig file', () => {
    expect(everyKey(jsonSchema() as Schema, (raw) => issues(resolveJig(raw)))).toBeGreaterThan(150);
  });
  const READ = {
    sheet: (raw: unknown) => issues(sheetProfile('own', raw)),
    material: (raw: unknown) => issues(materialProfile('own', raw)),
    paper: (raw: unknown) => issues(paperProfile('own', raw)),
    machine: (raw: unknown) => issues(machineProfile('own', raw)),
    accuracy: (raw: unknown) => {
      const read = accuracyProfileSchema.safeParse(raw);
      return read.success ? [] : fromValidator(accuracyProfileSchema, raw, read.error.issues);
    },
  } satisfies Record<ProfileKind, (raw: unknown) => readonly Issue[]>;
  test.each(Object.keys(PROFILE_SCHEMAS) as ProfileKind[])('of a %s profile', (kind) => {
    expect(everyKey(jsonSchema(kind) as Schema, READ[kind])).toBeGreaterThan(4);
  });
});
