import type { ProfileResult } from '../jig/profile-units.ts';
import { MAX_BYTES } from '../jig/refused-early.ts';
import { parseText } from '../jig/text.ts';
import { BadInput, badInput } from './failure.ts';
import { readText } from './input.ts';
import { meantBy } from './words.ts';

/** A profile named on the command line: built in, or a YAML file. */
export function readProfile<T>(
  name: string,
  names: readonly string[],
  find: (name: string) => T | undefined,
  read: (name: string, raw: unknown) => ProfileResult<T>,
  option: string,
): T {
  const builtIn = find(name);
  if (builtIn !== undefined) return builtIn;
  if (!/\.ya?ml$/i.test(name)) {
    throw badInput(`${option} ${name}`, `${names.join(', ')}, or a YAML profile`, meantBy(option, name, names));
  }
  const parsed = parseText(readText(name, MAX_BYTES, 'the profile'));
  if (!parsed.ok) throw new BadInput(parsed.issues.map((i) => ({ file: name, ...i })));
  const result = read(name, parsed.raw);
  if (!result.ok) throw new BadInput(result.issues.map((i) => ({ file: name, ...parsed.place(i) })));
  return result.value;
}
