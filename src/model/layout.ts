import type { Deg, Mm } from '../units/scalar.ts';
import type { Edge, Foot, Role } from './jig.ts';

/** One hole on the shell. */
export interface Hole {
  /** XML-name safe and unique: `lug-top-3-a`, `strainer-a`, `vent`. */
  readonly id: string;
  /** Fitting it belongs to, e.g. `lug-top-3`, `strainer`, `leg-2`. */
  readonly fitting: string;
  readonly role: Role | 'lug';
  /** 0 <= angle < 360. */
  readonly angle: Deg;
  readonly height: Mm;
  readonly drill: Mm;
  readonly pilot?: Mm;
  /** Edge the row or fitting is measured from: collars and bands register there. */
  readonly edge: Edge;
  /** Straight-across offset from the fitting's line: the tilt of a parallel screw is asin(across / R). */
  readonly across: Mm;
  /** Parallel screws: the hole's axis is parallel to the fitting's radius; radial: towards the shell's axis. */
  readonly axes: 'parallel' | 'radial';
}

/** One casting on the shell: its line, origin height and foot. */
export interface Placed {
  readonly id: string;
  /** The row's or the fitting's name: `top`, `strainer`. */
  readonly group: string;
  readonly role: Role | 'lug';
  readonly angle: Deg;
  readonly height: Mm;
  readonly edge: Edge;
  readonly turned: boolean;
  readonly foot?: Foot;
  readonly holes: readonly Hole[];
  /** Key path in the jig file, e.g. `lugs.rows.0` or `fittings.2`. */
  readonly key: string;
}

/** Where everything goes: the plan's geometry. Holes in stable order: rows, then fittings, each by place, each by pattern. */
export interface Layout {
  readonly radius: Mm;
  readonly inside: Mm;
  readonly wall: Mm;
  readonly depth: Mm;
  readonly placed: readonly Placed[];
  readonly holes: readonly Hole[];
}
