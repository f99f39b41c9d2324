import * as z from 'zod';

// The validator must not compile code at run time: pages forbid it, and short runs never earn it back.
z.config({ jitless: true });

/** A scalar as it stands in the file; `resolve` reads its unit. `how` says how a builder measures it. */
export const length = (how: string) => z.union([z.number(), z.string()]).meta({ description: how, kind: 'length' });
export const angle = (how: string) => z.union([z.number(), z.string()]).meta({ description: how, kind: 'angle' });
export const text = (how: string) => z.string().meta({ description: how });
export const whole = (how: string, min: number, max: number) =>
  z.number().int().min(min).max(max).meta({ description: how });
export const quantity = (how: string, min: number, max: number) =>
  z.number().min(min).max(max).meta({ description: how });
export const choice = <const T extends readonly [string, ...string[]]>(how: string, words: T) =>
  z.enum(words).meta({ description: how });
