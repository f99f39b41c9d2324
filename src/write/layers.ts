import type { Layer } from '../model/drawing.ts';
import type { LineStyles } from '../model/sheet.ts';

/** How a layer looks in a file: our own scheme, for services that sort by name, by colour or by weight. */
export interface LayerStyle {
  readonly title: string;
  /** `#rrggbb`. */
  readonly colour: string;
  /** Colour index for readers too old for true colours. */
  readonly index: number;
  /** Line width in mm. */
  readonly weight: number;
}

export const LAYER_STYLES: Readonly<Record<Layer, LayerStyle>> = {
  ENGRAVE: { title: 'Engrave: letters and signs, one pass', colour: '#b35900', index: 30, weight: 0.15 },
  REFERENCE: { title: 'Reference: check line of exactly 100 mm, scored', colour: '#3a6ea5', index: 150, weight: 0.1 },
  SCORE: { title: 'Score: lines on the surface', colour: '#1b7f3b', index: 3, weight: 0.1 },
  'CUT-INNER': { title: 'Cut first: holes and openings', colour: '#7a1fa2', index: 6, weight: 0.1 },
  'CUT-OUTER': { title: 'Cut last: outlines', colour: '#111111', index: 7, weight: 0.1 },
};

/** A layer's look, with the service's wishes over our own scheme. Throws RangeError for a colour that is not `#rrggbb`. */
export function styleOf(layer: Layer, wishes: LineStyles | undefined): LayerStyle {
  const own = LAYER_STYLES[layer];
  const { colour = own.colour, weight = own.weight } = wishes?.[layer] ?? {};
  if (!/^#[0-9a-f]{6}$/i.test(colour)) throw new RangeError(`${layer}: a colour is written #rrggbb, not ${colour}`);
  return { ...own, colour: colour.toLowerCase(), weight };
}
