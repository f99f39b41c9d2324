import type { Placed } from '../../model/layout.ts';
import { esc } from '../../picture/svg.ts';
import { cautions, dust } from '../../say/page.ts';
import type { View } from '../view.ts';
import type { Extra, WorkStep } from './step.ts';

/** On the rotary: the witness move that shows a mirrored axis, one lug first, then the program. */
export function witness(view: View, extra: Extra): WorkStep {
  const sign = extra.rotary?.signOfA ?? 1;
  return {
    id: 'witness',
    title: 'Witness move and dry run at the machine',
    body: [
      `Send A to ${sign > 0 ? '' : '−'}15 by hand and watch the taped arrow: the skin under the spindle must be the one 15° along the arrow. If it is the other side, the rotary is wired the other way: set the machine's A sign and make the set again.`,
      'Then run the program with the spindle off, the tool well above the shell: <code>lugwright make --rehearse</code> writes it so.',
      ...(view.jig.fittings.some((f) => f.role === 'vent' || f.role === 'badge')
        ? []
        : ['An even layout is its own mirror: only this move shows a wrong sign.']),
    ],
    ticks: [],
    sure: 'The tool stops over each mark you drew as a check, and at the end A and X stand where they started.',
    cautions: [cautions.rotary],
  };
}

export function firstLugByProgram(lug: Placed): WorkStep {
  return {
    id: 'one',
    title: 'Drill ONE lug and hang head, hoop and rod on it',
    body: [
      `Run only ${esc(lug.id)}: <code>lugwright make --only ${esc(lug.id)}</code> writes a program for it alone.`,
      'Take the shell off, bolt the lug on, lay the head and the hoop on, put washer and rod in and turn it down by hand.',
    ],
    ticks: [],
    sure: 'The rod starts with your fingers, turns three full turns before the head is tight, stands straight seen from the side, and still turns freely at full tension. If it bottoms or leans, stop: only one lug is drilled.',
    cautions: [cautions.eyes],
  };
}

export function program(view: View, extra: Extra): WorkStep {
  const tools = extra.rotary?.tools ?? [];
  return {
    id: 'program',
    title: 'Run the program',
    body: [
      'Backing blocks tight under every hole. The program stops for each bit: change it, touch off Z0 on the high spot, go on.',
    ],
    ticks: tools.map((t) => ({ id: `tool-${t.id}`, text: `<b>T${t.id}</b> ${esc(t.what)}: ${esc(t.for)}` })),
    sure: 'A caliper over the outsides of two neighbours shows the last column of the table within 0.3 mm, and no hole is torn inside.',
    cautions: [dust(view.jig.shell.wood, view.jig.shell.build), cautions.rotary],
  };
}
