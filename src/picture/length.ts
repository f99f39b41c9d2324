import type { Jig } from '../model/jig.ts';
import { trimmed } from '../say/saying.ts';
import { inInches } from '../units/length.ts';
import type { Mm } from '../units/scalar.ts';

export type Units = Jig['units'];

/** A length on a drawing, in the jig file's own units: `36.5 mm` or `1.437 in`. */
export const inUnits = (mm: Mm, units: Units): string =>
  units === 'in' ? `${inInches(mm).toFixed(3)} in` : `${trimmed(mm, 1)} mm`;

/** The same without the unit, where many stand side by side. */
export const bare = (mm: Mm, units: Units): string => (units === 'in' ? inInches(mm).toFixed(3) : trimmed(mm, 1));
