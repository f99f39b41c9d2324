import { isNode, LineCounter, parseDocument, type YAMLError } from 'yaml';
import { type JigIssue, pathText, show } from './complaint.ts';
import { linesOfKeys, offsetOf } from './key-places.ts';
import { ofText, refusedEarly, type TextIssue } from './refused-early.ts';
import { type Span, scalarSpans } from './spans.ts';
import { firstStrange } from './strange.ts';

/** A jig file's text read: the plain object with the place of every key, or every complaint. */
export type Parsed =
  | {
      readonly ok: true;
      readonly raw: unknown;
      readonly lines: Readonly<Record<string, number>>;
      /** Place of every scalar value in the text, for writing a changed one back. */
      readonly spans: () => Readonly<Record<string, Span>>;
      /** Place of an issue's key or value. */
      readonly place: (issue: JigIssue) => TextIssue;
    }
  | { readonly ok: false; readonly issues: readonly TextIssue[] };

/**
 * YAML text to a plain object and the place of every key. Refuses, before parsing, files over 256 KB, binary data and
 * nesting deeper than 64; bounds aliases; reports every syntax error with line and column.
 * @param text the file
 * @param begins what such a file begins with, for who gives another
 * @returns the object under `raw`, for `resolveJig`; or complaints, each with line and column counted from 1
 * @throws never
 * @source YAML 1.2.2, core schema
 */
export function parseText(text: string, begins = 'jig: 1'): Parsed {
  const early = refusedEarly(text);
  if (early) return { ok: false, issues: [early] };
  const counter = linesOf(text);
  const doc = parseDocument(text, {
    prettyErrors: false,
    uniqueKeys: true,
    merge: false,
    version: '1.2',
    customTags: [],
  });
  if (doc.errors.length > 0) return { ok: false, issues: doc.errors.slice(0, 20).map((e) => syntaxIssue(e, counter)) };
  const strange = firstStrange(doc);
  if (strange) {
    const { line, col } = counter.linePos(strange.at);
    return { ok: false, issues: [ofText(line, col, strange.found, strange.allowed, strange.try)] };
  }
  let raw: unknown;
  try {
    raw = doc.toJS({ maxAliasCount: 100 });
  } catch (e) {
    const found = `aliases: ${show((e as Error).message)}`;
    return { ok: false, issues: [ofText(1, 1, found, 'a few aliases', 'write the values out')] };
  }
  if (raw === null || typeof raw !== 'object' || Array.isArray(raw)) {
    const found = raw === null ? 'an empty file' : Array.isArray(raw) ? 'a list' : `the ${typeof raw} ${show(raw)}`;
    const allowed = `keys and values, starting with "${begins}"`;
    const start =
      begins === 'jig: 1'
        ? 'start from a demo jig, or run lugwright new'
        : 'see lugwright schema --profile for its keys';
    return { ok: false, issues: [ofText(1, 1, found, allowed, start)] };
  }
  const lines = isNode(doc.contents) ? linesOfKeys(doc.contents, counter) : {};
  const place = (issue: JigIssue): TextIssue => {
    const { line, col } = counter.linePos(offsetOf(doc.contents, issue.path, issue.onKey === true));
    return { line, column: col, key: pathText(issue.path), found: issue.found, allowed: issue.allowed, try: issue.try };
  };
  return { ok: true, raw, lines, place, spans: () => scalarSpans(doc.contents) };
}

/**
 * Where lines begin. Filled from the text: the parser, which could fill it, loses lines when it recovers from an
 * error.
 */
function linesOf(text: string): LineCounter {
  const counter = new LineCounter();
  counter.addNewLine(0);
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) counter.addNewLine(at + 1);
  return counter;
}

function syntaxIssue(e: YAMLError, counter: LineCounter): TextIssue {
  const { line, col } = counter.linePos(e.pos[0]);
  const at = (found: string, allowed: string, tryThis: string): TextIssue => ofText(line, col, found, allowed, tryThis);
  if (e.code === 'MULTIPLE_DOCS')
    return at('a second document after ---', 'one jig a file', 'put it into a file of its own');
  if (e.code === 'DUPLICATE_KEY') return at('the same key twice', 'every key once', 'remove one of them');
  const found = show(e.message.replace(/ at line \d+.*$/s, ''));
  return at(found, 'YAML 1.2', 'check indentation, colons, quotes and brackets just before this place');
}
