import type { Fact, Saying } from '../model/finding.ts';
import { limit, measured, num, PRACTICE, word } from './saying.ts';

const part = (f: Fact): string => word(f, 'part');

/** Sentences of the wrap, its kerf, its sheets and its cards. */
export const wrapSayings: Readonly<Record<string, Saying>> = {
  'wrap-too-stiff': {
    text: (f) =>
      f.limit === null
        ? `${word(f, 'material')} does not bend round a shell of ${measured(f)} radius: it is no sheet for a wrap`
        : `${word(f, 'material')} breaks when bent tighter than ${limit(f)} radius, and the shell's is ${measured(f)}`,
    try: () => 'take card-1, or mark from wrap.pdf; slotted sheets are no way out, they stretch at every slot',
    source: 'derived: strain t / 2R; limits common practice, no source',
  },
  'wrap-sheet-slotted': {
    text: (f) =>
      `${word(f, 'material')} is slotted to bend, and stretches at every slot: its holes would not land where they are drawn`,
    try: () => 'take plain card or film for positions',
    source: PRACTICE,
  },
  'wrap-sheet-too-small': {
    text: (f) =>
      `no piece of the wrap fits the ${word(f, 'sheet')} of ${num(f, 'sheetWidth')} x ${num(f, 'sheetHeight')} mm: ${
        Math.min(Number(f.facts?.['width']), Number(f.facts?.['height'])) > 0
          ? `its margins, the strip of names and the kerf leave ${num(f, 'width')} x ${num(f, 'height')} mm`
          : 'its margins, the strip of names and the kerf leave nothing'
      }, and the shell is ${measured(f)} deep`,
    try: () => 'choose a larger sheet, look that its profile is in millimetres, or mark from wrap.pdf',
    source: 'derived',
  },
  'wrap-in-many-pieces': {
    text: (f) =>
      `the wrap is cut into ${f.measured} pieces to fit the ${word(f, 'sheet')} of ${num(f, 'width')} x ${num(f, 'height')} mm`,
    try: (f) =>
      `look that the profile of the sheet is in millimetres (in centimetres it is ${10 * Number(f.facts?.['width'])} x ${10 * Number(f.facts?.['height'])}), choose a larger sheet, or mark from wrap.pdf`,
    source: 'judgement, no source',
  },
  'wrap-seam-on-hole': {
    text: (f) =>
      `the wrap's joint at ${num(f, 'angle', 2)} deg lies ${measured(f)} from hole ${word(f, 'what')}; the edge tears below ${limit(f)}`,
    try: () => 'leave `seam-at` out and a free place is searched, or move it',
    source: PRACTICE,
  },
  'wrap-seam-on-outline': {
    text: (f) =>
      `the wrap's joint at ${num(f, 'angle', 2)} deg crosses ${word(f, 'what')}: no place round the shell is free of outlines`,
    try: () => 'a larger sheet needs fewer joints',
    source: 'derived',
  },
  'wrap-words-left-out': {
    text: (f) => `${num(f, 'count', 0)} labels found no room on the wrap, the first of them "${word(f, 'first')}"`,
    try: () => 'the hole table names every hole by its number and id',
    source: 'derived',
  },
  'letters-unknown': {
    text: (f) =>
      `"${word(f, 'name')}" has characters the engraver has no strokes for (${word(f, 'letters')}): they are drawn as a barred box`,
    try: () => 'write the name in Latin letters if it must be read on the parts',
    source: 'derived',
  },
  'letters-need-a-point': {
    text: (f) =>
      `a cutter that takes ${measured(f, 2)} cannot write: names are drawn for a line of up to ${limit(f, 2)}`,
    try: () => 'run layer ENGRAVE with a pointed bit or a pen, just into the surface',
    source: PRACTICE,
  },
  'closing-mark-left-out': {
    text: () => 'something stands so near to both sides of the seam that the closing mark found no room there',
    try: () =>
      'leave `seam-at` out and a free place is searched, or measure over the closed seam from one lug line to the next',
    source: 'derived',
  },
  'paper-grows': {
    text: (f) =>
      `paper grows about ${num(f, 'percent')} % when damp: ${measured(f)} over the full turn of ${num(f, 'turn')} mm. Check the closing mark on the shell before drilling`,
    try: () => 'print, cut and mark in one dry hour; if the closing mark is off, print again with --printer-measured',
    source: PRACTICE,
  },
  'feature-under-kerf': {
    text: (f) =>
      f.facts?.['count'] !== undefined
        ? `${num(f, 'count', 0)} features are narrower than the beam's ${limit(f, 2)}${f.measured === null ? '' : `, the narrowest ${measured(f, 2)}`}, and would burn away or close up: ${word(f, 'features')} (${word(f, 'parts')})`
        : f.measured === null
          ? `${part(f)}: ${word(f, 'feature')} has a place narrower than the beam's ${limit(f, 2)}; it would burn away or close up`
          : `${part(f)}: ${word(f, 'feature')} is ${measured(f, 2)} across, narrower than the beam's ${limit(f, 2)}`,
    try: (f) => `make it wider than ${limit(f, 2)}, or cut it with a finer beam`,
    source: 'derived',
  },
  'bridge-too-thin': {
    text: (f) =>
      word(f, 'other') === word(f, 'feature') && f.measured === null
        ? `${part(f)}: ${word(f, 'feature')} has a tab or neck of material narrower than ${limit(f, 2)}; below that it burns away`
        : `${part(f)}: only ${f.measured === null ? `less than ${limit(f, 2)}` : measured(f, 2)} of material between ${word(f, 'other') === word(f, 'feature') ? `one ${word(f, 'feature')} and another` : `${word(f, 'other')} and ${word(f, 'feature')}`}; below ${limit(f, 2)} it burns away`,
    try: () => 'move them apart, or choose punch marks (`marks: punch`) for the wrap',
    source:
      'lines nearer than 0.5 mm may burn away, details under 1 mm are fragile: workshop artwork guides, common practice',
  },
  'part-larger-than-sheet': {
    text: (f) =>
      `${part(f)} is ${num(f, 'width')} x ${num(f, 'height')} mm and the ${word(f, 'sheet')} takes ${num(f, 'roomWidth')} x ${num(f, 'roomHeight')} mm between its margins`,
    try: () => 'choose a larger sheet',
    source: 'derived',
  },
  'forbidden-in-laser': {
    text: (f) => `${word(f, 'material')} must never go into a laser (${word(f, 'kind')}): ${word(f, 'reason')}`,
    try: () => 'cut it with a knife or a saw, or take card, birch ply, MDF or cast acrylic',
    source: 'rules published by makerspaces and laser services (common practice); ISO 11553-1 from memory',
  },
  'paper-too-small': {
    text: (f) => `${word(f, 'paper')} has no room for a tile between its margins and what neighbouring tiles share`,
    try: () => 'choose a larger page, a smaller margin or a smaller overlap',
    source: 'derived',
  },
  'coupon-impossible': {
    text: (f) =>
      `${num(f, 'slips', 0)} slips side by side read ${num(f, 'reading', 2)} mm, and were drawn ${num(f, 'drawn', 0)} mm: the beam cannot have left that`,
    try: () => 'measure again, all slips in one reading, without the frame',
    source: 'derived',
  },
  'coupon-unlikely': {
    text: (f) => `a kerf of ${measured(f, 2)} is not what a laser leaves (0.05 to 0.5 mm)`,
    try: () => 'count the slips and measure again; a beam out of focus cuts wide',
    source: 'workshop artwork guides, common practice',
  },
  'coupon-no-slot': {
    text: (f) => `there is no slot ${measured(f, 0)} on the coupon: they are numbered 1 to ${limit(f, 0)}`,
    try: () => 'give the number engraved above the narrowest slot that a slip slides into',
    source: 'derived',
  },
};
