/** A jig file as a plain object, before it is resolved. */
export type RawJig = Readonly<Record<string, unknown>>;

type Node = Record<string, unknown>;

/** The value at a key path such as `lugs.rows.0.distance`; undefined when there is none. */
export const valueAt = (raw: RawJig, path: string): unknown =>
  path.split('.').reduce<unknown>((v, k) => (typeof v === 'object' && v !== null ? (v as Node)[k] : undefined), raw);

/**
 * A copy of the jig object with keys set by path; missing groups are made, and null takes a key away. A rod length that
 * stands for both ends is written out before one of them changes.
 */
export function withChanges(raw: RawJig, set: Readonly<Record<string, unknown>>): RawJig {
  const copy = structuredClone(raw) as Node;
  for (const [path, value] of Object.entries(set)) {
    const keys = path.split('.');
    let at = copy;
    for (const key of keys.slice(0, -1)) {
      const next = at[key];
      if (typeof next !== 'object' || next === null)
        at[key] = key === 'length' && next !== undefined ? { top: next, bottom: next } : {};
      at = at[key] as Node;
    }
    const last = keys.at(-1) as string;
    if (value === null) delete at[last];
    else at[last] = structuredClone(value);
  }
  return copy;
}
