import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'yaml';
import { check } from '../../src/fit/check.ts';
import { layOut } from '../../src/layout/layout.ts';
import type { Fact } from '../../src/model/finding.ts';
import { changed, type Raw } from './changed.ts';
import { factsBy, jigOf, trueFacts } from './laid-out.ts';

export { changed, factsBy, jigOf, type Raw };

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

/** All that is found in a jig. */
export function factsOf(raw: unknown): readonly Fact[] {
  const jig = jigOf(raw);
  return trueFacts(check(jig, layOut(jig)));
}

export const stopsOf = (raw: unknown): readonly Fact[] => factsOf(raw).filter((f) => f.level === 'stop');
export const idsOf = (facts: readonly Fact[]): string[] => [...new Set(facts.map((f) => f.id))];
