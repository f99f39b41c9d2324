import type { Placed } from '../../model/layout.ts';
import { clip, esc } from '../../picture/svg.ts';
import { cautions, dust } from '../../say/page.ts';
import { plural } from '../html.ts';
import { both } from '../number.ts';
import type { View } from '../view.ts';
import { bits, isVent, numbersOf, type WorkStep } from './step.ts';

/** From this bit on a hand drill is the wrong tool: common practice, no source. */
const WIDE_BIT = 16;

/** By hand: one lug, then pilots, backing, full holes, and the vent last. */
export function firstLug(view: View, lug: Placed): WorkStep {
  const holes = view.holes.filter((h) => h.fitting === lug.id);
  const drills = bits(holes, (h) => h.drill_mm)
    .map((b) => both(b.diameter))
    .join(', ');
  return {
    id: 'one',
    title: 'Drill ONE lug and hang head, hoop and rod on it',
    body: [
      `Only ${esc(lug.id)}: ${holes.length === 1 ? 'hole' : 'holes'} ${numbersOf(view, holes)}. Pilot, then ${drills}, with the block inside as below.`,
      'Bolt the lug on, lay the head and the hoop on the shell, put washer and rod in and turn it down by hand.',
    ],
    ticks: [],
    sure: 'The rod starts with your fingers, turns three full turns before the head is tight, stands straight seen from the side, and still turns freely at full tension. If it bottoms or leans, stop: only one lug is drilled.',
    cautions: [cautions.hold, cautions.eyes],
  };
}

export function pilots(view: View, lug: Placed | undefined): WorkStep {
  const rest = view.holes.filter((h) => h.fitting !== lug?.id && !isVent(h));
  const without = rest.filter((h) => !h.pilot_mm);
  return {
    id: 'pilot',
    title: 'Pilot all the other holes',
    body: [
      'From outside, square to the skin, at low pressure so that the bit follows its own point and not the grain.',
    ],
    ticks: [
      ...bits(rest, (h) => h.pilot_mm).map((b) => ({
        id: `pilot-${b.diameter}`,
        text: `Bit ${both(b.diameter)}: ${plural(b.holes.length, 'hole')}, ${numbersOf(view, b.holes)}`,
      })),
      ...(without.length > 0
        ? [
            {
              id: 'pilot-none',
              text: `${plural(without.length, 'hole')} without a pilot: prick them deep with an awl, ${numbersOf(view, without)}`,
            },
          ]
        : []),
    ],
    sure: 'Caliper between the pilots of neighbours: the chord of the table within 0.5 mm. A pilot that ran off can still be plugged.',
    cautions: [dust(view.jig.shell.wood, view.jig.shell.build), cautions.eyes],
  };
}

export function backing(view: View): WorkStep {
  return {
    id: 'backing',
    title: 'Clamp the backing',
    body: [
      `A block of scrap wood, sanded to the inside radius of ${both(view.layout.inside)}, clamped behind the hole being drilled. Fresh wood under every hole: an old hole backs nothing.`,
    ],
    ticks: [],
    sure: 'No light shows between block and shell at the hole, and the block does not move when you lean on it.',
    cautions: [],
  };
}

export function full(view: View, lug: Placed | undefined): readonly WorkStep[] {
  const rest = view.holes.filter((h) => h.fitting !== lug?.id && !isVent(h));
  const groups = bits(rest, (h) => h.drill_mm);
  if (groups.length === 0) return [];
  const changes = groups.length - 1;
  return [
    {
      id: 'full',
      title: 'Drill to size',
      body: [
        `${plural(rest.length, 'hole')} with ${plural(groups.length, 'bit')}: ${changes === 0 ? 'no bit change' : plural(changes, 'bit change')}. Tick each hole as you go.`,
      ],
      ticks: groups.flatMap((b) => [
        {
          id: `bit-${b.diameter}`,
          text: `<b>Bit ${both(b.diameter)}</b> in the chuck: ${plural(b.holes.length, 'hole')}`,
          cls: 'bit' as const,
        },
        ...b.holes.map((h) => ({
          id: `hole-${h.id}`,
          text: `${view.numbers.get(h.id)} <span class="fine">${esc(clip(h.id, 28))}</span>`,
          cls: 'hole' as const,
        })),
      ]),
      sure: 'The screw drops through without force, the skin round the hole is whole on both sides, and the caliper over the outsides of two neighbours shows the last column of the table within 0.5 mm.',
      cautions: [cautions.hold, ...(groups.some((b) => b.diameter >= WIDE_BIT) ? [cautions.bigBit] : [])],
    },
  ];
}

export function vent(view: View): readonly WorkStep[] {
  const holes = view.holes.filter(isVent);
  if (holes.length === 0) return [];
  return [
    {
      id: 'vent',
      title: 'Vent last',
      body: ['The one hole that shows. Fresh tape, a sharp bit with a spur, and the best backing of the day.'],
      ticks: bits(holes, (h) => h.drill_mm).map((b) => ({
        id: `vent-${b.diameter}`,
        text: `Bit ${both(b.diameter)}: ${plural(b.holes.length, 'hole')}, ${numbersOf(view, b.holes)}`,
      })),
      sure: 'Offer up the grommet or badge before you sand: it goes in by hand and covers the edge.',
      cautions: holes.some((h) => h.drill_mm >= WIDE_BIT) ? [cautions.bigBit] : [],
    },
  ];
}
