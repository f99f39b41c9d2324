import type { Fact, Saying } from '../model/finding.ts';
import { limit, measured, num, PRACTICE, trimmed, word } from './saying.ts';

const mm = (fact: Fact, key: string, digits = 1): string => `${num(fact, key, digits)} mm`;
/** A length that must be reached, rounded up to what a bench can set. */
const atLeast = (value: number | null, digits = 1): string => {
  const step = 10 ** digits;
  return `${trimmed(Math.ceil((value ?? 0) * step - 1e-6) / step, digits)} mm`;
};
const atMost = (value: number, digits = 1): string => {
  const step = 10 ** digits;
  return `${trimmed(Math.floor(value * step + 1e-6) / step, digits)} mm`;
};

/** Sheet of a layout, or that it does not go. */
const area = (fact: Fact, key: string): string =>
  Number(fact.facts?.[key] ?? 0) > 0 ? `${num(fact, key, 0)} cm2` : 'do not go';

/** Sentences of the drilling collar's findings. */
export const collarSayings: Readonly<Record<string, Saying>> = {
  'no-rim': {
    text: () =>
      'The bearing edges are not cut yet: the collar has no rim to register on, and cutting them later moves every height.',
    try: () => 'Cut the bearing edges, measure the depth again, and set shell.edges to cut.',
    source: PRACTICE,
  },
  'collar-binds': {
    text: (f) =>
      `The collar's clearance of ${measured(f, 2)} binds: a shell ${mm(f, 'round')} out of round takes ${mm(f, 'oval', 2)} of it and ${mm(f, 'slide')} must stay to slide, ${limit(f, 2)} in all.`,
    try: (f) => `Set collar.clearance to ${atLeast(f.limit, 2)} or more, or true the shell.`,
    source:
      'derived: largest radius less mean radius is a quarter of the roundness; 0.2 mm to slide is common practice, no source',
  },
  'collar-loose': {
    text: (f) =>
      word(f, 'why') === 'batch'
        ? `On the smallest shell of the batch the guide ends ${measured(f)} from the skin, more than its bit of ${limit(f, 2)}: the bit may walk.`
        : `The collar's clearance of ${measured(f)} is more than the bit it guides (${limit(f, 2)}): the guide ends too far from the skin and the bit may walk.`,
    try: (f) =>
      word(f, 'why') === 'batch'
        ? `Cut a second collar for shells under ${atLeast(Number(f.facts?.['girth'] ?? 0))} of girth, or open the holes from a larger pilot.`
        : `Set collar.clearance to ${atMost(f.limit ?? 0, 2)} or less, or open the holes from a larger pilot.`,
    source: `half to one bit diameter between guide and work: ${PRACTICE}`,
  },
  'sheet-thicker-than-slot': {
    text: (f) =>
      Number(f.facts?.['fit'] ?? 0) < 0
        ? `A sheet of ${measured(f, 2)} does not slide into slots of ${limit(f, 2)}: the fit of ${word(f, 'material')} is ${mm(f, 'fit', 2)}.`
        : `A sheet of ${measured(f, 2)} is no ${word(f, 'material')}, which measures up to ${limit(f, 2)}: its kerf and fit make slots for another sheet.`,
    try: (f) =>
      Number(f.facts?.['fit'] ?? 0) < 0
        ? "Set the material's fit to 0 or more; the coupon tells how much."
        : `Measure the sheet again, or choose the material it is of; ${word(f, 'material')} works up to ${atMost(f.limit ?? 0)}.`,
    source: `6 mm plywood measures 5.4 to 6.3 mm: ${PRACTICE}`,
  },
  'cutter-not-said': {
    text: (f) =>
      `The collar is to be cut with a router, but its profile speaks of a cut ${measured(f, 2)} wide: that is a beam, no cutter. The lines are drawn for a cutter of ${mm(f, 'assumed', 2)} at most, smaller where a bore is smaller.`,
    try: (f) =>
      `Give a sheet profile (now ${word(f, 'sheet')}) whose kerf is the cutter's diameter, ${limit(f)} or more: only lines drawn for your own cutter come out to size.`,
    source: PRACTICE,
  },
  'cutter-wider-than-slot': {
    text: (f) =>
      `A cutter of ${measured(f, 2)} does not get into the corners of slots ${mm(f, 'slot', 2)} wide; ${limit(f, 2)} is the most.`,
    try: (f) => `Take a cutter of ${atMost(f.limit ?? 0)} or less, or a thicker sheet.`,
    source: 'derived',
  },
  'bushing-wall-thin': {
    text: (f) =>
      `A bushing of ${mm(f, 'inside')} inside and ${measured(f)} outside has too thin a wall to be made or bedded.`,
    try: (f) => `Take a bushing of ${atLeast(f.limit)} outside or more.`,
    source: PRACTICE,
  },
  'bushing-shorter-than-plate': {
    text: (f) =>
      `The bushing is ${measured(f)} long, shorter than one plate of ${limit(f)}: it guides less than the bare plates would.`,
    try: (f) => `Take a bushing of ${atLeast(f.limit)} or more, best twice that so that it sits in both plates.`,
    source: PRACTICE,
  },
  'bushing-larger-than-plate': {
    text: (f) =>
      `A bushing of ${measured(f)} outside needs a wider plate at ${f.at} than stands beside ${word(f, 'other')}: ${limit(f)} is the most.`,
    try: (f) => `Take bushings of ${atMost(f.limit ?? 0)} outside or less, or drill ${f.at} from a wrap template.`,
    source: "derived from the plates' widths on the shell",
  },
  'bushings-overlap': {
    text: (f) =>
      word(f, 'bushed') === 'yes'
        ? `The bushings of ${f.at} and ${word(f, 'other')} run into each other: ${measured(f)} apart, ${limit(f)} needed for ${mm(f, 'diameter')} outside and a bridge between.`
        : `The bores of ${f.at} and ${word(f, 'other')} leave no bridge between them: ${measured(f)} apart, ${limit(f)} needed.`,
    try: (f) =>
      word(f, 'bushed') === 'yes'
        ? `Take bushings of ${atMost(Number(f.facts?.['largest'] ?? 0))} outside or less, or none.`
        : `Pilot them with bits of ${atMost(Number(f.facts?.['largest'] ?? 0))} or less.`,
    source: `2 mm of bridge: ${PRACTICE}`,
  },
  'bore-over-lip': {
    text: (f) =>
      `${f.at} is ${measured(f)} from the ${word(f, 'edge')} edge: a bore of ${mm(f, 'diameter')} there would run into the lip, ${limit(f)} is the least.`,
    try: (f) =>
      `Move it to ${atLeast(f.limit)} from the edge, take a smaller bushing, or drill it from a wrap template.`,
    source: `2 mm of bridge: ${PRACTICE}`,
  },
  'rows-too-near': {
    text: (f) =>
      `The guide plates of ${f.at} and ${word(f, 'other')} need the same room: their lines are ${measured(f)} apart along the shell, ${limit(f)} is the least two plates can sit.${word(f, 'own') === 'yes' ? ' It gets a sector of its own.' : ''}`,
    try: (f) => `Put ${f.at} ${atLeast(f.limit)} or more from ${word(f, 'other')}, or drill it from a wrap template.`,
    source: "derived from the plates' widths on the shell",
  },
  'ring-larger-than-sheet': {
    text: (f) =>
      `The ${word(f, 'edge')} collar's rings do not go on sheet ${word(f, 'sheet')}: its shorter side is ${measured(f, 0)}, a whole ring needs ${limit(f, 0)}, and the posts leave too few places for joints.`,
    try: (f) => `Take a sheet of ${atLeast(f.limit, 0)} or more each way, or build the collar as a sector.`,
    source: 'derived',
  },
  'collar-out-of-reach': {
    text: (f) =>
      `${f.at} lies ${measured(f)} below the ${word(f, 'edge')} edge, beyond the collar, which guides down to ${limit(f)} there.`,
    try: (f) => `Drill ${f.at} from a wrap template, or measure it from the other edge.`,
    source: "derived from the shell's depth and the sheet's size",
  },
  'collar-bit-short': {
    text: (f) =>
      `A ${mm(f, 'bit', 2)} bit with ${measured(f)} of flute${word(f, 'known') === 'yes' ? '' : ' (jobber length, assumed)'} does not reach through ${f.at}: guide ${mm(f, 'guide')}, gap ${mm(f, 'gap')}, wall ${mm(f, 'wall')}, point ${mm(f, 'point')} and ${mm(f, 'through')} into the block make ${limit(f)}.`,
    try: (f) =>
      `Use a bit with ${atLeast(f.limit, 0)} of flute or more, or a guide ${atLeast((f.limit ?? 0) - (f.measured ?? 0), 0)} shorter.`,
    source: 'derived; jobber flutes by ISO 235, from memory',
  },
  'collar-guide-short': {
    text: (f) =>
      `The guide of ${f.at} is ${measured(f)} long, less than three times its ${mm(f, 'bit', 2)} bit (${limit(f)}): the bit can lean.`,
    try: (f) => `Take a bushing of ${atLeast(f.limit)} or longer.`,
    source: `three diameters of guide: ${PRACTICE}`,
  },
  'foot-under-ring': {
    text: (f) =>
      `The ${word(f, 'edge')} collar's rings slide over the shell down to ${limit(f)}, where the feet of ${word(f, 'groups')} go (from ${measured(f)} on).`,
    try: (f) =>
      `Drill every hole before screwing anything on; only feet ${atLeast(f.limit)} or more below the edge may stay on the shell.`,
    source: 'derived',
  },
  'lip-over-bed': {
    text: (f) =>
      word(f, 'build') === 'rings'
        ? `The lip bridges the snare beds (${measured(f)} deep): it rests on the edge beside them.`
        : `The sector's lip comes over a snare bed ${measured(f)} deep and ${mm(f, 'width', 0)} wide and may drop into it there.`,
    try: () => 'Drill before the beds are cut, or see that the lip touches the edge on both sides of a bed.',
    source: PRACTICE,
  },
  'collar-builds': {
    text: (f) =>
      `Built as rings: ${num(f, 'ringParts', 0)} parts in ${measured(f, 0)} of sheet, guide ${mm(f, 'ringGuide')}, holes within ${mm(f, 'ringError', 2)} along the girth. As sectors: ${num(f, 'sectorParts', 0)} parts in ${limit(f, 0)}, guide ${mm(f, 'sectorGuide')}, within ${mm(f, 'sectorError', 2)}, and the last step closes ${mm(f, 'systematic')} off if every step errs alike, ${mm(f, 'random')} if by chance.`,
    try: (f) =>
      word(f, 'build') === 'rings'
        ? 'For a single drum a sector spares sheet; for a batch the rings are worth theirs.'
        : 'For a batch the rings are worth their sheet: no step errs in them.',
    source: 'derived; errors of cut, pin and play: common practice, no source',
  },
  'collar-layouts': {
    text: (f) =>
      `Three ways to lay the collar out: whole rings ${area(f, 'whole')}, rings in pieces ${area(f, 'pieces')}, sectors ${area(f, 'sector')}. What is cut takes ${num(f, 'times', 1)} times the least.`,
    try: () => 'A sheet that holds whole rings saves joints; one that does not saves sheet.',
    source: 'derived: sum of the boxes round the parts',
  },
  'collar-season': {
    text: (f) =>
      `Measured at ${num(f, 'temperature', 0)} deg C and ${num(f, 'humidity', 0)} % humidity, the batch's shells go into this collar from ${Math.ceil(f.measured ?? 0)} to ${Math.floor(f.limit ?? 0)} %.`,
    try: () => 'Outside that, let the shells come back to the workshop air, or measure a girth before sliding it on.',
    source: 'Wood Handbook FPL-GTR-282, chapters 4 and 13; see season-movement',
  },
  'collar-wear': {
    text: (f) => {
      const worn = [1, 2, 3].map(
        (i) => `${num(f, `worn${i}`)} mm worn ${num(f, `goesOn${i}`, 0)} % (${num(f, `straight${i}`, 0)} %)`,
      );
      return `With new guides everything goes on with a chance of ${measured(f, 0)} (straight: ${num(f, 'straight', 0)} %); ${worn.join(', ')}. A mm of wear moves a hole by up to ${num(f, 'shift', 2)} mm.`;
    },
    try: (f) => {
      const due = Number(f.facts?.['due'] ?? 0);
      if (due <= 0) return 'Bushings alone do not bring it there: drill the sizes the accuracy budget names.';
      return `Change the bushings, or cut new plates, when a bit has ${atMost(due, 2)} more play than in new ones${due >= 2 ? ', at the latest' : ''}: below that the chance stays above ${limit(f, 0)}.`;
    },
    source: 'derived: the accuracy budget with the play of the bit grown by the wear',
  },
  'collar-serves': {
    text: (f) =>
      `The collar serves shells of ${measured(f, 0)} to ${limit(f, 0)} girth, the largest up to ${mm(f, 'round')} out of round. A guide worn ${mm(f, 'wear', 2)} wider moves a hole by 0.1 mm.`,
    try: () => 'Measure a girth again when the season has changed, and the bushings after every tenth shell.',
    source: 'derived',
  },
  'collar-mirror': {
    text: (f) =>
      `The ${num(f, 'posts', 0)} lines of the top and of the bottom collar mirror each other about the strainer line: one collar turned over would serve both.`,
    try: () => 'To save sheet, cut the top collar alone and write the bottom numbers on its other face.',
    source: 'derived',
  },
};
