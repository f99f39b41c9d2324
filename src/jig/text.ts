import { isAlias, isMap, isNode, isScalar, isSeq, LineCounter, type Node, parseDocument, type YAMLError } from 'yaml';
import { type JigIssue, type KeyPath, pathText, show } from './complaint.ts';
import { type Span, scalarSpans } from './spans.ts';

/** Larger files are refused before parsing: a jig file is a few kilobytes. */
export const MAX_BYTES = 256 * 1024;
export const MAX_DEPTH = 64;

/** One complaint with its place in the file, 1-based. */
export interface TextIssue {
  readonly line: number;
  readonly column: number;
  readonly key: string;
  readonly found: string;
  readonly allowed: string;
  readonly try: string;
}

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
 * @returns the object under `raw`, for `resolveJig`; or complaints, each with line and column counted from 1
 * @throws never
 * @source YAML 1.2.2, core schema
 */
export function parseText(text: string): Parsed {
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
  let raw: unknown;
  try {
    raw = doc.toJS({ maxAliasCount: 100 });
  } catch (e) {
    return {
      ok: false,
      issues: [
        {
          line: 1,
          column: 1,
          key: '',
          found: `aliases: ${show((e as Error).message)}`,
          allowed: 'a few aliases',
          try: 'write the values out',
        },
      ],
    };
  }
  if (raw === null || typeof raw !== 'object' || Array.isArray(raw)) {
    return {
      ok: false,
      issues: [
        {
          line: 1,
          column: 1,
          key: '',
          found: raw === null ? 'an empty file' : `${Array.isArray(raw) ? 'a list' : `the ${typeof raw} ${show(raw)}`}`,
          allowed: 'keys and values, starting with "jig: 1"',
          try: 'start from a demo jig, or run lugwright new',
        },
      ],
    };
  }
  const lines: Record<string, number> = {};
  if (isNode(doc.contents)) noteLines(doc.contents, '', counter, lines, 0);
  const place = (issue: JigIssue): TextIssue => {
    const { line, col } = counter.linePos(offsetOf(doc.contents, issue.path, issue.onKey === true));
    return { line, column: col, key: pathText(issue.path), found: issue.found, allowed: issue.allowed, try: issue.try };
  };
  return { ok: true, raw, lines, place, spans: () => scalarSpans(doc.contents) };
}

/** Where lines begin. Filled from the text: the parser, which could fill it, loses lines when it recovers from an error. */
function linesOf(text: string): LineCounter {
  const counter = new LineCounter();
  counter.addNewLine(0);
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) counter.addNewLine(at + 1);
  return counter;
}

function refusedEarly(text: string): TextIssue | undefined {
  const refuse = (line: number, column: number, found: string, allowed: string, tryThis: string): TextIssue => ({
    line,
    column,
    key: '',
    found,
    allowed,
    try: tryThis,
  });
  if (text.length > MAX_BYTES)
    return refuse(
      1,
      1,
      `a file of over ${MAX_BYTES / 1024} KB`,
      `at most ${MAX_BYTES / 1024} KB`,
      'check that this is the jig file',
    );
  // biome-ignore lint/suspicious/noControlCharactersInRegex: looking for binary data
  const odd = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffd]/.exec(text);
  if (odd) {
    const before = text.slice(0, odd.index);
    const line = before.split('\n').length;
    return refuse(
      line,
      odd.index - before.lastIndexOf('\n'),
      'a control character or broken text',
      'plain UTF-8 text',
      'save the file as UTF-8 text',
    );
  }
  const lone = /\r(?!\n)/.exec(text);
  if (lone) {
    const before = text.slice(0, lone.index);
    return refuse(
      before.split('\n').length,
      lone.index - before.lastIndexOf('\n'),
      'a carriage return that no line feed follows',
      'lines that end with a line feed, or with both',
      'save the file with the line ends of today',
    );
  }
  const deep = tooDeep(text);
  if (deep)
    return refuse(
      deep,
      1,
      `nesting deeper than ${MAX_DEPTH}`,
      `at most ${MAX_DEPTH} levels`,
      'a jig file needs about six levels',
    );
  return undefined;
}

