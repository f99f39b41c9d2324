import { type Mm, toDeg, toRad, wrapDeg } from '../units/scalar.ts';
import type { Sweep } from './sweeps.ts';

/** A little more than touching, so that holes with a paper-thin wall between them are one place. */
const NEAR: Mm = 0.2;
/** A stand this much nearer to a kept one than its own radius adds nothing to who touches whom. */
const SPARE = 0.3;

/** Groups stands of bits whose cuts touch each other; each group is a place of its own on the shell. */
export function clusters(sweeps: readonly Sweep[], radius: Mm): Sweep[][] {
  if (sweeps.length === 0) return [];
  const cell = sweeps.reduce((most, s) => Math.max(most, s.tool.diameter / 2), 1) + NEAR;
  const columns = Math.max(1, Math.floor((2 * Math.PI * radius) / cell));
  const parent = sweeps.map((_, i) => i);
  const root = (i: number): number => {
    let r = i;
    while (parent[r] !== r) {
      parent[r] = parent[parent[r]!]!;
      r = parent[r]!;
    }
    return r;
  };
  const cells = new Map<number, number[]>();
  const skin = sweeps.map((s) => wrapDeg(s.turn - toDeg(Math.asin(Math.max(-1, Math.min(1, s.y / radius))))));
  const gap = (i: number, k: number): Mm => {
    const turn = Math.abs(wrapDeg(skin[i]! - skin[k]!));
    return Math.hypot(sweeps[i]!.x - sweeps[k]!.x, radius * toRad(Math.min(turn, 360 - turn)));
  };
  sweeps.forEach((s, i) => {
    const column = Math.min(columns - 1, Math.floor((skin[i]! / 360) * columns));
    const row = Math.floor(s.x / cell);
    const r = s.tool.diameter / 2;
    let spare = false;
    for (let dc = -2; dc <= 2; dc++)
      for (let dr = -2; dr <= 2; dr++)
        for (const k of cells.get((row + dr) * columns + ((column + dc + columns) % columns)) ?? []) {
          const d = gap(i, k);
          if (d > r + sweeps[k]!.tool.diameter / 2 + NEAR) continue;
          parent[root(i)] = root(k);
          if (sweeps[k]!.tool === s.tool && d < SPARE * r) spare = true;
        }
    if (spare) return;
    const key = row * columns + column;
    const there = cells.get(key);
    if (there) there.push(i);
    else cells.set(key, [i]);
  });
  const groups = new Map<number, Sweep[]>();
  sweeps.forEach((s, i) => {
    const r = root(i);
    const group = groups.get(r);
    if (group) group.push(s);
    else groups.set(r, [s]);
  });
  return [...groups.values()];
}
