/** A value of the jig file changed in the page: its key path and what was typed. */
export interface Change {
  readonly path: string;
  readonly text: string;
}

/** Texts that YAML 1.2 reads as themselves wherever a value may stand, inside `{ }` and `[ ]` too. */
const PLAIN = /^[-+]?[\d.][\d./-]*(?: [\d/]+)?(?: ?(?:mm|cm|in|inch|inches|deg))?$/;

/**
 * The jig file with changed scalars written into their places; comments, order and everything else stay as they are.
 * Spans come from the reader of the file. A change without a span is an error of the caller.
 */
export function splice(
  text: string,
  spans: Readonly<Record<string, readonly [from: number, to: number]>>,
  changes: readonly Change[],
): string {
  const cuts = changes
    .map(({ path, text: typed }) => {
      const span = spans[path];
      if (!span) throw new RangeError(`no place in the jig file for ${path}`);
      const value = typed.trim();
      return { from: span[0], to: span[1], value: PLAIN.test(value) ? value : JSON.stringify(value) };
    })
    .sort((a, b) => b.from - a.from);
  return cuts.reduce((out, cut) => out.slice(0, cut.from) + cut.value + out.slice(cut.to), text);
}
