import type { Machine } from '../model/machine.ts';

/**
 * Two machines to start from. Both are invented: plausible small routers with a rotary axis, no machine anybody can
 * buy. Measure your own and keep it in a profile; every figure here is common practice, no source.
 */

/** A drilling head that turns slowly enough for drill bits, on a stand that swings the largest bass drum. */
const ROTARY_SLOW: Machine = {
  name: 'rotary-slow',
  spindle: { min: 500, max: 6000, watts: 750, seconds: 3, collet: 13 },
  swing: 620,
  travel: { x: [0, 500], y: [-60, 60], z: [-60, 100] },
  hasY: true,
  rapid: { x: 3000, y: 3000, z: 1500, a: 3600 },
  feed: 2000,
  acceleration: { x: 300, y: 300, z: 200, a: 180 },
  a: 'iso',
  rotary: 'endless',
  stepsPerTurn: 14400,
  toolChange: 'hand',
  toolChangeSeconds: 60,
  understands: { cycles: true, inverseTime: true, arcs: false, lineNumbers: false, comments: 'brackets', decimals: 4 },
  fixture: { hold: 'plates', chuck: 8, tailstock: 8, mandrel: 40 },
};

/** A hobby router: its spindle is made for small cutters and cannot turn slowly, and its controller knows no cycles. */
const ROTARY_FAST: Machine = {
  name: 'rotary-fast',
  spindle: { min: 8000, max: 24000, watts: 500, seconds: 2, collet: 8 },
  swing: 420,
  travel: { x: [0, 500], y: [-60, 60], z: [-50, 80] },
  hasY: true,
  rapid: { x: 4000, y: 4000, z: 1500, a: 5400 },
  feed: 2000,
  acceleration: { x: 400, y: 400, z: 250, a: 360 },
  a: 'iso',
  rotary: 'endless',
  stepsPerTurn: 12800,
  toolChange: 'hand',
  toolChangeSeconds: 60,
  understands: { cycles: false, inverseTime: true, arcs: false, lineNumbers: false, comments: 'brackets', decimals: 4 },
  fixture: { hold: 'plates', chuck: 8, tailstock: 8, mandrel: 30 },
};

const MACHINES: readonly Machine[] = [ROTARY_SLOW, ROTARY_FAST];

/** Built-in profiles, for messages. */
export const MACHINE_NAMES: readonly string[] = MACHINES.map((m) => m.name);

/**
 * A built-in machine profile; copy it and change what is different on yours.
 * @param name its name, e.g. `rotary-slow`
 * @returns lengths in mm, feeds in mm/min, A in degrees; undefined when there is none of that name
 * @throws never
 * @source common practice, no source: invented machines of usual size
 */
export const findMachine = (name: string): Machine | undefined => MACHINES.find((m) => m.name === name);
