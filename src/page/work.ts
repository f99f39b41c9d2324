import { arc, chord } from '../geometry/frames.ts';
import type { Method } from '../model/jig.ts';
import type { Placed } from '../model/layout.ts';
import { clip, esc } from '../picture/svg.ts';
import { type Caution, cautions, dust } from '../say/page.ts';
import type { PageData, PlanHole } from './data.ts';
import { plural, ranges } from './html.ts';
import { both } from './number.ts';
import type { View } from './view.ts';

/** One step at the bench. `body` and `sure` are markup; `ticks` are the small boxes inside it. */
export interface WorkStep {
  readonly id: string;
  readonly title: string;
  readonly body: readonly string[];
  readonly ticks: readonly { readonly id: string; readonly text: string; readonly cls?: 'bit' | 'hole' }[];
  /** How to know it went right. */
  readonly sure: string;
  readonly cautions: readonly Caution[];
}

type Extra = Pick<PageData, 'rotary' | 'collar'>;

/** From this bit on a hand drill is the wrong tool: common practice, no source. */
const WIDE_BIT = 16;

/** The whole job in working order, for this build and this way of marking. */
export function workSteps(view: View, extra: Extra): readonly WorkStep[] {
  const lug = view.layout.placed.find((p) => p.role === 'lug');
  const byRotary = view.jig.method === 'rotary' && extra.rotary !== null;
  return [
    measure(view),
    tape(view),
    mark(view, extra),
    checkSide(view),
    ...(byRotary ? [rotaryTrial(view, extra)] : []),
    ...(lug ? [firstLug(view, lug)] : []),
    pilots(view, lug),
    backing(view),
    ...full(view, lug),
    deburr(view),
    ...vent(view),
    fitUp(view),
  ];
}

const holesOf = (view: View, pick: (h: PlanHole) => boolean): readonly PlanHole[] => view.holes.filter(pick);
const numbersOf = (view: View, holes: readonly PlanHole[]): string =>
  ranges(holes.map((h) => view.numbers.get(h.id) ?? 0).sort((a, b) => a - b));
const isVent = (h: PlanHole): boolean => h.role === 'vent';

/** Bits in the order they go into the chuck: smallest first, so each is changed once. */
export function bits(
  holes: readonly PlanHole[],
  size: (h: PlanHole) => number | null | undefined,
): readonly { readonly diameter: number; readonly holes: readonly PlanHole[] }[] {
  const found = new Map<number, PlanHole[]>();
  for (const h of holes) {
    const d = size(h);
    if (d) found.set(d, [...(found.get(d) ?? []), h]);
  }
  return [...found].sort(([a], [b]) => a - b).map(([diameter, some]) => ({ diameter, holes: some }));
}

function measure(view: View): WorkStep {
  const items = [
    ...view.jig.rows.map((r) => ({ name: `lug, ${r.name} row`, pattern: r.holes, foot: r.foot })),
    ...view.jig.fittings.map((f) => ({ name: f.name, pattern: f.holes, foot: f.foot })),
  ];
  return {
    id: 'measure',
    title: 'Measure three of each fitting',
    body: ['Castings differ. Measure three of each kind and compare with what the jig file says.'],
    ticks: items.map((i, k) => {
      const far = widest(i.pattern.points);
      const parts = [
        far > 0 ? `holes ${both(far)} apart` : 'one hole',
        i.pattern.screw ? `screw ${esc(i.pattern.screw.text)}` : '',
        i.foot ? `foot ${both(i.foot.left + i.foot.right)} by ${both(i.foot.up + i.foot.down)}` : '',
      ].filter((t) => t !== '');
      return { id: `measure-${k}`, text: `<bdi>${esc(clip(i.name, 60))}</bdi>: ${parts.join(', ')}` };
    }),
    sure: 'All three lie within 0.3 mm of each other and of the number here. If not, change the jig file and make the set again before you mark anything.',
    cautions: [],
  };
}

function widest(points: readonly { readonly across: number; readonly upright: number }[]): number {
  let most = 0;
  for (const a of points)
    for (const b of points) most = Math.max(most, Math.hypot(a.across - b.across, a.upright - b.upright));
  return most;
}

function tape(view: View): WorkStep {
  const { shell } = view.jig;
  return {
    id: 'tape',
    title: 'Measure and tape the shell',
    body: [
      `Tape round the outside at both edges: ${both(shell.girth)} (already without the tape's own thickness). Measure the depth at four places: ${both(shell.depth)}.`,
      'Put masking tape where holes will come: it takes the pencil and holds the fibres down.',
    ],
    ticks: [],
    sure: `The girth is within 1 mm of ${both(shell.girth)} and the four depths differ by less than 1 mm. A girth off by 1 mm moves the last lug by about that much.`,
    cautions: [],
  };
}