/** Line on which nesting passes the limit: open brackets plus indented levels, counted without parsing. */
function tooDeep(text: string): number | undefined {
  let flow = 0;
  let lineNumber = 0;
  const indents: number[] = [];
  for (const line of text.split('\n')) {
    lineNumber++;
    const indent = /^ */.exec(line)?.[0].length ?? 0;
    if (flow === 0 && line.trim() !== '' && !line.trimStart().startsWith('#')) {
      while (indents.length > 0 && (indents.at(-1) as number) >= indent) indents.pop();
      indents.push(indent);
    }
    const dashes = /^(?:\s*[-?:]\s+)+/.exec(line)?.[0].match(/[-?:]/g)?.length ?? 0;
    let quote = '';
    for (const c of line) {
      if (quote !== '') quote = c === quote ? '' : quote;
      else if (c === '"' || c === "'") quote = c;
      else if (c === '[' || c === '{') flow++;
      else if ((c === ']' || c === '}') && flow > 0) flow--;
      if (flow + indents.length + dashes > MAX_DEPTH) return lineNumber;
    }
  }
  return undefined;
}

function syntaxIssue(e: YAMLError, counter: LineCounter): TextIssue {
  const { line, col } = counter.linePos(e.pos[0]);
  if (e.code === 'MULTIPLE_DOCS') {
    return {
      line,
      column: col,
      key: '',
      found: 'a second document after ---',
      allowed: 'one jig a file',
      try: 'put it into a file of its own',
    };
  }
  const found = e.code === 'DUPLICATE_KEY' ? 'the same key twice' : show(e.message.replace(/ at line \d+.*$/s, ''));
  const tryThis =
    e.code === 'DUPLICATE_KEY'
      ? 'remove one of them'
      : 'check indentation, colons, quotes and brackets just before this place';
  return {
    line,
    column: col,
    key: '',
    found,
    allowed: e.code === 'DUPLICATE_KEY' ? 'every key once' : 'YAML 1.2',
    try: tryThis,
  };
}

/** Offset of a key path's value (or of its key), or of the nearest parent that is there. */
function offsetOf(root: unknown, path: KeyPath, onKey: boolean): number {
  let node: unknown = root;
  let at = isNode(root) ? (root.range?.[0] ?? 0) : 0;
  for (const [i, key] of path.entries()) {
    if (isMap(node)) {
      const pair = node.items.find((p) => isScalar(p.key) && String(p.key.value) === String(key));
      if (!pair) return at;
      const last = i === path.length - 1;
      at = (last && onKey ? undefined : rangeOf(pair.value)) ?? rangeOf(pair.key) ?? at;
      node = pair.value;
    } else if (isSeq(node) && typeof key === 'number') {
      node = node.items[key];
      at = rangeOf(node) ?? at;
    } else return at;
  }
  return at;
}

const rangeOf = (node: unknown): number | undefined => (isNode(node) ? node.range?.[0] : undefined);

function noteLines(node: Node, path: string, counter: LineCounter, lines: Record<string, number>, level: number): void {
  if (level > MAX_DEPTH || isAlias(node)) return;
  const below = (key: string | number) => (path === '' ? String(key) : `${path}.${key}`);
  if (isMap(node)) {
    for (const pair of node.items) {
      if (!isScalar(pair.key)) continue;
      const key = below(String(pair.key.value));
      lines[key] = counter.linePos(rangeOf(pair.key) ?? 0).line;
      if (isNode(pair.value)) noteLines(pair.value, key, counter, lines, level + 1);
    }
  } else if (isSeq(node)) {
    node.items.forEach((item, i) => {
      lines[below(i)] = counter.linePos(rangeOf(item) ?? 0).line;
      if (isNode(item)) noteLines(item, below(i), counter, lines, level + 1);
    });
  }
}
