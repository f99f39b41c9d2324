/** A number of the jig file that a builder plays with, as it is written there. */
export interface Field {
  /** Key path, e.g. `lugs.rows.0.distance`. */
  readonly path: string;
  readonly label: string;
  readonly value: string;
}

type Tree = Readonly<Record<string, unknown>>;

const isTree = (v: unknown): v is Tree => typeof v === 'object' && v !== null;

const valueAt = (raw: unknown, path: string): unknown =>
  path.split('.').reduce<unknown>((v, key) => (isTree(v) ? v[key] : undefined), raw);

/** The same object with one value put in place; everything on the way is copied, nothing else. */
export function withValue(raw: unknown, path: readonly string[], value: unknown): unknown {
  const [head, ...rest] = path;
  if (head === undefined) return value;
  if (Array.isArray(raw)) return raw.map((v, i) => (String(i) === head ? withValue(v, rest, value) : v));
  return { ...(raw as Tree), [head]: withValue((raw as Tree)[head], rest, value) };
}

/** Those of the numbers worth playing with that stand in this file. */
export function fieldsOf(raw: unknown, canSave: (path: string) => boolean): readonly Field[] {
  const out: Field[] = [];
  const add = (path: string, label: string): void => {
    const value = valueAt(raw, path);
    if ((typeof value === 'string' || typeof value === 'number') && canSave(path)) {
      out.push({ path, label, value: String(value) });
    }
  };
  const each = (path: string): readonly Tree[] => {
    const value = valueAt(raw, path);
    return Array.isArray(value) ? value.filter(isTree) : [];
  };
  add('shell.circumference', 'Girth of the shell');
  add('shell.diameter', 'Diameter of the shell');
  add('shell.depth', 'Depth of the shell');
  add('lugs.count', 'Lugs in a row');
  each('lugs.rows').forEach((row, i) => {
    const edge = String(row['edge'] ?? '');
    add(`lugs.rows.${i}.distance`, `Lugs, from the ${edge}${edge === 'middle' ? '' : ' edge'}`);
    add(`lugs.rows.${i}.count`, `Lugs in row ${i + 1}`);
    add(`lugs.rows.${i}.holes.drill`, `Lug holes in row ${i + 1}`);
  });
  add('lugs.holes.drill', 'Lug holes');
  add('lugs.holes.spacing', 'Lug holes apart');
  add('rods.length', 'Rods, under the head');
  add('rods.length.top', 'Top rods, under the head');
  add('rods.length.bottom', 'Bottom rods, under the head');
  each('fittings').forEach((fitting, i) => {
    const name = String(fitting['name'] ?? `fitting ${i + 1}`);
    add(`fittings.${i}.distance`, `${name}, from the ${String(fitting['edge'] ?? 'edge')}`);
    add(`fittings.${i}.holes.drill`, `${name}, hole`);
  });
  return out;
}

/** What a typed text means in the file: a number where YAML would read one, else the text. */
export function typedValue(text: string): unknown {
  const trimmed = text.trim();
  return /^[-+]?(?:\d+(?:\.\d*)?|\.\d+)$/.test(trimmed) ? Number(trimmed) : trimmed;
}
