import type * as z from 'zod';
import { readLength } from '../units/length.ts';
import { nearest } from '../units/nearest.ts';
import { type JigIssue, type KeyPath, show } from './complaint.ts';

type AnySchema = {
  readonly _zod: { readonly def: Record<string, unknown> };
  meta?: () => { description?: string; kind?: string } | undefined;
};

/** Follows a path down the schema; among a union's options the first that can go on. */
function schemaAt(schema: unknown, path: KeyPath): AnySchema | undefined {
  const s = schema as AnySchema;
  const def = s._zod.def as {
    type: string;
    innerType?: unknown;
    options?: unknown[];
    shape?: Record<string, unknown>;
    element?: unknown;
    items?: unknown[];
  };
  if (def.type === 'optional') return schemaAt(def.innerType, path);
  if (path.length === 0) return s;
  const [head, ...rest] = path;
  switch (def.type) {
    case 'union':
      for (const option of def.options ?? []) {
        const found = schemaAt(option, path);
        if (found) return found;
      }
      return undefined;
    case 'object': {
      const next = def.shape?.[String(head)];
      return next === undefined ? undefined : schemaAt(next, rest);
    }
    case 'array':
      return typeof head === 'number' ? schemaAt(def.element, rest) : undefined;
    case 'tuple':
      return typeof head === 'number' && def.items?.[head] ? schemaAt(def.items[head], rest) : undefined;
    default:
      return undefined;
  }
}

/** Keys an object schema knows, through optionals and unions. */
function keysOf(schema: unknown): string[] {
  const def = (schema as AnySchema | undefined)?._zod.def as
    | { type: string; innerType?: unknown; options?: unknown[]; shape?: Record<string, unknown> }
    | undefined;
  if (!def) return [];
  if (def.type === 'optional') return keysOf(def.innerType);
  if (def.type === 'union') return (def.options ?? []).flatMap(keysOf);
  return def.type === 'object' ? Object.keys(def.shape ?? {}) : [];
}

type ZodIssue = z.core.$ZodIssue;

const valueAt = (raw: unknown, path: KeyPath): unknown =>
  path.reduce<unknown>((v, k) => (v as Record<string | number, unknown> | undefined)?.[k], raw);

/** The validator's complaints as ours, every one with its path, what is allowed and one thing to try. */
export function fromValidator(root: unknown, raw: unknown, issues: readonly ZodIssue[]): JigIssue[] {
  return issues.flatMap((issue) => translate(root, raw, issue, []));
}

function translate(root: unknown, raw: unknown, issue: ZodIssue, base: KeyPath): JigIssue[] {
  const path = [...base, ...(issue.path as KeyPath)];
  const schema = schemaAt(root, path);
  const value = valueAt(raw, path);
  const how = schema?.meta?.()?.description;
  if (issue.code === 'unrecognized_keys') {
    const known = keysOf(schema).filter((k) => !issue.keys.includes(k));
    return issue.keys.map((key) => {
      const meant = nearest(key, known);
      return {
        path: [...path, key],
        onKey: true,
        found: `unknown key "${show(key)}"`,
        allowed: known.length === 0 ? 'no keys' : `the keys ${known.join(', ')}`,
        try: /^\d/.test(key)
          ? 'write a decimal point: inside { } a comma ends a value'
          : key === '<<'
            ? 'write the values out: << is not read'
            : meant === undefined
              ? 'remove it or correct it'
              : `write "${meant}" if that is what you mean`,
      };
    });
  }
  if (issue.code === 'invalid_union' && issue.errors.length > 0) {
    const inner = bestOption(value, issue.errors);
    if (inner) return inner.flatMap((i) => translate(root, raw, i, path));
  }
  const allowed = allowedBy(issue, schema, how);
  const missing = value === undefined;
  return [
    {
      path,
      onKey: missing,
      found: missing ? 'nothing: this key is required' : `${kindOf(value)} ${show(value)}`,
      allowed,
      try: missing ? `add it${how === undefined ? '' : ` (${how})`}` : hint(issue, value, how),
    },
  ];
}

