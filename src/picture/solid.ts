import type { Jig, LugRow } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import { type Deg, MM_PER_INCH, type Mm } from '../units/scalar.ts';

/** A hole through the wall, and the fitting it belongs to. */
export interface SolidHole {
  readonly id: string;
  readonly of: string;
  readonly angle: Deg;
  readonly height: Mm;
  readonly radius: Mm;
}

/**
 * The finished drum as simple bodies for the turning view: plain numbers, mm and degrees, heights above the bottom edge.
 * Nothing here is measured from; it only shows whether it will look right.
 */
export interface SolidScene {
  readonly radius: Mm;
  readonly inside: Mm;
  readonly depth: Mm;
  readonly holes: readonly SolidHole[];
  /** Castings: boxes or ellipses standing on the skin. */
  readonly bodies: readonly {
    readonly id: string;
    readonly angle: Deg;
    readonly bottom: Mm;
    readonly top: Mm;
    readonly left: Mm;
    readonly right: Mm;
    /** Stands this far out of the skin. */
    readonly out: Mm;
    readonly round: boolean;
  }[];
  readonly hoops: readonly { readonly from: Mm; readonly to: Mm; readonly inner: Mm; readonly outer: Mm }[];
  readonly rods: readonly {
    readonly angle: Deg;
    readonly from: Mm;
    readonly to: Mm;
    readonly at: Mm;
    readonly radius: Mm;
  }[];
}

/** Sizes for what the jig file leaves open; they are looks only. */
const LOOK = { lugOut: 20, plateOut: 10, flangeOut: 14, ear: 3, rod: (0.216 * MM_PER_INCH) / 2 };

export function solidScene(jig: Jig, layout: Layout): SolidScene {
  const { radius, inside, depth } = layout;
  return {
    radius,
    inside,
    depth,
    holes: layout.holes.map((h) => ({
      id: h.id,
      of: h.fitting,
      angle: h.angle,
      height: h.height,
      radius: h.drill / 2,
    })),
    bodies: layout.placed.flatMap((p) => {
      if (!p.foot) return [];
      const row = jig.rows.find((r) => r.name === p.group && p.role === 'lug');
      return [
        {
          id: p.id,
          angle: p.angle,
          bottom: p.height - p.foot.down,
          top: p.height + p.foot.up,
          left: p.foot.left,
          right: p.foot.right,
          out: p.foot.gasket + (row ? (row.rod?.standoff ?? LOOK.lugOut) * 1.4 : LOOK.plateOut),
          round: p.foot.shape === 'ellipse',
        },
      ];
    }),
    hoops: (['top', 'bottom'] as const).flatMap((side) => {
      const rows = rowsOf(jig, side);
      const hoop = jig.hoops[side];
      if (!hoop && rows.length === 0) return [];
      const ear = hoop?.ear ?? LOOK.ear;
      const skirt = hoop?.skirt ?? LOOK.ear;
      const outer = hoop?.earCircle ? hoop.earCircle / 2 + LOOK.ear : radius + LOOK.flangeOut;
      const [from, to] = side === 'top' ? [depth - skirt, depth + ear] : [-ear, skirt];
      return [{ from, to, inner: radius + 1.5, outer }];
    }),
    rods: (['top', 'bottom'] as const).flatMap((side) =>
      rowsOf(jig, side).flatMap((row) => {
        if (!row.rod) return [];
        const ear = jig.hoops[side]?.ear ?? LOOK.ear;
        const at = radius + (row.foot?.gasket ?? 0) + (row.rod.standoff ?? LOOK.lugOut * 0.7);
        const [from, to] =
          side === 'top'
            ? [row.height + row.rod.face - row.rod.catch, depth + ear + 5]
            : [-ear - 5, row.height - row.rod.face + row.rod.catch];
        return layout.placed
          .filter((p) => p.role === 'lug' && p.group === row.name)
          .map((p) => ({ angle: p.angle, from, to, at, radius: (row.rod?.takes?.diameter ?? 2 * LOOK.rod) / 2 }));
      }),
    ),
  };
}

/** Rows that a hoop pulls on; a middle row of single lugs by its nearer edge. */
const rowsOf = (jig: Jig, side: 'top' | 'bottom'): readonly LugRow[] =>
  jig.rows.filter(
    (row) =>
      jig.ends === 'both' || row.edge === side || (row.edge === 'middle' && row.distance < 0 === (side === 'bottom')),
  );
