import type { PaperProfile } from '../model/sheet.ts';
import { MM_PER_INCH } from '../units/scalar.ts';

/**
 * Paper for printing 1:1, upright. Sizes: ISO 216 (A series) and the inch sizes of ASME Y14.1 (from memory). Printers
 * leave 3-6 mm unprinted, some more at the trailing edge (common practice, no source), so 12 mm is left all round;
 * neighbouring tiles share 10 mm to be glued.
 */
const page = (name: string, width: number, height: number): PaperProfile => ({
  name,
  width,
  height,
  margin: 12,
  overlap: 10,
});

const PAPERS: readonly PaperProfile[] = [
  page('paper-a4', 210, 297),
  page('paper-a3', 297, 420),
  page('paper-letter', 8.5 * MM_PER_INCH, 11 * MM_PER_INCH),
  page('paper-tabloid', 11 * MM_PER_INCH, 17 * MM_PER_INCH),
];

export const PAPER_NAMES: readonly string[] = PAPERS.map((p) => p.name);

/** The built-in paper of that name, or undefined. */
export const findPaper = (name: string): PaperProfile | undefined => PAPERS.find((p) => p.name === name);
