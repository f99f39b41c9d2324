import type { Fact } from '../model/finding.ts';
import { num, trimmed, word } from './saying.ts';

/** Words and figures that the sentences of the fit checks share. */
export const GEOMETRY = 'derived: plane geometry on the unrolled shell';
export const CYLINDER = 'derived: geometry of the cylinder';

export const value = (f: Fact, key: string): number => Number(f.facts?.[key] ?? Number.NaN);
export const has = (f: Fact, key: string): boolean => f.facts?.[key] !== undefined;
export const mm = (f: Fact, key: string, digits = 1): string => `${num(f, key, digits)} mm`;
export const deg = (f: Fact, key: string): string => `${num(f, key, 2)} deg`;
export const size = (f: Fact, key: string): string => `${trimmed(Math.abs(value(f, key)), 1)} mm`;

/** Float dust in a figure that is exact to a tenth. */
const ROUNDING = 1 / 1_000_000;

/** Amounts a builder must move or cut are rounded up to the next tenth, so that the rounded figure still cures. */
export const atLeast = (n: number): string => `${trimmed(Math.ceil(n * 10 - ROUNDING) / 10, 1)} mm`;
export const atMost = (n: number): string => `${trimmed(Math.floor(n * 10 + ROUNDING) / 10, 1)} mm`;

/** So many places are named, or a few less and how many more there are. */
const MOST_NAMED = 8;
const placesOf = (f: Fact): string => {
  const places = word(f, 'places').split(', ');
  const more = places.length - (MOST_NAMED - 2);
  return places.length > MOST_NAMED ? `${places.slice(0, -more).join(', ')} and ${more} more` : places.join(', ');
};

/** How many a finding stands for, and where they are, when it stands for several. */
export const others = (f: Fact): string => {
  const count = value(f, 'count');
  return count > 1 ? ` (the worst of ${count}: ${placesOf(f)})` : '';
};

/** Where else the same is found. */
export const alike = (f: Fact): string => (value(f, 'count') > 1 ? ` (${placesOf(f)})` : '');
