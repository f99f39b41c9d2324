import type { ErrorTerm } from '../model/accuracy.ts';
import type { Method } from '../model/jig.ts';

/**
 * Ways of marking and drilling, each as a table of what can go wrong and by how much. Meant to be edited: measure your
 * own work and put your figures in their place, in the jig file's `accuracy` or in a file beside it. A term with no
 * publication behind it says so.
 */
export interface MarkingMethod {
  readonly id: Method;
  readonly name: string;
  /** Does the bit stay parallel to the middle of the fitting, or point to the shell's axis at every hole? */
  readonly bores: 'radial' | 'parallel';
  readonly terms: readonly ErrorTerm[];
}

const COMMON = 'common practice, no source';

/** In any method: the casting's own holes are not quite where its drawing, or a caliper, puts them. */
export const HARDWARE_TERMS: readonly ErrorTerm[] = [
  {
    id: 'casting',
    what: "the hardware's own screw holes, drilled and measured",
    axis: 'both',
    each: 'hole',
    spread: 'sigma',
    size: 0.1,
    unit: 'mm',
    source: COMMON,
  },
];

export const METHODS: readonly MarkingMethod[] = [
  {
    id: 'tape',
    name: 'tape and square',
    bores: 'radial',
    terms: [
      term('read', 'reading a tape or rule with 1 mm marks', 'both', 'hole', 'within', 0.5),
      term('line', 'the width of the pencil line', 'both', 'hole', 'within', 0.25),
      term('punch', 'the punch set on the cross by eye', 'both', 'hole', 'sigma', 0.2),
      term('wander', 'the bit leaving the punch mark in a hand drill', 'both', 'hole', 'sigma', 0.3),
      term('square', 'the upright line drawn along a square on a round shell', 'lean', 'fitting', 'sigma', 0.3, 'deg'),
      term('divide', 'dividing the girth with a tape', 'around', 'fitting', 'within', 1),
      term('edge', 'an edge that is not square to the shell', 'along', 'fitting', 'within', 0.5),
    ],
  },
  {
    id: 'paper-wrap',
    name: 'paper wrap',
    bores: 'radial',
    terms: [
      term('print', "the printer's scale after checking the 100 mm line", 'both', 'shell', 'within', 0.002, 'stretch'),
      term('damp', 'paper growing when damp', 'around', 'shell', 'within', 0.002, 'stretch'),
      term('punch', 'the punch set on the printed cross by eye', 'both', 'hole', 'sigma', 0.2),
      term('wander', 'the bit leaving the punch mark in a hand drill', 'both', 'hole', 'sigma', 0.3),
      term('tile', 'pages taped together', 'both', 'fitting', 'within', 0.3),
      term('slack', 'paper not drawn tight', 'both', 'fitting', 'within', 0.3),
      term('edge', 'paper not laid along the edge', 'lean', 'shell', 'within', 0.1, 'deg'),
    ],
  },
  {
    id: 'cut-wrap',
    name: 'laser-cut wrap',
    bores: 'radial',
    terms: [
      term('cut', 'the laser: steps, belt and kerf', 'both', 'hole', 'within', 0.1),
      term('guide', 'the punch loose in its guide hole', 'both', 'hole', 'within', 0.15),
      term('wander', 'the bit leaving the punch mark in a hand drill', 'both', 'hole', 'sigma', 0.3),
      term('card', 'card growing when damp', 'around', 'shell', 'within', 0.001, 'stretch'),
      term('slip', 'the wrap shifting while marking', 'both', 'fitting', 'within', 0.3),
      term('edge', 'the wrap not laid along the edge', 'lean', 'shell', 'within', 0.1, 'deg'),
    ],
  },
  {
    id: 'collar',
    name: 'drilling collar',
    bores: 'parallel',
    terms: [
      term('bit', 'the bit loose in its bushing', 'both', 'hole', 'within', 0.1),
      term('bushing', 'the bushing loose in its plate', 'both', 'hole', 'within', 0.1),
      term('cut', 'the laser: steps, belt and kerf', 'both', 'hole', 'within', 0.1),
      term('gap', 'the bit bending between bushing and skin', 'both', 'hole', 'sigma', 0.08),
      term('seat', 'the collar not seated on the edge', 'along', 'fitting', 'within', 0.3),
      term('index', 'the collar loose on the shell or on its index pin', 'around', 'fitting', 'within', 0.3),
      term('rock', 'the collar rocking', 'lean', 'fitting', 'within', 0.15, 'deg'),
    ],
  },
  {
    id: 'rotary',
    name: 'rotary machine',
    bores: 'radial',
    terms: [
      term('turn', 'play and steps of the rotary axis', 'around', 'hole', 'within', 0.03, 'deg'),
      term('step', 'play and steps along the axis', 'along', 'hole', 'within', 0.05),
      term('wander', 'the tip walking before it bites', 'both', 'hole', 'sigma', 0.08),
      term('slip', 'the shell creeping on its mandrel', 'both', 'fitting', 'within', 0.1),
      term('zero', 'setting the edge and the strainer line', 'both', 'shell', 'within', 0.3),
      term('true', 'the shell not clamped in line with the axis', 'lean', 'shell', 'within', 0.1, 'deg'),
    ],
  },
];

export const METHOD_IDS = METHODS.map((m) => m.id);

/** A term's size with its unit, as a builder would write it. */
export const sizeText = (t: ErrorTerm): string =>
  t.unit === 'stretch' ? `${tidy(100 * t.size)} %` : `${tidy(t.size)} ${t.unit}`;

const tidy = (n: number): number => Math.round(n * 1e6) / 1e6;

/** A method's whole table: its own terms and those of the hardware. */
export const termsOf = (method: MarkingMethod): readonly ErrorTerm[] => [...method.terms, ...HARDWARE_TERMS];

export const findMethod = (id: Method): MarkingMethod => {
  const found = METHODS.find((m) => m.id === id);
  if (found === undefined) throw new RangeError(`no method ${id}`);
  return found;
};

function term(
  id: string,
  what: string,
  axis: ErrorTerm['axis'],
  each: ErrorTerm['each'],
  spread: ErrorTerm['spread'],
  size: number,
  unit: ErrorTerm['unit'] = 'mm',
): ErrorTerm {
  return { id, what, axis, each, spread, size, unit, source: COMMON };
}
