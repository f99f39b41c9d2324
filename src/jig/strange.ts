import { type Document, isAlias, isPair, isScalar, type Node, visit } from 'yaml';
import { show } from './complaint.ts';

/** What YAML allows and a jig file has no use for, with its place in the text. */
export interface Strange {
  readonly at: number;
  readonly found: string;
  readonly allowed: string;
  readonly try: string;
}

const ALIASES = { allowed: 'aliases of a value that ends before them', try: 'write the values out' };
const KEYS = { allowed: 'keys that are one word', try: 'check colons and brackets here' };

/**
 * The first alias of nothing or of what it stands in (which would never end), key that is a list, a group or nothing, or
 * tag. Found before the document is turned into values, as their place is lost there.
 */
export function firstStrange(doc: Document.Parsed): Strange | undefined {
  const tag = doc.warnings.find((w) => w.code === 'TAG_RESOLVE_FAILED');
  const tagged = tag && {
    at: tag.pos[0],
    found: show(tag.message),
    allowed: 'plain numbers, words, lists and groups of keys',
    try: 'remove the tag',
  };
  const anchored = new Map<string, unknown>();
  let first: Strange | undefined;
  const stop = (at: number, found: string, words: typeof KEYS): symbol => {
    first = { at, found, ...words };
    return visit.BREAK;
  };
  visit(doc, {
    Pair: (_, { key, value }) => {
      if (isScalar(key) && key.value !== null) return undefined;
      const place = [key, value].map((n) => (n as Node | null)?.range?.[0]).find((at) => at !== undefined);
      return stop(place ?? 0, isScalar(key) ? 'an empty key' : 'a key that is no word', KEYS);
    },
    Node: (_, node, path) => {
      if (!isAlias(node)) {
        if (node.anchor) anchored.set(node.anchor, node);
        return undefined;
      }
      const meant = anchored.get(node.source);
      if (meant !== undefined && !path.some((p) => p === meant && !isPair(p))) return undefined;
      const what = meant === undefined ? 'an alias of nothing' : 'an alias of what it stands in';
      return stop(node.range?.[0] ?? 0, `${what}, *${show(node.source)}`, ALIASES);
    },
  });
  return tagged && (first === undefined || tagged.at < first.at) ? tagged : first;
}
