import type { Fact } from '../model/finding.ts';
import { MM_PER_INCH, type Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, type Group, raise, SIDES } from './bench.ts';

/**
 * What drums and their hardware usually measure, mm and counts (common practice, no source; drums of 6 to 30 in). Wide
 * enough for the odd drum: what lies outside is most often a slip of the unit, and the finding looks for the unit in
 * which the figure would be usual. Walls, vents and beds have findings of their own.
 */
const USUAL = {
  'shell.diameter': [140, 800],
  'shell.depth': [40, 700],
  'shell.skin.thickness': [0, 4],
  'ring.width': [8, 130],
  'ring.thickness': [1, 25],
  'hoop.ear': [-60, 100],
  'hoop.skirt': [0, 60],
  'rods.length': [20, 250],
  'rods.threaded': [6, 200],
  'rods.washer': [0, 6],
  'rods.travel': [0.5, 15],
  'lugs.count': [2, 24],
  'rod.face': [0, 200],
  'rod.catch': [0, 40],
  'rod.bottom': [6, 150],
  'rod.standoff': [4, 60],
  'foot.gasket': [0, 5],
  'foot.side': [4, 400],
  'holes.drill': [1.5, 25],
  'holes.washer': [0, 6],
  'holes.tapped': [2, 40],
  'leg.rod': [4, 25],
} as const satisfies Record<string, readonly [low: number, high: number]>;

interface Figure {
  readonly kind: keyof typeof USUAL;
  readonly value: Mm | undefined;
  readonly at: string;
  /** The key a builder looks up, and where else it may stand. */
  readonly keys: readonly [string, ...string[]];
}

/** Figures that are possible but nothing a builder meets: look twice, above all at the unit. */
export function checkUsual(bench: Bench): Fact[] {
  const seen = new Set<string>();
  return [...figuresOf(bench), ...bench.groups.flatMap((g) => figuresOfGroup(g))].flatMap((f) => {
    if (f.value === undefined) return [];
    const [low, high] = USUAL[f.kind];
    if (f.value >= low - tolerance.noise && f.value <= high + tolerance.noise) return [];
    const name = `${f.kind} ${f.value}`;
    if (seen.has(name)) return [];
    seen.add(name);
    const meant = otherUnit(f.value, low, high);
    return [
      raise(bench, {
        level: 'care',
        id: 'size-unusual',
        at: f.at,
        measured: f.value,
        limit: f.value < low ? low : high,
        unit: f.kind === 'lugs.count' ? '' : 'mm',
        facts: {
          key: f.keys.find((k) => bench.jig.lines[k] !== undefined) ?? f.keys[0],
          low,
          high,
          ...(meant && f.kind !== 'lugs.count' ? meant : {}),
        },
        keys: f.keys,
      }),
    ];
  });
}

/** The unit that was perhaps meant, or perhaps written by mistake, and the size it would then be. */
function otherUnit(value: Mm, low: Mm, high: Mm): { meant: Mm; slip: string } | undefined {
  const slips = [
    [value * 10, 'centimetres for millimetres'],
    [value * MM_PER_INCH, 'inches for millimetres'],
    [value / 10, 'ten times too large'],
    [value / MM_PER_INCH, 'millimetres for inches'],
  ] as const;
  const found = slips.find(([v]) => v >= low && v <= high && v > 0);
  return found && { meant: found[0], slip: found[1] };
}

function figuresOf({ jig }: Bench): Figure[] {
  const { shell, rods, hoops } = jig;
  return [
    { kind: 'shell.diameter', value: 2 * shell.radius, at: 'shell', keys: ['shell.diameter', 'shell.circumference'] },
    { kind: 'shell.depth', value: shell.depth, at: 'shell', keys: ['shell.depth'] },
    { kind: 'shell.skin.thickness', value: shell.skin?.thickness, at: 'shell', keys: ['shell.skin'] },
    ...SIDES.flatMap((side): Figure[] => [
      { kind: 'ring.width', value: shell.rings[side]?.width, at: 'shell', keys: [`shell.rings.${side}.width`] },
      {
        kind: 'ring.thickness',
        value: shell.rings[side]?.thickness,
        at: 'shell',
        keys: [`shell.rings.${side}.thickness`],
      },
      { kind: 'hoop.ear', value: hoops[side]?.ear, at: `hoop-${side}`, keys: [`hoops.${side}.ear`] },
      { kind: 'hoop.skirt', value: hoops[side]?.skirt, at: `hoop-${side}`, keys: [`hoops.${side}.skirt`] },
      {
        kind: 'rods.length',
        value: rods?.length[side],
        at: 'rods',
        keys: [`rods.length.${side}`, 'rods.length'],
      },
    ]),
    { kind: 'rods.threaded', value: rods?.threaded, at: 'rods', keys: ['rods.threaded'] },
    { kind: 'rods.washer', value: rods?.washer, at: 'rods', keys: ['rods.washer'] },
    { kind: 'rods.travel', value: rods?.travel, at: 'rods', keys: ['rods.travel'] },
  ];
}

function figuresOfGroup({ name, key, row, fitting }: Group): Figure[] {
  const holes = row?.holes ?? fitting?.holes;
  const foot = row?.foot ?? fitting?.foot;
  const at = row ? `${name}-lugs` : name;
  const figure = (kind: Figure['kind'], value: Mm | undefined, leaf: string): Figure => ({
    kind,
    value,
    at,
    keys: row ? [`${key}.${leaf}`, `lugs.${leaf}`] : [`${key}.${leaf}`],
  });
  const drilled = holes && holes.points.length > 0 && fitting?.role !== 'vent';
  return [
    ...(row
      ? [
          figure('lugs.count', row.count, 'count'),
          figure('rod.face', row.rod?.face, 'rod.face'),
          figure('rod.catch', row.rod?.catch, 'rod.catch'),
          figure('rod.bottom', row.rod?.bottom, 'rod.bottom'),
          figure('rod.standoff', row.rod?.standoff, 'rod.standoff'),
        ]
      : []),
    figure('leg.rod', fitting?.rod?.diameter, 'rod.diameter'),
    figure('foot.gasket', foot?.gasket, 'foot.gasket'),
    figure('foot.side', foot && foot.left + foot.right, 'foot.width'),
    figure('foot.side', foot && foot.up + foot.down, 'foot.height'),
    ...(drilled
      ? [
          figure('holes.drill', holes.drill, 'holes.drill'),
          figure('holes.washer', holes.washer, 'holes.washer'),
          figure('holes.tapped', holes.tapped, 'holes.tapped'),
        ]
      : []),
  ];
}
