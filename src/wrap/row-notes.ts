import type { Box } from '../drawing/spans.ts';
import type { FlatPoint } from '../model/frames.ts';
import { trimmed } from '../say/saying.ts';
import type { Mm } from '../units/scalar.ts';
import { placeOf, type Skin } from './skin.ts';

export interface RowNote {
  readonly text: string;
  readonly edge: 'top' | 'bottom';
  /** Where its lugs stand. */
  readonly feet: readonly FlatPoint[];
}

/** For every row of lugs, the edge to hold the template to when it is marked: depth is never quite constant. */
export function rowNotes(skin: Skin, start: Mm): RowNote[] {
  const { depth, placed } = skin.layout;
  const notes = new Map<string, RowNote>();
  for (const p of placed) {
    if (p.role !== 'lug' || p.edge === 'middle') continue;
    const from = p.edge === 'top' ? depth - p.height : p.height;
    const text = `row ${p.group}: hold to ${p.edge} edge, ${trimmed(from, 1)} mm`;
    const at = { x: placeOf(skin, p.angle, start), y: p.height };
    notes.set(text, { text, edge: p.edge, feet: [...(notes.get(text)?.feet ?? []), at] });
  }
  return [...notes.values()];
}

/** Whether a lug of the row stands on a piece. */
export const standsOn = ({ feet }: RowNote, { min, max }: Box): boolean =>
  feet.some((p) => p.x >= min.x && p.x < max.x && p.y >= min.y && p.y < max.y);

/** The half of a piece that lies towards an edge. */
export function nearEdge({ min, max }: Box, edge: 'top' | 'bottom'): Box {
  const middle = (min.y + max.y) / 2;
  return edge === 'top' ? { min: { x: min.x, y: middle }, max } : { min, max: { x: max.x, y: middle } };
}
