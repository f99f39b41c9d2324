import type { Part } from '../model/drawing.ts';
import type { CollarSpec } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import { cutWidth, isCutterSaid } from './rules.ts';

/** Left round a cutter in its smallest bore, so that its path keeps a circle to follow. */
const SHADE: Mm = 0.2;

/**
 * Width that the cut of these parts takes away: the beam's or the cutter's. A cutter that nobody named is taken small
 * enough for the smallest bore; one that was named is kept, and a bore under it is named when the lines are drawn.
 */
export function kerfOf(spec: CollarSpec, parts: readonly Part[]): Mm {
  const width = cutWidth(spec);
  if (spec.cut === 'laser' || isCutterSaid(spec)) return width;
  const bores = parts.flatMap((p) => p.inner.flatMap((s) => (s.kind === 'circle' ? [2 * s.radius] : [])));
  return Math.max(SHADE, Math.min(width, ...bores.map((d) => d - SHADE)));
}
