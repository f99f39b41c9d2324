import { SOFT_BELOW, USUAL_HARDNESS } from '../data/cutting.ts';
import { findWood, type Wood } from '../data/wood.ts';

/** What cutting needs to know of a wood. */
export interface Stock {
  readonly name: string;
  readonly gravity: number;
  /** Gravity to feed by: halfway (in proportion) to the gravity its side hardness is usual at (judgement, no source). */
  readonly cutsLike: number;
  /** Side hardness, N, where one is published. */
  readonly hardness?: number;
  readonly soft: boolean;
  readonly column: 'hardwood' | 'softwood' | 'plywood' | 'mdf';
  readonly source: string;
}

/** A wood not named is cut as sugar maple, the hardest of the usual shell woods: slower, never faster. */
const UNNAMED: Stock = {
  name: 'a dense hardwood',
  gravity: 0.63,
  cutsLike: 0.63,
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
    cutsLike: cutsLike(wood),
    ...(wood.janka === null ? {} : { hardness: wood.janka.value }),
    soft: isSoft(wood),
    column: millColumn(wood),
    source: wood.janka === null ? wood.sg12.source : `${wood.sg12.source}; side hardness: ${wood.janka.source}`,
  };
}

/** Geometric mean of a wood's gravity and the gravity at which its hardness H is usual, (H / a)^(1 / b). */
function cutsLike(w: Wood): number {
  if (w.janka === null) return w.sg12.value;
  const { a, b } = w.group === 'softwood' ? USUAL_HARDNESS.softwood : USUAL_HARDNESS.hardwood;
  return Math.sqrt(w.sg12.value * (w.janka.value / a) ** (1 / b));
}

const isSoft = (w: Wood): boolean => w.group !== 'board' && (w.group === 'softwood' || w.sg12.value < SOFT_BELOW);

function millColumn(w: Wood): Stock['column'] {
  if (w.id === 'mdf') return 'mdf';
  if (w.group === 'board') return 'plywood';
  return isSoft(w) ? 'softwood' : 'hardwood';
}
