import type { Fact, Saying } from '../model/finding.ts';
import { limit, measured, num, trimmed, word } from './saying.ts';

/** What the fit checks find, in a builder's words; the cure in both directions where there are two. */

const PRACTICE = 'common practice, no source';
const GEOMETRY = 'derived: plane geometry on the unrolled shell';
const CYLINDER = 'derived: geometry of the cylinder';

const value = (f: Fact, key: string): number => Number(f.facts?.[key] ?? Number.NaN);
const has = (f: Fact, key: string): boolean => f.facts?.[key] !== undefined;
const mm = (f: Fact, key: string, digits = 1): string => `${num(f, key, digits)} mm`;
const deg = (f: Fact, key: string): string => `${num(f, key, 2)} deg`;
const size = (f: Fact, key: string): string => `${trimmed(Math.abs(value(f, key)), 1)} mm`;

/** Float dust in a figure that is exact to a tenth. */
const ROUNDING = 1 / 1_000_000;

/** Amounts a builder must move or cut are rounded up to the next tenth, so that the rounded figure still cures. */
const atLeast = (n: number): string => `${trimmed(Math.ceil(n * 10 - ROUNDING) / 10, 1)} mm`;
const atMost = (n: number): string => `${trimmed(Math.floor(n * 10 + ROUNDING) / 10, 1)} mm`;

/** `, and 7 more like it` when one finding stands for several. */
const others = (f: Fact): string => {
  const count = value(f, 'count');
  return count > 1 ? ` (the worst of ${count}: ${word(f, 'places')})` : '';
};

/** Where else the same is found. */
const alike = (f: Fact): string => (value(f, 'count') > 1 ? ` (${word(f, 'places')})` : '');

function rodCures(f: Fact): string {
  const { window } = f.facts ?? {};
  if (window === 'closed')
    return (
      'No rod length is sound in this lug: between its first thread and its bottom there is too little room for the bite, ' +
      'the travel and the reserve. Use a lug with a deeper bore, or a longer threaded end on the rod.'
    );
  const rods = `rods of ${atLeast(value(f, 'shortest'))} to ${atMost(value(f, 'longest'))} under the head`;
  const buy = has(f, 'buy')
    ? ` (${mm(f, 'buy')} is on your stock list)`
    : has(f, 'stock')
      ? ' (none on your stock list)'
      : '';
  const lugs = has(f, 'nearest')
    ? `, or keep the rods and set these lugs ${atLeast(Math.max(0, value(f, 'nearest')))} to ${atMost(value(f, 'furthest'))} from the ${word(f, 'side')} edge (now ${mm(f, 'distance')})`
    : '';
  return `Use ${rods}${buy}${lugs}.`;
}

const wayOf = (f: Fact): string =>
  `From under the head to the lug's face are ${mm(f, 'way')} (washer ${mm(f, 'washer')} + ear ${mm(f, 'ear')} + lug ${mm(f, 'distance')} from the edge - face ${mm(f, 'face')})`;

