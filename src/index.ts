/**
 * Lugwright as a library: plain data in, plain data out. Millimetres and degrees; angles grow left to right seen from
 * outside, top up, from the strainer line; heights above the bottom edge. Every stage is pure: the same input gives the
 * same value.
 */

export { planCollar } from './collar/collar.ts';
export type { DryRunContext } from './dryrun/context.ts';
export { dryRun, startDryRun } from './dryrun/dry-run.ts';
export { interpret } from './dryrun/interpret.ts';
export { inspect } from './dryrun/measure.ts';
export { removal } from './dryrun/removal.ts';
export { recommend } from './feeds/feeds.ts';
export { check } from './fit/check.ts';
export {
  acrossAngle,
  arc,
  chord,
  flatRadius,
  fromMachine,
  roll,
  signOfA,
  toMachine,
  unroll,
} from './geometry/frames.ts';
export { resolveJig } from './jig/resolve.ts';
export { parseText } from './jig/text.ts';
export { layOut } from './layout/layout.ts';
export { measured } from './measured/measured.ts';
export type { Fact, Finding, Level } from './model/finding.ts';
export type { FlatPoint, MachinePoint, ShellPoint } from './model/frames.ts';
export type { Jig, Shell } from './model/jig.ts';
export type { Hole, Layout, Placed } from './model/layout.ts';
export type { Machine, Tool } from './model/machine.ts';
export type { Move } from './model/move.ts';
export { nest } from './nest/nest.ts';
export { coverPicture } from './picture/cover.ts';
export { planRotary } from './rotary/plan.ts';
export { readAngle, readLength } from './units/length.ts';
export { planWrap } from './wrap/wrap.ts';
export { holesCsv } from './write/csv.ts';
export { toDxf } from './write/dxf.ts';
export { toSvg } from './write/svg.ts';
