import type { Saying } from '../model/finding.ts';
import { LANGUAGE, saying, tool } from './dryrun-words.ts';
import { shellOverSwing } from './rotary.ts';
import { capital, limit, MACHINE, measured, num, PRACTICE, TOOLS, whole, word } from './saying.ts';

/** What the machine and the bit allow, and speeds and feeds against those advised. */
export const limitSayings: Readonly<Record<string, Saying>> = {
  'shell-over-swing': shellOverSwing,
  'z-unknown': saying(
    () => 'The tool moves sideways or the shell turns before any line has set the height of the tool.',
    () => 'Begin with G0 Z to a safe height, alone on its line.',
    LANGUAGE,
  ),
  'outside-travel': saying(
    (f) => `${word(f, 'axis')} goes to ${measured(f, 2)}; the machine ends at ${limit(f, 2)}.`,
    () => 'Check the number and its unit, or shift the work on the machine.',
    MACHINE,
  ),
  'axis-wound': saying(
    (f) => `A goes to ${measured(f, 1)}; this rotary axis is wound and ends at ${limit(f, 1)}.`,
    () => 'Unwind A by whole turns, or order the holes so that it does not wind up.',
    MACHINE,
  ),
  'axis-not-there': saying(
    (f) => `${word(f, 'axis')} is asked to go to ${measured(f, 2)}; this machine has no such axis.`,
    () => 'Leave the word out, or use a machine that has the axis.',
    MACHINE,
  ),
  'machine-lacks': saying(
    (f) => `The program uses ${word(f, 'what')}, which ${word(f, 'machine')} does not understand.`,
    () => 'Write the program in plain G0 and G1 moves.',
    MACHINE,
  ),
  'hand-change-while-turning': saying(
    (f) => `The program waits for a hand to fit tool ${word(f, 'tool')} while the spindle turns.`,
    () => 'Write M5 before the M0.',
    LANGUAGE,
  ),
  'change-not-awaited': saying(
    (f) =>
      `Nothing but M6 waits for a hand to fit tool ${word(f, 'tool')}: on a controller that does not stop at M6 the old bit goes on.`,
    () => 'Write M0 after each M6, or make sure that yours stops.',
    "NISTIR 6556 (RS274/NGC), section 3.6.3: what a change of tool involves is the machine's",
  ),
  'pause-while-turning': saying(
    () => 'The program waits for the operator while the spindle turns.',
    () => 'Write M5 before the pause if hands come near.',
    LANGUAGE,
  ),
  'spindle-left-on': saying(
    (f) => `The spindle, started in line ${num(f, 'started', 0)}, is never stopped by a word of its own.`,
    () => 'Write M5 before the end.',
    LANGUAGE,
  ),
  'speed-outside-spindle': saying(
    (f) => `The program asks for ${measured(f, 0)}; the spindle's limit is ${limit(f, 0)}.`,
    () => "Choose a speed within the spindle's range.",
    MACHINE,
  ),
  'speed-over-bit': saying(
    (f) => `${capital(tool(f))} is turned at ${measured(f, 0)}; it may not turn faster than ${limit(f, 0)}.`,
    (f) => `Turn it at ${limit(f, 0)} or less.`,
    TOOLS,
  ),
  'feed-over-machine': saying(
    (f) => `The program feeds at ${measured(f, 0)}; the machine's greatest feed is ${limit(f, 0)}.`,
    () => "Feed more slowly; check F's decimal point and units.",
    MACHINE,
  ),
  'speed-high-for-bit': saying(
    (f) =>
      `${capital(tool(f))} (${word(f, 'kind')} ${num(f, 'diameter', 2)} mm) turns at ${measured(f, 0)}; about ${limit(f, 0)} is advised: it burns the rim.`,
    (f) => `Turn it at about ${limit(f, 0)}.`,
    PRACTICE,
  ),
  'spin-up-short': saying(
    (f) =>
      `${capital(tool(f))} cuts ${measured(f, 1)} after the spindle starts, which takes ${limit(f, 1)} to reach speed.`,
    (f) => `Write G4 P${whole(f.limit)} after M3.`,
    MACHINE,
  ),
  'dwell-long': saying(
    (f) => `The program waits ${measured(f, 1)}: P counts seconds.`,
    () => 'If milliseconds were meant, divide P by 1000.',
    LANGUAGE,
  ),
  'low-over-shell': saying(
    (f) =>
      `The tool goes from place to place only ${measured(f, 2)} above the high spot of the skin; ${limit(f, 2)} is the least.`,
    () => 'Lift higher before X or A moves.',
    PRACTICE,
  ),
  'approach-low': saying(
    (f) => `A rapid move ends ${measured(f, 2)} above the skin; ${limit(f, 2)} is the least.`,
    () => 'Let feeding begin higher (R or Z 1), or check the zero of Z.',
    PRACTICE,
  ),
  'feed-breaks-bit': feedSaying('it breaks the bit or splits the wall'),
  'feed-high-for-bit': feedSaying('look twice'),
  'feed-low-for-bit': feedSaying('the edge rubs and burns'),
};

function feedSaying(what: string): Saying {
  return {
    text: (f) =>
      `${capital(tool(f))} (${word(f, 'kind')} ${num(f, 'diameter', 2)} mm) is fed ${num(f, 'feed', 0)} mm/min at ${num(f, 'speed', 0)} rev/min, ${measured(f, 3)} a turn; ${limit(f, 3)} is advised: ${what}.`,
    try: (f) =>
      `Feed about ${((f.limit ?? 0) * Number(f.facts?.['speed'] ?? 0)).toFixed(0)} mm/min; check F's decimal point and units.`,
    source: PRACTICE,
  };
}
