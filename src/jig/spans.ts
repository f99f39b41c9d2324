import { isMap, isScalar, isSeq, type Node } from 'yaml';
import { MAX_DEPTH } from './refused-early.ts';

/** Where a value stands in the text: [from, to) in characters. */
export type Span = readonly [from: number, to: number];

/**
 * The place of every plain or quoted scalar value, by key path (`lugs.rows.0.distance`), so that a changed value can be
 * written into the text and nothing else moves. Anchored and aliased values are left out: a change there reaches further
 * than its own place.
 */
export function scalarSpans(root: unknown): Readonly<Record<string, Span>> {
  const spans: Record<string, Span> = {};
  const walk = (node: unknown, path: string, level: number): void => {
    if (level > MAX_DEPTH) return;
    const below = (key: string | number): string => (path === '' ? String(key) : `${path}.${key}`);
    if (isMap(node)) {
      for (const pair of node.items) if (isScalar(pair.key)) walk(pair.value, below(String(pair.key.value)), level + 1);
    } else if (isSeq(node)) for (const [i, item] of node.items.entries()) walk(item, below(i), level + 1);
    else if (isScalar(node) && isOnePlace(node)) spans[path] = [node.range![0], node.range![1]];
  };
  walk(root, '', 0);
  return spans;
}

/** A value on one line, without an anchor; block text (`|`, `>`) spans lines and is no number. */
const isOnePlace = (node: Node): boolean =>
  isScalar(node) &&
  node.range != null &&
  !node.anchor &&
  node.tag === undefined &&
  /^(PLAIN|QUOTE)/.test(node.type ?? '') &&
  node.range[1] > node.range[0];
