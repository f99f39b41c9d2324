import type { SheetMaterial } from '../model/sheet.ts';

/**
 * Sheet goods a template or a collar is cut from. Kerf is not a constant of the material: it varies with lens, air, speed
 * and direction (0.08-0.45 mm for any material, workshop artwork guides), so these are starting values that a coupon
 * replaces. `neutral` is 0.5 (mid-plane) for homogeneous thin sheet: bend allowance = angle * (radius + k * thickness).
 */
const KERF = 'kerf: laser workshops print 0.15-0.25 mm (common practice); fit: common practice, no source';

const MATERIALS: readonly SheetMaterial[] = [
  {
    name: 'card-1',
    thickness: 1,
    neutral: 0.5,
    kerf: 0.12,
    fit: 0,
    bends: 40,
    source:
      'kerf: museum board 0.08-0.15 mm in workshop artwork guides (common practice); bend radius: common practice, no source',
  },
  {
    name: 'birch-ply-3',
    thickness: 3,
    neutral: 0.5,
    kerf: 0.2,
    fit: 0.1,
    bends: 300,
    source: `${KERF}; bend radius, along the soft way and dry: strain t / 2R kept under 0.5 % (derived), from memory`,
  },
  { name: 'birch-ply-6', thickness: 6, neutral: 0.5, kerf: 0.25, fit: 0.1, source: KERF },
  { name: 'mdf-6', thickness: 6, neutral: 0.5, kerf: 0.2, fit: 0.1, source: KERF },
  {
    name: 'acrylic-3',
    thickness: 3,
    neutral: 0.5,
    kerf: 0.2,
    fit: 0.1,
    bends: 600,
    source: `${KERF}; cold bend radius of 200 thicknesses: common practice, no source`,
  },
];

export const MATERIAL_NAMES: readonly string[] = MATERIALS.map((m) => m.name);

/** The built-in material of that name, or undefined. */
export const findMaterial = (name: string): SheetMaterial | undefined => MATERIALS.find((m) => m.name === name);
