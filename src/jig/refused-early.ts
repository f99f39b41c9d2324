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

/** A complaint about the text itself, at a place but at no key. */
export const ofText = (line: number, column: number, found: string, allowed: string, tryThis: string): TextIssue => ({
  line,
  column,
  key: '',
  found,
  allowed,
  try: tryThis,
});

/**
 * What is refused before parsing, which could take long over it or lose its place: size, binary data, lone returns,
 * depth.
 */
export function refusedEarly(text: string): TextIssue | undefined {
  if (text.length > MAX_BYTES)
    return ofText(
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
    return ofText(
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
    return ofText(
      before.split('\n').length,
      lone.index - before.lastIndexOf('\n'),
      'a carriage return that no line feed follows',
      'lines that end with a line feed, or with both',
      'save the file with the line ends of today',
    );
  }
  const deep = tooDeep(text);
  if (deep)
    return ofText(
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
