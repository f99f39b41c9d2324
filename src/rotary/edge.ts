import type { Tool } from '../model/machine.ts';
import { type Deg, type Mm, toDeg, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { chordsFor, type Way } from './bore.ts';
import { saddle } from './depth.ts';
import type { Step } from './types.ts';

/** Width of the broken edge on the skin (common practice, no source). */
const EDGE_WIDTH: Mm = 0.5;
/** The V bit's tip runs this far inside the edge, so that it never cuts with its blunt tip. */
const INSIDE: Mm = 1;

export interface EdgeBreak {
  readonly x: Mm;
  readonly a: Deg;
  readonly hole: Mm;
  readonly radius: Mm;
  readonly tool: Tool;
  readonly approach: Mm;
  readonly clearance: Mm;
  readonly feed: number;
}

/** Radius the tip runs on, and how far it is below the skin at the edge: the cone meets the skin `EDGE_WIDTH` outside the hole. */
export function edgePath(hole: Mm, tool: Tool): { readonly orbit: Mm; readonly below: Mm } {
  const orbit = Math.max(0, hole - INSIDE);
  return { orbit, below: (hole + EDGE_WIDTH - orbit) / Math.tan(toRad(tool.point ?? 90) / 2) };
}

/** Is the cone wide enough at the skin? */
export const breaksEdge = (hole: Mm, tool: Tool): boolean => {
  const { orbit } = edgePath(hole, tool);
  return tool.kind === 'v-bit' && hole + EDGE_WIDTH - orbit <= tool.diameter / 2 + tolerance.same;
};

/**
 * Once round the edge. Moved by Y the tip follows the saddle, R - sqrt(R^2 - (r sin phi)^2) below the crown; when A turns
 * the shell under it the skin stays at one height and so does the tip.
 */
export function edgeSteps(e: EdgeBreak, way: Way): Step[] {
  const { orbit, below } = edgePath(e.hole, e.tool);
  const steps: Step[] = [{ kind: 'rapid', to: { z: e.approach } }];
  if (orbit < tolerance.same) {
    steps.push({ kind: 'feed', to: { z: -below }, feed: e.feed }, { kind: 'rapid', to: { z: e.clearance } });
    return steps;
  }
  const chords = chordsFor(orbit, tolerance.chord);
  const stretch = (2 * Math.PI * orbit) / chords;
  // In the middle of the hole there is no wood: down there, out to the edge, round, back in and up.
  steps.push({ kind: 'feed', to: { z: -below }, feed: e.feed });
  for (let i = 0; i <= chords; i++) {
    const phi = (2 * Math.PI * (i % chords)) / chords;
    const dx = orbit * Math.cos(phi);
    const dy = orbit * Math.sin(phi);
    const length = i === 0 ? orbit : stretch;
    if (way.by === 'y') {
      const z = -below - saddle(e.radius, e.hole * Math.abs(Math.sin(phi)));
      steps.push({ kind: 'feed', to: { x: e.x + dx, y: dy, z }, feed: e.feed });
    } else {
      const a = e.a - way.sign * toDeg(dy / e.radius);
      steps.push({ kind: 'timed', to: { x: e.x + dx, z: -below, a }, rate: e.feed / length });
    }
  }
  if (way.by === 'y') steps.push({ kind: 'feed', to: { x: e.x, y: 0, z: -below }, feed: e.feed });
  else steps.push({ kind: 'timed', to: { x: e.x, a: e.a }, rate: e.feed / orbit });
  steps.push({ kind: 'rapid', to: { z: e.clearance } });
  return steps;
}
