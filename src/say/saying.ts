import type { Fact } from '../model/finding.ts';

/** Where most limits of assembly and of feeds come from: workshops agree on them, and nobody has published why. */
export const PRACTICE = 'common practice, no source';
/** What a machine and its bits can do, as the builder has written it down. */
export const MACHINE = 'machine profile';
export const TOOLS = 'tool list';

/** A number of a fact as words: `num(f, 'gap', 1)`; the digits are what a bench can measure. */
export function num(fact: Fact, key: string, digits = 1): string {
  const value = fact.facts?.[key];
  return typeof value === 'number' ? trimmed(value, digits) : String(value ?? '?');
}

/** A word of a fact. */
export const word = (fact: Fact, key: string): string => String(fact.facts?.[key] ?? '?');

/** `measured` or `limit` with its unit. */
export const measured = (fact: Fact, digits = 1): string => withUnit(fact.measured, fact.unit, digits);
export const limit = (fact: Fact, digits = 1): string => withUnit(fact.limit, fact.unit, digits);

/** `measured` or `limit` where they count something. */
export const whole = (value: number | null): string => (value === null ? '?' : value.toFixed(0));

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A number with at most `digits` decimals, no trailing zeros, never `-0`. */
export function trimmed(value: number, digits: number): string {
  const text = value.toFixed(digits);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}

/** Seconds as a person says them: `4 min 10 s`. */
export function spell(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  if (whole < 3600) return `${Math.floor(whole / 60)} min ${whole % 60} s`;
  const minutes = Math.round(whole / 60);
  return `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}

function withUnit(value: number | null, unit: string, digits: number): string {
  if (value === null) return '?';
  return unit === '' ? trimmed(value, digits) : `${trimmed(value, digits)} ${unit}`;
}
