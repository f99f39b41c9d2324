import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { describe, expect, test } from 'vitest';

/** Folder -> floor. A file imports only from floors below its own, never from a sibling folder of its floor. */
const FLOORS: Readonly<Record<string, number>> = {
  units: 0,
  model: 1,
  data: 2,
  geometry: 2,
  say: 2,
  jig: 3,
  feeds: 3,
  budget: 3,
  drawing: 3,
  picture: 3,
  'jig/text.ts': 4,
  'jig/spans.ts': 3.5,
  'jig/key-places.ts': 3.5,
  'jig/strange.ts': 3.5,
  layout: 4,
  fit: 5,
  wrap: 5,
  collar: 5,
  rotary: 5,
  measured: 5,
  dryrun: 5,
  nest: 6,
  write: 6,
  page: 7,
  jobs: 8,
  live: 9,
  cli: 9,
  'index.ts': 9,
};
/** What the page recomputes with in a browser: no YAML, no Node module, no drawing library. */
const BROWSER_SAFE = [
  'units',
  'model',
  'data',
  'geometry',
  'say',
  'jig',
  'feeds',
  'drawing',
  'layout',
  'budget',
  'fit',
  'picture',
  'wrap',
  'collar',
  'rotary',
  'dryrun',
  'nest',
  'page',
  'live',
];
/** The reader of the text and what walks its tree. */
const OF_YAML = ['jig/text.ts', 'jig/spans.ts', 'jig/key-places.ts', 'jig/strange.ts'];
const PACKAGES_FOR_ALL = ['zod', 'flatbush'];

const files = readdirSync('src', { recursive: true, encoding: 'utf8' }).filter(
  (f) => f.endsWith('.ts') && !f.endsWith('.d.ts'),
);
const folderOf = (file: string): string => (file in FLOORS ? file : (file.split('/')[0] as string));

interface Import {
  readonly from: string;
  readonly to: string;
}
const importsOf = (file: string): Import[] =>
  [
    ...readFileSync(join('src', file), 'utf8').matchAll(
      /(?:^(?:import|export)\b[^;']*?from |^import |\bimport\()'([^'\n]+)'/gm,
    ),
  ].map((m) => {
    const to = m[1] as string;
    return { from: file, to: to.startsWith('.') ? relative('src', join('src', dirname(file), to)) : to };
  });
const all = files.flatMap(importsOf);
const inside = all.filter((i) => i.to.endsWith('.ts') && !i.to.startsWith('..'));

test('there is something to check', () => {
  expect(files.length).toBeGreaterThan(60);
  expect(inside.length).toBeGreaterThan(150);
});

test('every folder has a floor', () => {
  expect([...new Set(files.map(folderOf))].filter((f) => !(f in FLOORS))).toEqual([]);
});

test('imports go down only, and never to a sibling folder', () => {
  const wrong = inside.filter(({ from, to }) => {
    const [a, b] = [folderOf(from), folderOf(to)];
    return a !== b && !((FLOORS[b] as number) < (FLOORS[a] as number));
  });
  expect(wrong.map((i) => `${i.from} -> ${i.to}`)).toEqual([]);
});

test('the dry run and the program writer never meet', () => {
  const reach = (start: string, seen = new Set<string>()): Set<string> => {
    for (const { to } of inside.filter((i) => i.from === start)) {
      if (!seen.has(to)) {
        seen.add(to);
        reach(to, seen);
      }
    }
    return seen;
  };
  // Pictures are how it reports, not how it judges.
  const shared = ['units', 'model', 'data', 'geometry', 'feeds', 'say', 'picture'];
  for (const file of files.filter((f) => f.startsWith('dryrun/'))) {
    const outside = [...reach(file)].map(folderOf).filter((f) => f !== 'dryrun' && !shared.includes(f));
    expect(outside, file).toEqual([]);
  }
});

test('no circles', () => {
  const done = new Set<string>();
  const circles: string[] = [];
  const walk = (file: string, way: readonly string[]): void => {
    if (way.includes(file)) {
      circles.push([...way.slice(way.indexOf(file)), file].join(' -> '));
      return;
    }
    if (done.has(file)) return;
    for (const { to } of inside.filter((i) => i.from === file)) walk(to, [...way, file]);
    done.add(file);
  };
  for (const f of files) walk(f, []);
  expect(circles).toEqual([]);
});

describe('below the command line nothing touches files, clock, chance, environment or console', () => {
  const below = files.filter((f) => !f.startsWith('cli/'));
  test('no Node module', () => {
    // Compression is a pure function of its bytes.
    const wrong = all.filter((i) => below.includes(i.from) && i.to.startsWith('node:') && i.to !== 'node:zlib');
    expect(wrong.map((i) => `${i.from} -> ${i.to}`)).toEqual([]);
  });
  test('no clock, chance, environment or console', () => {
    const wrong = below
      .filter((f) => !f.startsWith('live/'))
      .filter((f) => {
        const code = readFileSync(join('src', f), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
        return /\b(?:Date\.now|new Date\(\)|performance\.|Math\.random|process\.|console\.|setTimeout)/.test(code);
      });
    expect(wrong).toEqual([]);
  });
  test('what the page runs is browser-safe', () => {
    const safe = files.filter((f) => BROWSER_SAFE.some((s) => f.startsWith(`${s}/`)) && !OF_YAML.includes(f));
    const wrong = all.filter(
      (i) =>
        safe.includes(i.from) &&
        !i.to.endsWith('.ts') &&
        !PACKAGES_FOR_ALL.includes(i.to) &&
        !i.from.startsWith('live/'),
    );
    expect(wrong.map((i) => `${i.from} -> ${i.to}`)).toEqual([]);
  });
});
