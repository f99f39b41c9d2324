import type { Fact, Level } from './finding.ts';

/** A fact in one line; `facts` are the names and numbers its sentence needs. */
export const fact = (
  level: Level,
  id: string,
  at: string,
  measured: number | null,
  limit: number | null,
  unit: string,
  facts: Readonly<Record<string, string | number>> = {},
): Fact => ({ level, id, at, measured, limit, unit, facts });

/** What the builder did not ask for: what stands in its way is worth a note, no more. */
export const asNote = (f: Fact): Fact => (f.level === 'note' ? f : { ...f, level: 'note' });
