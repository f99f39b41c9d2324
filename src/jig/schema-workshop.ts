import * as z from 'zod';
import { angle, choice, length, quantity, text, whole } from './values.ts';

/** What the workshop has: sheets, materials, a collar's bushings, a rotary machine and its bits. */
export const wrapSchema = z
  .strictObject({
    material: text('built-in sheet material or a YAML file beside the jig').optional(),
    thickness: length('measured thickness of the sheet').optional(),
    sheet: text('built-in laser sheet or a YAML file beside the jig, e.g. laser-600x400').optional(),
    seam: choice("how the wrap's ends meet", ['butt', 'overlap']).optional(),
    'seam-at': angle('where the seam should be').optional(),
    paper: text('paper for wrap.pdf, e.g. paper-a4').optional(),
    marks: choice('hole marks: full-size guide holes, centre-punch holes, or crosshairs with rings', [
      'guide',
      'punch',
      'cross',
    ]).optional(),
  })
  .meta({ description: 'the wrap template' });

export const collarSchema = z
  .strictObject({
    material: text('built-in sheet material or a YAML file beside the jig').optional(),
    thickness: length('measured thickness of the sheet: 6 mm ply measures 5.4 to 6.3').optional(),
    sheet: text('built-in laser sheet or a YAML file beside the jig').optional(),
    build: choice('rings with upright guide plates, or a sector stepped round', ['rings', 'sector']).optional(),
    bushing: z
      .strictObject({
        inside: length('bore of the bushing'),
        outside: length('outside diameter of the bushing'),
        length: length('length of the bushing'),
        fit: choice('pressed into a true bore, or bedded in glue where a laser left it tapered', [
          'pressed',
          'bedded',
        ]).optional(),
      })
      .meta({ description: 'drill bushing' })
      .optional(),
    clearance: length('radial gap between ring and largest shell').optional(),
    cut: choice('what cuts the parts', ['laser', 'router']).optional(),
    hold: choice('what holds and centres the shell at three places: wedges, or bolts through clamping ears', [
      'wedges',
      'bolts',
    ]).optional(),
    layers: whole('sheets glued into a whole ring, against bowing; a jointed ring always has 2', 1, 2).optional(),
  })
  .meta({ description: 'the drilling collar' });

const toolSchema = z.strictObject({
  id: whole('tool number', 1, 9999),
  kind: choice('kind of bit', ['twist', 'brad-point', 'spur', 'stepped', 'end-mill', 'v-bit']),
  diameter: length('cutting diameter'),
  point: angle('point angle').optional(),
  lead: length('how far the centre spur leads the rim').optional(),
  lips: whole('cutting lips', 1, 8).optional(),
  flute: length('length of the flutes').optional(),
  stickout: length('from the collet to the tip').optional(),
  shank: length('diameter of the shank').optional(),
  'max-speed': quantity('fastest rev/min the maker allows', 1, 100_000).optional(),
  step: z
    .strictObject({ diameter: length("pilot's diameter"), length: length("pilot's length ahead of the full diameter") })
    .meta({ description: 'stepped drill' })
    .optional(),
});

export const rotarySchema = z
  .strictObject({
    machine: text('built-in machine or a YAML file beside the jig, e.g. rotary-slow').optional(),
    datum: choice('edge at X0', ['bottom', 'top']).optional(),
    backing: length('thickness of the backing inside the shell; 0 for none').optional(),
    runout: length('dial reading of the turning skin: largest minus smallest').optional(),
    tools: z
      .union([z.literal('default'), z.array(toolSchema).min(1).max(200)])
      .meta({ description: 'bits at hand', kind: 'tools' })
      .optional(),
  })
  .meta({ description: 'the rotary drilling program' });

const errorTerm = z.strictObject({
  id: text('which error: a term of the built-in table to change, or a name of your own to add one'),
  size: z
    .union([z.number(), z.string()])
    .meta({ description: 'how large: 0.2 mm, 0.3 deg or 0.1 % of the distance; 0 takes the term away', kind: 'error' }),
  what: text("what goes wrong, in a builder's words").optional(),
  axis: choice('round the shell, along it, both alike, or a lean of the whole pattern', [
    'around',
    'along',
    'both',
    'lean',
  ]).optional(),
  each: choice('fresh for each hole, one for all holes of a fitting, or one for the whole shell', [
    'hole',
    'fitting',
    'shell',
  ]).optional(),
  spread: choice('sigma: the standard deviation of many tries; within: anywhere within plus or minus the size', [
    'sigma',
    'within',
  ]).optional(),
  source: text('where the figure comes from, e.g. 20 holes measured in March').optional(),
});

const errorTerms = (how: string) => z.array(errorTerm).min(1).max(50).meta({ description: how }).optional();

/** Keys that the jig file's section and a profile of its own share. */
export const accuracyKeys = {
  level: quantity('chance wanted that the whole drum goes together, %', 1, 99.99).optional(),
  hardware: errorTerms("errors of the hardware's own holes, in every method"),
  tape: errorTerms('errors of tape and square'),
  'paper-wrap': errorTerms('errors of a paper wrap'),
  'cut-wrap': errorTerms('errors of a laser-cut wrap'),
  collar: errorTerms('errors of a drilling collar'),
  rotary: errorTerms('errors of a rotary machine'),
};

export const accuracySchema = z
  .strictObject({
    profile: text("a YAML file beside the jig with the workshop's own error terms").optional(),
    ...accuracyKeys,
  })
  .meta({ description: "the workshop's own error terms, in place of common practice" });

/** The workshop's own limits, where common practice does not suit; what is left out stays as it is. */
export const limitsSchema = z
  .strictObject({
    'first-turns': quantity('turns a rod must have bitten when finger tight', 0.5, 20).optional(),
    engage: quantity('least thread engaged at full tension, in diameters', 0.25, 5).optional(),
    'engage-well': quantity('thread engaged below which to look twice, in diameters', 0.25, 5).optional(),
    reserve: length('kept free below the tip of a rod at full tension').optional(),
    lean: angle('lean of a rod above which to look twice').optional(),
    bind: angle('lean of a rod above which it binds').optional(),
    'skirt-gap': length('kept free between hoop skirt and lug at full tension').optional(),
    'foot-gap': length('between two feet, below which to look twice').optional(),
    land: length('wood between two holes, below which to look twice').optional(),
    round: length('out of round that passes without a word').optional(),
    square: length('out of square that passes without a word').optional(),
    facing: angle('strap lines off opposite, above which to look twice').optional(),
    'facing-bad': angle('strap lines off opposite, above which the snares lie askew').optional(),
  })
  .meta({ description: "the workshop's own limits" });
