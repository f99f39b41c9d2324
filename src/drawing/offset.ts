import type { Path } from '../model/drawing.ts';
import type { Mm } from '../units/scalar.ts';
import { chained, cleared } from './offset-general.ts';
import { trimmedAtCorners } from './offset-quick.ts';
import { signedArea } from './paths.ts';
import { pathOf, type Span, spanLength, spansOf } from './spans.ts';

/**
 * The closed path moved outwards by `d` mm on every side (inwards when negative), exactly: lines stay lines, arcs stay arcs
 * of changed radius, outside corners become arcs round the corner, inside corners are cut where the moved sides meet.
 *
 * Nothing is left of a contour that closes up: the list is empty. It has more than one path when the contour falls apart
 * (or, growing, closes round a hole: that one then runs against the original). The order is by length, longest first.
 */
export const offsetPath = (path: Path, d: Mm): readonly Path[] => offset(path, d).paths;

export interface Offset {
  readonly paths: readonly Path[];
  /** Pieces of the original that nothing of the offset runs along: a notch that closed, a fillet smaller than the beam. */
  readonly lost: readonly Span[];
}

/** `offsetPath`, and what got lost on the way. */
export function offset(path: Path, d: Mm): Offset {
  if (!path.closed) throw new RangeError(`${path.from}: only a closed contour has an inside to offset`);
  if (d === 0) return { paths: [path], lost: [] };
  const spans = spansOf(path);
  const side = signedArea(path) < 0 ? -d : d;
  const quick = trimmedAtCorners(spans, side);
  if (quick !== undefined) return { paths: [pathOf(quick, path, true)], lost: [] };
  // Sides that come to lie exactly on one another leave no clean answer; a hair's breadth more does.
  for (const hair of [0, 1e-7, 1e-6, 1e-5]) {
    const { pieces, lost } = cleared(spans, side * (1 + hair));
    const loops = chained(pieces);
    if (loops !== undefined) {
      const paths = loops.map((loop) => pathOf(loop, path, true));
      return { paths: paths.sort((a, b) => length(b) - length(a)), lost };
    }
  }
  throw new RangeError(`${path.from}: no closed offset at ${d} mm`);
}

const length = (p: Path): Mm => spansOf(p).reduce((sum, s) => sum + spanLength(s), 0);
