import { esc } from '../picture/svg.ts';
import { trimmed } from '../say/saying.ts';
import { inInches } from '../units/length.ts';
import type { Mm } from '../units/scalar.ts';

/** A length in a table cell: millimetres over inches, both readable by a machine and a screen reader. */
export const cell = (mm: Mm, digits = 2): string =>
  `<span class="mm">${mm.toFixed(digits)}</span> <span class="in">${inInches(mm).toFixed(3)}</span>`;

/** A length in running text: `36 mm (1.417 in)`. */
export const both = (mm: Mm, digits = 1): string => `${trimmed(mm, digits)} mm (${inInches(mm).toFixed(3)} in)`;

/** A user's text inside a sentence of the page: escaped, and isolated so that its writing direction stays its own. */
export const named = (text: string): string => `<bdi>${esc(text)}</bdi>`;
