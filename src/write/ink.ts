/** Beyond this no sheet, shell or page reaches; a number out there is a fault, not a place. */
const FAR = 1e5;

/**
 * A text that grows at its end, kept as bytes: a file of a hundred thousand coordinates is put together without as many
 * strings. `length` bytes of `bytes` count.
 */
export interface Ink {
  bytes: Uint8Array;
  length: number;
}

export const newInk = (): Ink => ({ bytes: new Uint8Array(1 << 14), length: 0 });

export const textOf = ({ bytes, length }: Ink): string => new TextDecoder().decode(bytes.subarray(0, length));

function makeRoom(ink: Ink, more: number): void {
  if (ink.length + more <= ink.bytes.length) return;
  const larger = new Uint8Array(Math.max(2 * ink.bytes.length, ink.length + more));
  larger.set(ink.bytes.subarray(0, ink.length));
  ink.bytes = larger;
}

const encoder = new TextEncoder();
/** A UTF-16 unit makes at most so many bytes of UTF-8. */
const WIDEST = 3;

/** Puts a text at the end. */
export function put(ink: Ink, text: string): void {
  makeRoom(ink, WIDEST * text.length);
  const { bytes } = ink;
  let at = ink.length;
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    if (unit > 127) {
      at += encoder.encodeInto(text.slice(i), bytes.subarray(at)).written;
      break;
    }
    bytes[at++] = unit;
  }
  ink.length = at;
}

const [MINUS, DOT, ZERO] = [45, 46, 48];
const SCALES = [1, 10, 100, 1e3, 1e4, 1e5, 1e6];
const MILLION = 1e6;
/** 0 to 999 as three digits each. */
const THREES = Uint8Array.from({ length: 3000 }, (_, i) => ZERO + (Math.floor(i / 3 / 10 ** (2 - (i % 3))) % 10));

function putThree(bytes: Uint8Array, at: number, value: number): number {
  bytes[at] = THREES[3 * value] as number;
  bytes[at + 1] = THREES[3 * value + 1] as number;
  bytes[at + 2] = THREES[3 * value + 2] as number;
  return at + 3;
}

/** A whole number below a million, no zeros before it. */
function putWhole(bytes: Uint8Array, from: number, value: number): number {
  let at = from;
  let rest = value;
  if (rest >= 1000) {
    const high = Math.floor(rest / 1000);
    at = putWhole(bytes, at, high);
    return putThree(bytes, at, rest - 1000 * high);
  }
  if (rest >= 100) return putThree(bytes, at, rest);
  if (rest >= 10) {
    const tens = Math.floor(rest / 10);
    bytes[at++] = ZERO + tens;
    rest -= 10 * tens;
  }
  bytes[at++] = ZERO + rest;
  return at;
}

/** Throws RangeError for a number no machine can go to. */
export function mustBeNear(value: number): void {
  if (!(Math.abs(value) <= FAR)) throw new RangeError(`unwritable coordinate: ${value}`);
}

/**
 * The one door by which a coordinate becomes text: plain decimals, at most `digits` (0 to 6) of them, no exponent, never
 * `-0`, trailing zeros dropped. Throws RangeError for a number no machine can go to, so that no file ever holds `NaN`.
 */
export function putNumber(ink: Ink, value: number, digits: number): void {
  mustBeNear(value);
  makeRoom(ink, 16);
  const { bytes } = ink;
  const scale = SCALES[digits] as number;
  const steps = Math.round(value * scale);
  const size = Math.abs(steps);
  const whole = Math.floor(size / scale);
  const part = (size - whole * scale) * (MILLION / scale);
  let at = ink.length;
  if (steps < 0) bytes[at++] = MINUS;
  at = putWhole(bytes, at, whole);
  if (part > 0) {
    const high = Math.floor(part / 1000);
    bytes[at++] = DOT;
    at = putThree(bytes, putThree(bytes, at, high), part - 1000 * high);
    while (bytes[at - 1] === ZERO) at--;
  }
  ink.length = at;
}