const rods: Record<string, Saying> = {
  'rod-bottoms': {
    text: (f) =>
      `${mm(f, 'length')} rods go too deep into the ${word(f, 'row')}: ${mm(f, 'd0')} finger tight and ${mm(f, 'd1')} at full tension, ` +
      `but they may go ${limit(f)} (the lug stops them at ${mm(f, 'bottom')}, ${mm(f, 'reserve')} are kept free). They bottom before the head is tight. ${wayOf(f)}.`,
    try: rodCures,
    source: `${PRACTICE} (2 mm kept free)`,
  },
  'rod-too-short': {
    text: (f) =>
      `${mm(f, 'length')} rods are too short for the ${word(f, 'row')}: ${
        (f.measured ?? 0) <= 0
          ? `${word(f, 'when')} they end ${trimmed(-(f.measured ?? 0), 1)} mm short of the first thread`
          : `${word(f, 'when')} they hold ${measured(f)} of thread (${num(f, 'turns', 1)} turns)`
      }, they need ${limit(f)}. ${wayOf(f)}; the thread begins ${mm(f, 'catch')} below the face.`,
    try: rodCures,
    source: `${PRACTICE} (three turns finger tight, one diameter at full tension)`,
  },
  'rod-jams': {
    text: (f) =>
      `The plain shank of the ${mm(f, 'length')} rods runs into the thread of the ${word(f, 'row')}: at full tension it reaches ${measured(f)} below the face, ` +
      `the thread begins at ${limit(f)}.`,
    try: (f) =>
      `Use rods threaded for at least ${atLeast(value(f, 'threaded') + value(f, 'over'))} from the tip. ${rodCures(f)}`,
    source: CYLINDER,
  },
  'rod-holds-little': {
    text: (f) =>
      `At full tension the rods hold ${measured(f)} in the ${word(f, 'row')}; one and a half diameters are ${limit(f)}.`,
    try: rodCures,
    source: PRACTICE,
  },
  'rod-not-in-stock': {
    text: (f) =>
      `${measured(f)} is not on the stock list (${word(f, 'list')} mm). A length over all, head included, is a common slip: the length under the head is meant.`,
    try: (f) =>
      has(f, 'buy')
        ? `Take ${mm(f, 'buy')}, which fits here, or add ${measured(f)} to the stock list.`
        : `Measure under the head, or add ${measured(f)} to the stock list.`,
    source: 'the stock list of the jig file',
  },
  'rod-window': {
    text: (f) =>
      word(f, 'window') === 'closed'
        ? `No rod length is sound in the ${word(f, 'row')}.`
        : `The ${word(f, 'row')} take rods of ${atLeast(value(f, 'shortest'))} to ${atMost(value(f, 'longest'))} under the head` +
          (has(f, 'nearest')
            ? `; ${mm(f, 'length')} rods take lugs ${atLeast(Math.max(0, value(f, 'nearest')))} to ${atMost(value(f, 'furthest'))} from the ${word(f, 'side')} edge.`
            : '.'),
    try: (f) =>
      has(f, 'buy')
        ? `Of the stock list buy ${mm(f, 'buy')}.`
        : has(f, 'stock')
          ? 'No length on the stock list lies in that window.'
          : '',
    source: 'derived: washer + ear + distance - face, with the limits of the rods',
  },
  'rods-meet': {
    text: (f) =>
      `Top and bottom rod meet inside the ${word(f, 'row')}: they go ${mm(f, 'top')} and ${mm(f, 'bottom')} deep, together ${measured(f)}, and there are ${limit(f)} between the faces.`,
    try: (f) =>
      `Use rods shorter by ${atLeast(value(f, 'over') + value(f, 'reserve'))} between the two, or a lug longer by as much.`,
    source: 'derived: the two depths share the way between the faces',
  },
  'rods-nearly-meet': {
    text: (f) =>
      `Top and bottom rod come close inside the ${word(f, 'row')}: together ${measured(f)} of the ${mm(f, 'room')} between the faces; ${mm(f, 'reserve')} are usually kept free.`,
    try: (f) => `Use rods shorter by ${atLeast(value(f, 'over') + value(f, 'reserve'))} between the two.`,
    source: PRACTICE,
  },
  'thread-mismatch': {
    text: (f) =>
      `The rods are ${word(f, 'rods')} (${mm(f, 'rodDiameter', 2)}, pitch ${mm(f, 'rodPitch', 3)}), the lugs take ${word(f, 'lugs')} (${mm(f, 'lugDiameter', 2)}, pitch ${mm(f, 'lugPitch', 3)})${alike(f)}.`,
    try: (f) => `Get ${word(f, 'lugs')} rods, or lugs for ${word(f, 'rods')}.`,
    source: 'ISO 261, ASME B1.1: diameter and pitch must agree',
  },
  'rod-leans': {
    text: (f) =>
      `The rods lean ${measured(f, 1)} (${word(f, 'row')}): the ear is ${size(f, 'miss')} ${word(f, 'way')} over ${mm(f, 'free')} of free rod. Up to ${limit(f, 1)} is unseen.`,
    try: leanCure,
    source: PRACTICE,
  },
  'rod-binds': {
    text: (f) =>
      `The rods lean ${measured(f, 1)} (${word(f, 'row')}) and bind above ${limit(f, 1)}: the ear is ${size(f, 'miss')} ${word(f, 'way')} over ${mm(f, 'free')} of free rod.`,
    try: leanCure,
    source: PRACTICE,
  },
  'ears-mismatch': {
    text: (f) =>
      f.unit === 'deg'
        ? `The lugs are not where the ${num(f, 'ears', 0)} ears of the ${word(f, 'side')} hoop are: the lug at ${num(f, 'worst', 1)} deg is off by ${measured(f, 1)}.`
        : `The ${word(f, 'side')} hoop has ${num(f, 'ears', 0)} ears, but ${num(f, 'lugs', 0)} lugs serve it.`,
    try: (f) => `Lay out ${num(f, 'ears', 0)} lugs equally spaced, or get a hoop with ${num(f, 'lugs', 0)} ears.`,
    source: 'derived: every rod needs an ear and a lug',
  },
};

function leanCure(f: Fact): string {
  if (word(f, 'way') === 'sideways')
    return 'Space the lugs as the ears of the hoop, or get a hoop drilled for these lugs.';
  const miss = value(f, 'miss');
  return miss > 0
    ? `Bring the lugs out by ${size(f, 'miss')} (thicker gasket), or use a hoop with an ear circle of ${mm(f, 'line')} (now ${mm(f, 'circle')}).`
    : `Use lugs that stand ${size(f, 'miss')} lower, or a hoop with an ear circle of ${mm(f, 'line')} (now ${mm(f, 'circle')}).`;
}

