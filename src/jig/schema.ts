import * as z from 'zod';
import {
  fittingSchema,
  type footSchema,
  type lugRodSchema,
  lugsSchema,
  type patternSchema,
} from './schema-hardware.ts';
import { accuracySchema, collarSchema, limitsSchema, rotarySchema, wrapSchema } from './schema-workshop.ts';
import { angle, choice, length, quantity, text, whole } from './values.ts';

/**
 * The jig file's shape: keys, kinds and words. Numbers with units are read by `resolve`, which knows the file's units.
 * Every key says in one line how a builder measures it; `lugwright schema` prints this for editors.
 */
const edgeRing = z
  .strictObject({
    width: length("height of the reinforcement ring inside, along the shell's axis"),
    thickness: length('thickness of the ring, inwards from the shell'),
    joint: angle("where the ring's ends meet").optional(),
  })
  .meta({ description: 'reinforcement ring glued inside this edge' });

const oldHole = z.strictObject({
  at: angle('angle from the strainer line, growing left to right seen from outside, top up'),
  edge: choice('edge the distance is measured from', ['top', 'bottom', 'middle']),
  distance: length("from that edge to the hole's centre; from the middle, positive is towards the top"),
  diameter: length("the hole's diameter: shank of the largest drill that drops in"),
});

const shellSchema = z
  .strictObject({
    diameter: length(
      'outside diameter: the mean of four across-readings with a large caliper, or use circumference',
    ).optional(),
    circumference: length('outside girth: tape pulled tight round the middle, read twice').optional(),
    tape: length("the tape's own thickness: ten layers measured with a caliper, divided by ten").optional(),
    depth: length('from bearing edge to bearing edge along the outside: the mean of four readings'),
    wall: length('wall thickness away from rings: caliper over the edge, the mean of four readings'),
    nominal: length('the head size it is meant for, e.g. 13 in').optional(),
    wood: text('species id, e.g. sugar-maple or birch-plywood').optional(),
    build: choice('how the shell is made', ['ply', 'stave', 'steam-bent', 'segment']).optional(),
    round: length('out of round: largest minus smallest of four diameters').optional(),
    square: length('out of square: largest minus smallest of four depths').optional(),
    edges: choice('whether the bearing edges are cut already', ['cut', 'uncut']).optional(),
    skin: z
      .strictObject({
        thickness: length('lacquer or covering: measure an offcut'),
        when: choice('put on before or after the shell was measured', ['before', 'after']),
      })
      .meta({ description: 'lacquer or covering' })
      .optional(),
    rings: z
      .strictObject({ top: edgeRing.optional(), bottom: edgeRing.optional() })
      .meta({ description: 'reinforcement rings inside the edges' })
      .optional(),
    joints: z
      .array(angle('angle of a stave or seam joint'))
      .max(200)
      .meta({ description: 'joints holes should miss' })
      .optional(),
    holes: z.array(oldHole).max(500).meta({ description: 'holes the shell has already' }).optional(),
  })
  .meta({ description: 'the bare shell' });

const rodLengths = z
  .union([
    length('under the head to the tip, all rods alike'),
    z.strictObject({
      top: length('top rods: under the head to the tip').optional(),
      bottom: length('bottom rods: under the head to the tip').optional(),
    }),
  ])
  .meta({ description: 'tension rod length under the head: one for all, or top and bottom' });

const rodsSchema = z
  .strictObject({
    length: rodLengths.optional(),
    thread: text('thread on the rod, e.g. 12-24 UNC, M6 or 5.5 mm x 1.06 mm').optional(),
    threaded: length('threaded length, from the tip').optional(),
    washer: length('thickness of the washer under the head').optional(),
    travel: z
      .union([z.number(), z.string()])
      .meta({ description: 'from finger tight to full tension: a length, or turns such as 3 turns', kind: 'travel' })
      .optional(),
    stock: z.array(length('a rod length you can buy')).max(100).meta({ description: 'rod lengths on sale' }).optional(),
  })
  .meta({ description: 'tension rods' });

const hoopSchema = z.strictObject({
  ear: length('rod seat above (+) or below (-) the bearing edge, head on, hoop pressed down finger tight').optional(),
  skirt: length('how far the hoop reaches below the bearing edge').optional(),
  ears: whole('number of rod holes', 1, 64).optional(),
  'ear-circle': length('diameter of the circle through the rod holes').optional(),
  inside: length("the hoop's inside diameter").optional(),
  gates: z
    .array(
      z.strictObject({ at: angle('middle of the opening'), width: length('width of the opening, straight across') }),
    )
    .max(16)
    .meta({ description: 'openings for the snare strap' })
    .optional(),
});

const climate = z.strictObject({
  temperature: quantity('deg C', -30, 60),
  humidity: quantity('relative humidity, %', 1, 98),
});

export const jigSchema = z
  .strictObject({
    $schema: text('where an editor finds the JSON Schema').optional(),
    jig: z.literal(1).meta({ description: 'version of the jig file: 1' }),
    name: z.string().min(1).max(20_000).meta({ description: 'shown on every part and page' }),
    units: choice('what a bare number means', ['mm', 'in']).optional(),
    shell: shellSchema,
    lugs: lugsSchema.optional(),
    rods: rodsSchema.optional(),
    hoops: z
      .strictObject({ top: hoopSchema.optional(), bottom: hoopSchema.optional() })
      .meta({ description: 'hoops, measured with the head on' })
      .optional(),
    fittings: z.array(fittingSchema).max(200).meta({ description: 'everything screwed on that is no lug' }).optional(),
    beds: z
      .strictObject({
        width: length('width of a snare bed along the edge'),
        depth: length('depth of a snare bed at its middle'),
      })
      .meta({ description: 'snare beds, centred on 0 and 180 deg of the bottom edge' })
      .optional(),
    snare: z
      .strictObject({ length: length('wires, end plate to end plate') })
      .meta({ description: 'snare wires' })
      .optional(),
    climate: z
      .strictObject({ workshop: climate, home: climate })
      .meta({ description: 'air where the shell was measured and where it will live' })
      .optional(),
    batch: z
      .strictObject({
        girth: z
          .tuple([length('smallest girth'), length('largest girth')])
          .meta({ description: 'girths a reusable jig must serve' }),
        count: whole('how many shells', 1, 10_000),
      })
      .meta({ description: 'the shells a reusable jig must serve' })
      .optional(),
    method: choice('how holes are marked and drilled', [
      'tape',
      'paper-wrap',
      'cut-wrap',
      'collar',
      'rotary',
    ]).optional(),
    limits: limitsSchema.optional(),
    accuracy: accuracySchema.optional(),
    wrap: wrapSchema.optional(),
    collar: collarSchema.optional(),
    rotary: rotarySchema.optional(),
  })
  .meta({ title: 'Lugwright jig file', description: 'One drum build: shell, hardware and workshop' });

export type RawJig = z.infer<typeof jigSchema>;
/** A record that a row may give in part. */
export type Loose<T> = { readonly [K in keyof T]?: T[K] | undefined };
export type RawFoot = z.infer<typeof footSchema>;
export type RawPattern = z.infer<typeof patternSchema>;
export type RawLugRod = z.infer<typeof lugRodSchema>;
