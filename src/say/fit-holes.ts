import type { Saying } from '../model/finding.ts';
import { atLeast, atMost, GEOMETRY, mm, others, value } from './fit-words.ts';
import { limit, measured, num, PRACTICE, word } from './saying.ts';

/** Holes against feet, holes, joints and rings. */
export const holeSayings: Record<string, Saying> = {
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
      `Move ${word(f, 'role') === 'vent' ? 'the vent' : 'one of the two'} by ${atLeast(value(f, 'over'))}${word(f, 'role') === 'vent' ? ', best between two lugs: at: { between: [i, j] }' : ''}.`,
    source: GEOMETRY,
  },
  'holes-overlap': {
    text: (f) =>
      `The holes ${f.at} and ${word(f, 'hole')} run into each other: ${mm(f, 'apart')} between centres, ${mm(f, 'need')} needed${others(f)}.`,
    try: (f) =>
      word(f, 'same') === 'yes'
        ? `Space them ${atLeast(value(f, 'need'))} or more, or drill ${atMost(value(f, 'apart'))} or less; check spacing and drill of this pattern.`
        : `Move one of them by ${atLeast(-(f.measured ?? 0))} or more.`,
    source: GEOMETRY,
  },
  'holes-close': {
    text: (f) =>
      `Only ${measured(f)} of wood between ${f.at} and ${word(f, 'hole')}${others(f)}; less than ${limit(f)} may break out.`,
    try: (f) =>
      `Move one of them by ${atLeast((f.limit ?? 0) - (f.measured ?? 0))}, or drill slowly with the wall backed up.`,
    source: PRACTICE,
  },
  'hole-into-old-hole': {
    text: (f) =>
      word(f, 'inside') === 'yes'
        ? `The hole ${f.at} (${mm(f, 'drill')}) falls into ${word(f, 'other')}, which is ${mm(f, 'diameter')} wide already${others(f)}.`
        : `The hole ${f.at} runs into ${word(f, 'other')} (${mm(f, 'diameter')}): ${mm(f, 'apart')} between centres, ${mm(f, 'need')} needed; the drill would wander${others(f)}.`,
    try: (f) =>
      `Turn the whole layout ${atLeast(value(f, 'need') - value(f, 'apart'))} or more round the shell, clear of the old holes, or plug the old hole first and leave it out of the jig file.`,
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
    try: (f) =>
      `Turn the whole layout by ${atLeast((f.limit ?? 0) - (f.measured ?? 0))} or more round the shell: --suggest searches for a turn that clears all joints.`,
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
    try: (f) => `Turn the whole layout by ${atLeast((f.limit ?? 0) - (f.measured ?? 0))} or more round the shell.`,
    source: PRACTICE,
  },
  'foot-rocks': {
    text: (f) =>
      `A flat foot ${mm(f, 'across')} wide rocks on this shell: ${mm(f, 'gap', 2)} are open at its sides, the gasket takes up ${mm(f, 'taken', 2)}.`,
    try: (f) => `Use a gasket of ${atLeast(value(f, 'need'))}, or a foot curved to the shell.`,
    source: `derived: R - sqrt(R^2 - (w / 2)^2); half the gasket gives: ${PRACTICE}`,
  },
};
