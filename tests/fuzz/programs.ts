import fc from 'fast-check';
import { dryRun } from '../../src/dryrun/dry-run.ts';
import type { Fact } from '../../src/model/finding.ts';
import { dryRunSayings } from '../../src/say/dryrun.ts';
import { context, plan, soundProgram } from '../helpers/drill-program.ts';
import { bytes, bytesOf, mutationsOf } from './edits.ts';
import type { Fuzzed } from './suite.ts';

/** Every fact must be sayable: no hole left in its sentences. */
export function sayable(facts: readonly Fact[]): void {
  for (const fact of facts) {
    const saying = dryRunSayings[fact.id];
    if (saying === undefined) throw new Error(`no sentence for ${fact.id}`);
    // What the program says itself stands in quotes, and may be anything.
    const words = `${saying.text(fact)} ${saying.try(fact)}`.replace(/“.*?”/gs, '“”');
    if (/undefined|NaN|\?|Infinity|\[object/.test(words)) throw new Error(`${fact.id} says: ${words}`);
  }
}

const letter = fc.constantFrom(...'GMXYZABCFSTPQRLIJKHDNEOUVW');
const number = fc.oneof(
  fc.integer({ min: -200, max: 200 }).map(String),
  fc.double({ min: -400, max: 400, noNaN: true }).map((n) => n.toFixed(3)),
  fc.constantFrom(
    '',
    '.',
    '-',
    '+',
    '1e999',
    '1e3',
    '99999999999999999999999',
    '0.0000000000000000000000000001',
    '--1',
    '1.2.3',
    '#1',
    '[1+2]',
  ),
);
const word = fc.tuple(letter, number).map(([l, n]) => l + n);
const code = fc.constantFrom(
  'G0',
  'G1',
  'G2',
  'G3',
  'G4',
  'G81',
  'G83',
  'G80',
  'G90',
  'G91',
  'G20',
  'G21',
  'G17',
  'G18',
  'G19',
  'G92',
  'G28',
  'G10 L2 P1',
  'G53',
  'G93',
  'G94',
  'G98',
  'G99',
  'G64',
  'M3',
  'M5',
  'M6',
  'M0',
  'T3',
  'S1500',
  'F200',
  'G55',
  'G43 H3',
);
const coordinate = fc
  .tuple(fc.constantFrom(...'XYZARIJKQFP'), fc.integer({ min: -90, max: 160 }))
  .map(([l, n]) => `${l}${n}`);
const line = fc.oneof(
  fc.array(word, { maxLength: 8 }).map((w) => w.join(' ')),
  fc.tuple(code, fc.array(coordinate, { maxLength: 5 })).map(([c, w]) => [c, ...w].join(' ')),
  fc.constantFrom('%', '/', '(', ')', '((', '; note', '(ok)', '\0', '\ufeffG0', 'M2', 'é X1', '(Ø 6)'),
);

/** Lines made of words, right and wrong. */
const lines = fc.array(line, { maxLength: 60 }).map((all) => bytesOf(all.join('\n')));

/** A drum of a few holes, so that a million programs for it take minutes; its vent is bored, which takes longest. */
const full = plan();
const layout = { ...full, holes: full.holes.filter((h) => /^(lug-[12]-a|strainer-.|vent)$/.test(h.id)) };
const C = context({ layout });
const DRILLED = context({ layout: { ...layout, holes: layout.holes.filter((h) => h.id !== 'vent') } });
const SOUND = [
  soundProgram(C),
  soundProgram(DRILLED),
  soundProgram(DRILLED, { cycles: true }),
  soundProgram(DRILLED, { inch: true }),
  soundProgram(DRILLED, { inch: true, cycles: true }),
].map((l) => `${l.join('\n')}\n`);

/** Sound programs with bytes, digits, letters and lines changed, lost, doubled and swapped. */
const mutated = mutationsOf(SOUND);

/** Programs: none may crash the dry run, hang it, leave it without a word, or make it say nonsense. */
export const programs: Fuzzed<string> = {
  name: 'programs',
  short: 250,
  inputs: fc.oneof({ weight: 3, arbitrary: mutated }, { weight: 2, arbitrary: lines }, { weight: 1, arbitrary: bytes }),
  holds(text) {
    // Taking the wood away is slower: not for every program.
    const { value, facts } = dryRun([Buffer.from(text, 'latin1')], { ...C, removal: text.length % 16 === 0 });
    sayable(facts);
    if (facts.length > 2000) throw new Error(`${facts.length} facts`);
    if (!(value.seconds >= 0 && Number.isFinite(value.seconds))) throw new Error(`${value.seconds} seconds`);
    if (facts.length === 0 && value.inPlace < layout.holes.length) throw new Error('holes missing, and not a word');
  },
};
