import type { FlatPoint } from '../model/frames.ts';
import type { SheetProfile } from '../model/sheet.ts';
import type { Mm } from '../units/scalar.ts';

/** Strip along the lower edge of every sheet for its names and the 100 mm check line. */
export const FOOTER: Mm = 6;

/** Where finished parts may lie on a sheet: inside the margin, above the footer, half a kerf further in for the beam. */
export function roomOn(sheet: SheetProfile, kerf: Mm): { readonly min: FlatPoint; readonly max: FlatPoint } {
  const inset = sheet.margin + kerf / 2;
  return {
    min: { x: inset, y: Math.max(sheet.margin, FOOTER) + kerf / 2 },
    max: { x: sheet.width - inset, y: sheet.height - inset },
  };
}
