import type { Jig } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import { largestRadius, smallestRadius } from './posts.ts';
import { BOLT, rules, type Stock } from './rules.ts';

/**
 * A clamping ear: two plates glued face to face across a notch of the last ring, the inner one with a hexagon that keeps
 * a nut from turning, the outer one with the bolt hole that the nut bears against. The bolt pushes a shoe along the same
 * notch on to the shell. Three of them centre and hold every shell of the batch, and no post moves for it.
 */
export interface Clamp {
  /** Plates glued into one shoe, so that on the smallest shell it is still led by the notch. */
  readonly plates: number;
  /** Distance from the shell's axis to the near face of the plate that holds the nut, and of the plate behind it. */
  readonly nut: Mm;
  readonly back: Mm;
  /** Narrowest and widest gap between ring and shell, oval shells included. */
  readonly gap: readonly [least: Mm, most: Mm];
}

/** Width of an ear where the ring grips it: the nut's flats and wood beside them. */
export const EAR_NECK: Mm = BOLT.flats + 8;

/** Left between a shoe pushed right back and the nut (judgement, no source). */
const SLACK: Mm = 0.3;

/** How far the gap between ring and shell changes from the largest to the smallest shell of the batch. */
const girthRange = (jig: Jig): Mm => largestRadius(jig) - smallestRadius(jig);

/** Gap between ring and shell: from the largest at its widest to the smallest at its narrowest. */
export function gapRange(jig: Jig): readonly [Mm, Mm] {
  // Largest radius less mean radius of an oval is a quarter of its roundness.
  const oval = (jig.shell.round ?? 0) / 4;
  return [Math.max(0, jig.collar.clearance - oval), jig.collar.clearance + girthRange(jig) + oval];
}

/** The ears of a collar held by bolts: where the jig file asks, or where the batch is wider than wedges can follow. */
export function clampOf(jig: Jig): Clamp | undefined {
  const hold = jig.collar.hold ?? (girthRange(jig) > rules.wedgeRange ? 'bolts' : 'wedges');
  if (hold === 'wedges') return undefined;
  const t = jig.collar.thickness;
  const gap = gapRange(jig);
  const plates = Math.max(1, Math.ceil((gap[1] + t / 2) / t));
  const inside = largestRadius(jig) + jig.collar.clearance;
  const nut = inside + plates * t + Math.max(0, BOLT.nut - t) + SLACK;
  return { plates, nut, back: nut + t, gap };
}

/** Distance from the axis to the outer corners of an ear. */
export const clampReach = (clamp: Clamp, stock: Stock): Mm =>
  Math.hypot(clamp.back + stock.t, EAR_NECK / 2 + stock.fit);
