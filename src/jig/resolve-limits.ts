import type { Limits } from '../model/jig.ts';
import { camel } from './camel.ts';
import { GAP, type Reader } from './reader.ts';
import type { RawJig } from './schema.ts';

const LENGTHS = ['reserve', 'skirt-gap', 'foot-gap', 'land', 'round', 'square'] as const;
const ANGLES = ['lean', 'bind', 'facing', 'facing-bad'] as const;
const NUMBERS = ['first-turns', 'engage', 'engage-well'] as const;

/** The workshop's own limits; a pair of them must grow from look-twice to stop. */
export function resolveLimits(raw: NonNullable<RawJig['limits']>, r: Reader): Limits {
  const out: Record<string, number> = {};
  for (const key of LENGTHS) if (raw[key] !== undefined) out[camel(key)] = r.length(raw[key], ['limits', key], GAP);
  for (const key of ANGLES) {
    if (raw[key] === undefined) continue;
    const angle = r.angle(raw[key], ['limits', key]);
    if (angle < 0 || angle > 90)
      r.complain(['limits', key], `${angle} deg`, 'from 0 to 90 deg', 'give the angle without a sign');
    out[camel(key)] = angle;
  }
  for (const key of NUMBERS) if (raw[key] !== undefined) out[camel(key)] = raw[key];
  return out;
}
