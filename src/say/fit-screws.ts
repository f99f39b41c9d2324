import type { Fact, Saying } from '../model/finding.ts';
import { alike, atLeast, atMost, has, mm, value } from './fit-words.ts';
import { limit, measured, num, PRACTICE, word } from './saying.ts';

const seriesWords = (f: Fact): string => {
  const series = word(f, 'series');
  return series.startsWith('wider than ')
    ? `${series.replace('wider than', 'wider than the')} series`
    : `the ${series} series`;
};

const lengthParts = (f: Fact): string =>
  `${has(f, 'through') ? `casting ${mm(f, 'through')} + ` : ''}wall ${mm(f, 'wall')}${value(f, 'ring') > 0 ? ` + ring ${mm(f, 'ring')}` : ''}${value(f, 'gasket') > 0 ? ` + gasket ${mm(f, 'gasket')}` : ''}${value(f, 'washer') > 0 ? ` + washer ${mm(f, 'washer')}` : ''} = ${mm(f, 'grip')}`;

/** The size to drill, and the name it is sold by where that is another. */
function drillWords(f: Fact): string {
  const [size, name] = [mm(f, 'medium', 2), word(f, 'drill')];
  return name === size ? size : `${size} (${name})`;
}

function screwCure(f: Fact): string {
  const to = word(f, 'to') === 'open' ? 'or more' : `to ${atMost(value(f, 'to'))}`;
  const shops =
    word(f, 'sold') === 'none' ? 'no usual length lies there; add or take away a washer' : `sold as ${word(f, 'sold')}`;
  return `Use screws of ${atLeast(value(f, 'from'))} ${to} under the head (${shops}).`;
}

/** Screws, their holes and drills. */
export const screwSayings: Record<string, Saying> = {
  'hole-smaller-than-screw': {
    text: (f) =>
      `A ${measured(f, 2)} hole does not let ${word(f, 'screw')} screws (${limit(f, 2)}) through${alike(f)}.`,
    try: (f) => `Drill ${drillWords(f)}, at least ${mm(f, 'fine', 2)}, or use a thinner screw.`,
    source: 'ISO 273:1979; US shop practice for Unified screws',
  },
  'hole-tight': {
    text: (f) =>
      `A ${measured(f, 2)} hole is tighter for ${word(f, 'screw')} than the closest series (${limit(f, 2)}, ${word(f, 'standard')}): every hole must be exactly in place${alike(f)}.`,
    try: (f) => `Drill ${drillWords(f)}.`,
    source: 'ISO 273:1979; US shop practice for Unified screws',
  },
  'hole-wider-than-washer': {
    text: (f) =>
      `A ${measured(f, 2)} hole is as wide as the plain washer of ${word(f, 'screw')} (${limit(f)}): the head pulls through.`,
    try: (f) =>
      `Drill ${mm(f, 'medium', 2)} (${word(f, 'drill')}), or use wide washers or a backing plate; check the unit of drill.`,
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
      `${word(f, 'screw')} at ${f.at}: ${(f.measured ?? 0) <= 0 ? `does not reach the ${has(f, 'nut') ? 'nut' : 'casting'}` : `holds ${measured(f)} of thread`}, ${limit(f)} are needed (${lengthParts(f)})${alike(f)}.`,
    try: screwCure,
    source: `${PRACTICE} (one diameter in a casting, all of a nut)`,
  },
  'screw-sticks-out': {
    text: (f) =>
      `${word(f, 'screw')} at ${f.at} stands ${measured(f)} out of its nut inside the shell (${lengthParts(f)}, nut ${mm(f, 'nut')})${alike(f)}; up to ${limit(f)} is usual.`,
    try: screwCure,
    source: PRACTICE,
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
    try: (f) => `${screwCure(f).slice(0, -1)}, or put ${atLeast(value(f, 'over'))} of washers more under the head.`,
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
