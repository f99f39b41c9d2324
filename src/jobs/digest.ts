import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';

/**
 * What a plan's digest is taken of: everything that decides where a hole goes and how parts are cut, in fixed order.
 * The caller hashes it (SHA-256, first 12 hex digits); two parts with the same digest belong to the same plan.
 */
export function digestText(jig: Jig, layout: Layout): string {
  const round = (n: number) => Number(n.toFixed(6)) + 0;
  return JSON.stringify([
    [jig.shell.radius, jig.shell.depth, jig.shell.wall].map(round),
    layout.holes.map((h) => [h.id, round(h.angle), round(h.height), round(h.drill), round(h.pilot ?? 0)]),
    [jig.wrap, jig.collar, jig.rotary],
  ]);
}
