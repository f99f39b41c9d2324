import * as z from 'zod';
import { MACHINE_NAMES } from '../data/machines.ts';
import { MATERIAL_NAMES } from '../data/materials.ts';
import { PAPER_NAMES } from '../data/papers.ts';
import { SHEET_NAMES } from '../data/sheets.ts';
import { accuracyKeys } from './schema-workshop.ts';
import { choice, quantity, text, whole } from './values.ts';

/**
 * Profiles: what a builder's own sheet, material, paper and machine can do, kept in YAML files beside the jig. `like`
 * names a built-in profile that fills in what is not said. Numbers are mm, mm/min, deg, seconds.
 */
const like = (names: readonly string[]) => text(`built-in profile to start from: ${names.join(', ')}`).optional();
const size = (how: string) => quantity(how, 0.001, 100_000).optional();
const gap = (how: string) => quantity(how, 0, 1000).optional();
const coordinate = (how: string) => z.number().min(-100_000).max(100_000).meta({ description: how });
const flag = (how: string) => z.boolean().meta({ description: how }).optional();
const speed = (how: string) => quantity(how, 0.01, 10_000).optional();
const range = (how: string) => z.tuple([z.number(), z.number()]).meta({ description: how }).optional();

const sheetSchema = z.strictObject({
  profile: z.literal('sheet'),
  like: like(SHEET_NAMES),
  width: size('width of the sheet, mm'),
  height: size('height of the sheet, mm'),
  margin: gap('left free all round, mm'),
  spacing: gap('least gap between parts, mm'),
  bridge: gap('narrowest strip that survives, mm'),
  kerf: gap('width the beam removes, from the coupon, mm'),
  speeds: z
    .strictObject({
      cut: speed('cutting through, mm/s'),
      score: speed('scoring a line, mm/s'),
      engrave: speed('engraving letters, mm/s'),
      travel: speed('with the beam off, mm/s'),
      pierce: quantity('breaking through, s', 0, 60).optional(),
    })
    .meta({ description: 'how fast this laser goes, for the estimated time of a sheet' })
    .optional(),
  lines: z
    .partialRecord(
      z.enum(['CUT-INNER', 'CUT-OUTER', 'SCORE', 'ENGRAVE', 'REFERENCE']),
      z.strictObject({
        colour: z
          .string()
          .regex(/^#[0-9a-f]{6}$/i)
          .optional(),
        weight: quantity('line width, mm', 0.001, 5).optional(),
      }),
    )
    .meta({ description: "colour and line width of each layer, as the laser's own software wants them" })
    .optional(),
});

const materialSchema = z.strictObject({
  profile: z.literal('material'),
  like: like(MATERIAL_NAMES),
  thickness: quantity('measured thickness, mm', 0.01, 300).optional(),
  neutral: quantity('neutral line as a fraction of the thickness from the inner face', 0, 1).optional(),
  kerf: gap('width the beam removes, from the coupon, mm'),
  fit: quantity('added to a slot so that the sheet slides in, from the coupon, mm', -2, 5).optional(),
  bends: size('smallest radius it bends to, mm'),
});

const paperSchema = z.strictObject({
  profile: z.literal('paper'),
  like: like(PAPER_NAMES),
  width: size('width of the page, mm'),
  height: size('height of the page, mm'),
  margin: gap('left free all round, mm'),
  overlap: gap('shared by neighbouring pages, mm'),
});

const perAxis = (how: string) =>
  z
    .strictObject({ x: size(how), y: size(how), z: size(how), a: size(how) })
    .meta({ description: how })
    .optional();

const machineSchema = z.strictObject({
  profile: z.literal('machine'),
  like: like(MACHINE_NAMES),
  spindle: z
    .strictObject({
      min: quantity('slowest rev/min', 0, 1e6).optional(),
      max: size('fastest rev/min'),
      watts: size('power at the bit'),
      seconds: gap('time to reach speed'),
      collet: size('largest shank, mm'),
    })
    .optional(),
  swing: size('largest diameter that turns under the gantry, mm'),
  travel: z
    .strictObject({ x: range('X limits, mm'), y: range('Y limits, mm'), z: range('Z limits about the skin, mm') })
    .optional(),
  'has-y': z.boolean().optional(),
  rapid: perAxis('rapid rate, mm/min and deg/min'),
  feed: size('fastest feed, mm/min'),
  acceleration: perAxis('mm/s^2 and deg/s^2'),
  a: choice('how the rotary is wired: as ISO 841 says, or reversed', ['iso', 'reversed']).optional(),
  rotary: z.union([z.literal('endless'), z.tuple([z.number(), z.number()])]).optional(),
  'steps-per-turn': whole('motor steps per turn of A', 1, 1e8).optional(),
  'tool-change': choice('who changes the bit', ['hand', 'machine']).optional(),
  'tool-change-seconds': gap('time for a change'),
  understands: z
    .strictObject({
      cycles: flag('drilling cycles G81 and G83'),
      'inverse-time': flag('inverse-time feed G93'),
      arcs: flag('arcs and helices G2 and G3 in XY'),
      'line-numbers': flag('wants every line to begin with N and a number'),
      comments: choice('how it reads comments: in brackets, after a semicolon, or not at all', [
        'brackets',
        'semicolon',
        'none',
      ]).optional(),
      decimals: whole('decimals it reads', 0, 6).optional(),
    })
    .optional(),
  proven: z
    .array(
      z.strictObject({
        kind: z.enum(['twist', 'brad-point', 'spur', 'stepped', 'end-mill', 'v-bit']),
        diameter: quantity('cutting diameter, mm', 0.1, 200),
        wood: text('species or board; any when left out').optional(),
        speed: quantity('rev/min that worked', 1, 1e5).optional(),
        feed: quantity('mm/min that worked', 0.1, 1e5).optional(),
        peck: quantity('depth of a peck that worked, mm', 0, 500).optional(),
      }),
    )
    .max(200)
    .meta({ description: "the builder's own proven numbers" })
    .optional(),
  fixture: z
    .strictObject({
      hold: choice('what holds the shell: plates inside it, or cones and a tailstock on its edges', [
        'plates',
        'cones',
      ]).optional(),
      chuck: gap('X taken by the chuck end, mm'),
      tailstock: gap('X taken by the other end, mm'),
      mandrel: gap('diameter of the shaft inside, mm'),
      'keep-out': z
        .array(z.strictObject({ from: coordinate('X where it begins, mm'), to: coordinate('X where it ends, mm') }))
        .max(20)
        .meta({ description: 'stretches of X where no bit may go below the skin: a steady, a strap, a jaw' })
        .optional(),
    })
    .optional(),
});

/** The workshop's own error terms: the same keys as the jig file's `accuracy`. */
export const accuracyProfileSchema = z.strictObject({ profile: z.literal('accuracy'), ...accuracyKeys });

/** Schemas by kind, for `lugwright schema --profile KIND`. */
export const PROFILE_SCHEMAS = {
  sheet: sheetSchema,
  material: materialSchema,
  paper: paperSchema,
  machine: machineSchema,
  accuracy: accuracyProfileSchema,
} as const;
