import type { Tool } from '../model/machine.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Bench } from './context.ts';
import { SAME_DEPTH } from './stations.ts';

/** Told what the bit reaches that it must not, how far it comes, and where that begins. */
export type Reached = (id: string, measured: Mm, limit: Mm) => void;

/** What stands in a bit's way below the skin, and what its own length allows, with its tip `deep` below Z0 at X. */
export function tooDeep(deep: Mm, x: Mm, tool: Tool | undefined, bench: Bench, reached: Reached): void {
  const { shell, backing, machine } = bench.context;
  const r = tool === undefined ? 0 : tool.diameter / 2;
  const wall = shell.wall + bench.inside - bench.insideAt(x, r);
  const farWall = bench.radius + bench.inside;
  const mandrel = machine.fixture.mandrel > 0 ? bench.radius - machine.fixture.mandrel / 2 : Infinity;
  if (deep > farWall) reached('hits-far-wall', deep, farWall);
  else if (deep > mandrel) reached('hits-mandrel', deep, mandrel);
  else if (backing > 0 && deep > wall + backing + tolerance.same) reached('through-backing', deep, wall + backing);
  if (tool === undefined) return;
  if (deep > tool.stickout + tolerance.same) reached('collet-hits-shell', deep, tool.stickout);
  else if (deep > tool.flute + tolerance.same && tool.kind !== 'v-bit')
    reached(tool.shank > tool.diameter + SAME_DEPTH ? 'shank-in-wall' : 'deeper-than-flutes', deep, tool.flute);
}

/** The plates at both ends, and whatever else is in the way along X: no bit below the skin over them or beside them. */
export function atEnds(x: Mm, r: Mm, bench: Bench, reached: Reached): void {
  const { chuck, tailstock, keepOut } = bench.context.machine.fixture;
  if (chuck > 0 && x - r < chuck - tolerance.same && x + r > -chuck) reached('in-chuck', x - r, chuck);
  const fromEnd = bench.depth - x;
  if (tailstock > 0 && fromEnd - r < tailstock - tolerance.same && fromEnd + r > -tailstock)
    reached('in-tailstock', fromEnd - r, tailstock);
  for (const { from, to } of keepOut ?? [])
    if (x + r > from + tolerance.same && x - r < to - tolerance.same)
      reached('in-keep-out', x, Math.abs(x - from) < Math.abs(x - to) ? from : to);
}
