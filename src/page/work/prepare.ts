import { arc, chord } from '../../geometry/frames.ts';
import type { Method } from '../../model/jig.ts';
import { clip, esc } from '../../picture/svg.ts';
import { cautions } from '../../say/page.ts';
import { both } from '../number.ts';
import type { View } from '../view.ts';
import type { Extra, WorkStep } from './step.ts';

/** Before anything turns: measure the hardware, measure the shell, mark, and see that it is the right way up. */
export function measure(view: View): WorkStep {
  const items = [
    ...view.jig.rows.map((r) => ({ name: `lug, ${r.name} row`, pattern: r.holes, foot: r.foot, rod: r.rod })),
    ...view.jig.fittings.map((f) => ({ name: f.name, pattern: f.holes, foot: f.foot, rod: undefined })),
  ];
  return {
    id: 'measure',
    title: 'Measure three of each fitting',
    body: ['Castings differ. Measure three of each kind and compare with what the jig file says.'],
    ticks: items.map((i, k) => {
      const far = widest(i.pattern.points);
      const parts = [
        far > 0 ? `holes ${both(far)} apart` : i.pattern.points.length === 0 ? 'no holes' : 'one hole',
        i.pattern.screw ? `screw ${esc(i.pattern.screw.text)}` : '',
        i.rod
          ? `end face ${both(i.rod.face)} from the middle of the holes, first thread ${both(i.rod.catch)} deep, stop ${both(i.rod.bottom)} deep`
          : '',
        i.foot ? `foot ${both(i.foot.left + i.foot.right)} by ${both(i.foot.up + i.foot.down)}` : '',
      ].filter((t) => t !== '');
      return { id: `measure-${k}`, text: `<bdi>${esc(clip(i.name, 60))}</bdi>: ${parts.join(', ')}` };
    }),
    sure: 'All three lie within 0.3 mm of each other and of the number here. If not, change the jig file and make the set again before you mark anything.',
    cautions: [],
  };
}

/** The greatest way between two holes of a pattern: what the caliper's outside jaws go to. */
function widest(points: readonly { readonly across: number; readonly upright: number }[]): number {
  let most = 0;
  for (const a of points) {
    for (const b of points) most = Math.max(most, Math.hypot(a.across - b.across, a.upright - b.upright));
  }
  return most;
}

export function tape(view: View): WorkStep {
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
    'Chuck the shell as the setup sheet says: X0 on the datum edge, Z0 on the skin at the top, A0 with the strainer line under the spindle.',
  ],
};

/** The collar is made before it marks anything; without one there is nothing to do. */
export function makeCollar(view: View, extra: Extra): readonly WorkStep[] {
  const steps = extra.collar?.steps ?? [];
  if (view.jig.method !== 'collar' || steps.length === 0) return [];
  return [
    {
      id: 'collar',
      title: 'Cut and build the collar',
      body: [],
      ticks: steps.map((s, i) => ({
        id: `collar-${i + 1}`,
        text: [...s.body, ...(s.sure ? [s.sure] : [])].map(esc).join(' '),
      })),
      sure: 'It slides over the shell by hand and does not rock, and a bit turned by hand in each bushing touches the mark you made for it with tape and caliper.',
      cautions: [cautions.laser],
    },
  ];
}

export function mark(view: View): WorkStep {
  const method = view.jig.method ?? 'paper-wrap';
  const ring = firstRing(view);
  return {
    id: 'mark',
    title: method === 'rotary' ? 'Set up the shell on the rotary' : 'Mark the holes',
    body:
      view.jig.method === undefined ? [...HOW[method], ...HOW.tape.map((t) => `Or: ${t}`).slice(0, 1)] : HOW[method],
    ticks: [],
    sure: ring
      ? `Close the ring: the last lug line (${ring.lastAngle.toFixed(2)}°) is ${both(ring.last)} of arc short of the strainer line, and a caliper shows ${both(ring.chord)} between neighbouring lug lines all the way round.`
      : 'Measure two holes back from the strainer line and compare with the table.',
    cautions: method === 'cut-wrap' ? [cautions.laser] : [],
  };
}

/** The first row's last line and its closing distance. */
function firstRing(
  view: View,
): { readonly lastAngle: number; readonly last: number; readonly chord: number } | undefined {
  const row = view.jig.rows[0];
  const lugs = view.layout.placed.filter((p) => p.role === 'lug' && p.group === row?.name);
  if (lugs.length < 2) return undefined;
  const furthest = Math.max(...lugs.map((p) => p.angle));
  return {
    lastAngle: furthest,
    last: arc(view.layout.radius, 360 - furthest),
    chord: chord(view.layout.radius, 360 / lugs.length),
  };
}

export function checkSide(view: View): WorkStep {
  const strainer = view.layout.placed.find((p) => p.role === 'strainer');
  const butt = view.layout.placed.find((p) => p.role === 'butt');
  return {
    id: 'side',
    title: strainer ? 'Check the strainer side' : 'Check which way up',
    body: [
      'Stand the shell top edge up and look at the strainer line from outside: angles must grow to your right.',
      ...(strainer
        ? [
            `Hold the strainer over its marks at ${strainer.angle.toFixed(1)}°: ${strainer.edge === 'bottom' ? 'it belongs to the bottom edge, the snare side' : 'see that it meets the snare side'}.`,
          ]
        : []),
      ...(view.jig.beds
        ? [`The snare beds lie in the bottom edge at 0° and 180°, ${both(view.jig.beds.width)} wide.`]
        : []),
    ],
    ticks: [],
    sure:
      strainer && butt
        ? `The strainer's line and the butt's line halve the girth: ${both(arc(view.layout.radius, Math.abs(butt.angle - strainer.angle)))} one way round.`
        : 'The first lug line is to the right of the strainer line, not to the left.',
    cautions: [],
  };
}
