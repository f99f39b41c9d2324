export type Raw = Record<string, unknown>;

/** A copy of a jig object with some keys changed by path (`lugs.rows.0.distance`); null removes a key. */
export function changed(raw: Raw, set: Readonly<Record<string, unknown>>): Raw {
  const copy = structuredClone(raw);
  for (const [path, value] of Object.entries(set)) {
    const keys = path.split('.');
    const last = keys.pop() as string;
    let at = copy as Record<string, unknown>;
    for (const key of keys) {
      if (typeof at[key] !== 'object' || at[key] === null) at[key] = {};
      at = at[key] as Record<string, unknown>;
    }
    if (value === null) delete at[last];
    else at[last] = value;
  }
  return copy;
}
