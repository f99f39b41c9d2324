import type { Fact } from '../model/finding.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, notChecked, raise } from './bench.ts';

/** Wires this much (mm) shorter than the inside leave the head's rim bare (common practice, no source). */
const SHORT = 70;

/** Snare wires, end plate to end plate, against the shell they cross. */
export function checkSnare(bench: Bench): Fact[] {
  const length = bench.jig.snare?.length;
  if (length === undefined) {
    const strainer = bench.groups.find((g) => g.fitting?.role === 'strainer');
    return strainer ? [notChecked(bench, 'snare', 'wires against the shell', ['snare.length'], strainer.key)] : [];
  }
  const { radius, inside } = bench.layout;
  // The bearing edge's crest lies somewhere in the wall: its middle is taken.
  const crest = radius + inside;
  const facts = { outside: 2 * radius, inside: 2 * inside };
  const say = (level: Fact['level'], id: string, limit: number) => [
    raise(bench, { level, id, at: 'snare', measured: length, limit, facts, keys: ['snare.length'] }),
  ];
  if (length > 2 * radius + tolerance.noise) return say('stop', 'snare-longer-than-shell', 2 * radius);
  if (length > crest + tolerance.noise) return say('care', 'snare-long', crest);
  if (length < inside) return say('stop', 'snare-implausible', inside);
  if (length < 2 * inside - SHORT) return say('care', 'snare-short', 2 * inside - SHORT);
  return [];
}