const HOW: Readonly<Record<Method, readonly string[]>> = {
  tape: [
    'Draw the strainer line with a square from the bottom edge. Lay the tape round from it and mark the arcs of the table, each from zero, never from mark to mark: errors would add up.',
    'Mark each height from the edge its row is measured from, then prick the crossing with an awl.',
  ],
  'paper-wrap': [
    'Print wrap.pdf at 100 %, check its ruler with yours, join the sheets on their marks and tape the strip round the shell with its strainer line on yours.',
    'Let the paper hang from the edge its row is measured from. Prick every centre with an awl.',
  ],
  'cut-wrap': [
    'Wrap the cut template round the shell, its strainer line on yours, its edge flush with the edge its row is measured from. Tape it so that it cannot creep.',
    'Prick every centre through its guide.',
  ],
  collar: [
    'Slide the collar over the shell until its stops sit on the edge the row is measured from. Turn its strainer mark to your line and clamp it.',
    'The bushings guide the bit: nothing needs pricking, but turn a pilot in each by hand to see that it lands where the table says.',
  ],
  rotary: [
    'Draw the strainer line and stick an arrow of tape on the shell that points the way angles grow: to the right, seen from outside with the top edge up.',
    'Chuck the shell, centre it, and set X0 on the datum edge, Z0 on the skin at the top, A0 with the strainer line under the spindle.',
  ],
};

function mark(view: View, extra: Extra): WorkStep {
  const method = view.jig.method ?? 'tape';
  const rows = firstRing(view);
  const steps =
    method === 'collar' ? (extra.collar?.steps ?? []).map((s) => [s.title, ...s.body].map(esc).join('. ')) : [];
  return {
    id: 'mark',
    title: method === 'rotary' ? 'Set up the shell on the rotary' : 'Mark the holes',
    body: [...steps, ...HOW[method]],
    ticks: [],
    sure: rows
      ? `Close the ring: the last lug line (${rows.lastAngle.toFixed(2)}°) is ${both(rows.last)} of arc short of the strainer line, and a caliper shows ${both(rows.chord)} between neighbouring lug lines all the way round.`
      : 'Measure two holes back from the strainer line and compare with the table.',
    cautions: method === 'cut-wrap' || method === 'collar' ? [cautions.laser] : [],
  };
}

/** The first row's last line and its closing distance. */
function firstRing(
  view: View,
): { readonly lastAngle: number; readonly last: number; readonly chord: number } | undefined {
  const row = view.jig.rows[0];
  const lugs = view.layout.placed.filter((p) => p.role === 'lug' && p.group === row?.name);
  const last = lugs[lugs.length - 1];
  if (!last || lugs.length < 2) return undefined;
  const furthest = Math.max(...lugs.map((p) => p.angle));
  return {
    lastAngle: furthest,
    last: arc(view.layout.radius, 360 - furthest),
    chord: chord(view.layout.radius, 360 / lugs.length),
  };
}

function checkSide(view: View): WorkStep {
  const strainer = view.layout.placed.find((p) => p.role === 'strainer');
  const butt = view.layout.placed.find((p) => p.role === 'butt');
  return {
    id: 'side',
    title: strainer ? 'Check the strainer side' : 'Check which way up',
    body: [
      'Stand the shell top edge up and look at the strainer line from outside: angles must grow to your right.',
      ...(strainer
        ? [
            `Hold the strainer over its marks at ${strainer.angle.toFixed(1)}°: it belongs to the bottom edge, the snare side.`,
          ]
        : []),
      ...(view.jig.beds
        ? [`The snare beds lie in the bottom edge at 0° and 180°, ${both(view.jig.beds.width)} wide.`]
        : []),
    ],
    ticks: [],
    sure: butt
      ? `The strainer's line and the butt's line halve the girth: ${both(arc(view.layout.radius, Math.abs(butt.angle - (strainer?.angle ?? 0))))} one way round.`
      : 'The first lug line is to the right of the strainer line, not to the left.',
    cautions: [],
  };
}

