import { isAlias, isMap, isNode, isScalar, isSeq, type LineCounter, type Node } from 'yaml';
import type { KeyPath } from './complaint.ts';
import { MAX_DEPTH } from './refused-early.ts';

/** Offset of a key path's value (or of its key), or of the nearest parent that is there. */
export function offsetOf(root: unknown, path: KeyPath, onKey: boolean): number {
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

/** Line of every key and list item by its path, `lugs.rows.0`. */
export function linesOfKeys(root: Node, counter: LineCounter): Record<string, number> {
  const lines: Record<string, number> = {};
  noteLines(root, '', counter, lines, 0);
  return lines;
}

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
