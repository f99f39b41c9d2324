import type { Fact, Saying } from '../model/finding.ts';
import { alike, atLeast, atMost, CYLINDER, GEOMETRY, has, mm, size, value } from './fit-words.ts';
import { limit, measured, num, PRACTICE, trimmed, word } from './saying.ts';

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

/** Rods, threads, ears. */
export const rodSayings: Record<string, Saying> = {
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

/** Hoops over lugs, fittings and straps. */
export const hoopSayings: Record<string, Saying> = {
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
  'hoop-on-lever': {
    text: (f) =>
      `The ${word(f, 'part')} of the ${word(f, 'what')} ends ${measured(f)} from the ${word(f, 'side')} edge, and the hoop comes down to ${limit(f)}: the one hits the other.`,
    try: (f) =>
      `Move the ${word(f, 'what')} ${atLeast(value(f, 'over'))} away from that edge, or use a hoop whose skirt reaches ${atLeast(value(f, 'over'))} less far down; if a gate passes it, say so in hoops.${word(f, 'side')}.gates; if the lever runs outside the hoop, in lever: { clear }.`,
    source: GEOMETRY,
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
    try: (f) =>
      `Turn the hoop by ${measured(f)} so that a gate comes over the ${word(f, 'what')}, or correct hoops.bottom.gates.`,
    source: GEOMETRY,
  },
};
