import type { FlatPoint } from '../model/frames.ts';
import type { Foot, PatternPoint } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';

/** A closed outline on the unrolled shell, counter-clockwise, with its box. */
export interface Outline {
  readonly points: readonly FlatPoint[];
  readonly left: Mm;
  readonly right: Mm;
  readonly down: Mm;
  readonly up: Mm;
}

/** Longest slanted side (mm) left straight: an across offset lies at R asin(x / R), so slanted sides bend a little. */
const STRAIGHT = 5;

/**
 * A foot as it lies on the shell of radius `radius`, its pattern's origin at (0, 0). Corners and ellipses become chords
 * no further than `tolerance.chord` from the true line; straight sides along and across the shell stay exact.
 */
export function footOutline(foot: Foot, radius: Mm): Outline {
  const flat = foot.outline ?? (foot.shape === 'ellipse' ? ellipse(foot) : rounded(foot));
  return fromPoints(
    divided(flat).map((p) => ({ x: radius * Math.asin(Math.max(-1, Math.min(1, p.across / radius))), y: p.upright })),
  );
}

export function fromPoints(points: readonly FlatPoint[]): Outline {
  let [left, right, down, up] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const p of points) {
    left = Math.min(left, p.x);
    right = Math.max(right, p.x);
    down = Math.min(down, p.y);
    up = Math.max(up, p.y);
  }
  return { points, left, right, down, up };
}

export function moved(o: Outline, dx: Mm, dy: Mm): Outline {
  return {
    points: o.points.map((p) => ({ x: p.x + dx, y: p.y + dy })),
    left: o.left + dx,
    right: o.right + dx,
    down: o.down + dy,
    up: o.up + dy,
  };
}

/** Chords of a full turn of radius `r` that stay within `tolerance.chord` of it; a multiple of four keeps the poles. */
const chordsFor = (r: Mm): number =>
  r <= tolerance.chord ? 4 : 4 * Math.ceil(Math.PI / (4 * Math.acos(1 - tolerance.chord / r)));

function ellipse(f: Foot): PatternPoint[] {
  const [cx, cy] = [(f.right - f.left) / 2, (f.up - f.down) / 2];
  const [a, b] = [(f.left + f.right) / 2, (f.up + f.down) / 2];
  const n = chordsFor(Math.max(a, b));
  return Array.from({ length: n }, (_, i) => ({
    across: cx + a * Math.cos((2 * Math.PI * i) / n),
    upright: cy + b * Math.sin((2 * Math.PI * i) / n),
  }));
}

function rounded(f: Foot): PatternPoint[] {
  const c = Math.min(f.corner, (f.left + f.right) / 2, (f.up + f.down) / 2);
  const corners = [
    [f.right, f.up, 0],
    [-f.left, f.up, 1],
    [-f.left, -f.down, 2],
    [f.right, -f.down, 3],
  ] as const;
  if (c <= tolerance.same) return corners.map(([across, upright]) => ({ across, upright }));
  const n = chordsFor(c) / 4;
  return corners.flatMap(([x, y, quarter]) => {
    const [cx, cy] = [
      x - Math.sign(x + f.left - (f.left + f.right) / 2) * c,
      y - Math.sign(y + f.down - (f.up + f.down) / 2) * c,
    ];
    return Array.from({ length: n + 1 }, (_, i) => {
      const t = (Math.PI / 2) * (quarter + i / n);
      return { across: cx + c * Math.cos(t), upright: cy + c * Math.sin(t) };
    });
  });
}

function divided(points: readonly PatternPoint[]): PatternPoint[] {
  return points.flatMap((p, i) => {
    const q = points[(i + 1) % points.length] as PatternPoint;
    const [dx, dy] = [q.across - p.across, q.upright - p.upright];
    const slanted = Math.abs(dx) > tolerance.same && Math.abs(dy) > tolerance.same;
    const n = slanted ? Math.max(1, Math.ceil(Math.hypot(dx, dy) / STRAIGHT)) : 1;
    return Array.from({ length: n }, (_, k) => ({
      across: p.across + (dx * k) / n,
      upright: p.upright + (dy * k) / n,
    }));
  });
}