const hoops: Record<string, Saying> = {
  'hoop-on-lug': {
    text: (f) =>
      `The ${word(f, 'part')} of the ${word(f, 'side')} hoop lands on the ${word(f, 'row')}: at full tension ${
        (f.measured ?? 0) < 0 ? `they overlap by ${trimmed(-(f.measured ?? 0), 1)} mm` : `only ${measured(f)} is left`
      }${word(f, 'part') === 'skirt' ? ` (lug top ${mm(f, 'top')} below the edge, skirt ${mm(f, 'skirt')}, travel ${mm(f, 'travel')}), ${limit(f)} must be` : ''}.`,
    try: (f) =>
      `Set these lugs ${atLeast(value(f, 'over'))} further from the ${word(f, 'side')} edge, or use a hoop whose ${word(f, 'part')} reaches ${atLeast(value(f, 'over'))} less far down.`,
    source: `derived; 1 mm of room: ${PRACTICE}`,
  },
  'hoop-over-foot': {
    text: (f) =>
      `The skirt of the ${word(f, 'side')} hoop comes down over the feet of the ${word(f, 'row')} (foot ${mm(f, 'top')} below the edge, skirt ${mm(f, 'skirt')}, travel ${mm(f, 'travel')}): it must stand clear of them sideways.`,
    try: (f) =>
      `Look at hoop and lug together, or set these lugs ${atLeast(value(f, 'over'))} further from the ${word(f, 'side')} edge.`,
    source: `derived; 1 mm of room: ${PRACTICE}`,
  },
  'hoop-near-fitting': {
    text: (f) =>
      `The ${word(f, 'part')} of the ${word(f, 'what')} ends ${measured(f)} from the ${word(f, 'side')} edge, and the hoop comes down to ${limit(f)}.`,
    try: (f) => `Move it ${atLeast(value(f, 'over'))} away from that edge, or make sure a gate of the hoop passes it.`,
    source: GEOMETRY,
  },
  'hoop-without-lugs': {
    text: (f) => `There is a ${word(f, 'side')} hoop with rods, but no row of lugs serves it.`,
    try: (f) =>
      `Add a row with edge: ${word(f, 'side')}, say ends: both if one lug takes both rods, or leave out hoops.${word(f, 'side')}.`,
    source: 'derived: every rod needs a lug',
  },
  'gate-not-over-strap': {
    text: (f) =>
      `No gate of the bottom hoop lies over the ${word(f, 'what')}: the nearest misses it by ${measured(f)} (gates at ${word(f, 'gates')}).`,
    try: (f) => `Turn the hoop or the gates to the ${word(f, 'what')}, or correct hoops.bottom.gates.`,
    source: GEOMETRY,
  },
};

