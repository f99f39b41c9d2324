import { SOFT_BELOW } from '../data/cutting.ts';
import { findWood, type Wood } from '../data/wood.ts';

/** What cutting needs to know of a wood. */
export interface Stock {
  readonly name: string;
  readonly gravity: number;
  readonly soft: boolean;
  readonly column: 'hardwood' | 'softwood' | 'plywood' | 'mdf';
  readonly source: string;
}

/** A wood not named is cut as sugar maple, the hardest of the usual shell woods: slower, never faster. */
const UNNAMED: Stock = {
  name: 'a dense hardwood',
  gravity: 0.63,
  soft: false,
  column: 'hardwood',
  source: 'assumed: sugar maple',
};

export function stockOf(id: string | undefined): Stock {
  const wood = id === undefined ? undefined : findWood(id);
  if (!wood) return UNNAMED;
  return {
    name: wood.common,
    gravity: wood.sg12.value,
    soft: isSoft(wood),
    column: millColumn(wood),
    source: wood.sg12.source,
  };
}

const isSoft = (w: Wood): boolean => w.group !== 'board' && (w.group === 'softwood' || w.sg12.value < SOFT_BELOW);

function millColumn(w: Wood): Stock['column'] {
  if (w.id === 'mdf') return 'mdf';
  if (w.group === 'board') return 'plywood';
  return isSoft(w) ? 'softwood' : 'hardwood';
}
