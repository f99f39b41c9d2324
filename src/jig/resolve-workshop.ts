import { findMachine, MACHINE_NAMES } from '../data/machines.ts';
import { findMaterial, MATERIAL_NAMES } from '../data/materials.ts';
import { findPaper, PAPER_NAMES } from '../data/papers.ts';
import { findSheet, SHEET_NAMES } from '../data/sheets.ts';
import { completeTool, defaultTools } from '../data/tools.ts';
import type { Bushing, CollarSpec, RotarySpec, WrapSpec } from '../model/jig.ts';
import type { Tool } from '../model/machine.ts';
import type { Mm } from '../units/scalar.ts';
import { type KeyPath, ofProfile } from './complaint.ts';
import { machineProfile, materialProfile, paperProfile, sheetProfile } from './profile.ts';
import type { ProfileResult } from './profile-units.ts';
import { CUT, GAP, type ProfileFiles, type Reader, SMALL } from './reader.ts';
import type { RawJig } from './schema.ts';

function chosen<T>(
  name: string | undefined,
  fallback: string,
  path: KeyPath,
  r: Reader,
  files: ProfileFiles,
  names: readonly string[],
  find: (name: string) => T | undefined,
  read: (name: string, raw: unknown) => ProfileResult<T>,
): T {
  const standIn = find(fallback) as T;
  if (name === undefined) {
    r.assume(path.join('.'), fallback, 'not said in the jig file');
    return standIn;
  }
  if (!(name in files)) return r.named(name, path, names, find) ?? standIn;
  const result = read(name, files[name]);
  if (result.ok) return result.value;
  r.issues.push(...result.issues.map((issue) => ofProfile(name, path, issue)));
  return standIn;
}

export function resolveWrap(raw: RawJig['wrap'], files: ProfileFiles, r: Reader): WrapSpec {
  const material = chosen(
    raw?.material,
    'card-1',
    ['wrap', 'material'],
    r,
    files,
    MATERIAL_NAMES,
    findMaterial,
    materialProfile,
  );
  return {
    material,
    thickness: r.optional(raw?.thickness, ['wrap', 'thickness'], SMALL) ?? material.thickness,
    sheet: chosen(raw?.sheet, 'laser-600x400', ['wrap', 'sheet'], r, files, SHEET_NAMES, findSheet, sheetProfile),
    paper: chosen(raw?.paper, 'paper-a4', ['wrap', 'paper'], r, files, PAPER_NAMES, findPaper, paperProfile),
    seam: raw?.seam ?? 'butt',
    ...(raw?.['seam-at'] === undefined ? {} : { seamAt: r.angle(raw['seam-at'], ['wrap', 'seam-at']) }),
    marks: raw?.marks ?? 'guide',
    asked: raw !== undefined,
  };
}

export function resolveCollar(raw: RawJig['collar'], files: ProfileFiles, r: Reader): CollarSpec {
  const material = chosen(
    raw?.material,
    'birch-ply-6',
    ['collar', 'material'],
    r,
    files,
    MATERIAL_NAMES,
    findMaterial,
    materialProfile,
  );
  const thickness = r.optional(raw?.thickness, ['collar', 'thickness'], SMALL);
  if (thickness === undefined)
    r.assume(
      'collar.thickness',
      `${material.thickness} mm`,
      'nominal: sheet is never its nominal thickness, measure it',
    );
  const clearance = r.optional(raw?.clearance, ['collar', 'clearance'], { sign: 'zero', max: 20 });
  if (clearance === undefined)
    r.assume('collar.clearance', '0.5 mm', 'radial gap between ring and largest shell, common practice, no source');
  return {
    material,
    thickness: thickness ?? material.thickness,
    sheet: chosen(raw?.sheet, 'laser-600x400', ['collar', 'sheet'], r, files, SHEET_NAMES, findSheet, sheetProfile),
    build: raw?.build ?? 'rings',
    ...(raw?.bushing === undefined ? {} : { bushing: bushing(raw.bushing, r) }),
    clearance: clearance ?? 0.5,
    cut: raw?.cut ?? 'laser',
    ...(raw?.hold === undefined ? {} : { hold: raw.hold }),
    ...(raw?.layers === undefined ? {} : { layers: raw.layers === 1 ? (1 as const) : (2 as const) }),
    asked: raw !== undefined,
  };
}

