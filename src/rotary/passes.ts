import type { Machine, Tool } from '../model/machine.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Station, travelCost } from './legs.ts';
import { shortestOrder } from './order.ts';
import type { Operation, OperationKind } from './types.ts';

/** One bit's visit to all its holes, in order. */
export interface Pass {
  readonly tool: Tool;
  readonly operations: readonly Operation[];
}

/** A hole nearer than this to a plate or cone is drilled last of its pass (common practice, no source). */
const NEAR_CLAMP: Mm = 10;

const RANK: Readonly<Record<OperationKind, number>> = {
  'centre-mark': 0,
  pilot: 1,
  drill: 2,
  bore: 3,
  'edge-break': 4,
};

/**
 * Fewest tool changes: one pass a bit unless some hole needs it before and after another; marks first, then pilots, drills
 * from small to large, bores, edges; a pass holding the vent goes last of its rank. Within a pass the order of least
 * travel, holes near the clamps after the others.
 */
export function planPasses(
  operations: readonly Operation[],
  machine: Machine,
  depth: Mm,
  alternate: boolean,
): { readonly passes: readonly Pass[]; readonly end: Station } {
  const sorted = groupsFor(operations);
  const cost = travelCost(machine);
  const passes: Pass[] = [];
  // The witness move is made at the first hole's X, whichever hole that turns out to be.
  let at: Station = { x: Number.NaN, a: 0 };
  for (const group of sorted) {
    const ordered: Operation[] = [];
    for (const block of blocksOf(group, machine, depth)) {
      const order = shortestOrder(block, at, cost);
      const run = order.map((i) => block[i]!);
      const arranged = alternate ? alternating(run) : run;
      ordered.push(...arranged);
      at = arranged[arranged.length - 1] ?? at;
    }
    passes.push({ tool: group[0]!.tool, operations: ordered });
  }
  return { passes, end: at };
}

/** Operations by bit and rank; of one bit put together wherever every hole still gets its own in order. */
function groupsFor(operations: readonly Operation[]): Operation[][] {
  const byRank = new Map<string, Operation[]>();
  for (const op of operations) {
    const key = `${op.tool.id}|${RANK[op.kind]}`;
    const group = byRank.get(key);
    if (group) group.push(op);
    else byRank.set(key, [op]);
  }
  let sorted = inOrder([...byRank.values()], operations) ?? [];
  for (let i = 0; i < sorted.length; i++) {
    for (let j = i + 1; j < sorted.length; ) {
      const [p, q] = [sorted[i]!, sorted[j]!];
      const joined =
        p[0]!.tool === q[0]!.tool
          ? inOrder([...sorted.filter((g) => g !== p && g !== q), [...p, ...q]], operations)
          : undefined;
      if (joined) {
        sorted = joined;
        [i, j] = [0, 1];
      } else j++;
    }
  }
  return sorted;
}

/** The groups so that no hole gets an operation before an earlier one of its own; undefined when that cannot be. */
function inOrder(groups: readonly Operation[][], operations: readonly Operation[]): Operation[][] | undefined {
  const of = new Map(groups.flatMap((g) => g.map((op) => [op, g] as const)));
  const waits = new Map(groups.map((g) => [g, new Set<Operation[]>()]));
  for (let i = 1; i < operations.length; i++) {
    const [before, op] = [operations[i - 1]!, operations[i]!];
    if (before.hole === op.hole) waits.get(of.get(op)!)!.add(of.get(before)!);
  }
  const left = [...groups].sort((p, q) => rankOf(p) - rankOf(q) || ventLast(p) - ventLast(q) || bySize(p, q));
  const out: Operation[][] = [];
  while (left.length > 0) {
    const next = left.findIndex((g) => !left.some((other) => waits.get(g)!.has(other)));
    if (next < 0) return undefined;
    out.push(...left.splice(next, 1));
  }
  return out;
}

const rankOf = (group: readonly Operation[]): number => Math.min(...group.map((o) => RANK[o.kind]));
const ventLast = (group: readonly Operation[]): number => (group.some((o) => o.hole.role === 'vent') ? 1 : 0);
const bySize = (p: readonly Operation[], q: readonly Operation[]): number =>
  p[0]!.tool.diameter - q[0]!.tool.diameter || p[0]!.tool.id - q[0]!.tool.id;

/** First the holes away from the clamps, then those near them, then the vents: each block is swept on its own. */
function blocksOf(group: readonly Operation[], machine: Machine, depth: Mm): Operation[][] {
  const near = (o: Operation): boolean =>
    o.x - o.hole.drill / 2 < machine.fixture.chuck + NEAR_CLAMP ||
    depth - o.x - o.hole.drill / 2 < machine.fixture.tailstock + NEAR_CLAMP;
  const vents = group.filter((o) => o.hole.role === 'vent');
  const rest = group.filter((o) => o.hole.role !== 'vent');
  return [rest.filter((o) => !near(o)), rest.filter(near), vents].filter((b) => b.length > 0);
}

/**
 * Column by column round the shell, each followed by the one half a turn on, so that neither side is left whole while the
 * other is cut away.
 */
function alternating(run: readonly Operation[]): Operation[] {
  const columns: Operation[][] = [];
  for (const op of [...run].sort((p, q) => Math.abs(p.a) - Math.abs(q.a) || p.x - q.x)) {
    const last = columns[columns.length - 1];
    if (last && Math.abs(last[0]!.a - op.a) < tolerance.same) last.push(op);
    else columns.push([op]);
  }
  const half = Math.ceil(columns.length / 2);
  return columns.slice(0, half).flatMap((column, i) => [...column, ...(columns[i + half] ?? [])]);
}
