import { MM_PER_INCH, type Mm } from '../units/scalar.ts';

/** A drill one can buy. */
export interface DrillSize {
  /** As printed on the shank: `6.5 mm`, `1/4 in`, `#16`, `F`. */
  readonly name: string;
  readonly diameter: Mm;
}

/** Twist drill sizes of ASME B94.11M as reprinted, inches: numbers 1…80, letters A…Z. */
const NUMBERED: readonly number[] = [
  0.228, 0.221, 0.213, 0.209, 0.2055, 0.204, 0.201, 0.199, 0.196, 0.1935, 0.191, 0.189, 0.185, 0.182, 0.18, 0.177,
  0.173, 0.1695, 0.166, 0.161, 0.159, 0.157, 0.154, 0.152, 0.1495, 0.147, 0.144, 0.1405, 0.136, 0.1285, 0.12, 0.116,
  0.113, 0.111, 0.11, 0.1065, 0.104, 0.1015, 0.0995, 0.098, 0.096, 0.0935, 0.089, 0.086, 0.082, 0.081, 0.0785, 0.076,
  0.073, 0.07, 0.067, 0.0635, 0.0595, 0.055, 0.052, 0.0465, 0.043, 0.042, 0.041, 0.04, 0.039, 0.038, 0.037, 0.036,
  0.035, 0.033, 0.032, 0.031, 0.0292, 0.028, 0.026, 0.025, 0.024, 0.0225, 0.021, 0.02, 0.018, 0.016, 0.0145, 0.0135,
];
const LETTERED: readonly number[] = [
  0.234, 0.238, 0.242, 0.246, 0.25, 0.257, 0.261, 0.266, 0.272, 0.277, 0.281, 0.29, 0.295, 0.302, 0.316, 0.323, 0.332,
  0.339, 0.348, 0.358, 0.368, 0.377, 0.386, 0.397, 0.404, 0.413,
];

/** Fractions of an inch by 64ths up to 1 in. */
function fractional(): DrillSize[] {
  return Array.from({ length: 64 }, (_, i) => {
    let [top, under] = [i + 1, 64];
    while (top % 2 === 0 && under > 1) [top, under] = [top / 2, under / 2];
    return { name: under === 1 ? `${top} in` : `${top}/${under} in`, diameter: ((i + 1) / 64) * MM_PER_INCH };
  });
}

/** Metric jobber drills: 0.05 mm steps to 3, 0.1 to 13, 0.5 to 20 (ISO 235 preferred series, from memory). */
function metric(): DrillSize[] {
  const hundredths = [
    ...Array.from({ length: 40 }, (_, i) => 100 + 5 * i),
    ...Array.from({ length: 101 }, (_, i) => 300 + 10 * i),
    ...Array.from({ length: 14 }, (_, i) => 1350 + 50 * i),
  ];
  return hundredths.map((h) => ({ name: `${h / 100} mm`, diameter: h / 100 }));
}

let sorted: readonly DrillSize[] | undefined;

/** Every drill on sale here, smallest first; of one diameter the fraction comes before the letter. */
export function drillSizes(): readonly DrillSize[] {
  sorted ??= [
    ...metric(),
    ...fractional(),
    ...NUMBERED.map((inch, i) => ({ name: `#${i + 1}`, diameter: inch * MM_PER_INCH })),
    ...LETTERED.map((inch, i) => ({ name: String.fromCharCode(65 + i), diameter: inch * MM_PER_INCH })),
  ].sort((a, b) => a.diameter - b.diameter);
  return sorted;
}

/** The drill on sale nearest to a diameter, and the next ones on either side (mm). Above 1 in there is none larger. */
export function nearestDrills(diameter: Mm): { nearest: DrillSize; under?: DrillSize; over?: DrillSize } {
  const all = drillSizes();
  let [low, high] = [0, all.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((all[middle] as DrillSize).diameter < diameter) low = middle + 1;
    else high = middle;
  }
  const over = all[low];
  const under = all[low - 1];
  const nearest =
    over === undefined || (under !== undefined && diameter - under.diameter < over.diameter - diameter)
      ? (under as DrillSize)
      : over;
  return { nearest, ...(under === undefined ? {} : { under }), ...(over === undefined ? {} : { over }) };
}
