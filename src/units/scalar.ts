/** What a bare number means everywhere inside the program: millimetres and degrees (radians only inside a formula). */
export type Mm = number;
export type Deg = number;
export type Rad = number;
/** Millimetres a minute. */
export type MmPerMin = number;
/** Revolutions a minute. */
export type Rpm = number;

/** Exactly 25.4 mm by definition of the international inch (1959 agreement; ISO 31-1). */
export const MM_PER_INCH = 25.4;

export const toRad = (deg: Deg): Rad => (deg * Math.PI) / 180;
export const toDeg = (rad: Rad): Deg => (rad * 180) / Math.PI;

/** The angle brought into [0, 360). */
export function wrapDeg(deg: Deg): Deg {
  const turned = deg % 360;
  const positive = turned < 0 ? turned + 360 : turned;
  return positive >= 360 || positive === 0 ? 0 : positive;
}

/** The signed way from `from` to `to` by the shorter side, in (-180, 180]. */
export function shorterTurn(from: Deg, to: Deg): Deg {
  const d = wrapDeg(to - from);
  return d > 180 ? d - 360 : d;
}
