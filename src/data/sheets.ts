import type { SheetProfile } from '../model/sheet.ts';

/**
 * Laser beds as common practice knows them (no source). Margin: room for hold-down pins and a warped edge. Spacing: two
 * cuts closer than about 2 mm share heat. Bridge: lines closer than 0.5 mm may burn away and details under 1 mm are
 * fragile (workshop artwork guides, common practice).
 */
const bed = (name: string, width: number, height: number): SheetProfile => ({
  name,
  width,
  height,
  margin: 5,
  spacing: 2,
  bridge: 1,
});

const SHEETS: readonly SheetProfile[] = [bed('laser-600x400', 600, 400), bed('laser-900x600', 900, 600)];

export const SHEET_NAMES: readonly string[] = SHEETS.map((s) => s.name);

/** The built-in sheet of that name, or undefined. */
export const findSheet = (name: string): SheetProfile | undefined => SHEETS.find((s) => s.name === name);
