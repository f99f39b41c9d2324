import { readLength } from '../units/length.ts';
import { MM_PER_INCH, type Mm } from '../units/scalar.ts';

/** What `lugwright new` asks for; lengths as the builder typed them. */
export interface NewJig {
  readonly name: string;
  readonly kind: 'snare' | 'tom' | 'floor-tom' | 'bass';
  readonly units: 'mm' | 'in';
  /** `diameter: 14 in` or `circumference: 1115 mm`. */
  readonly girth: { readonly key: 'diameter' | 'circumference'; readonly value: string };
  readonly depth: string;
  readonly wall: string;
  readonly lugs: number;
  /** Path or address of the JSON Schema for editors, or none. */
  readonly schema?: string;
}

export const KINDS: readonly NewJig['kind'][] = ['snare', 'tom', 'floor-tom', 'bass'];

/** A YAML scalar that always reads back as the same text. */
const quoted = (text: string): string => JSON.stringify(text);

/**
 * A commented jig file to be completed with a caliper: the shell as measured, and for the hardware figures marked
 * MEASURE that are placeholders of a plausible size (common practice, no source), never somebody's real hardware.
 */
export function newJigText(n: NewJig): string {
  const { diameter, wall } = sizes(n);
  return `${[
    ...(n.schema === undefined ? [] : [`# yaml-language-server: $schema=${n.schema}`]),
    '# A jig file: what you measured, once. Every line marked MEASURE holds a placeholder: put your own figure there.',
    '# Lengths: 34 mm, 3.4 cm, 1.5 in, 1-1/2 in, 1 1/2". Angles grow left to right seen from outside, top up,',
    '# from the strainer line (a drum without a strainer: from its seam or badge). Then: lugwright check this-file',
    'jig: 1',
    `name: ${quoted(n.name)}`,
    `units: ${n.units}`,
    'shell:',
    `  ${n.girth.key}: ${quoted(n.girth.value)}    # ${n.girth.key === 'diameter' ? 'outside, the mean of four readings' : 'outside, tape pulled tight round the middle'}`,
    ...(n.girth.key === 'circumference'
      ? ["  tape: 0.2 mm            # MEASURE the tape's own thickness: ten layers, divided by ten"]
      : []),
    `  depth: ${quoted(n.depth)}    # bearing edge to bearing edge, the mean of four readings`,
    `  wall: ${quoted(n.wall)}    # away from reinforcement rings`,
    '  edges: cut              # cut or uncut: marking before cutting moves every height',
    `  # nominal: ${Math.round(diameter / MM_PER_INCH)} in        # the head size it is meant for`,
    '  # wood: sugar-maple     # lugwright feeds --help lists the woods',
    '  # build: ply            # ply, stave, steam-bent or segment',
    '  # round: 0.5 mm         # largest minus smallest of four diameters',
    '  # square: 0.5 mm        # largest minus smallest of four depths',
    'lugs:',
    `  count: ${n.lugs}`,
    '  first: half             # half a pitch from the strainer line, or an angle of lug 1',
    '  rows:',
    "    - { edge: top, distance: 38 mm }       # MEASURE: from the edge to the middle of the lug's two holes",
    '    - { edge: bottom, distance: 38 mm }',
    '  holes:',
    '    layout: upright',
    '    spacing: 25.4 mm      # MEASURE centre to centre',
    '    drill: 5 mm           # MEASURE: screw + clearance',
    // Through the wall and a gasket, and some 6 mm into the casting.
    `    # ${`screw: M4 x ${2 * Math.round((wall + 7) / 2)}`.padEnd(20)}# thread, and length under the head`,
    '    # tapped: 10 mm       # depth of thread in the casting',
    '  # foot: { width: 18 mm, height: 46 mm, gasket: 1 mm }       # the outline on the shell',
    '  # rod: { face: 18 mm, catch: 6 mm, bottom: 30 mm, takes: 12-24 UNC, standoff: 14 mm }',
    '# rods: { length: 50 mm, thread: 12-24 UNC, threaded: 25 mm, washer: 1.5 mm, travel: 3 turns }   # under the head',
    // Where the rods stand: the casting's standoff and gasket beyond the shell, all round.
    ...['top', 'bottom'].map(
      (edge, i) =>
        `# ${i === 0 ? 'hoops: {' : '        '} ${edge}: { ear: 6 mm, skirt: 6 mm, ears: ${n.lugs}, ear-circle: ${Math.round(diameter + 30)} mm }${i === 0 ? ',' : ' }'}`,
    ),
    'fittings:',
    ...FITTINGS[n.kind],
    '  - { name: vent, role: vent, at: { between: [2, 3] }, edge: middle, distance: 0, holes: { layout: single, drill: 11 mm } }',
    ...(n.kind === 'snare'
      ? ['beds: { width: 90 mm, depth: 2 mm }      # MEASURE: snare beds, centred on 0 and 180 deg of the bottom edge']
      : []),
    '# method: tape           # tape, paper-wrap, cut-wrap, collar or rotary',
    '# climate: { workshop: { temperature: 20, humidity: 45 }, home: { temperature: 21, humidity: 40 } }   # deg C, %',
  ].join('\n')}\n`;
}

/** The shell's sizes, for placeholders that go with it; what cannot be read is refused later, with its reason. */
function sizes(n: NewJig): { diameter: Mm; wall: Mm } {
  const mm = (text: string): Mm => {
    const read = readLength(text, n.units);
    return read.ok ? read.value : 0;
  };
  const girth = mm(n.girth.value);
  return { diameter: n.girth.key === 'diameter' ? girth : girth / Math.PI, wall: mm(n.wall) };
}

const FITTINGS: Readonly<Record<NewJig['kind'], readonly string[]>> = {
  snare: [
    '  - name: strainer',
    '    role: strainer',
    '    at: 0 deg',
    '    edge: bottom',
    '    distance: 46 mm         # MEASURE: from the bottom edge to the middle of its holes',
    '    holes: { layout: upright, spacing: 28 mm, drill: 5 mm }',
    '  - name: butt',
    '    role: butt',
    '    at: 180 deg',
    '    edge: bottom',
    '    distance: 46 mm         # MEASURE',
    '    holes: { layout: upright, spacing: 28 mm, drill: 5 mm }',
  ],
  tom: [],
  'floor-tom': [
    '  - name: leg',
    '    role: leg',
    '    at: { every: 120 deg, from: 0 deg }',
    '    edge: bottom',
    '    distance: 120 mm        # MEASURE',
    '    holes: { layout: upright, spacing: 38 mm, drill: 6.6 mm }',
  ],
  bass: [
    '  - name: spur',
    '    role: spur',
    '    at: [110 deg, 250 deg]',
    '    edge: bottom',
    '    distance: 140 mm        # MEASURE',
    '    holes: { layout: upright, spacing: 38 mm, drill: 6.6 mm }',
  ],
};
