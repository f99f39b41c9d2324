import fc from 'fast-check';
import { stringify } from 'yaml';
import { machineProfile, materialProfile, paperProfile, sheetProfile } from '../../src/jig/profile.ts';
import { resolveJig } from '../../src/jig/resolve.ts';
import { parseText } from '../../src/jig/text.ts';
import { programAgain, recompute, sheetsAgain } from '../../src/jobs/recompute.ts';
import { bytes, bytesOf, mutationsOf } from './edits.ts';
import { complained, told } from './said.ts';
import type { Fuzzed } from './suite.ts';
import { changed } from './trees.ts';

/** One profile file and what it is given as. */
interface Given {
  readonly kind: Kind;
  readonly text: string;
}
type Kind = 'sheet' | 'material' | 'paper' | 'machine' | 'accuracy';

const SOUND: Readonly<Record<Kind, object>> = {
  sheet: {
    profile: 'sheet',
    like: 'laser-600x400',
    width: 600,
    height: 400,
    margin: 5,
    spacing: 3,
    bridge: 4,
    kerf: 0.2,
    speeds: { cut: 12, score: 60, engrave: 200, travel: 300, pierce: 0.2 },
    lines: { 'CUT-OUTER': { colour: '#ff0000', weight: 0.1 } },
  },
  material: { profile: 'material', like: 'birch-ply-6', thickness: 5.9, neutral: 0.5, kerf: 0.2, fit: 0.1, bends: 200 },
  paper: { profile: 'paper', like: 'a4', width: 210, height: 297, margin: 8, overlap: 12 },
  machine: {
    profile: 'machine',
    like: 'rotary-fast',
    spindle: { min: 3000, max: 18000, watts: 800, seconds: 4, collet: 8 },
    swing: 420,
    travel: { x: [-20, 600], y: [-50, 50], z: [-60, 100] },
    'has-y': true,
    rapid: { x: 4000, y: 4000, z: 2000, a: 7200 },
    feed: 2500,
    acceleration: { x: 300, y: 300, z: 200, a: 1000 },
    a: 'reversed',
    rotary: [-360, 720],
    'steps-per-turn': 12800,
    'tool-change': 'hand',
    'tool-change-seconds': 60,
    understands: {
      cycles: true,
      'inverse-time': false,
      arcs: true,
      'line-numbers': true,
      comments: 'semicolon',
      decimals: 3,
    },
    proven: [{ kind: 'brad-point', diameter: 6, wood: 'sugar-maple', speed: 2500, feed: 120, peck: 3 }],
    fixture: { hold: 'plates', chuck: 15, tailstock: 15, mandrel: 20, 'keep-out': [{ from: 300, to: 310 }] },
  },
  accuracy: {
    profile: 'accuracy',
    level: 90,
    tape: [{ id: 'wander', size: '0.15 mm', source: 'measured' }],
    hardware: [{ id: 'casting', size: '0.05 mm' }],
  },
};
const KINDS = Object.keys(SOUND) as Kind[];
const JIG = {
  jig: 1,
  name: 'Small',
  shell: { diameter: '200 mm', depth: '120 mm', wall: '6 mm', wood: 'sugar-maple' },
  lugs: { count: 3, rows: [{ edge: 'top', distance: '36 mm' }], holes: { layout: 'single', drill: '6 mm' } },
};
const NAME = 'own.yaml';
const USED: Readonly<Record<Kind, object>> = {
  sheet: { wrap: { sheet: NAME }, collar: { sheet: NAME } },
  material: { wrap: { material: NAME }, collar: { material: NAME } },
  paper: { wrap: { paper: NAME } },
  machine: { rotary: { machine: NAME } },
  accuracy: { accuracy: { profile: NAME } },
};
const ALONE = { sheet: sheetProfile, material: materialProfile, paper: paperProfile, machine: machineProfile };

const given = fc.constantFrom(...KINDS).chain((kind) => {
  const text = stringify(SOUND[kind]);
  return fc.record<Given>({
    kind: fc.constant(kind),
    text: fc.oneof(
      {
        weight: 6,
        arbitrary: changed([SOUND[kind]]).map((t) => bytesOf(stringify(t, { aliasDuplicateObjects: false }))),
      },
      { weight: 2, arbitrary: mutationsOf([bytesOf(text)]) },
      { weight: 1, arbitrary: bytes },
    ),
  });
});

/** Profile files: refused with a cure, alone and named by a jig file alike, or used to the end without a fault. */
export const profiles: Fuzzed<Given> = {
  name: 'profiles',
  short: 12,
  inputs: given,
  holds({ kind, text }) {
    const parsed = parseText(text);
    if (!parsed.ok) return complained(parsed.issues, text);
    const options = { profiles: { [NAME]: parsed.raw } };
    const jig = { ...JIG, ...USED[kind] };
    const resolved = resolveJig(jig, options);
    if (kind !== 'accuracy') {
      const alone = ALONE[kind](NAME, parsed.raw);
      if (!alone.ok) complained(alone.issues.map(parsed.place), text);
      if (!alone.ok && resolved.ok) throw new Error('refused alone, and taken from a jig file');
    }
    if (!resolved.ok) return complained(resolved.issues, '');
    const work = recompute(jig, options);
    if (!work.ok) throw new Error('read once, refused the second time');
    if (kind === 'machine' || kind === 'accuracy') told(programAgain(work, { digest: 'x', version: '0' }).findings);
    else told(sheetsAgain(work, 'x').findings);
  },
};
