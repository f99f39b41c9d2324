import type { Fact, Level } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';

/** A collar nobody asked for is drawn where it can be: what stands in its way is only a note. */
export const gravest = (jig: Jig): Level => (jig.collar.asked ? 'stop' : 'note');
export const careful = (jig: Jig): Level => (jig.collar.asked ? 'care' : 'note');

export const lineAt = (jig: Jig, ...keys: string[]): { line?: number } => {
  const line = keys.map((k) => jig.lines[k]).find((l) => l !== undefined);
  return line === undefined ? {} : { line };
};

export const unchecked = (at: string, check: string, needs: string): Fact => ({
  level: 'note',
  id: 'not-checked',
  at,
  measured: null,
  limit: null,
  unit: '',
  facts: { check, needs },
});
