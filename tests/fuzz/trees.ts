import fc from 'fast-check';

type Path = readonly (string | number)[];
type Json = unknown;

/** What stands where something else should: right in kind, wrong in kind, at limits and beyond them. */
const VALUES: readonly Json[] = [
  0,
  -0,
  1,
  -1,
  0.001,
  1e-9,
  1e9,
  1e300,
  3000,
  360,
  -3600,
  '',
  ' ',
  '6 mm',
  '-6 mm',
  '0 mm',
  '1/2 in',
  '1 1/2"',
  '½"',
  '1,5 mm',
  '1e3 mm',
  '300 in',
  '0.0001 mm',
  '2999.9 mm',
  '22.5 deg',
  '3 turns',
  '0.1 %',
  'half',
  'default',
  'M4 x 16',
  '8-32 x 5/8',
  'top',
  'middle',
  'grid',
  'points',
  'in',
  '__proto__',
  'constructor',
  'x'.repeat(300),
  'a\u0000b',
  '\u202e<&>"\'',
  null,
  true,
  false,
  [],
  {},
  [[]],
  [0],
  { between: [1, 2] },
  { between: [1, 999] },
  { every: '120 deg', from: 0 },
  { every: 0, from: 0 },
  { width: '20 mm', height: '60 mm' },
];

interface Change {
  readonly at: number;
  readonly how: 'set' | 'lose' | 'misspell' | 'swap' | 'scale' | 'double';
  readonly much: number;
}
const change: fc.Arbitrary<Change> = fc.record({
  at: fc.nat(1_000_000),
  how: fc.constantFrom('set', 'set', 'scale', 'scale', 'swap', 'lose', 'misspell', 'double'),
  much: fc.nat(10_000),
});

/** Sound values with some of their parts replaced, scaled, exchanged, lost, doubled and misnamed. */
export const changed = <T extends object>(sound: readonly T[]): fc.Arbitrary<T> =>
  fc
    .tuple(fc.constantFrom(...sound), fc.array(change, { minLength: 1, maxLength: 4 }))
    .map(([tree, changes]) => changes.reduce(apply, structuredClone(tree)) as T);

function apply(tree: Json, c: Change): Json {
  const all = paths(tree);
  const path = all[c.at % all.length];
  if (path === undefined) return tree;
  const group = at(tree, path.slice(0, -1)) as Record<string | number, Json>;
  const key = path.at(-1)!;
  const old = group[key];
  switch (c.how) {
    case 'set':
      put(group, key, structuredClone(VALUES[c.much % VALUES.length]));
      break;
    case 'scale':
      put(group, key, scaled(old, [25.4, 1 / 25.4, -1, 0, 10, 0.1, 1.01, 0.99, 2, 0.5][c.much % 10]!));
      break;
    case 'swap':
      put(group, key, structuredClone(at(tree, all[c.much % all.length]!)));
      break;
    case 'lose':
      if (Array.isArray(group)) group.splice(Number(key), 1);
      else delete group[key];
      break;
    case 'double':
      if (Array.isArray(group)) group.splice(Number(key), 0, structuredClone(old));
      else put(group, key, [old, old]);
      break;
    case 'misspell':
      if (Array.isArray(group)) break;
      delete group[key];
      put(group, misspelt(String(key), c.much), old);
      break;
    default: {
      const never: never = c.how;
      throw new Error(`unknown change ${String(never)}`);
    }
  }
  return tree;
}

/** An own property, whatever its name. */
const put = (group: object, key: string | number, value: Json): void =>
  void Object.defineProperty(group, key, { value, writable: true, enumerable: true, configurable: true });

function paths(value: Json, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([k, inner]) => {
    const key = Array.isArray(value) ? Number(k) : k;
    return [[...path, key], ...paths(inner, [...path, key])];
  });
}

const at = (tree: Json, path: Path): Json =>
  path.reduce<Json>((v, k) => (v as Record<string | number, Json> | undefined)?.[k], tree);

function scaled(value: Json, by: number): Json {
  if (typeof value === 'number') return value * by;
  if (typeof value !== 'string') return value;
  return value.replace(/\d+(\.\d+)?/, (n) => String(Number((Number(n) * by).toFixed(6))));
}

/** One slip of the fingers: a letter lost, doubled, exchanged with the next, or in the wrong case. */
export function misspelt(word: string, much: number): string {
  if (word === '') return word;
  const i = much % word.length;
  const [before, letter, after] = [word.slice(0, i), word[i]!, word.slice(i + 1)];
  switch ((much >> 6) % 4) {
    case 0:
      return before + after;
    case 1:
      return before + letter + letter + after;
    case 2:
      return before + after.slice(0, 1) + letter + after.slice(1);
    default:
      return before + (letter === letter.toUpperCase() ? letter.toLowerCase() : letter.toUpperCase()) + after;
  }
}
