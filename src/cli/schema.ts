import { jsonSchema, type ProfileKind } from '../jig/json-schema.ts';
import { PROFILE_SCHEMAS } from '../jig/schema-profile.ts';
import type { Context } from './context.ts';
import { EXIT } from './failure.ts';
import { wordOption } from './words.ts';

export async function run(
  _args: readonly string[],
  options: { profile?: string },
  { terminal }: Context,
): Promise<number> {
  const kinds = Object.keys(PROFILE_SCHEMAS) as ProfileKind[];
  const kind = options.profile === undefined ? undefined : wordOption('--profile', options.profile, kinds);
  terminal.out(`${JSON.stringify(jsonSchema(kind), null, 2)}\n`);
  return EXIT.done;
}
