import { newStep, type Step } from './step.ts';

/** Everything a line can set, as it stands between two lines. A program starts with nothing set. */
export interface State {
  readonly step: Step;
  /** Absolute position, X Y Z A B C; NaN = unknown. */
  position: Float64Array;
  /** Origins of the nine work offsets, absolute, six numbers each. */
  readonly origins: Float64Array;
  readonly originSet: Uint8Array;
  /** 0 = G54 … 8 = G59.3. */
  system: number;
  readonly g92: Float64Array;
  readonly g92Kept: Float64Array;
  /** Offset of the active length entry, on Z. */
  length: number;
  /** Sum of all offsets: absolute = program + this. Kept up to date by `offsetsChanged`. */
  readonly offset: Float64Array;
  /** mm in a program unit: 1, 25.4, or 0 while unset. */
  unit: number;
  /** -1 unset, 0 absolute, 1 incremental. */
  distance: -1 | 0 | 1;
  /** -1 unset; index of the normal axis otherwise: 2 = XY, 1 = XZ, 0 = YZ. */
  plane: -1 | 0 | 1 | 2;
  /** G code times ten of the motion in force; -1 unset. */
  motion: number;
  inverse: boolean;
  /** F as written; NaN unset. */
  feed: number;
  /** Unit in force when F was written. */
  feedUnit: number;
  /** S as written; NaN unset. */
  speed: number;
  turning: 'off' | 'cw' | 'ccw';
  /** Tool in the spindle; -1 unknown. */
  tool: number;
  /** Tool that T named; -1 none. */
  nextTool: number;
  /** -1 unset, 98 or 99. */
  returns: -1 | 98 | 99;
  blended: boolean;
  /** Words a cycle keeps from line to line, as written (NaN = none). */
  readonly cycle: { r: number; bottom: number; q: number; p: number };
  ended: boolean;
}

/** Where a program starts, for a restart in its middle or a test: what is not named stays unknown. */
export interface StartState {
  readonly x?: number;
  readonly y?: number;
  readonly z?: number;
  readonly a?: number;
  readonly b?: number;
  readonly c?: number;
  readonly units?: 'mm' | 'in';
  readonly distance?: 'absolute' | 'incremental';
  readonly plane?: 'xy' | 'xz' | 'yz';
  readonly feed?: number;
  readonly speed?: number;
  readonly tool?: number;
  /** A motion code in force, e.g. 0 for G0. */
  readonly motion?: number;
  readonly returns?: 98 | 99;
}

export function newState(start: StartState = {}): State {
  const none = Number.NaN;
  return {
    step: newStep(),
    position: Float64Array.of(
      start.x ?? none,
      start.y ?? none,
      start.z ?? none,
      start.a ?? none,
      start.b ?? none,
      start.c ?? none,
    ),
    origins: new Float64Array(54),
    originSet: new Uint8Array(9),
    system: 0,
    g92: new Float64Array(6),
    g92Kept: new Float64Array(6),
    length: 0,
    offset: new Float64Array(6),
    unit: start.units === undefined ? 0 : start.units === 'mm' ? 1 : 25.4,
    distance: start.distance === undefined ? -1 : start.distance === 'absolute' ? 0 : 1,
    plane: start.plane === undefined ? -1 : start.plane === 'xy' ? 2 : start.plane === 'xz' ? 1 : 0,
    motion: start.motion === undefined ? -1 : Math.round(start.motion * 10),
    inverse: false,
    feed: start.feed ?? none,
    feedUnit: start.units === 'in' ? 25.4 : 1,
    speed: start.speed ?? none,
    turning: 'off',
    tool: start.tool ?? -1,
    nextTool: -1,
    returns: start.returns ?? -1,
    blended: false,
    cycle: { r: none, bottom: none, q: none, p: none },
    ended: false,
  };
}

/** To be called after a work offset, G92 or length offset changed; no axis moves (section 3.2.2). */
export function offsetsChanged(state: State): void {
  for (let axis = 0; axis < 6; axis++)
    state.offset[axis] = state.origins[state.system * 6 + axis]! + state.g92[axis]! + (axis === 2 ? state.length : 0);
}
