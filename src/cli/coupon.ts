import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { parseDocument } from 'yaml';
import { findMaterial, MATERIAL_NAMES } from '../data/materials.ts';
import { findSheet, SHEET_NAMES } from '../data/sheets.ts';
import { materialProfile, sheetProfile } from '../jig/profile.ts';
import { MAX_BYTES } from '../jig/refused-early.ts';
import { type CouponResult, couponResult, makeCoupon } from '../jobs/coupon.ts';
import type { DxfFlavour } from '../jobs/flat.ts';
import type { SheetMaterial, SheetProfile } from '../model/sheet.ts';
import { trimmed } from '../say/saying.ts';
import type { Context } from './context.ts';
import { badInput, EXIT } from './failure.ts';
import { readText } from './input.ts';
import { writeSet } from './output.ts';
import { readProfile } from './profile.ts';
import { exitFor, sayFindings } from './report.ts';
import { lengthOption, wholeOption, wordOption } from './words.ts';
import { writePlain } from './write-file.ts';

interface Options {
  readonly sheet: string;
  readonly material: string;
  readonly reading?: string;
  readonly slot?: string;
  readonly thickness?: string;
  readonly profile?: string;
  readonly dxf: string;
  readonly out: string;
}

/** Without a reading: writes the test piece. With one: says kerf and fit, and keeps them in a profile when one is named. */
export async function run(_args: readonly string[], options: Options, context: Context): Promise<number> {
  const sheet = readProfile(options.sheet, SHEET_NAMES, findSheet, sheetProfile, '--sheet');
  const material = readProfile(options.material, MATERIAL_NAMES, findMaterial, materialProfile, '--material');
  const flavour = wordOption('--dxf', options.dxf, ['polylines', 'plain'] as const);
  if (options.thickness !== undefined) lengthOption('--thickness', options.thickness);
  if (options.reading === undefined && options.slot !== undefined)
    throw badInput(
      '--slot without --reading',
      'the slot that fits and the reading of the slips together',
      'add --reading',
    );
  return options.reading === undefined
    ? write(sheet, material, flavour, options, context)
    : read(sheet, material, options, context);
}

function write(
  sheet: SheetProfile,
  material: SheetMaterial,
  flavour: DxfFlavour,
  options: Options,
  { terminal, json }: Context,
): number {
  const { coupon, files, findings } = makeCoupon(sheet, material, flavour);
  const exit = exitFor(findings);
  const stop = exit === EXIT.stop;
  const written = files.length === 0 ? { files: [] } : writeSet(options.out, files);
  const drawn = coupon.slips * coupon.slipWidth;
  const how = `Cut it, lay the ${coupon.slips} slips side by side (drawn ${trimmed(drawn, 2)} mm together) and read them with a caliper; then: lugwright coupon --sheet ${options.sheet} --material ${options.material} --reading <that>${coupon.slots.length > 0 ? ' --slot <number of the narrowest slot a slip slides into> --thickness <of the sheet>' : ''}`;
  if (json)
    terminal.out(
      `${JSON.stringify({ ok: !stop, exit, out: options.out, files: written.files, slips: coupon.slips, slip_width_mm: coupon.slipWidth, drawn_mm: drawn, slots_mm: coupon.slots, next: how, findings }, null, 2)}\n`,
    );
  else if (!terminal.quiet) {
    terminal.err(sayFindings(findings, terminal));
    if (files.length > 0) terminal.err(`${written.files.map((f) => join(options.out, f)).join(', ')}\n${how}\n`);
  }
  return exit;
}

function read(sheet: SheetProfile, material: SheetMaterial, options: Options, { terminal, json }: Context): number {
  const thickness = options.thickness === undefined ? undefined : lengthOption('--thickness', options.thickness);
  const slot = wholeOption('--slot', options.slot, 999);
  const result = couponResult(sheet, material, {
    slips: lengthOption('--reading', options.reading as string),
    ...(slot === undefined ? {} : { slot }),
    ...(thickness === undefined ? {} : { thickness }),
  });
  const exit = exitFor(result.findings);
  const stop = exit === EXIT.stop;
  if (!stop && options.profile !== undefined) keep(options.profile, material, result, thickness);
  if (json) {
    const kept = stop ? null : (options.profile ?? null);
    terminal.out(
      `${JSON.stringify({ ok: !stop, exit, sheet: sheet.name, material: material.name, kerf_mm: tidy(result.kerf), fit_mm: tidy(result.fit), profile: kept, findings: result.findings }, null, 2)}\n`,
    );
  } else {
    terminal.out(sayFindings(result.findings, terminal));
    if (result.kerf !== undefined)
      terminal.out(
        `kerf ${trimmed(result.kerf, 3)} mm${result.fit === undefined ? '' : `, fit ${trimmed(result.fit, 3)} mm`}${options.profile === undefined ? '; name --profile FILE to keep it' : `, kept in ${options.profile}`}\n`,
      );
  }
  return exit;
}

const tidy = (n: number | undefined): number | null => (n === undefined ? null : Number(n.toFixed(4)) + 0);

/** Puts kerf, fit and thickness into the builder's own material profile; its other lines and comments stay. */
function keep(file: string, material: SheetMaterial, result: CouponResult, thickness: number | undefined): void {
  const there = existsSync(file);
  const doc = parseDocument(there ? readText(file, MAX_BYTES, 'the profile') : 'profile: material\n');
  if (doc.errors.length > 0 || (there && doc.get('profile') !== 'material'))
    throw badInput('it is no material profile', 'a YAML file that says profile: material', 'name another file', file);
  if (!doc.has('like') && findMaterial(material.name)) doc.set('like', material.name);
  doc.set('kerf', tidy(result.kerf));
  if (result.fit !== undefined) doc.set('fit', tidy(result.fit));
  if (thickness !== undefined) doc.set('thickness', tidy(thickness));
  writePlain(file, String(doc), true);
}
