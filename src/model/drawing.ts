import type { Mm } from '../units/scalar.ts';
import type { FlatPoint } from './frames.ts';

/** Purpose of a line; DXF layer and SVG group carry this name. Order at the machine: engrave, score, inner, outer. */
export type Layer = 'CUT-INNER' | 'CUT-OUTER' | 'SCORE' | 'ENGRAVE' | 'REFERENCE';
export const LAYERS: readonly Layer[] = ['ENGRAVE', 'REFERENCE', 'SCORE', 'CUT-INNER', 'CUT-OUTER'];

export type Seg =
  | { readonly kind: 'line'; readonly to: FlatPoint }
  | { readonly kind: 'arc'; readonly to: FlatPoint; readonly center: FlatPoint; readonly ccw: boolean };

/** A chain of lines and arcs. When `closed`, the last segment ends at `start`. */
export interface Path {
  readonly kind: 'path';
  readonly layer: Layer;
  readonly start: FlatPoint;
  readonly segs: readonly Seg[];
  readonly closed: boolean;
  /** Feature it comes from, for messages. */
  readonly from: string;
}

export interface Circle {
  readonly kind: 'circle';
  readonly layer: Layer;
  readonly center: FlatPoint;
  readonly radius: Mm;
  /** The hole's id when it marks one (becomes the SVG id). */
  readonly id?: string;
  /** Other holes that are this very hole, as where a badge is held by the vent. */
  readonly also?: readonly string[];
  readonly from: string;
}

/** What a drawing is made of. */
export type Shape = Path | Circle;

/** A flat drawing in mm, ready for a writer. */
export interface Drawing {
  readonly title: string;
  /** Lower left and upper right of the page or sheet. */
  readonly min: FlatPoint;
  readonly max: FlatPoint;
  /** Height that formats with y downwards count from; the upper edge when not given. */
  readonly top?: Mm;
  readonly shapes: readonly Shape[];
}

/**
 * A piece to cut out, at finished size (no kerf), with its own origin. `outer` is closed and counter-clockwise; `inner`
 * are closed paths or circles cut away; `marks` are scored or engraved.
 */
export interface Part {
  readonly id: string;
  readonly job: 'wrap' | 'collar' | 'card' | 'coupon';
  readonly name: string;
  readonly outer: Path | Circle;
  readonly inner: readonly Shape[];
  readonly marks: readonly Shape[];
  readonly quantity: number;
  /** Whether it may be turned on the sheet by quarter turns. */
  readonly turns: boolean;
}
