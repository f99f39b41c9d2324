/** A figure with the publication it is printed in, "from memory: ...", or "derived: ...". */
interface Figure {
  readonly value: number;
  readonly source: string;
}

type WoodGroup = 'hardwood' | 'softwood' | 'imported' | 'board';

/** A wood or board by its published means. Small clear specimens: single boards differ by 10 to 20 % and more. */
export interface Wood {
  readonly id: string;
  readonly common: string;
  readonly scientific?: string;
  readonly group: WoodGroup;
  /** Specific gravity, ovendry mass on volume at 12 % moisture content. */
  readonly sg12: Figure;
  /** Side hardness at 12 % moisture content, N (11.28 mm ball to half its diameter); null where none is published. */
  readonly janka: Figure | null;
  /** Green to ovendry, %. */
  readonly shrinkage?: {
    readonly radial: number;
    readonly tangential: number;
    readonly volumetric: number;
    readonly source: string;
  };
  /** Change of size per % of moisture content, as a fraction: radial and tangential; good from 6 to 14 %. */
  readonly movement?: { readonly CR: number; readonly CT: number; readonly source: string };
  /** Boards: change of size in the plane per % of moisture content, as a fraction, along and across the face grain. */
  readonly inPlane?: { readonly along: number; readonly across: number; readonly source: string };
  readonly note?: string;
}

/**
 * The table's N figures are printed rounded to 100 N. Woods of the domestic tables carry the 12 % specific gravity as
 * printed; imported ones are tabled on green volume and are brought to 12 % here.
 */
