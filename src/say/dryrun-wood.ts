import type { Saying } from '../model/finding.ts';
import { saying, tool } from './dryrun-words.ts';
import { capital, limit, MACHINE, measured, num, TOOLS, word } from './saying.ts';

/** What the bit touches on its way, and how it enters and leaves the wood. */
export const woodSayings: Readonly<Record<string, Saying>> = {
  'rapid-into-wood': saying(
    (f) => `A rapid move takes ${tool(f)} ${measured(f, 2)} into the wood.`,
    () => 'Stop the rapid above the skin (Z 1 or more) and go in with G1.',
  ),
  'turned-in-wood': saying(
    (f) => `The shell turns while ${tool(f)} stands ${measured(f, 2)} deep in the wood.`,
    () => 'Lift the tool above the skin before A moves.',
  ),
  'sideways-in-wood': saying(
    (f) =>
      `A drill (${tool(f)}, ${word(f, 'kind')}) is dragged sideways ${measured(f, 2)} deep in the wood; it has no edges there and breaks.`,
    () => 'Lift it above the skin before X or Y moves, or use an end mill.',
  ),
  'spindle-off-in-wood': saying(
    (f) => `${capital(tool(f))} is pushed into the wood without turning.`,
    () => 'Start the spindle first: S… M3, and G4 to let it come to speed.',
  ),
  'spindle-backwards': saying(
    (f) => `${capital(tool(f))} turns backwards (M4) in the wood.`,
    () => 'Start the spindle with M3.',
  ),
  'spindle-stopped-in-wood': saying(
    (f) => `The spindle stops while ${tool(f)} is in the wood.`,
    () => 'Lift the tool first, then M5.',
  ),
  'tool-change-in-shell': saying(
    (f) => `The tool is changed ${measured(f, 1)} below the skin.`,
    () => 'Lift to a safe height before M6.',
  ),
  'no-tool': saying(
    () => 'Wood is cut before any tool was changed to.',
    () => 'Begin with T… M6.',
  ),
  'place-unset': saying(
    () => 'Wood is cut before the program has said where X and A are.',
    () => 'Go to X and A at a safe height first.',
  ),
  'tool-not-in-jig': {
    text: (f) => `T${word(f, 'tool')} is not in the jig file; its tools are ${word(f, 'tools')}.`,
    try: (f) => `Add tool ${word(f, 'tool')} to rotary.tools, or use one of ${word(f, 'tools')}.`,
    source: TOOLS,
  },
  'hits-far-wall': saying(
    (f) => `The tip goes ${measured(f, 1)} below the outside skin and reaches the far wall at ${limit(f, 1)}.`,
    () => 'Check the sign and the decimal point of Z.',
  ),
  'hits-mandrel': saying(
    (f) => `The tip goes ${measured(f, 1)} below the skin and hits the shaft at ${limit(f, 1)}.`,
    () => 'Check the sign and the decimal point of Z.',
  ),
  'through-backing': saying(
    (f) => `The tip goes ${measured(f, 1)} deep, right through wall and backing (${limit(f, 1)}).`,
    () => 'Drill less deep, or clamp in a thicker backing block.',
  ),
  'collet-hits-shell': saying(
    (f) =>
      `The tip goes ${measured(f, 1)} deep, but ${tool(f)} stands out only ${limit(f, 1)}: the collet hits the shell.`,
    () => 'Set the bit further out, or drill less deep.',
  ),
  'shank-in-wall': saying(
    (f) => `The tip goes ${measured(f, 1)} deep; beyond ${limit(f, 1)} the shank of ${tool(f)} is wider than its hole.`,
    () => 'Drill less deep, or use a longer bit.',
  ),
  'deeper-than-flutes': saying(
    (f) => `The tip goes ${measured(f, 1)} deep, beyond the flutes of ${tool(f)} (${limit(f, 1)}): chips jam.`,
    () => 'Drill less deep, or use a longer bit.',
  ),
  'in-chuck': saying(
    (f) =>
      `The edge of the tool comes ${measured(f, 1)} from X0, below the skin; the holding plate there takes ${limit(f, 1)}.`,
    () => 'Hold the shell by the other edge, or move the hole away from this one.',
    MACHINE,
  ),
  'in-tailstock': saying(
    (f) =>
      `The edge of the tool comes ${measured(f, 1)} from the far edge, below the skin; the tailstock plate there takes ${limit(f, 1)}.`,
    () => 'Hold the shell by the other edge, or move the hole away from this one.',
    MACHINE,
  ),
  'in-keep-out': saying(
    (f) => `The tool goes below the skin at X ${measured(f, 1)}, where nothing may: that ends at X ${limit(f, 1)}.`,
    () => 'Move what stands there (fixture.keep-out in the machine profile), or drill that hole another way.',
    MACHINE,
  ),
  'ends-in-shell': saying(
    (f) => `The program ends with the tip ${measured(f, 1)} below the skin.`,
    () => 'Lift the tool before the end; the file may have been cut off.',
  ),
  'hole-doubled': saying(
    (f) => `The hole first drilled in line ${num(f, 'before', 0)} is drilled again to the same depth by ${tool(f)}.`,
    () => 'Leave out the second visit.',
  ),
};
