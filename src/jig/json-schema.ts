import * as z from 'zod';
import { PROFILE_SCHEMAS } from './profile.ts';
import { jigSchema } from './schema.ts';

/** JSON Schema (draft 2020-12) of the jig file or of a profile, with how to measure every key. */
export function jsonSchema(kind?: keyof typeof PROFILE_SCHEMAS): unknown {
  const schema = kind === undefined ? jigSchema : PROFILE_SCHEMAS[kind];
  return z.toJSONSchema(schema, { io: 'input', override: (ctx) => void delete ctx.jsonSchema['kind'] });
}
