import { jsonSchema, type ProfileKind } from '../jig/json-schema.ts';
import { PROFILE_SCHEMAS } from '../jig/profile.ts';
import type { Context } from './context.ts';
import { badInput, EXIT } from './failure.ts';

export async function run(
  _args: readonly string[],
  options: { profile?: string },
  { terminal }: Context,
): Promise<number> {
  const kind = options.profile;
  if (kind !== undefined && !(kind in PROFILE_SCHEMAS)) {
    throw badInput(`the profile kind ${kind}`, Object.keys(PROFILE_SCHEMAS).join(', '), 'choose one of these');
  }
  terminal.out(`${JSON.stringify(jsonSchema(kind as ProfileKind | undefined), null, 2)}\n`);
  return EXIT.done;
}
