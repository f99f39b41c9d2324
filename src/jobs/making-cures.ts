import { MACHINE_NAMES } from '../data/machines.ts';
import { findMaterial, MATERIAL_NAMES } from '../data/materials.ts';
import { SHEET_NAMES } from '../data/sheets.ts';
import type { Jig } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import type { MakingStop, Stage } from './making.ts';
import type { Proposal } from './search.ts';

/**
 * What may clear a stop of the wrap, the collar or the program. Whether it does, only making it again can tell. Cost 1
 * says something else, 2 buys or cuts another part, 3 takes another sheet, machine or method, 5 does without the part.
 */
export function makingCures({ stage, fact }: MakingStop, jig: Jig): readonly Proposal[] {
  const own = CURES[fact.id]?.(stage, fact.limit, fact.facts ?? {}, jig) ?? [];
  return [...own, ...(stage === 'rotary' ? otherProgram(jig) : []), without(stage)];
}

type Facts = Readonly<Record<string, string | number>>;
type Cures = (stage: Stage, limit: number | null, facts: Facts, jig: Jig) => readonly Proposal[];

const upTenth = (v: number): Mm => Math.ceil(v * 10 - 1e-6) / 10;
const downTenth = (v: number): Mm => Math.floor(v * 10 + 1e-6) / 10;
const mm = (v: Mm): string => `${Math.round(v * 100) / 100} mm`;

const one = (key: string, to: unknown, say: string, cost: number): Proposal => ({ set: { [key]: to }, say, cost });
const length = (key: string, to: Mm, say: string): Proposal[] =>
  Number.isFinite(to) && to > 0 ? [one(key, mm(to), `${say} ${mm(to)}`, 2)] : [];

/** A section left out is not asked for: what stood in its way is no more than noted. */
const without = (stage: Stage): Proposal => one(stage, null, `do without: leave the ${stage} section out`, 5);

const sheets: Cures = (stage, _limit, _facts, jig) =>
  stage === 'rotary'
    ? []
    : SHEET_NAMES.filter((n) => n !== jig[stage].sheet.name).map((n) =>
        one(`${stage}.sheet`, n, `cut the ${stage} on ${n}`, 3),
      );

const smallerParts: Cures = (...c) => [
  ...(c[0] === 'collar'
    ? [one('collar.build', 'sector', 'build the collar as a sector that is stepped round', 3)]
    : []),
  ...sheets(...c),
];

const bendingSheet: Cures = (stage, _limit, _facts, jig) =>
  MATERIAL_NAMES.filter((n) => {
    const bends = findMaterial(n)?.bends;
    return stage === 'wrap' && bends !== undefined && bends <= jig.shell.radius;
  }).map((n) => ({
    set: { 'wrap.material': n, 'wrap.thickness': null },
    say: `cut the wrap from ${n}`,
    cost: 3,
  }));

/** Thinnest sheet a collar is made of (mm), and how far, as a share, a sheet may be off its name (common practice, no source). */
const STURDY: Mm = 2.5;
const SAME_SHEET = 0.15;

const otherSheet: Cures = (stage, limit, facts, jig) =>
  stage === 'wrap'
    ? bendingSheet(stage, limit, facts, jig)
    : MATERIAL_NAMES.flatMap((n): Proposal[] => {
        const nominal = findMaterial(n)?.thickness ?? 0;
        // Card and film hold no bit.
        if (nominal < STURDY) return [];
        const off = Math.abs(nominal - jig.collar.thickness) / nominal;
        const set = { 'collar.material': n, 'collar.thickness': null };
        return [
          ...(off < SAME_SHEET ? [one('collar.material', n, `say that the collar's sheet is ${n}`, 2)] : []),
          { set, say: `cut the collar from ${n}`, cost: 3 + Math.min(0.9, off) },
        ];
      });

const bushing: Cures = (_stage, limit, facts) => {
  const most = typeof facts['largest'] === 'number' ? facts['largest'] : (limit ?? 0);
  return [
    ...length('collar.bushing.outside', downTenth(most), 'take bushings with an outside of'),
    one('collar.bushing', null, 'drill through bare plates, without bushings', 3),
    one('collar.build', 'sector', 'build the collar as a sector that is stepped round', 3),
  ];
};

/** A bit of the list, by its number; the list as the builder wrote it. */
const bit =
  (leaf: 'stickout' | 'flute'): Cures =>
  (_stage, limit, facts, jig) => {
    const index = jig.rotary.tools.findIndex((t) => t.id === facts['tool']);
    const words = leaf === 'stickout' ? 'out of the collet by' : 'with flutes of';
    return index < 0 || limit === null
      ? []
      : length(`rotary.tools.${index}.${leaf}`, Math.ceil(limit), `set or take T${facts['tool']} ${words}`);
  };

/** For anything wrong with the program: the bits a holes' list asks for, the other edge at X0, another machine. */
function otherProgram(jig: Jig): Proposal[] {
  const edge = jig.rotary.datum === 'bottom' ? 'top' : 'bottom';
  return [
    one('rotary.tools', 'default', 'drill with the bits the holes ask for (tools: default)', 2),
    one('rotary.datum', edge, `put the ${edge} edge at X0`, 1),
    ...MACHINE_NAMES.filter((n) => n !== jig.rotary.machine.name).map((n) =>
      one('rotary.machine', n, `drill on a machine such as ${n}`, 4),
    ),
  ];
}

const CURES: Readonly<Record<string, Cures>> = {
  'no-rim': () => [one('shell.edges', 'cut', 'cut the bearing edges first', 2)],
  'collar-binds': (_s, limit) => length('collar.clearance', upTenth(limit ?? 0), 'give the collar a clearance of'),
  'sheet-thicker-than-slot': otherSheet,
  'forbidden-in-laser': otherSheet,
  'cutter-wider-than-slot': () => [one('collar.cut', 'laser', 'cut the collar with a laser', 3)],
  'bushing-wall-thin': (_s, limit) =>
    length('collar.bushing.outside', upTenth(limit ?? 0), 'take bushings with an outside of'),
  'bushing-larger-than-plate': bushing,
  'bushings-overlap': bushing,
  'bore-over-lip': bushing,
  'rows-too-near': bushing,
  'ring-larger-than-sheet': smallerParts,
  'part-larger-than-sheet': smallerParts,
  'wrap-sheet-too-small': sheets,
  'wrap-sheet-slotted': bendingSheet,
  'wrap-too-stiff': bendingSheet,
  'paper-too-small': () => [one('wrap.paper', null, 'print on A4', 3)],
  'wrap-seam-on-hole': () => [one('wrap.seam-at', null, 'leave the place of the seam to the search', 1)],
  'bridge-too-thin': () => [one('wrap.marks', 'punch', 'mark holes by punch marks, not by guide holes', 1)],
  'feature-under-kerf': () => [one('wrap.marks', 'guide', 'mark holes by full-size guide holes', 1)],
  'backing-too-thin': (_s, limit) =>
    length('rotary.backing', Math.ceil(limit ?? 0), 'put a backing inside, as thick as'),
  'tool-too-short': bit('stickout'),
  'flute-too-short': bit('flute'),
};
