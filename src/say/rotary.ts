import type { Fact, Saying } from '../model/finding.ts';
import { count, feedSayings } from './feeds.ts';
import { limit, MACHINE, measured, num, PRACTICE, TOOLS, trimmed, word } from './saying.ts';

const GEOMETRY = 'derived: R - sqrt(Ri^2 - r^2) + point + runout + 0.5 mm';

const bit = (f: Fact): string => `T${num(f, 'tool', 0)} (${num(f, 'diameter', 2)} mm ${word(f, 'kind')})`;

/** Told before the program is made, and of any program run dry. */
export const shellOverSwing: Saying = {
  text: (f) => `The shell is ${measured(f)} across; ${word(f, 'machine')} swings ${limit(f)} at most.`,
  try: () => 'Use a machine with more height under the gantry, or a wrap template or drilling collar for this shell.',
  source: MACHINE,
};

/** What planning the rotary program finds. */
export const rotarySayings: Readonly<Record<string, Saying>> = {
  ...feedSayings,
  'shell-over-swing': shellOverSwing,
  'no-room-above': {
    text: (f) => `The bit must rise ${measured(f)} above the skin between holes; Z ends at ${limit(f)}.`,
    try: () => 'Sink the rotary axis lower, or correct travel.z in the machine profile.',
    source: MACHINE,
  },
  'little-room-above': {
    text: (f) =>
      `Between shell and gantry there are ${measured(f)}; ${bit(f)} stands ${num(f, 'stickout')} mm out of the collet and needs ${limit(f)} to turn clear.`,
    try: () => 'Set the bit deeper in the collet, or see that the spindle rises above the gantry by the difference.',
    source: `${MACHINE}; how far the spindle rises above the gantry is not in it`,
  },
  'coarse-steps': {
    text: (f) =>
      `${num(f, 'steps', 0)} steps a turn place a hole up to ${measured(f, 2)} off along this shell (${limit(f, 1)} shows).`,
    try: () => 'Use finer steps or a higher gear on A, or allow for it in the hole size.',
    source: 'derived: pi R / steps',
  },
  'numbers-too-coarse': {
    text: (f) =>
      `${word(f, 'machine')} reads ${num(f, 'decimals', 0)} decimal${f.facts?.['decimals'] === 1 ? '' : 's'}: a hole could be told ${measured(f, 2)} off its place; ${limit(f, 2)} is the most.`,
    try: () => 'Correct understands.decimals in the machine profile: 3 is usual, 4 for degrees of a large shell.',
    source: 'derived: half the last decimal in X and, times pi R / 180, in A',
  },
  'shank-too-thick': {
    text: (f) => `The shank of ${bit(f)} is ${measured(f, 2)} thick; the collet takes ${limit(f, 2)}.`,
    try: (f) => `Take a bit with a shank of ${limit(f, 2)} or less, or bore the hole with an end mill.`,
    source: MACHINE,
  },
  'tool-missing': {
    text: (f) =>
      `No bit makes the ${num(f, 'drill', 2)} mm hole${Number(f.facts?.['count']) > 1 ? `s (${num(f, 'count', 0)} of them)` : ''}: ` +
      (word(f, 'nearest') === 'none' ? 'there is no drill in the list.' : `the nearest is the ${word(f, 'nearest')}.`),
    try: (f) =>
      `Add a bit of ${num(f, 'drill', 2)} mm, or an end mill below ${trimmed(0.9 * (f.limit ?? 0), 1)} mm, to rotary.tools; or write tools: default.`,
    source: TOOLS,
  },
  'tool-too-short': {
    text: (f) =>
      `${bit(f)} stands ${measured(f)} out of the collet; to reach through it must stand out ${limit(f)}${count(f)}.`,
    try: (f) => `Set it at least ${Math.ceil(f.limit ?? 0)} mm out, or take a longer bit.`,
    source: GEOMETRY,
  },
  'hole-outside-travel': {
    text: (f) =>
      `${word(f, 'axis')} would have to go to ${measured(f)}; it ends at ${limit(f)}${count(f)}. The hole is left out.`,
    try: (f) =>
      word(f, 'axis') === 'X'
        ? 'Turn the shell round and drill the rest from the other edge (rotary.datum), in a second program.'
        : 'Drill this hole another way, or widen the limit in the machine profile if it is wrong.',
    source: MACHINE,
  },
  'hole-in-fixture': {
    text: (f) =>
      `The hole begins ${measured(f)} from the ${word(f, 'end')}; the first ${limit(f)} there belong to what holds the shell${count(f)}. It is left out.`,
    try: (f) =>
      `Hold the shell by thinner plates (fixture in the machine profile), or move the hole ${trimmed((f.limit ?? 0) - (f.measured ?? 0), 1)} mm inwards.`,
    source: MACHINE,
  },
  'hole-in-keep-out': {
    text: (f) =>
      `The hole is at X ${measured(f)}, ${num(f, 'half')} mm to either side; no bit may go down from X ${num(f, 'from')} to ${num(f, 'to')} mm${count(f)}. It is left out.`,
    try: () => 'Move what stands there (fixture.keep-out in the machine profile), or drill this hole another way.',
    source: MACHINE,
  },
  'held-on-bearing-edges': {
    text: () => 'Cones press on the bearing edges: unless those are still to be cut, the head will sit on their dents.',
    try: () =>
      'Hold the shell by plates from inside, pad the cones, or drill before the edges are cut (shell.edges: uncut).',
    source: PRACTICE,
  },
  'depth-outside-travel': {
    text: (f) => `${bit(f)} would go to Z ${measured(f)}; Z ends at ${limit(f)}${count(f)}.`,
    try: () => 'Take a bit with a shorter point, or correct travel.z in the machine profile.',
    source: MACHINE,
  },
  'backing-too-thin': {
    text: (f) => `${bit(f)} comes ${limit(f)} out of the inside; the backing is ${measured(f)} thick${count(f)}.`,
    try: (f) => `Make the backing at least ${Math.ceil(f.limit ?? 0)} mm thick, or take a bit with a shorter point.`,
    source: GEOMETRY,
  },
  'depth-hits-mandrel': {
    text: (f) => `${bit(f)} would go ${measured(f)} deep; the shaft inside leaves ${limit(f)}${count(f)}.`,
    try: () => 'Take a bit with a shorter point, or a thinner shaft.',
    source: MACHINE,
  },
  'needs-inverse-time': {
    text: (f) =>
      `Walking the hole out on a machine without Y turns A and moves X together, and ${word(f, 'machine')} knows no inverse time to feed that at the right speed${count(f)}.`,
    try: (f) =>
      `Drill it with a bit of its own size, or on a machine with Y. (${word(f, 'machine')}: understands.inverse-time)`,
    source: 'NISTIR 6556 section 2.1.2.5',
  },
  'no-centre-mark': {
    text: (f) => `${num(f, 'drill', 2)} mm holes start with a twist drill on the bare round skin: it walks.`,
    try: () => 'Add a V bit to rotary.tools for centre marks, or a brad-point bit of the size.',
    source: PRACTICE,
  },
  'pilot-missing': {
    text: (f) =>
      `The ${num(f, 'pilot', 2)} mm pilot of the ${num(f, 'drill', 2)} mm holes has no bit: drilled without.`,
    try: (f) => `Add a ${num(f, 'pilot', 2)} mm twist drill to rotary.tools.`,
    source: TOOLS,
  },
  'pilot-skipped': {
    text: (f) =>
      `${num(f, 'drill', 2)} mm holes get no pilot: ${
        word(f, 'kind') === 'end-mill'
          ? 'the mill needs none'
          : `the spur of a ${word(f, 'kind')} bit would have nothing to bite`
      }.`,
    try: (f) => `Nothing to do; for a pilot add a ${num(f, 'drill', 2)} mm twist drill.`,
    source: PRACTICE,
  },
  'bored-instead': {
    text: (f) => `${num(f, 'drill', 2)} mm holes are bored: ${word(f, 'because')}.`,
    try: (f) => `Nothing to do; to drill them use a slower spindle and a ${num(f, 'drill', 2)} mm bit.`,
    source: PRACTICE,
  },
  unbacked: {
    text: (f) =>
      word(f, 'way') === 'two-sided'
        ? 'There is no backing: spurred bits stop when their point shows inside; finish from there by hand. Other bits go through and tear out.'
        : 'There is no backing: the bits tear fibres out of the inside as they come through.',
    try: () => 'Put scrap blocks inside, tight to the wall (rotary.backing), or drill from both sides.',
    source: PRACTICE,
  },
  'drilled-radially': {
    text: (f) =>
      `Screws that stand parallel, ${num(f, 'across')} mm off the middle, go through holes that point to the axis: they tilt ${measured(f)} ` +
      `and walk ${num(f, 'walk', 2)} mm through the wall. Radial holes keep the bit square to the skin, where it does not walk.`,
    try: (f) =>
      `Make those holes ${num(f, 'walk', 1)} mm larger than their screws want, if they are not already; or drill them parallel by Y, where the machine has it.`,
    source: 'derived: asin(x / R) and x wall / R',
  },
  'drilled-parallel': {
    text: (f) =>
      `Holes of parallel screws, ${num(f, 'across')} mm off the middle, are drilled parallel by moving Y: the bit meets the skin ${measured(f)} out of square.`,
    try: () => 'Use spurred bits on centre marks for them: a plain point slides down the slope.',
    source: 'derived: asin(x / R)',
  },
  'no-such-fitting': {
    text: (f) => `There is no fitting, row or hole called ${f.at}.`,
    try: (f) => `One of: ${word(f, 'known')}.`,
    source: 'jig file',
  },
  'no-such-hole': {
    text: (f) =>
      f.facts?.['bit'] === undefined
        ? `The program never visits ${f.at}.`
        : `The program has no work for ${word(f, 'bit')}${f.at.startsWith('tool ') ? '' : ` at ${f.at}`}.`,
    try: (f) =>
      f.facts?.['bit'] === undefined
        ? `Start from one of its holes: ${word(f, 'known')} ...`
        : `Start with one of the bits that it uses there: ${word(f, 'known')}.`,
    source: 'jig file',
  },
};