const WOODS: readonly Wood[] = [
  {
    id: 'red-maple',
    common: 'Red maple (soft maple)',
    scientific: 'Acer rubrum',
    group: 'hardwood',
    sg12: { value: 0.54, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 4200, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: {
      radial: 4.0,
      tangential: 8.2,
      volumetric: 12.6,
      source: 'from memory: Wood Handbook FPL-GTR-190, Table 4-3',
    },
    movement: { CR: 0.00137, CT: 0.00289, source: 'Wood Handbook FPL-GTR-190, Table 13-5' },
  },
  {
    id: 'sugar-maple',
    common: 'Sugar maple (hard maple)',
    scientific: 'Acer saccharum',
    group: 'hardwood',
    sg12: { value: 0.63, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 6400, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: { radial: 4.8, tangential: 9.9, volumetric: 14.7, source: 'Wood Handbook FPL-GTR-282, Table 4-3' },
    movement: { CR: 0.00165, CT: 0.00353, source: 'Wood Handbook FPL-GTR-190, Table 13-5' },
  },
  {
    id: 'silver-maple',
    common: 'Silver maple (soft maple)',
    scientific: 'Acer saccharinum',
    group: 'hardwood',
    sg12: { value: 0.47, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 3100, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: {
      radial: 3.0,
      tangential: 7.2,
      volumetric: 12.0,
      source: 'from memory: Wood Handbook FPL-GTR-190, Table 4-3',
    },
    movement: { CR: 0.00102, CT: 0.00252, source: 'Wood Handbook FPL-GTR-190, Table 13-5' },
  },
  {
    id: 'yellow-birch',
    common: 'Yellow birch',
    scientific: 'Betula alleghaniensis',
    group: 'hardwood',
    sg12: { value: 0.62, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 5600, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: { radial: 7.3, tangential: 9.5, volumetric: 16.8, source: 'Wood Handbook FPL-GTR-190, Table 4-3' },
    movement: { CR: 0.00256, CT: 0.00338, source: 'Wood Handbook FPL-GTR-190, Table 13-5' },
  },
  {
    id: 'paper-birch',
    common: 'Paper birch',
    scientific: 'Betula papyrifera',
    group: 'hardwood',
    sg12: { value: 0.55, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 4000, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: { radial: 6.3, tangential: 8.6, volumetric: 16.2, source: 'Wood Handbook FPL-GTR-190, Table 4-3' },
    movement: { CR: 0.00219, CT: 0.00304, source: 'Wood Handbook FPL-GTR-190, Table 13-5' },
  },
  {
    id: 'sweet-birch',
    common: 'Sweet birch',
    scientific: 'Betula lenta',
    group: 'hardwood',
    sg12: { value: 0.65, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 6500, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: { radial: 6.5, tangential: 9.0, volumetric: 15.6, source: 'Wood Handbook FPL-GTR-190, Table 4-3' },
    movement: { CR: 0.00256, CT: 0.00338, source: 'Wood Handbook FPL-GTR-190, Table 13-5' },
    note: 'Table 13-5 prints the yellow-birch coefficients for sweet birch too; its own shrinkage would give 0.00226 and 0.00319.',
  },
  {
    id: 'american-beech',
    common: 'American beech',
    scientific: 'Fagus grandifolia',
    group: 'hardwood',
    sg12: { value: 0.64, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 5800, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: { radial: 5.5, tangential: 11.9, volumetric: 17.2, source: 'Wood Handbook FPL-GTR-190, Table 4-3' },
    movement: { CR: 0.0019, CT: 0.00431, source: 'Wood Handbook FPL-GTR-190, Table 13-5' },
  },
  {
    id: 'white-ash',
    common: 'White ash',
    scientific: 'Fraxinus americana',
    group: 'hardwood',
    sg12: { value: 0.6, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 5900, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: {
      radial: 4.9,
      tangential: 7.8,
      volumetric: 13.3,
      source: 'Wood Handbook FPL-GTR-190, Table 4-3 and Wood Handbook FPL-GTR-282, Table 4-3',
    },
    movement: { CR: 0.00169, CT: 0.00274, source: 'Wood Handbook FPL-GTR-190, Table 13-5' },
  },
  {
    id: 'white-oak',
    common: 'White oak',
    scientific: 'Quercus alba',
    group: 'hardwood',
    sg12: { value: 0.68, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 6000, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: {
      radial: 5.6,
      tangential: 10.5,
      volumetric: 16.3,
      source: 'Wood Handbook FPL-GTR-190, Table 4-3 and Wood Handbook FPL-GTR-282, Table 4-3',
    },
    movement: {
      CR: 0.0018,
      CT: 0.00365,
      source: "Wood Handbook FPL-GTR-190, Table 13-5 (line 'white oak, commercial')",
    },
    note: 'Commercial white-oak group: the species alone would give CT 0.00376.',
  },
  {
    id: 'northern-red-oak',
    common: 'Northern red oak',
    scientific: 'Quercus rubra',
    group: 'hardwood',
    sg12: { value: 0.63, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 5700, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: { radial: 4.0, tangential: 8.6, volumetric: 13.7, source: 'Wood Handbook FPL-GTR-282, Table 4-3' },
    movement: {
      CR: 0.00158,
      CT: 0.00369,
      source: "Wood Handbook FPL-GTR-190, Table 13-5 (line 'red oak, commercial')",
    },
    note: 'Commercial red-oak group, higher than the species alone (CR 0.00137, CT 0.00304): the safer figure.',
  },
  {
    id: 'black-cherry',
    common: 'Black cherry',
    scientific: 'Prunus serotina',
    group: 'hardwood',
    sg12: { value: 0.5, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 4200, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: {
      radial: 3.7,
      tangential: 7.1,
      volumetric: 11.5,
      source: 'Wood Handbook FPL-GTR-190, Table 4-3 and Wood Handbook FPL-GTR-282, Table 4-3',
    },
    movement: { CR: 0.00126, CT: 0.00248, source: 'Wood Handbook FPL-GTR-190, Table 13-5' },
  },
  {
    id: 'black-walnut',
    common: 'Black walnut',
    scientific: 'Juglans nigra',
    group: 'hardwood',
    sg12: { value: 0.55, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 4500, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: { radial: 5.5, tangential: 7.8, volumetric: 12.8, source: 'Wood Handbook FPL-GTR-190, Table 4-3' },
    movement: { CR: 0.0019, CT: 0.00274, source: 'Wood Handbook FPL-GTR-190, Table 13-5' },
  },
  {
    id: 'yellow-poplar',
    common: 'Yellow-poplar (tulipwood)',
    scientific: 'Liriodendron tulipifera',
    group: 'hardwood',
    sg12: { value: 0.42, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 2400, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: {
      radial: 4.6,
      tangential: 8.2,
      volumetric: 12.7,
      source: 'Wood Handbook FPL-GTR-190, Table 4-3 and Wood Handbook FPL-GTR-282, Table 4-3',
    },
    movement: { CR: 0.00158, CT: 0.00289, source: 'derived: (S / 3000) / (1 - S / 150) of the shrinkage S' },
  },
  {
    id: 'quaking-aspen',
    common: 'Quaking aspen (poplar)',
    scientific: 'Populus tremuloides',
    group: 'hardwood',
    sg12: { value: 0.38, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 1600, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: { radial: 3.5, tangential: 6.7, volumetric: 11.5, source: 'Wood Handbook FPL-GTR-190, Table 4-3' },
    movement: { CR: 0.00119, CT: 0.00234, source: 'Wood Handbook FPL-GTR-190, Table 13-5' },
  },
  {
    id: 'american-basswood',
    common: 'American basswood',
    scientific: 'Tilia americana',
    group: 'hardwood',
    sg12: { value: 0.37, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 1800, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: { radial: 6.6, tangential: 9.3, volumetric: 15.8, source: 'Wood Handbook FPL-GTR-190, Table 4-3' },
    movement: { CR: 0.0023, CT: 0.0033, source: 'Wood Handbook FPL-GTR-190, Table 13-5' },
  },
  {
    id: 'red-alder',
    common: 'Red alder',
    scientific: 'Alnus rubra',
    group: 'hardwood',
    sg12: { value: 0.41, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 2600, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: { radial: 4.4, tangential: 7.3, volumetric: 12.6, source: 'Wood Handbook FPL-GTR-190, Table 4-3' },
    movement: { CR: 0.00151, CT: 0.00256, source: 'Wood Handbook FPL-GTR-190, Table 13-5' },
  },
  {
    id: 'shagbark-hickory',
    common: 'Shagbark hickory (true hickory)',
    scientific: 'Carya ovata',
    group: 'hardwood',
    sg12: { value: 0.72, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 8400, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: {
      radial: 7.0,
      tangential: 10.5,
      volumetric: 16.7,
      source: 'from memory: Wood Handbook FPL-GTR-190, Table 4-3',
    },
    movement: { CR: 0.00245, CT: 0.00376, source: 'derived: (S / 3000) / (1 - S / 150) of the shrinkage S' },
    note: 'The shrinkage figures stand on a trade page.',
  },
  {
    id: 'douglas-fir-coast',
    common: 'Douglas-fir, coast',
    scientific: 'Pseudotsuga menziesii',
    group: 'softwood',
    sg12: { value: 0.48, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    janka: { value: 3200, source: 'Wood Handbook FPL-GTR-190, Table 5-3a, 12 % MC row' },
    shrinkage: {
      radial: 4.8,
      tangential: 7.6,
      volumetric: 12.4,
      source: 'Wood Handbook FPL-GTR-190, Table 4-3 and Wood Handbook FPL-GTR-282, Table 4-3',
    },
    movement: { CR: 0.00165, CT: 0.00267, source: 'derived: (S / 3000) / (1 - S / 150) of the shrinkage S' },
  },
  {
    id: 'mahogany',
    common: 'Mahogany, true',
    scientific: 'Swietenia macrophylla',
    group: 'imported',
    sg12: {
      value: 0.472,
      source:
        'derived: basic 0.45 / (1 - 0.6 Sv / 100), Wood Handbook FPL-GTR-282 equation 4-10; basic: from memory: Wood Handbook FPL-GTR-190, Table 5-5a/5-5b',
    },
    janka: { value: 3600, source: 'from memory: Wood Handbook FPL-GTR-190, Table 5-5a/5-5b' },
    shrinkage: {
      radial: 3.0,
      tangential: 4.1,
      volumetric: 7.8,
      source: 'Wood Handbook FPL-GTR-190, Table 4-4 and USDA AH-607 text',
    },
    movement: {
      CR: 0.00172,
      CT: 0.00238,
      source:
        'the larger of the derived figure (0.00102, 0.00141) and Table 13-5 of the Wood Handbook FPL-GTR-190 from memory (0.00172, 0.00238)',
    },
    note: 'Plantation timber is lighter.',
  },
  {
    id: 'khaya',
    common: 'African mahogany (khaya)',
    scientific: 'Khaya spp.',
    group: 'imported',
    sg12: {
      value: 0.443,
      source:
        'derived: basic 0.42 / (1 - 0.6 Sv / 100), Wood Handbook FPL-GTR-282 equation 4-10; basic: from memory: Wood Handbook FPL-GTR-190, Table 5-5a/5-5b',
    },
    janka: { value: 3700, source: 'from memory: Wood Handbook FPL-GTR-190, Table 5-5a/5-5b' },
    shrinkage: { radial: 2.5, tangential: 4.5, volumetric: 8.8, source: 'Wood Handbook FPL-GTR-190, Table 4-4' },
    movement: {
      CR: 0.00141,
      CT: 0.00201,
      source:
        'the larger of the derived figure (0.00085, 0.00155) and Table 13-5 of the Wood Handbook FPL-GTR-190 from memory (0.00141, 0.00201)',
    },
    note: 'Several species are mixed in trade: 25 % either way is normal.',
  },
  {
    id: 'sapele',
    common: 'Sapele',
    scientific: 'Entandrophragma cylindricum',
    group: 'imported',
    sg12: {
      value: 0.6,
      source:
        'derived: basic 0.55 / (1 - 0.6 Sv / 100), Wood Handbook FPL-GTR-282 equation 4-10; basic: USDA Agriculture Handbook 607 text',
    },
    janka: { value: 6700, source: 'from memory: Wood Handbook FPL-GTR-190, Table 5-5a/5-5b' },
    shrinkage: { radial: 4.6, tangential: 7.4, volumetric: 14.0, source: 'USDA Agriculture Handbook 607 text' },
    movement: { CR: 0.00158, CT: 0.00259, source: 'derived: (S / 3000) / (1 - S / 150) of the shrinkage S' },
  },
  {
    id: 'bubinga',
    common: 'Bubinga',
    scientific: 'Guibourtia spp.',
    group: 'imported',
    sg12: {
      value: 0.776,
      source:
        'derived: basic 0.71 / (1 - 0.6 Sv / 100), Wood Handbook FPL-GTR-282 equation 4-10; basic: from memory: Wood Handbook FPL-GTR-190, Table 5-5a/5-5b',
    },
    janka: { value: 12000, source: 'from memory: Wood Handbook FPL-GTR-190, Table 5-5a/5-5b' },
    shrinkage: {
      radial: 5.8,
      tangential: 8.4,
      volumetric: 14.2,
      source: 'from memory: Wood Handbook FPL-GTR-190, Table 4-4',
    },
    movement: { CR: 0.00201, CT: 0.00297, source: 'derived: (S / 3000) / (1 - S / 150) of the shrinkage S' },
    note: 'Hardness is the weakest figure: trade sheets also say 10720 N. Trade has been restricted; check the rules.',
  },
  {
    id: 'padauk-african',
    common: 'African padauk',
    scientific: 'Pterocarpus soyauxii',
    group: 'imported',
    sg12: {
      value: 0.639,
      source:
        'derived: basic 0.61 / (1 - 0.6 Sv / 100), Wood Handbook FPL-GTR-282 equation 4-10; basic: midpoint of 0.55-0.67, USDA FPL Wood Technical Fact Sheet Pterocarpus soyauxii',
    },
    janka: { value: 7670, source: 'flooring-trade species booklet, 1725 lbf' },
    shrinkage: {
      radial: 3.3,
      tangential: 5.2,
      volumetric: 7.6,
      source: 'USDA FPL Wood Technical Fact Sheet Pterocarpus soyauxii',
    },
    movement: { CR: 0.00112, CT: 0.0018, source: 'derived: (S / 3000) / (1 - S / 150) of the shrinkage S' },
    note: 'Trade sheets give 1720 to 1970 lbf.',
  },
  {
    id: 'teak',
    common: 'Teak',
    scientific: 'Tectona grandis',
    group: 'imported',
    sg12: {
      value: 0.574,
      source:
        'derived: basic 0.55 / (1 - 0.6 Sv / 100), Wood Handbook FPL-GTR-282 equation 4-10; basic: Wood Handbook FPL-GTR-190, Table 5-5b',
    },
    janka: { value: 4400, source: 'from memory: Wood Handbook FPL-GTR-190, Table 5-5a/5-5b' },
    shrinkage: {
      radial: 2.5,
      tangential: 5.8,
      volumetric: 7.0,
      source: 'from memory: Wood Handbook FPL-GTR-190, Table 4-4',
    },
    movement: {
      CR: 0.00101,
      CT: 0.00201,
      source:
        'the larger of the derived figure (0.00085, 0.00201) and Table 13-5 of the Wood Handbook FPL-GTR-190 from memory (0.00101, 0.00186)',
    },
    note: 'Silica blunts edges.',
  },
  {
    id: 'birch-plywood',
    common: 'Birch plywood, all-birch veneers',
    group: 'board',
    sg12: {
      value: 0.62,
      source:
        'derived: 680 kg/m3 at about 10 % moisture content, rho = 1000 G (1 + MC / 100), Wood Handbook FPL-GTR-282 equation 4-14; 650 to 720 kg/m3 from memory: a plywood handbook',
    },
    janka: null,
    inPlane: {
      along: 0.000138,
      across: 0.000208,
      source:
        'derived: 0.18 % along and 0.27 % across from 7 to 20 % moisture content, mean of 22 species of 5 mm three-ply, national forest products laboratory tests as quoted in a furniture-making book',
    },
    note: 'No hardness is published for the panel: cut as birch, with glue lines that wear the edge.',
  },
  {
    id: 'mdf',
    common: 'Medium-density fibreboard',
    group: 'board',
    sg12: {
      value: 0.67,
      source:
        'derived: 725 kg/m3, the middle of 650 to 800, at about 8 % moisture content; range from memory: ANSI A208.2 and EN 622-5',
    },
    janka: null,
  },
];

/** Every id, domestic and imported woods first, boards last: for messages and for the schema. */
export const WOOD_IDS: readonly string[] = WOODS.map((w) => w.id);

/** The wood of that id, or undefined. */
export const findWood = (id: string): Wood | undefined => WOODS.find((w) => w.id === id);
