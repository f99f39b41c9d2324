import * as z from 'zod';
import { angle, choice, length, text, whole } from './values.ts';

/** Fittings, lugs, hole patterns and feet: what a caliper reads off the hardware. */
const point = z.strictObject({
  across: length("from the pattern's origin, straight across, + to the right"),
  upright: length("from the pattern's origin, along the shell, + up"),
});

export const patternSchema = z
  .strictObject({
    layout: choice('how the holes lie', ['single', 'upright', 'across', 'grid', 'points']),
    spacing: length(
      'between the two hole centres (upright, across): caliper over both screws less one diameter',
    ).optional(),
    columns: whole('holes side by side (grid)', 1, 20).optional(),
    rows: whole('holes one above the other (grid)', 1, 20).optional(),
    across: length('spacing between columns (grid)').optional(),
    upright: length('spacing between rows (grid)').optional(),
    points: z.array(point).min(1).max(100).meta({ description: 'hole centres (points)' }).optional(),
    drill: length('diameter of the finished hole').optional(),
    pilot: length('diameter of the pilot hole').optional(),
    screw: text('screw and its length under the head, e.g. M4 x 16 or 8-32 x 5/8 in').optional(),
    tapped: length('depth of thread in the casting').optional(),
    washer: length("thickness of the washer inside the shell: under the screw's head, or under its nut").optional(),
    from: choice('side the screws go in from: inside into a tapped casting, or outside into a nut', [
      'inside',
      'outside',
    ]).optional(),
    through: length('thickness of the casting under the head of a screw from outside').optional(),
    nut: length('thickness of the nut of a screw from outside; a standard nut when left out').optional(),
    axes: choice("the hardware's screws stand parallel (castings) or radial", ['parallel', 'radial']).optional(),
  })
  .meta({ description: 'hole pattern, from its origin' });

export const footSchema = z
  .strictObject({
    width: length("the foot's width, when the pattern sits in its middle").optional(),
    height: length("the foot's height, when the pattern sits in its middle").optional(),
    left: length("from the pattern's origin to the foot's left side").optional(),
    right: length("from the pattern's origin to the foot's right side").optional(),
    rimward: length("from the pattern's origin to the foot's end nearer its edge").optional(),
    inward: length("from the pattern's origin to the foot's other end").optional(),
    shape: choice("the foot's outline", ['rectangle', 'ellipse']).optional(),
    corner: length('corner radius of the outline').optional(),
    outline: z.array(point).min(3).max(200).meta({ description: 'true outline, from the origin, in order' }).optional(),
    gasket: length('thickness of the gasket between foot and shell').optional(),
    face: choice('the foot is flat, or curved to the shell', ['flat', 'curved']).optional(),
    stands: length('how far the casting stands out from the shell').optional(),
  })
  .meta({ description: "outline of the casting's foot on the shell" });

export const lugRodSchema = z
  .strictObject({
    face: length("from the pattern's origin to the lug's end face on the rim side"),
    catch: length("depth below the face where the rod's first thread bites"),
    bottom: length('depth below the face where the rod stops'),
    takes: text('thread inside the lug').optional(),
    standoff: length("from the foot's face to the rod's centre").optional(),
  })
  .meta({ description: 'how the lug takes the rod' });

const firstLug = z
  .union([z.literal('half'), z.number(), z.string()])
  .meta({ description: 'angle of lug 1, or half: half a pitch from the strainer line', kind: 'first' });

const row = z.strictObject({
  edge: choice('edge the distance is measured from', ['top', 'bottom', 'middle']),
  distance: length("from that edge to the pattern's origin; from the middle, positive is towards the top"),
  count: whole('number of lugs in this row, when it differs', 1, 500).optional(),
  first: firstLug.optional(),
  holes: patternSchema.partial().meta({ description: 'what differs in this row' }).optional(),
  foot: footSchema.optional(),
  rod: lugRodSchema.partial().meta({ description: 'what differs in this row' }).optional(),
});

export const lugsSchema = z
  .strictObject({
    count: whole('number of lugs in a row', 1, 500),
    first: firstLug.optional(),
    ends: choice('one: a lug serves one hoop; both: a double-ended lug serves both', ['one', 'both']).optional(),
    rows: z.array(row).min(1).max(50).meta({ description: 'rows of lugs' }),
    holes: patternSchema.optional(),
    foot: footSchema.optional(),
    rod: lugRodSchema.optional(),
  })
  .meta({ description: 'the lugs' });

const between = z.strictObject({
  between: z
    .tuple([z.number().int().min(1), z.number().int().min(1)])
    .meta({ description: 'midway, going with growing angle, from lug i to lug j of the first row, counted from 1' }),
});
const every = z.strictObject({
  every: angle('pitch of equally spaced places; divides 360'),
  from: angle('the first place').optional(),
});
const place = z.union([angle('angle from the strainer line'), between]);

export const fittingSchema = z.strictObject({
  name: z.string().min(1).max(20_000).meta({ description: 'name on plans and parts' }).optional(),
  role: choice('what it is: switches checks on', [
    'strainer',
    'butt',
    'vent',
    'badge',
    'bracket',
    'leg',
    'spur',
    'other',
  ]),
  at: z
    .union([place, z.array(place).min(1).max(200), every])
    .meta({ description: 'where round the shell', kind: 'at' }),
  edge: choice('edge the distance is measured from', ['top', 'bottom', 'middle']),
  distance: length("from that edge to the pattern's origin; from the middle, positive is towards the top"),
  holes: patternSchema.optional(),
  foot: footSchema.optional(),
  'snare-line': length("strap's line across from the pattern's origin").optional(),
  drop: length('how far the strainer drops when off').optional(),
  lever: footSchema
    .extend({ clear: length('gap between the shell and the open lever, where it may pass over a lug').optional() })
    .meta({ description: 'outline the lever sweeps when open' })
    .optional(),
  rod: z
    .strictObject({
      diameter: length("diameter of the leg's or spur's rod"),
      across: length("the rod's line across from the pattern's origin").optional(),
      clear: length('gap between the shell and the rod, where it may pass over a lug').optional(),
    })
    .meta({ description: 'rod of a leg or spur' })
    .optional(),
});