const outlines: Record<string, Saying> = {
  'feet-overlap': {
    text: (f) => `The feet of ${word(f, 'one')} and ${word(f, 'other')} overlap by ${measured(f)}${others(f)}.`,
    try: (f) =>
      word(f, 'sameRow') === 'yes'
        ? `Use fewer lugs, or narrower ones: they need ${size(f, 'around')} more between them round the shell.`
        : `Move ${word(f, 'other')} by ${size(f, 'around')} (${trimmed(Math.abs(value(f, 'aroundDeg')), 1)} deg) ${value(f, 'around') > 0 ? 'to the right' : 'to the left'} or by ${size(f, 'upright')} ${value(f, 'upright') > 0 ? 'up' : 'down'}${[word(f, 'one'), word(f, 'other')].some((id) => id.startsWith('lug-')) ? ', or turn the lugs half a pitch' : ''}.`,
    source: GEOMETRY,
  },
  'feet-close': {
    text: (f) =>
      `Only ${measured(f)} between the feet of ${word(f, 'one')} and ${word(f, 'other')}${others(f)}; below ${limit(f)} drilling errors make them touch.`,
    try: (f) => `Move ${word(f, 'other')} a millimetre away if you can.`,
    source: PRACTICE,
  },
  'lever-over-lug': {
    text: (f) => `The open lever of the ${word(f, 'what')} sweeps over ${word(f, 'other')}${others(f)}.`,
    try: (f) => `Move the ${word(f, 'what')} or turn the lugs half a pitch.`,
    source: GEOMETRY,
  },
  'leg-rod-over-lug': {
    text: (f) => `The rod of ${f.at} runs over ${word(f, 'other')}${others(f)}.`,
    try: () => 'Put the leg between two lugs: at: { between: [i, j] }.',
    source: GEOMETRY,
  },
  'leg-rod-near-ear': {
    text: (f) =>
      `The rod of ${f.at} passes the bottom hoop ${measured(f)} from an ear; ear and rod head take ${limit(f)}.`,
    try: () => 'Put the leg between two lugs: at: { between: [i, j] }.',
    source: PRACTICE,
  },
  'foot-over-rim': {
    text: (f) => `The foot of ${f.at} reaches ${mm(f, 'over')} beyond the ${word(f, 'side')} edge${others(f)}.`,
    try: (f) =>
      `Set it ${atLeast(value(f, 'over'))} further from the ${word(f, 'side')} edge, or use a foot that is shorter there; check the edge and the unit of its distance.`,
    source: GEOMETRY,
  },
  'hole-over-rim': {
    text: (f) =>
      `The hole ${f.at} ${word(f, 'whole') === 'yes' ? 'lies' : `cuts ${mm(f, 'over')}`} beyond the ${word(f, 'side')} edge${others(f)}.`,
    try: (f) =>
      `Set it ${atLeast(value(f, 'over'))} further from the ${word(f, 'side')} edge; check the edge and the unit of its distance.`,
    source: GEOMETRY,
  },
  'hole-near-rim': {
    text: (f) =>
      `The hole ${f.at} leaves ${measured(f)} of wood to the ${word(f, 'side')} edge${others(f)}; less than half its diameter may split.`,
    try: (f) => `Set it ${atLeast((f.limit ?? 0) - (f.measured ?? 0))} further in.`,
    source: PRACTICE,
  },
  'hole-in-bed': {
    text: (f) =>
      `The hole ${f.at} cuts into a snare bed: it reaches down to ${measured(f)} above the bottom edge, the bed is ${limit(f)} deep there${others(f)}.`,
    try: (f) => `Set it ${atLeast(value(f, 'over'))} higher, or ${atLeast(value(f, 'inward'))} to the side of the bed.`,
    source: GEOMETRY,
  },
  'foot-in-bed': {
    text: (f) =>
      `The foot of ${f.at} hangs over a snare bed: it reaches down to ${measured(f)} above the bottom edge, the bed is ${limit(f)} deep there${others(f)}.`,
    try: (f) => `Set it ${atLeast(value(f, 'over'))} higher, or ${atLeast(value(f, 'inward'))} to the side of the bed.`,
    source: GEOMETRY,
  },
  'hole-outside-foot': {
    text: (f) =>
      `The hole ${f.at} ${word(f, 'whole') === 'yes' ? 'lies outside' : `shows ${mm(f, 'over')} beyond`} its own foot${others(f)}.`,
    try: (f) =>
      `Check spacing and layout against the foot: the foot must reach ${atLeast(value(f, 'over'))} further there, or the hole be that much nearer its middle.`,
    source: GEOMETRY,
  },
  'hole-under-foot': {
    text: (f) => `The hole ${f.at} lies under the foot of ${word(f, 'other')}${others(f)}.`,
    try: (f) =>
      `Move ${word(f, 'role') === 'vent' ? 'the vent between two lugs: at: { between: [i, j] }' : `one of the two by ${mm(f, 'over')}`}.`,
    source: GEOMETRY,
  },
  'holes-overlap': {
    text: (f) =>
      `The holes ${f.at} and ${word(f, 'hole')} run into each other: ${mm(f, 'apart')} between centres, ${mm(f, 'need')} needed${others(f)}.`,
    try: (f) =>
      word(f, 'same') === 'yes'
        ? 'Check spacing and drill of this pattern.'
        : `Move one of them by ${atLeast(-(f.measured ?? 0))} or more.`,
    source: GEOMETRY,
  },
  'holes-close': {
    text: (f) =>
      `Only ${measured(f)} of wood between ${f.at} and ${word(f, 'hole')}${others(f)}; less than ${limit(f)} may break out.`,
    try: () => 'Move one of them, or drill slowly with the wall backed up.',
    source: PRACTICE,
  },
  'hole-into-old-hole': {
    text: (f) =>
      word(f, 'inside') === 'yes'
        ? `The hole ${f.at} (${mm(f, 'drill')}) falls into ${word(f, 'other')}, which is ${mm(f, 'diameter')} wide already${others(f)}.`
        : `The hole ${f.at} runs into ${word(f, 'other')} (${mm(f, 'diameter')}): ${mm(f, 'apart')} between centres, ${mm(f, 'need')} needed; the drill would wander${others(f)}.`,
    try: () =>
      'Turn the whole layout clear of the old holes, or plug the old hole first and leave it out of the jig file.',
    source: GEOMETRY,
  },
  'old-hole-wider': {
    text: (f) => `${word(f, 'other')} is where ${f.at} goes, but ${measured(f)} wide, and ${limit(f)} is planned.`,
    try: () => 'Say drill: as wide as the old hole if washer and foot cover it, or plug it and drill anew.',
    source: GEOMETRY,
  },
  'old-hole-shows': {
    text: (f) =>
      `The foot of ${word(f, 'other')} covers ${f.at} (${mm(f, 'diameter')}) only in part: ${measured(f)} show.`,
    try: () => 'Plug it, or turn the layout until a foot covers it.',
    source: GEOMETRY,
  },
  'old-hole-open': {
    text: (f) => `${f.at} (${mm(f, 'diameter')}, ${mm(f, 'height')} up) stays open: nothing covers it or uses it.`,
    try: () => 'Plug it, use it for a fitting, or keep it as a vent.',
    source: GEOMETRY,
  },
  'old-hole-covered': {
    text: (f) => `${f.at} (${mm(f, 'diameter')}) is covered by a foot.`,
    try: () => '',
    source: GEOMETRY,
  },
  'old-hole-reused': {
    text: (f) => `${f.at} (${mm(f, 'diameter')}) is used by a new hole.`,
    try: () => '',
    source: GEOMETRY,
  },
  'hole-on-joint': {
    text: (f) =>
      `The hole ${f.at} meets the joint at ${num(f, 'joint', 2)} deg, ${measured(f)} from its centre${others(f)}.`,
    try: () => 'Turn the whole layout: --suggest searches for a turn that clears the joints.',
    source: PRACTICE,
  },
  'hole-on-ring-edge': {
    text: (f) =>
      `The hole ${f.at} is ${measured(f)} from the inner edge of the ${word(f, 'ring')} reinforcement ring (${mm(f, 'width')} wide)${others(f)}: its washer sits half on the ring.`,
    try: (f) => `Move it ${atLeast((f.limit ?? 0) - (f.measured ?? 0))} up or down.`,
    source: PRACTICE,
  },
  'hole-on-ring-joint': {
    text: (f) =>
      `The hole ${f.at} meets the glue joint of the ${word(f, 'ring')} ring at ${num(f, 'joint', 2)} deg${others(f)}.`,
    try: () => 'Turn the whole layout.',
    source: PRACTICE,
  },
  'foot-rocks': {
    text: (f) =>
      `A flat foot ${mm(f, 'across')} wide rocks on this shell: ${mm(f, 'gap', 2)} are open at its sides, the gasket takes up ${mm(f, 'taken', 2)}.`,
    try: (f) => `Use a gasket of ${atLeast(value(f, 'need'))}, or a foot curved to the shell.`,
    source: `derived: R - sqrt(R^2 - (w / 2)^2); half the gasket gives: ${PRACTICE}`,
  },
};

