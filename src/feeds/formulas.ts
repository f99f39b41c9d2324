import { CUTTING_WORK, THRUST } from '../data/cutting.ts';
import { type Deg, type Mm, type Rpm, toRad } from '../units/scalar.ts';

/**
 * The cutting formulas, as machining textbooks give them (from memory), each in the units of its names. Drilling: one
 * chip a lip, each lip taking its share of the feed per revolution.
 */

/** Rim speed, m/min: v = pi D n / 1000. */
export const cuttingSpeed = (diameter: Mm, speed: Rpm): number => (Math.PI * diameter * speed) / 1000;

/** Length of a drill's point: D / (2 tan(point / 2)). */
export const pointLength = (diameter: Mm, point: Deg): Mm => diameter / (2 * Math.tan(toRad(point) / 2));

/** Uncut chip of one lip: its share of the feed times the sine of half the point angle. 180 deg for a flat bit. */
export const chipThickness = (feedPerLip: Mm, point: Deg): Mm => feedPerLip * Math.sin(toRad(point) / 2);

/** Work per volume at a specific gravity, J/cm3. */
export const cuttingWork = (gravity: number): number => CUTTING_WORK.joulesPerCm3 * (gravity / CUTTING_WORK.gravity);

/** Power in W of `removal` mm3/s at `work` J/cm3 (1 J/cm3 = 1e-3 J/mm3). */
export const powerOf = (removal: number, work: number): number => (removal * work) / 1000;

/** Torque in N m of a power at a speed: P / (2 pi n). */
export const torqueOf = (power: number, speed: Rpm): number => power / (2 * Math.PI * (speed / 60));

/**
 * Feed per revolution (mm) at which cutting a section of `area` mm2 asks for `torque` N m: 2 pi M = u A f. For a drill,
 * with A = pi D^2 / 4, that is M = u D^2 f / 8.
 */
export const feedForTorque = (torque: number, area: number, work: number): Mm =>
  (2000 * Math.PI * torque) / (work * area);

/** Push along the bit, N, by diameter, chip and specific gravity. */
export const thrustOf = (diameter: Mm, chip: Mm, gravity: number): number =>
  THRUST.perMm * diameter * (chip / THRUST.chip) ** THRUST.power * (gravity / THRUST.gravity);