/** For an object given to a union, however deep: the complaints of the object option that knows most of its keys. */
function bestOption(value: unknown, errors: readonly (readonly ZodIssue[])[]): readonly ZodIssue[] | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const options = errors.flatMap(function flat(list): (readonly ZodIssue[])[] {
    const only = list[0];
    return list.length === 1 && only?.code === 'invalid_union' && only.path.length === 0
      ? only.errors.flatMap(flat)
      : [list];
  });
  const deep = options.filter(
    (list) => list.length > 0 && list.every((i) => i.path.length > 0 || i.code === 'unrecognized_keys'),
  );
  const strange = (list: readonly ZodIssue[]): number =>
    list.reduce((n, i) => n + (i.code === 'unrecognized_keys' ? i.keys.length : 0), 0);
  const best = deep.sort((a, b) => strange(a) - strange(b) || a.length - b.length)[0];
  // With a key nobody knows, what else is missing is a guess.
  const unknown = best?.filter((i) => i.code === 'unrecognized_keys') ?? [];
  return unknown.length > 0 ? unknown : best;
}

const kindOf = (value: unknown): string =>
  value === null
    ? 'an empty value'
    : Array.isArray(value)
      ? 'a list'
      : typeof value === 'object'
        ? 'a group of keys'
        : `the ${typeof value}`;

function allowedBy(issue: ZodIssue, schema: AnySchema | undefined, how: string | undefined): string {
  const kind = schema?.meta?.()?.kind;
  if (kind === 'length') return 'a length such as 34 mm, 1-1/2 in or 1 1/2"';
  if (kind === 'angle') return 'an angle such as 22.5 deg';
  if (kind === 'at') return 'an angle, { between: [i, j] }, a list of these, or { every: 120 deg, from: 0 deg }';
  if (kind === 'first') return 'half or an angle such as 22.5 deg';
  if (kind === 'travel') return 'a length such as 3 mm, or turns such as 3 turns';
  if (kind === 'error') return 'a size such as 0.2 mm, 0.3 deg or 0.1 %';
  if (kind === 'tools') return 'default or a list of bits';
  switch (issue.code) {
    case 'invalid_value':
      return issue.values.map(String).join(', ');
    case 'too_small':
      return `${issue.origin === 'array' ? 'at least' : issue.origin === 'string' ? 'at least' : 'not below'} ${issue.minimum}${issue.origin === 'array' ? ' of them' : issue.origin === 'string' ? ' characters' : ''}`;
    case 'too_big':
      return `at most ${issue.maximum}${issue.origin === 'array' ? ' of them' : issue.origin === 'string' ? ' characters' : ''}`;
    case 'invalid_type':
      return issue.expected === 'object' ? `a group of keys: ${keysOf(schema).join(', ')}` : wordFor(issue.expected);
    default:
      return how ?? 'another value';
  }
}

const wordFor = (expected: string): string =>
  ({
    string: 'words',
    number: 'a number',
    int: 'a whole number',
    array: 'a list',
    tuple: 'a list of two',
    boolean: 'true or false',
  })[expected] ?? expected;

function hint(issue: ZodIssue, value: unknown, how: string | undefined): string {
  if (issue.code === 'invalid_value' && typeof value === 'string') {
    const meant = nearest(value, issue.values.map(String));
    if (meant !== undefined) return `write ${meant} if that is what you mean`;
  }
  // Profiles take bare millimetres; whoever writes a unit is told the number.
  if (issue.code === 'invalid_type' && typeof value === 'string' && how?.endsWith(', mm')) {
    const length = readLength(value, 'mm');
    if (length.ok) return `write ${Number(length.value.toFixed(4))}, in mm without the unit (${how})`;
  }
  return how === undefined ? 'correct it' : `correct it (${how})`;
}