function rotaryTrial(view: View, extra: Extra): WorkStep {
  const sign = extra.rotary?.signOfA ?? 1;
  return {
    id: 'witness',
    title: 'Witness move and dry run at the machine',
    body: [
      `Send A to ${sign > 0 ? '' : '−'}15 by hand and watch the taped arrow: the skin under the spindle must be the one 15° along the arrow. If it is the other side, the rotary is wired the other way: set the machine's A sign and make the set again.`,
      'Then run the program with the spindle off, the tool well above the shell.',
      ...(view.jig.fittings.some((f) => f.role === 'vent' || f.role === 'badge')
        ? []
        : ['An even layout is its own mirror: only this move shows a wrong sign.']),
    ],
    ticks: [],
    sure: 'The tool stops over each mark you drew as a check, and at the end A and X stand where they started.',
    cautions: [cautions.rotary],
  };
}

function firstLug(view: View, lug: Placed): WorkStep {
  const holes = holesOf(view, (h) => h.fitting === lug.id);
  const drills = bits(holes, (h) => h.drill_mm)
    .map((b) => both(b.diameter))
    .join(', ');
  return {
    id: 'one',
    title: 'Drill ONE lug and hang head, hoop and rod on it',
    body: [
      `Only ${lug.id}: ${holes.length === 1 ? 'hole' : 'holes'} ${numbersOf(view, holes)}. Pilot, then ${drills}, with the block inside as below.`,
      'Bolt the lug on, lay the head and the hoop on the shell, put washer and rod in and turn it down by hand.',
    ],
    ticks: [],
    sure: 'The rod starts with your fingers, turns three full turns before the head is tight, stands straight seen from the side, and still turns freely at full tension. If it bottoms or leans, stop: only one lug is drilled.',
    cautions: [cautions.hold, cautions.eyes],
  };
}

function pilots(view: View, lug: Placed | undefined): WorkStep {
  const rest = holesOf(view, (h) => h.fitting !== lug?.id && !isVent(h));
  const groups = bits(rest, (h) => h.pilot_mm);
  const without = rest.filter((h) => !h.pilot_mm);
  return {
    id: 'pilot',
    title: 'Pilot all the other holes',
    body: [
      'From outside, square to the skin, at low pressure so that the bit follows its own point and not the grain.',
    ],
    ticks: [
      ...groups.map((b) => ({
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

function backing(view: View): WorkStep {
  return {
    id: 'backing',
    title: 'Clamp the backing',
    body: [
      `A block of scrap wood, hollowed or sanded to the inside radius of ${both(view.layout.inside)}, clamped behind the hole being drilled. Fresh wood under every hole: an old hole backs nothing.`,
    ],
    ticks: [],
    sure: 'No light shows between block and shell at the hole, and the block does not move when you lean on it.',
    cautions: [cautions.hold],
  };
}

function full(view: View, lug: Placed | undefined): readonly WorkStep[] {
  const rest = holesOf(view, (h) => h.fitting !== lug?.id && !isVent(h));
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

function deburr(view: View): WorkStep {
  return {
    id: 'deburr',
    title: 'Deburr inside and out',
    body: [
      'Break the edges inside with a countersink turned by hand or folded abrasive; the edge of a hole in a round shell is a saddle, so follow it. Only a whisper outside: the foot must still cover it.',
    ],
    ticks: [],
    sure: `Nothing catches when a cloth is drawn through; all ${view.holes.filter((h) => !isVent(h)).length} holes look alike from inside.`,
    cautions: [cautions.burr],
  };
}

function vent(view: View): readonly WorkStep[] {
  const holes = holesOf(view, isVent);
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
      cautions: [cautions.hold, ...(holes.some((h) => h.drill_mm >= WIDE_BIT) ? [cautions.bigBit] : [])],
    },
  ];
}

function fitUp(view: View): WorkStep {
  const lugs = view.layout.placed.filter((p) => p.role === 'lug').length;
  return {
    id: 'fit',
    title: 'Fit everything',
    body: [
      'Seal bare wood in the holes first. Screws by hand until all of a casting have started, then snug; wood crushes before it warns.',
      'Heads and hoops on, rods finger tight all round, then half a turn at a time, each followed by the one across.',
    ],
    ticks: [
      ...(lugs > 0 ? [{ id: 'fit-lugs', text: `${plural(lugs, 'lug')}` }] : []),
      ...view.layout.placed
        .filter((p) => p.role !== 'lug')
        .map((p) => ({ id: `fit-${p.id}`, text: `<bdi>${esc(clip(p.id, 60))}</bdi>` })),
    ],
    sure: 'No casting rocks, every rod turns freely, and the hoop stands level: measure hoop to bearing edge at every lug, within 0.5 mm.',
    cautions: [],
  };
}
