export type KeyPath = readonly (string | number)[];

/** Something wrong in a jig file or profile: where, what was found, what is allowed, one thing to try. */
export interface JigIssue {
  readonly path: KeyPath;
  /** The key itself is at fault (unknown, missing), rather than its value. */
  readonly onKey?: boolean;
  readonly found: string;
  readonly allowed: string;
  readonly try: string;
  /** The same complaint within the profile file that it is of, by the name the jig file calls it. */
  readonly of?: { readonly profile: string; readonly issue: JigIssue };
}

/** A complaint about a profile, at the key of the jig file that names it. */
export const ofProfile = (profile: string, path: KeyPath, issue: JigIssue): JigIssue => ({
  path,
  found: `in ${profile}, ${issue.path.join('.')}: ${issue.found}`,
  allowed: issue.allowed,
  try: issue.try,
  of: { profile, issue },
});

export const pathText = (path: KeyPath): string =>
  path.reduce<string>(
    (s, k) => (typeof k === 'number' ? `${s}[${k + 1}]` : s === '' ? show(k) : `${s}.${show(k)}`),
    '',
  );

/** A value as one short line: control and direction-changing characters made visible, long text clipped. */
export function show(value: unknown): string {
  const text =
    typeof value === 'string' || typeof value === 'number'
      ? String(value)
      : value === undefined
        ? 'nothing'
        : (JSON.stringify(value) ?? String(value));
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not reach a terminal
  const safe = text.replace(/[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/g, (c) => {
    return `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`;
  });
  return safe.length > 80 ? `${safe.slice(0, 77)}...` : safe;
}
