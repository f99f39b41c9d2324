import type { Foot, PatternPoint } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import { type KeyPath, pathText } from './complaint.ts';
import { GAP, OFFSET, type Reader, SPACING } from './reader.ts';
import type { RawFoot } from './schema.ts';

/** How a foot's `rimward` lies on the shell. */
export interface FootSense {
  /** Rimward is up as the casting is written. */
  readonly rimUp: boolean;
  /** Then turned by 180 deg on the shell. */
  readonly turned: boolean;
}

export function resolveFoot(raw: RawFoot, path: KeyPath, sense: FootSense, r: Reader): Foot {
  const at = (key: string) => [...path, key];
  const written = raw.outline === undefined ? footBox(raw, path, sense, r) : outlineBox(raw.outline, path, r);
  const box = sense.turned ? { left: written.right, right: written.left, up: written.down, down: written.up } : written;
  if (box.left + box.right <= 0 || box.up + box.down <= 0)
    r.complain(path, 'a foot without area', 'sides that enclose an area', 'measure the foot again');
  const corner = r.optional(raw.corner, at('corner'), GAP) ?? 0;
  const largest = Math.min(box.left + box.right, box.up + box.down) / 2;
  if (corner > largest + 1e-9)
    r.complain(
      at('corner'),
      `a corner radius of ${corner} mm`,
      `at most half the smaller side, ${largest} mm`,
      'measure the corner again',
    );
  const gasket = r.optional(raw.gasket, at('gasket'), GAP);
  const stands = r.optional(raw.stands, at('stands'), GAP);
  if (gasket === undefined) r.assume(`${pathText(path)}.gasket`, '0 mm', 'no gasket given');
  return {
    ...box,
    shape: raw.shape ?? 'rectangle',
    corner,
    ...(raw.outline === undefined ? {} : { outline: outlinePoints(raw.outline, path, sense, r) }),
    gasket: gasket ?? 0,
    ...(raw.face === undefined ? {} : { face: raw.face }),
    ...(stands === undefined ? {} : { stands }),
  };
}

interface Box {
  readonly left: Mm;
  readonly right: Mm;
  readonly up: Mm;
  readonly down: Mm;
}

function footBox(raw: RawFoot, path: KeyPath, sense: FootSense, r: Reader): Box {
  const sides = (['left', 'right', 'rimward', 'inward'] as const).filter((k) => raw[k] !== undefined);
  const sizes = (['width', 'height'] as const).filter((k) => raw[k] !== undefined);
  const whole = sizes.length === 2 && sides.length === 0;
  if (!whole && !(sides.length === 4 && sizes.length === 0)) {
    r.complain(
      path,
      [...sizes, ...sides].join(', ') || 'no size',
      'width and height, or left, right, rimward and inward, or outline',
      'give one full set',
    );
    return { left: 1, right: 1, up: 1, down: 1 };
  }
  if (whole) {
    const [w, h] = [
      r.length(raw.width, [...path, 'width'], SPACING),
      r.length(raw.height, [...path, 'height'], SPACING),
    ];
    return { left: w / 2, right: w / 2, up: h / 2, down: h / 2 };
  }
  const side = (k: 'left' | 'right' | 'rimward' | 'inward') => r.length(raw[k], [...path, k], OFFSET);
  const [rimward, inward] = [side('rimward'), side('inward')];
  return {
    left: side('left'),
    right: side('right'),
    up: sense.rimUp ? rimward : inward,
    down: sense.rimUp ? inward : rimward,
  };
}

type RawOutline = NonNullable<RawFoot['outline']>;

const readOutline = (raw: RawOutline, path: KeyPath, r: Reader): PatternPoint[] =>
  raw.map((p, i) => ({
    across: r.length(p.across, [...path, 'outline', i, 'across'], OFFSET),
    upright: r.length(p.upright, [...path, 'outline', i, 'upright'], OFFSET),
  }));

function outlineBox(raw: RawOutline, path: KeyPath, r: Reader): Box {
  const pts = readOutline(raw, path, r);
  if (crossesItself(pts))
    r.complain(
      [...path, 'outline'],
      'an outline that crosses itself',
      'corners in the order in which they lie round the foot',
      'list them as you go round the foot once',
    );
  const xs = pts.map((p) => p.across);
  const ys = pts.map((p) => p.upright);
  return { left: -Math.min(...xs), right: Math.max(...xs), up: Math.max(...ys), down: -Math.min(...ys) };
}

/** Two sides cut through each other; sides that only touch do not. */
function crossesItself(pts: readonly PatternPoint[]): boolean {
  const end = (i: number): PatternPoint => pts[(i + 1) % pts.length] as PatternPoint;
  const side = (a: PatternPoint, b: PatternPoint, p: PatternPoint): number =>
    Math.sign((b.across - a.across) * (p.upright - a.upright) - (b.upright - a.upright) * (p.across - a.across));
  const parted = (i: number, j: number): boolean => side(pts[i]!, end(i), pts[j]!) * side(pts[i]!, end(i), end(j)) < 0;
  return pts.some((_, i) => pts.some((_, j) => j > i && parted(i, j) && parted(j, i)));
}

/** Counter-clockwise, turned with its row. */
function outlinePoints(raw: RawOutline, path: KeyPath, sense: FootSense, r: Reader): PatternPoint[] {
  const pts = readOutline(raw, path, r).map((p) =>
    sense.turned ? { across: 0 - p.across, upright: 0 - p.upright } : p,
  );
  const area = pts.reduce((s, p, i) => {
    const q = pts[(i + 1) % pts.length] as PatternPoint;
    return s + p.across * q.upright - q.across * p.upright;
  }, 0);
  return area < 0 ? pts.reverse() : pts;
}