const snares: Record<string, Saying> = {
  'butt-not-opposite': {
    text: (f) =>
      `${word(f, 'butt')} at ${deg(f, 'buttAt')} is not opposite ${word(f, 'strainer')} at ${deg(f, 'strainerAt')}: off by ${measured(f, 2)}, ${mm(f, 'off')} round the shell.`,
    try: (f) => `Put ${word(f, 'butt')} at ${deg(f, 'want')}, or ${word(f, 'strainer')} at ${deg(f, 'wantStrainer')}.`,
    source: `derived: the snares cross the middle; 1 deg: ${PRACTICE}`,
  },
  'strap-askew': {
    text: (f) =>
      `The strap lines of ${word(f, 'strainer')} and ${word(f, 'butt')} are ${measured(f, 2)} from opposite (${mm(f, 'off')} round the shell).`,
    try: (f) => `Put ${word(f, 'butt')} at ${deg(f, 'want')}, or ${word(f, 'strainer')} at ${deg(f, 'wantStrainer')}.`,
    source: PRACTICE,
  },
  'strainer-not-at-snare-edge': { text: farText, try: farCure, source: 'derived: the snare edge is the bottom edge' },
  'butt-not-at-snare-edge': { text: farText, try: farCure, source: 'derived: the snare edge is the bottom edge' },
  'strainer-off-bed': {
    text: bedText,
    try: bedCure,
    source: `derived: beds lie at 0 and 180 deg; their middle half is flat: ${PRACTICE}`,
  },
  'butt-off-bed': {
    text: bedText,
    try: bedCure,
    source: `derived: beds lie at 0 and 180 deg; their middle half is flat: ${PRACTICE}`,
  },
  'strainer-off-line': {
    text: (f) => `${f.at} is at ${deg(f, 'at')}, but the strainer line is the 0 deg line everything is measured from.`,
    try: () => 'Put the strainer at 0 deg and turn everything else with it.',
    source: 'the datum of the jig file',
  },
  'snare-longer-than-shell': {
    text: (f) =>
      `The wires are ${measured(f)} from end plate to end plate, longer than the shell is wide (${limit(f)}).`,
    try: () => 'Measure the wires again, or check the unit.',
    source: 'derived',
  },
  'snare-long': {
    text: (f) =>
      `The wires are ${measured(f)} from end plate to end plate: their plates lie on the bearing edge (${limit(f)} between the crests).`,
    try: (f) => `Use wires of at most ${limit(f)}.`,
    source: PRACTICE,
  },
  'snare-implausible': {
    text: (f) =>
      `Wires of ${measured(f)} from end plate to end plate reach less than half across this shell (${mm(f, 'inside')} inside).`,
    try: () => 'Check the unit of snare.length.',
    source: PRACTICE,
  },
  'snare-short': {
    text: (f) =>
      `The wires are ${measured(f)} from end plate to end plate, short for this shell (${mm(f, 'inside')} inside).`,
    try: (f) => `Check the length; ${limit(f)} and more is usual.`,
    source: PRACTICE,
  },
};

