import type { Assumption } from '../model/jig.ts';
import { ANGLE_SPELLINGS, type FileUnits, LENGTH_SPELLINGS, readAngle, readLength } from '../units/length.ts';
import { nearest } from '../units/nearest.ts';
import type { Deg, Mm } from '../units/scalar.ts';
import { type JigIssue, type KeyPath, pathText, show } from './complaint.ts';

/** What a length may be. `any` allows negative and zero, `zero` allows zero. */
/** Profile files beside the jig, already read: name as written in the jig file -> raw object. */
export type ProfileFiles = Readonly<Record<string, unknown>>;

export interface Bounds {
  readonly sign: 'positive' | 'zero' | 'any';
  /** Of a positive length, when a little more than nothing will not do. */
  readonly least?: Mm;
  readonly max: Mm;
}

export const SIZE: Bounds = { sign: 'positive', max: 3000 };
export const SMALL: Bounds = { sign: 'positive', max: 300 };
/** What a bit cuts. Far below any drill (judgement): inches written without their unit are for the fit checks to name. */
export const CUT: Bounds = { sign: 'positive', least: 0.01, max: 200 };
export const GAP: Bounds = { sign: 'zero', max: 300 };
export const OFFSET: Bounds = { sign: 'any', max: 3000 };
export const SPACING: Bounds = { sign: 'positive', max: 1000 };

/**
 * Reads the file's scalars into mm and degrees, and collects every complaint and every default on the way, so that a
 * builder sees all of them at once. After a complaint a harmless number stands in; nothing is made of it.
 */
export class Reader {
  readonly issues: JigIssue[] = [];
  readonly assumptions: Assumption[] = [];
  readonly units: FileUnits;

  constructor(units: FileUnits) {
    this.units = units;
  }

  /** What several rows share is read for each of them, and complained of once. */
  complain(path: KeyPath, found: string, allowed: string, tryThis: string): void {
    const key = pathText(path);
    if (this.issues.some((i) => i.found === found && i.allowed === allowed && pathText(i.path) === key)) return;
    this.issues.push({ path, found, allowed, try: tryThis });
  }

  assume(key: string, value: string, why: string): void {
    this.assumptions.push({ key, value, why });
  }

  length(raw: unknown, path: KeyPath, bounds: Bounds = SIZE): Mm {
    const r = readLength(raw, this.units);
    if (!r.ok) {
      this.complain(path, `${show(raw)}: ${r.why}`, LENGTH_SPELLINGS, 'write a number and one unit');
      return 1;
    }
    const { value } = r;
    if (bounds.least !== undefined && value < bounds.least)
      return this.outside(raw, path, `${bounds.least} to ${bounds.max} mm`, value);
    if (bounds.sign === 'positive' && value <= 0)
      return this.outside(raw, path, `more than 0 and at most ${bounds.max} mm`, value);
    if (bounds.sign === 'zero' && value < 0)
      return this.outside(raw, path, `0 or more, at most ${bounds.max} mm`, value);
    if (Math.abs(value) > bounds.max) return this.outside(raw, path, `at most ${bounds.max} mm`, value);
    return value;
  }

  optional(raw: unknown, path: KeyPath, bounds: Bounds = SIZE): Mm | undefined {
    return raw === undefined ? undefined : this.length(raw, path, bounds);
  }

  angle(raw: unknown, path: KeyPath): Deg {
    const r = readAngle(raw);
    if (!r.ok) {
      this.complain(path, `${show(raw)}: ${r.why}`, ANGLE_SPELLINGS, 'write a number of degrees');
      return 0;
    }
    if (Math.abs(r.value) > 3600) {
      this.complain(
        path,
        `${show(raw)}: it is more than ten turns`,
        'an angle from -3600 to 3600 deg',
        'write it within one turn',
      );
      return 0;
    }
    return r.value;
  }

  /** A word that must be in a list of names; complains with the nearest and gives undefined. */
  named<T>(
    name: string,
    path: KeyPath,
    names: readonly string[],
    find: (name: string) => T | undefined,
  ): T | undefined {
    const found = find(name);
    if (found === undefined) {
      const meant = nearest(name, names);
      this.complain(
        path,
        `the name ${show(name)}`,
        `${names.join(', ')}`,
        meant === undefined ? 'choose one of these' : `write ${meant} if that is what you mean`,
      );
    }
    return found;
  }

  private outside(raw: unknown, path: KeyPath, allowed: string, value: Mm): Mm {
    const inMm = typeof raw === 'number' || !/mm\s*$/.test(String(raw)) ? ` (${value} mm)` : '';
    this.complain(path, `${show(raw)}${inMm}`, allowed, `measure ${pathText(path)} again, and check its unit`);
    return 1;
  }
}
