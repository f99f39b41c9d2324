/**
 * Lugwright as a library: plain data in, plain data out. Millimetres and degrees; angles grow left to right seen from
 * outside, top up, from the strainer line; heights above the bottom edge. Every stage is pure: the same input gives the
 * same value. Stages that find something give `{ value, facts }`, and `sentences` puts facts in words.
 */

export { type CollarOptions, planCollar } from './collar/collar.ts';
export { findMachine } from './data/machines.ts';
export type { DryRunContext, HungShell } from './dryrun/context.ts';
export { type DryRun, dryRun, startDryRun } from './dryrun/dry-run.ts';
export { interpret } from './dryrun/interpret.ts';
export { type Inspected, inspect, type Opening, type Wanted } from './dryrun/measure.ts';
export type { InterpretOptions } from './dryrun/options.ts';
export { type Removal, type RemovalOptions, removal } from './dryrun/removal.ts';
export type { DryRunReport } from './dryrun/report.ts';
export type { Problem } from './dryrun/rules.ts';
export { type FeedAdvice, type FeedInput, recommend } from './feeds/feeds.ts';
export { check } from './fit/check.ts';
export {
  acrossAngle,
  arc,
  chord,
  flatRadius,
  fromMachine,
  type RotaryFrame,
  roll,
  signOfA,
  toMachine,
  unroll,
} from './geometry/frames.ts';
export { emc, movement, type ShellMovement, type ShellMovementInput, shellMovement } from './geometry/moisture.ts';
export { jsonSchema, type ProfileKind } from './jig/json-schema.ts';
export { type Resolved, type ResolveOptions, resolveJig } from './jig/resolve.ts';
export { type Parsed, parseText } from './jig/text.ts';
export { checkFindings } from './jobs/check.ts';
export { dryRunContext } from './jobs/dry-run.ts';
export { sentences } from './jobs/sayings.ts';
export { type Suggestion, suggest } from './jobs/suggest.ts';
export { layOut } from './layout/layout.ts';
export { type MeasuredOptions, measured } from './measured/measured.ts';
export type { MeasuredReport } from './measured/report.ts';
export type { Drawing, Shape } from './model/drawing.ts';
export type { Fact, Finding, Level } from './model/finding.ts';
export type { FlatPoint, MachinePoint, ShellPoint } from './model/frames.ts';
export type { Jig, Shell } from './model/jig.ts';
export type { Hole, Layout, Placed } from './model/layout.ts';
export type { Machine, Tool } from './model/machine.ts';
export type { Move } from './model/move.ts';
export type { Staged } from './model/stage.ts';
export { type NestedSheet, type NestOptions, nest } from './nest/nest.ts';
export { coverPicture } from './picture/cover.ts';
export { planRotary, type RotaryOptions, type RotaryPlan } from './rotary/plan.ts';
export { type Reading, readAngle, readLength } from './units/length.ts';
export type { WrapOptions, WrapPlan } from './wrap/plan.ts';
export { planWrap } from './wrap/wrap.ts';
export { holesCsv } from './write/csv.ts';
export { type DxfOptions, toDxf } from './write/dxf.ts';
export { toSvg } from './write/svg.ts';
