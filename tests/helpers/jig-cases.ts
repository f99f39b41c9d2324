import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'yaml';
import { type Bench, lay } from '../../src/fit/bench.ts';
import { check } from '../../src/fit/check.ts';
import { limitsOf } from '../../src/fit/limits.ts';
import { resolveJig } from '../../src/jig/resolve.ts';
import { layOut } from '../../src/layout/layout.ts';
import type { Fact } from '../../src/model/finding.ts';
import type { Jig } from '../../src/model/jig.ts';

export type Raw = Record<string, unknown>;

const folder = fileURLToPath(new URL('../cases/', import.meta.url));

const read = new Map<string, unknown>();

/** A case file as an object; read once and copied, so that no test sees another's changes. */
export function readCase(name: string): unknown {
  if (!read.has(name)) read.set(name, parse(readFileSync(`${folder}${name}.yaml`, 'utf8')));
  return structuredClone(read.get(name));
}

/** Names of the sound builds that are written out as jig files. */
export const soundNames = (): string[] =>
  readdirSync(`${folder}sound`)
    .filter((f) => f.endsWith('.yaml'))
    .map((f) => f.slice(0, -'.yaml'.length))
    .sort();

export const sound = (name: string): Raw => readCase(`sound/${name}`) as Raw;

/** A copy of a jig object with some keys changed by path (`lugs.rows.0.distance`); null removes a key. */
export function changed(raw: Raw, set: Readonly<Record<string, unknown>>): Raw {
  const copy = structuredClone(raw);
  for (const [path, value] of Object.entries(set)) {
    const keys = path.split('.');
    const last = keys.pop() as string;
    let at = copy as Record<string, unknown>;
    for (const key of keys) {
      if (typeof at[key] !== 'object' || at[key] === null) at[key] = {};
      at = at[key] as Record<string, unknown>;
    }
    if (value === null) delete at[last];
    else at[last] = value;
  }
  return copy;
}

export function jigOf(raw: unknown): Jig {
  const resolved = resolveJig(raw);
  if (!resolved.ok)
    throw new Error(resolved.issues.map((i) => `${i.path.join('.')}: ${i.found}; ${i.allowed}`).join('\n'));
  return resolved.jig;
}

/** All that is found in a jig. */
export function factsOf(raw: unknown): readonly Fact[] {
  const jig = jigOf(raw);
  return trueFacts(check(jig, layOut(jig)));
}

/** What one check alone finds in a jig. */
export const factsBy = (one: (bench: Bench) => readonly Fact[], raw: unknown): readonly Fact[] =>
  trueFacts(one(benchOf(raw)));

/** Whatever is no finding among them is a fault. */
function trueFacts(facts: readonly Fact[]): readonly Fact[] {
  const odd = facts.find((f) => !['stop', 'care', 'note'].includes(f.level));
  if (odd !== undefined) throw new Error(`not a finding: ${JSON.stringify(odd)}`);
  return facts;
}

/** The bench one check alone works on. */
export function benchOf(raw: unknown): Bench {
  const jig = jigOf(raw);
  return lay(jig, layOut(jig), limitsOf(jig));
}

export const stopsOf = (raw: unknown): readonly Fact[] => factsOf(raw).filter((f) => f.level === 'stop');
export const idsOf = (facts: readonly Fact[]): string[] => [...new Set(facts.map((f) => f.id))];