function farText(f: Fact): string {
  return `${f.at} sits ${measured(f)} above the bottom edge (${mm(f, 'fromTop')} from the top): the snare edge is the bottom one, and it must sit within ${limit(f)} of it.`;
}

function farCure(f: Fact): string {
  return word(f, 'edge') === 'top'
    ? `Write edge: bottom if its distance of ${mm(f, 'distance')} was measured from the bottom edge, or bring it down to ${limit(f)}.`
    : `Check its distance of ${mm(f, 'distance')}, or bring it down to ${limit(f)}.`;
}

function bedText(f: Fact): string {
  return `${f.at} pulls at ${deg(f, 'at')}, ${measured(f)} round the shell from the middle of the nearest snare bed; up to ${limit(f)} lies in its flat part.`;
}

function bedCure(f: Fact): string {
  return word(f, 'role') === 'strainer'
    ? 'Put the strainer at 0 deg: beds lie at 0 and 180 deg.'
    : 'Put the butt at 180 deg: beds lie at 0 and 180 deg.';
}

const guess = (f: Fact): string => (has(f, 'misread') ? ` (this looks like a ${word(f, 'misread')})` : '');

const head: Record<string, Saying> = {
  'shell-too-large': {
    text: (f) =>
      `The shell is ${measured(f, 2)} across, larger than the ${num(f, 'inches', 2)} in (${limit(f)}) of its head: the head does not go on${guess(f)}.`,
    try: (f) =>
      `Measure the girth again (now ${mm(f, 'girth')}); else turn or sand the shell down by ${size(f, 'under')} and a little room, or use the next head size.`,
    source: 'derived: a head of nominal size goes over a shell of at most that size',
  },
  'shell-too-small': {
    text: (f) =>
      `The shell is ${measured(f, 2)} across, ${mm(f, 'under')} under the ${num(f, 'inches', 2)} in of its head: the head floats${guess(f)}.`,
    try: (f) =>
      `Measure the girth again (now ${mm(f, 'girth')}); else build the edge out to at least ${limit(f)}, or use the next smaller head.`,
    source: PRACTICE,
  },
  'shell-tight': {
    text: (f) =>
      `The shell is ${measured(f, 2)} across, only ${size(f, 'under')} under its head: it binds when the wood swells${guess(f)}.`,
    try: (f) => `Sand the shell to at most ${limit(f)} at the edges, or check the girth.`,
    source: PRACTICE,
  },
  'shell-loose': {
    text: (f) => `The shell is ${measured(f, 2)} across, ${mm(f, 'under')} under its head, more than usual${guess(f)}.`,
    try: () => 'Measure the girth again; centre the head before tightening.',
    source: PRACTICE,
  },
  'shell-too-large-for-hoop': {
    text: (f) =>
      `The shell is ${measured(f, 2)} across, the ${word(f, 'side')} hoop ${limit(f, 2)} inside: it does not go over.`,
    try: () => 'Measure both again, or use the hoop of the next size.',
    source: 'derived',
  },
  'wall-implausible': {
    text: (f) =>
      word(f, 'way') === 'thin'
        ? `A wall of ${measured(f, 2)} is thinner than sheet metal (${limit(f)}).`
        : `A wall of ${measured(f)} is more than three tenths of the radius (${limit(f)}).`,
    try: (f) =>
      word(f, 'way') === 'thin'
        ? `Check the unit: the same number in inches is ${mm(f, 'inches')}.`
        : 'Check the unit: centimetres or inches may have been taken for millimetres.',
    source: PRACTICE,
  },
  'bed-narrow': {
    text: (f) => `A snare bed ${measured(f)} wide is narrower than a strap (${limit(f)}).`,
    try: () => 'Check the unit of beds.width.',
    source: PRACTICE,
  },
  'bed-deep': {
    text: (f) => `A snare bed ${measured(f)} deep is unusual; ${limit(f)} and less is common.`,
    try: () => 'Check the unit of beds.depth.',
    source: PRACTICE,
  },
  'vent-wide': {
    text: (f) => `A vent of ${measured(f)} is unusually wide (up to ${limit(f)} is common).`,
    try: () => 'Check the unit of its drill.',
    source: PRACTICE,
  },
  'lug-counts-differ': {
    text: (f) => `${limit(f, 0)} lugs serve the top hoop, but ${measured(f, 0)} the bottom one.`,
    try: () => 'Check the counts of the rows against both hoops.',
    source: PRACTICE,
  },
  'edges-uncut': {
    text: () => 'The bearing edges are not cut yet: cutting them moves every height that is measured from an edge.',
    try: () => 'Cut the edges first, or measure every row from the same uncut edge and cut nothing off the depth.',
    source: PRACTICE,
  },
  'out-of-round': {
    text: (f) => `The shell is ${measured(f)} out of round; up to ${limit(f)} passes unseen.`,
    try: () => 'Clamp it round before marking, and try the head on both edges.',
    source: PRACTICE,
  },
  'out-of-square': {
    text: (f) => `The shell's depth differs by ${measured(f)}; up to ${limit(f)} is usual.`,
    try: () => 'Level the edges before marking; each row is measured from its own edge.',
    source: PRACTICE,
  },
  'skin-added': {
    text: (f) =>
      `The skin of ${measured(f, 2)} is added to the radius: the shell is drilled at ${mm(f, 'diameter', 2)} across.`,
    try: () => '',
    source: 'the jig file',
  },
  'shell-outside-batch': {
    text: (f) =>
      `The girth of this shell, ${measured(f)}, lies outside the batch (${mm(f, 'least')} to ${mm(f, 'most')}).`,
    try: () => 'Check the girth, or widen batch.girth.',
    source: 'the jig file',
  },
  contradiction: {
    text: (f) => `${word(f, 'one')} says ${measured(f)} and ${word(f, 'other')} says ${limit(f)}: ${word(f, 'what')}.`,
    try: (f) => `Measure ${word(f, 'one')} and ${word(f, 'other')} again; one of them may be in the wrong unit.`,
    source: 'derived: both cannot be true',
  },
};

