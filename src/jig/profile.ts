import type * as z from 'zod';
import { findMachine, MACHINE_NAMES } from '../data/machines.ts';
import { findMaterial, MATERIAL_NAMES } from '../data/materials.ts';
import { findPaper, PAPER_NAMES } from '../data/papers.ts';
import { findSheet, SHEET_NAMES } from '../data/sheets.ts';
import type { Machine } from '../model/machine.ts';
import type { PaperProfile, SheetMaterial, SheetProfile } from '../model/sheet.ts';
import { nearest } from '../units/nearest.ts';
import { camel } from './camel.ts';
import type { JigIssue } from './complaint.ts';
import { fromValidator } from './issue.ts';
import { BEDS, inMillimetres, PAGES, type ProfileResult } from './profile-units.ts';
import { PROFILE_SCHEMAS } from './schema-profile.ts';

export function sheetProfile(name: string, raw: unknown): ProfileResult<SheetProfile> {
  return inMillimetres(profile(name, raw, PROFILE_SCHEMAS.sheet, SHEET_NAMES, findSheet), 'bed', BEDS);
}
export const materialProfile = (name: string, raw: unknown) =>
  profile<SheetMaterial>(name, raw, PROFILE_SCHEMAS.material, MATERIAL_NAMES, findMaterial, {
    source: `profile ${name}`,
  });
export const paperProfile = (name: string, raw: unknown): ProfileResult<PaperProfile> =>
  inMillimetres(profile(name, raw, PROFILE_SCHEMAS.paper, PAPER_NAMES, findPaper), 'page', PAGES);
export const machineProfile = (name: string, raw: unknown) =>
  profile<Machine>(name, raw, PROFILE_SCHEMAS.machine, MACHINE_NAMES, findMachine);

function profile<T extends object>(
  name: string,
  raw: unknown,
  schema: z.ZodType,
  names: readonly string[],
  find: (name: string) => T | undefined,
  extra: object = {},
): ProfileResult<T> {
  const parsed = schema.safeParse(raw);
  if (!parsed.success) return { ok: false, issues: fromValidator(schema, raw, parsed.error.issues) };
  const { profile: _kind, like: base, ...own } = parsed.data as Record<string, unknown>;
  const start = find(String(base ?? names[0]));
  if (!start) {
    const meant = nearest(String(base), names);
    return {
      ok: false,
      issues: [
        {
          path: ['like'],
          found: `the name ${String(base)}`,
          allowed: names.join(', '),
          try: meant === undefined ? 'choose one of these' : `write ${meant}`,
        },
      ],
    };
  }
  const merged = merge(start as Record<string, unknown>, camelKeys(own)) as Record<string, unknown>;
  const issues = rangesInOrder(merged);
  if (issues.length > 0) return { ok: false, issues };
  return { ok: true, value: { ...merged, name, ...extra } as unknown as T };
}

/** Every pair of limits must grow: [low, high]. */
function rangesInOrder(merged: Record<string, unknown>): JigIssue[] {
  const pairs: [string[], unknown][] = Object.entries((merged['travel'] ?? {}) as object).map(([k, v]) => [
    ['travel', k],
    v,
  ]);
  pairs.push([['rotary'], merged['rotary']]);
  const { keepOut } = (merged['fixture'] ?? {}) as { keepOut?: Machine['fixture']['keepOut'] };
  for (const [i, z] of (keepOut ?? []).entries())
    pairs.push([
      ['fixture', 'keep-out', String(i)],
      [z.from, z.to],
    ]);
  const spindle = merged['spindle'] as { min: number; max: number } | undefined;
  if (spindle) pairs.push([['spindle'], [spindle.min, spindle.max]]);
  return pairs.flatMap(([path, v]) =>
    Array.isArray(v) && v[0] >= v[1]
      ? [{ path, found: `limits ${v[0]} and ${v[1]}`, allowed: 'the lower limit first', try: 'swap or correct them' }]
      : [],
  );
}

function merge(base: Record<string, unknown>, own: Record<string, unknown>): Record<string, unknown> {
  const out = { ...base };
  for (const [key, value] of Object.entries(own)) {
    if (value === undefined) continue;
    const isGroup = typeof value === 'object' && value !== null && !Array.isArray(value);
    out[key] = isGroup ? merge((base[key] ?? {}) as Record<string, unknown>, value as Record<string, unknown>) : value;
  }
  return out;
}

function camelKeys(value: unknown): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(value as object).map(([k, v]) => [
      camel(k),
      typeof v === 'object' && v !== null && !Array.isArray(v) ? camelKeys(v) : v,
    ]),
  );
}
