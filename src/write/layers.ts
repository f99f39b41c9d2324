import type { Layer } from '../model/drawing.ts';

/** How a layer looks in a file: our own scheme, for services that sort by name, by colour or by weight. */
export interface LayerStyle {
  readonly title: string;
  /** `#rrggbb`. */
  readonly colour: string;
  /** Line width in mm. */
  readonly weight: number;
}

export const LAYER_STYLES: Readonly<Record<Layer, LayerStyle>> = {
  ENGRAVE: { title: 'Engrave: letters and signs, one pass', colour: '#b35900', weight: 0.15 },
  REFERENCE: { title: 'Reference: check line of exactly 100 mm, scored', colour: '#3a6ea5', weight: 0.1 },
  SCORE: { title: 'Score: lines on the surface', colour: '#1b7f3b', weight: 0.1 },
  'CUT-INNER': { title: 'Cut first: holes and openings', colour: '#7a1fa2', weight: 0.1 },
  'CUT-OUTER': { title: 'Cut last: outlines', colour: '#111111', weight: 0.1 },
};