const seriesWords = (f: Fact): string => {
  const series = word(f, 'series');
  return series.startsWith('wider than ')
    ? `${series.replace('wider than', 'wider than the')} series`
    : `the ${series} series`;
};

const lengthParts = (f: Fact): string =>
  `wall ${mm(f, 'wall')}${value(f, 'ring') > 0 ? ` + ring ${mm(f, 'ring')}` : ''}${value(f, 'gasket') > 0 ? ` + gasket ${mm(f, 'gasket')}` : ''}${value(f, 'washer') > 0 ? ` + washer ${mm(f, 'washer')}` : ''} = ${mm(f, 'grip')}`;

function screwCure(f: Fact): string {
  const to = word(f, 'to') === 'open' ? 'or more' : `to ${atMost(value(f, 'to'))}`;
  const shops =
    word(f, 'sold') === 'none' ? 'no usual length lies there; add or take away a washer' : `sold as ${word(f, 'sold')}`;
  return `Use screws of ${atLeast(value(f, 'from'))} ${to} under the head (${shops}).`;
}

const screws: Record<string, Saying> = {
  'hole-smaller-than-screw': {
    text: (f) =>
      `A ${measured(f, 2)} hole does not let a ${word(f, 'screw')} screw (${limit(f, 2)}) through${alike(f)}.`,
    try: (f) =>
      `Drill ${mm(f, 'medium', 2)} (${word(f, 'drill')}), at least ${mm(f, 'fine', 2)}, or use a thinner screw.`,
    source: 'ISO 273:1979; US shop practice for Unified screws',
  },
  'hole-tight': {
    text: (f) =>
      `A ${measured(f, 2)} hole is tighter for ${word(f, 'screw')} than the closest series (${limit(f, 2)}, ${word(f, 'standard')}): every hole must be exactly in place${alike(f)}.`,
    try: (f) => `Drill ${mm(f, 'medium', 2)} (${word(f, 'drill')}).`,
    source: 'ISO 273:1979; US shop practice for Unified screws',
  },
  'hole-swallows-screw': {
    text: (f) =>
      `A ${measured(f, 2)} hole is wider than the widest washer sold for ${word(f, 'screw')} (${limit(f)}): screw and washer fall through${alike(f)}.`,
    try: (f) => `Drill ${mm(f, 'medium', 2)} (${word(f, 'drill')}); check the unit of drill.`,
    source: 'ISO 7093 large washers: three diameters across (from memory)',
  },
  'hole-wider-than-washer': {
    text: (f) =>
      `A ${measured(f, 2)} hole is as wide as the plain washer of ${word(f, 'screw')} (${limit(f)}): the head pulls through.`,
    try: (f) => `Drill ${mm(f, 'medium', 2)} (${word(f, 'drill')}), or use wide washers.`,
    source: 'ISO 7089:2000',
  },
  'hole-for-screw': {
    text: (f) =>
      `${measured(f, 2)} holes for ${word(f, 'screw')}: ${seriesWords(f)} of ${word(f, 'standard')}${alike(f)}.`,
    try: () => '',
    source: 'ISO 273:1979; US shop practice for Unified screws',
  },
  'drill-not-on-sale': {
    text: (f) => `No drill of ${measured(f, 2)} is on sale; the nearest is ${word(f, 'nearest')}${alike(f)}.`,
    try: (f) =>
      `Use ${word(f, 'nearest')}${has(f, 'under') ? `; the next sizes are ${word(f, 'under')} and ${word(f, 'over')}` : ''}.`,
    source: 'ASME B94.11M; ISO 235 (from memory)',
  },
  'parallel-screws-bind': {
    text: (f) =>
      `The screws stand parallel, ${mm(f, 'across')} off the line: in holes that point to the axis they tilt ${num(f, 'tilt', 1)} deg and walk ${mm(f, 'walk', 2)} through the wall. The hole is ${measured(f, 2)}, it takes ${limit(f, 2)}.`,
    try: (f) => `Drill these holes parallel to each other, or open them to ${limit(f, 2)} (${word(f, 'drill')}).`,
    source: 'derived: asin(x / R), x wall / R',
  },
  'screw-too-short': {
    text: (f) =>
      `${word(f, 'screw')} at ${f.at}: ${(f.measured ?? 0) <= 0 ? 'does not reach the casting' : `holds ${measured(f)} of thread`}, ${limit(f)} are needed (${lengthParts(f)})${alike(f)}.`,
    try: screwCure,
    source: `${PRACTICE} (one diameter)`,
  },
  'screw-holds-little': {
    text: (f) =>
      `${word(f, 'screw')} at ${f.at} holds ${measured(f)} of thread; one and a half diameters are ${limit(f)} (${lengthParts(f)})${alike(f)}.`,
    try: screwCure,
    source: PRACTICE,
  },
  'screw-bottoms': {
    text: (f) =>
      `${word(f, 'screw')} at ${f.at} bottoms: ${measured(f)} go into the casting, it is tapped ${limit(f)} deep (${lengthParts(f)}). The fitting stays loose${alike(f)}.`,
    try: screwCure,
    source: 'derived: wall, ring, gasket and washer against the tapped depth',
  },
  'two-screw-lengths': {
    text: (f) =>
      `One screw length does not serve all holes here: ${word(f, 'thick')} passes a ring of ${mm(f, 'ring')}, ${word(f, 'thin')} does not.`,
    try: (f) =>
      `Buy two lengths: ${word(f, 'forThick')} for ${word(f, 'thick')}, ${word(f, 'forThin')} for ${word(f, 'thin')}; or even them out with a washer.`,
    source: 'derived',
  },
  'thread-in-casting-short': {
    text: (f) => `The casting is tapped only ${measured(f)} deep; one diameter is ${limit(f)}${alike(f)}.`,
    try: () => 'Check tapped: measure how deep the screw turns in.',
    source: PRACTICE,
  },
};