function bushing(raw: NonNullable<NonNullable<RawJig['collar']>['bushing']>, r: Reader): Bushing {
  const at = (key: string) => ['collar', 'bushing', key];
  const b = {
    inside: r.length(raw.inside, at('inside'), SMALL),
    outside: r.length(raw.outside, at('outside'), SMALL),
    length: r.length(raw.length, at('length'), SMALL),
    ...(raw.fit === undefined ? {} : { fit: raw.fit }),
  };
  if (b.inside >= b.outside && r.issues.length === 0)
    r.complain(
      at('inside'),
      `a bore of ${b.inside} mm in a bushing of ${b.outside} mm`,
      `less than its outside, ${b.outside} mm`,
      'swap them, or measure again',
    );
  return b;
}

export function resolveRotary(
  raw: RawJig['rotary'],
  files: ProfileFiles,
  drills: readonly { drill: Mm; pilot?: Mm }[],
  r: Reader,
): RotarySpec {
  const backing = r.optional(raw?.backing, ['rotary', 'backing'], GAP);
  const runout = r.optional(raw?.runout, ['rotary', 'runout'], GAP);
  if (backing === undefined)
    r.assume('rotary.backing', '12 mm', 'a block inside the shell, common practice, no source');
  if (runout === undefined) r.assume('rotary.runout', '0.5 mm', 'of the turning skin, common practice, no source');
  return {
    machine: chosen(
      raw?.machine,
      'rotary-slow',
      ['rotary', 'machine'],
      r,
      files,
      MACHINE_NAMES,
      findMachine,
      machineProfile,
    ),
    datum: raw?.datum ?? 'bottom',
    backing: backing ?? 12,
    runout: runout ?? 0.5,
    tools: tools(raw?.tools, drills, r),
    asked: raw !== undefined,
  };
}

type RawTools = NonNullable<RawJig['rotary']>['tools'];

function tools(raw: RawTools, drills: readonly { drill: Mm; pilot?: Mm }[], r: Reader): Tool[] {
  if (raw === undefined || raw === 'default') {
    if (raw === undefined) r.assume('rotary.tools', 'a set computed from the holes', 'no bits listed');
    return defaultTools(drills);
  }
  const seen = new Set<number>();
  return raw.map((t, i) => {
    const path: KeyPath = ['rotary', 'tools', i];
    const at = (key: string) => [...path, key];
    if (seen.has(t.id))
      r.complain(at('id'), `number ${t.id} twice`, 'a number of its own for every bit', 'renumber one of them');
    seen.add(t.id);
    const point = t.point === undefined ? undefined : r.angle(t.point, at('point'));
    if (point !== undefined && !(point > 0 && point <= 180))
      r.complain(at('point'), `${point} deg`, 'more than 0 and at most 180 deg', 'give the full angle of the point');
    return completeTool({
      id: t.id,
      kind: t.kind,
      diameter: r.length(t.diameter, at('diameter'), CUT),
      point,
      lead: r.optional(t.lead, at('lead'), GAP),
      lips: t.lips,
      flute: r.optional(t.flute, at('flute'), SMALL),
      stickout: r.optional(t.stickout, at('stickout'), SMALL),
      shank: r.optional(t.shank, at('shank'), SMALL),
      maxSpeed: t['max-speed'],
      step: t.step && {
        diameter: r.length(t.step.diameter, at('step'), CUT),
        length: r.length(t.step.length, at('step'), SMALL),
      },
    });
  });
}
