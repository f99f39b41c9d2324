import * as z from 'zod';
import { jigSchema } from './schema.ts';
import { PROFILE_SCHEMAS } from './schema-profile.ts';

/** What a profile file may describe. */
export type ProfileKind = 'sheet' | 'material' | 'paper' | 'machine' | 'accuracy';

/**
 * JSON Schema of the jig file or of a profile, with how to measure every key.
 * @param kind of a profile: sheet, material, paper, machine or accuracy; the jig file when left out
 * @returns a plain object
 * @throws never
 * @source JSON Schema draft 2020-12
 */
export function jsonSchema(kind?: ProfileKind): unknown {
  const schema = kind === undefined ? jigSchema : PROFILE_SCHEMAS[kind];
  return z.toJSONSchema(schema, { io: 'input', override: (ctx) => void delete ctx.jsonSchema['kind'] });
}