/** The equations and the table they are fed with. */
const WOOD_SOURCE = 'Wood Handbook FPL-GTR-282 equation 4-5 and FPL-GTR-190 table 13-5';

const grows = (f: Fact, key: string): string =>
  `${value(f, key) < 0 ? 'shrinks' : 'grows'} by ${trimmed(Math.abs(value(f, key)), 2)} mm`;
const fromHere = (f: Fact): string =>
  `From the workshop (${num(f, 'from', 1)} % moisture) to its home (${num(f, 'to', 1)} %)`;

const seasons: Record<string, Saying> = {
  'season-movement': {
    text: (f) =>
      `${fromHere(f)} the girth ${grows(f, 'girth')} (at most ${trimmed(Math.abs(value(f, 'girthMost')), 2)}), the diameter ${grows(f, 'diameter')}, the depth ${grows(f, 'depth')}.`,
    try: () => '',
    source: WOOD_SOURCE,
  },
  'season-head-binds': {
    text: (f) =>
      `${fromHere(f)} the shell may grow to ${measured(f, 1)} across; its ${mm(f, 'nominal')} head is tight above ${limit(f)}.`,
    try: (f) =>
      `Let the wood settle at home before fitting, or sand ${atLeast((f.measured ?? 0) - (f.limit ?? 0))} off the diameter at the edges.`,
    source: WOOD_SOURCE,
  },
  'season-head-floats': {
    text: (f) =>
      `${fromHere(f)} the shell may shrink to ${measured(f, 1)} across; its ${mm(f, 'nominal')} head is loose below ${limit(f)}.`,
    try: () => 'Let the wood settle at home before turning it to size.',
    source: WOOD_SOURCE,
  },
  'season-collar': {
    text: (f) =>
      `The shell's radius may change by ${measured(f, 2)} with the climate, more than the ${limit(f, 2)} clearance of the collar.`,
    try: (f) =>
      `Drill in the climate the collar was cut for, or give the collar ${trimmed(Math.ceil((f.measured ?? 0) * 10) / 10, 1)} mm of clearance and shims.`,
    source: WOOD_SOURCE,
  },
  'season-out-of-round': {
    text: (f) => `${fromHere(f)} the shell may go ${measured(f)} out of round at worst.`,
    try: () => 'Let the wood settle at home, and true it up before marking.',
    source: `${WOOD_SOURCE}; mixed sawing at its worst, derived`,
  },
};

export const fitSayings: Readonly<Record<string, Saying>> = {
  ...seasons,
  ...rods,
  ...hoops,
  ...outlines,
  ...snares,
  ...head,
  ...screws,
  'not-checked': {
    text: (f) => `Not checked: ${word(f, 'check')}${alike(f)}. Needs ${word(f, 'needs')}.`,
    try: (f) => `Add ${word(f, 'needs')} to the jig file.`,
    source: 'the jig file',
  },
};
