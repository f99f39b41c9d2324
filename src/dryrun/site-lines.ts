import { type Deg, type Mm, shorterTurn, toDeg, toRad } from '../units/scalar.ts';
import type { Site } from './stretches.ts';
import type { Sweep } from './sweeps.ts';

const FINEST_SHARE = 200;
const COARSEST: Mm = 0.05;
const MOST_LINES = 4000;
/** Lines over a round hole that a straight bit has gone right through: chords of a circle, summed by Gauss. */
const CHORDS = 25;

/** Where the lines of a place lie, and what each stands for in a sum. */
export type Lines = Pick<Site, 'lines' | 'turns' | 'weights'>;

/**
 * Lines where Gauss-Chebyshev sums of the second kind want them: exact for a half circle times a polynomial, which is
 * what the chords of a round hole are.
 */
export function chordLines(s: Sweep, r: Mm, radii: Float64Array): Lines {
  const turns = new Float64Array(radii.length * CHORDS);
  const weights = new Float64Array(radii.length * CHORDS);
  radii.forEach((rho, k) => {
    for (let j = 0; j < CHORDS; j++) {
      const phi = ((j + 1) * Math.PI) / (CHORDS + 1);
      const aside = s.y + r * Math.cos(phi);
      const angle = -Math.asin(clamp(aside / rho));
      turns[k * CHORDS + j] = s.turn + toDeg(angle);
      // From a step aside to a step of angle: divided by rho cos(angle).
      weights[k * CHORDS + j] = ((Math.PI / (CHORDS + 1)) * Math.sin(phi) * r) / (rho * Math.cos(angle));
    }
  });
  return { lines: CHORDS, turns, weights };
}

/** Lines evenly round the place. */
export function evenLines(
  sweeps: readonly Sweep[],
  reach: Mm,
  inside: Mm,
  radii: Float64Array,
  radius: Mm,
  grid: Mm | undefined,
): Lines {
  const first = sweeps[0]!;
  const half = toDeg(Math.asin(clamp(reach / inside))) * 1.02;
  let low = Infinity;
  let high = -Infinity;
  for (const s of sweeps) {
    const middle = shorterTurn(first.turn, s.turn) - toDeg(Math.asin(clamp(s.y / inside)));
    low = Math.min(low, middle - half);
    high = Math.max(high, middle + half);
  }
  const width = toRad(high - low) * radius;
  const lines = Math.min(
    MOST_LINES,
    Math.max(64, Math.ceil(width / (grid ?? Math.min(COARSEST, width / FINEST_SHARE)))),
  );
  const step = (high - low) / lines;
  const turns = new Float64Array(radii.length * lines);
  for (let k = 0; k < radii.length; k++)
    for (let j = 0; j < lines; j++) turns[k * lines + j] = first.turn + low + (j + 0.5) * step;
  return { lines, turns, weights: new Float64Array(turns.length).fill(toRad(step)) };
}

/** First and last + 1 of the lines of a layer between two angles; chords run from high to low, even lines from low to high. */
export function between(turns: Float64Array, base: number, lines: number, low: Deg, high: Deg): [number, number] {
  const a = turns[base]!;
  const b = turns[base + lines - 1]!;
  // Chords are few and unevenly spaced: all of them.
  if (lines === CHORDS) return [0, lines];
  const step = (b - a) / (lines - 1);
  return [Math.max(0, Math.floor((low - a) / step)), Math.min(lines, Math.ceil((high - a) / step) + 1)];
}

export const clamp = (v: number): number => Math.max(-1, Math.min(1, v));
