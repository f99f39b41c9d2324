import type { Jig } from '../model/jig.ts';
import type { FileUnits } from '../units/length.ts';
import type { JigIssue } from './complaint.ts';
import { fromValidator } from './issue.ts';
import { type ProfileFiles, Reader, SIZE, SMALL } from './reader.ts';
import { resolveAccuracy } from './resolve-accuracy.ts';
import { resolveFittings } from './resolve-fittings.ts';
import { resolveLimits } from './resolve-limits.ts';
import { resolveRows } from './resolve-lugs.ts';
import { resolveHoop, resolveRods } from './resolve-rods.ts';
import { resolveShell } from './resolve-shell.ts';
import { resolveCollar, resolveRotary, resolveWrap } from './resolve-workshop.ts';
import { jigSchema, type RawJig } from './schema.ts';
import { slugOf } from './slug.ts';

/** The jig, or every complaint with its key path. */
export type Resolved =
  | { readonly ok: true; readonly jig: Jig }
  | { readonly ok: false; readonly issues: readonly JigIssue[] };

/** What stands beside the jig file. */
export interface ResolveOptions {
  /** Profile files beside the jig, by the name written in it. */
  readonly profiles?: ProfileFiles;
  /** Line of each key path, when the object was read from text. */
  readonly lines?: Readonly<Record<string, number>>;
}

/**
 * A plain object, as it stands in a jig file, to a Jig in mm and degrees with every default filled in and listed under
 * `assumptions`.
 * @param raw the object; keys and spellings as in jigs/README.md
 * @param options profile files beside the jig, and lines when it was read from text
 * @returns the jig; or every complaint at once, each with its key path, what is allowed and what to try
 * @throws never
 * @source each default says its own in `assumptions`
 */
export function resolveJig(raw: unknown, options: ResolveOptions = {}): Resolved {
  const parsed = jigSchema.safeParse(raw);
  if (!parsed.success) return { ok: false, issues: fromValidator(jigSchema, raw, parsed.error.issues) };
  const r = new Reader((parsed.data.units ?? 'mm') as FileUnits);
  const jig = build(parsed.data, r, options);
  return r.issues.length > 0 ? { ok: false, issues: r.issues } : { ok: true, jig };
}

function build(raw: RawJig, r: Reader, options: ResolveOptions): Jig {
  const files = options.profiles ?? {};
  if (!raw.lugs && !raw.fittings?.length)
    r.complain([], 'neither lugs nor fittings', 'at least one of lugs and fittings', 'add what goes on the shell');
  const shell = resolveShell(raw.shell, r);
  const rows = raw.lugs ? resolveRows(raw.lugs, shell.depth, r) : [];
  const fittings = resolveFittings(raw.fittings ?? [], rows, shell.depth, r);
  refuseTooWide(rows, fittings, shell.radius, r);
  refuseTooMany(rows, fittings, r);
  const rods = raw.rods && resolveRods(raw.rods, rows[0]?.rod?.takes, r);
  const beds = raw.beds && {
    width: r.length(raw.beds.width, ['beds', 'width'], SIZE),
    depth: r.length(raw.beds.depth, ['beds', 'depth'], SMALL),
  };
  const snare = raw.snare && { length: r.length(raw.snare.length, ['snare', 'length'], SIZE) };
  const batch = raw.batch && readBatch(raw.batch, r);
  const drills = [...rows.map((x) => x.holes), ...fittings.map((x) => x.holes)].filter((h) => h.points.length > 0);
  return {
    name: raw.name,
    slug: slugOf(raw.name),
    units: raw.units ?? 'mm',
    shell,
    ends: raw.lugs?.ends ?? 'one',
    rows,
    fittings,
    ...(rods === undefined ? {} : { rods }),
    hoops: {
      ...(raw.hoops?.top ? { top: resolveHoop(raw.hoops.top, ['hoops', 'top'], r) } : {}),
      ...(raw.hoops?.bottom ? { bottom: resolveHoop(raw.hoops.bottom, ['hoops', 'bottom'], r) } : {}),
    },
    ...(beds === undefined ? {} : { beds }),
    ...(snare === undefined ? {} : { snare }),
    ...(raw.climate === undefined ? {} : { climate: raw.climate }),
    ...(batch === undefined ? {} : { batch }),
    ...(raw.method === undefined ? {} : { method: raw.method }),
    ...(raw.limits === undefined ? {} : { limits: resolveLimits(raw.limits, r) }),
    ...resolveAccuracy(raw.accuracy, raw.method, files, r),
    wrap: resolveWrap(raw.wrap, files, r),
    collar: resolveCollar(raw.collar, files, r),
    rotary: resolveRotary(raw.rotary, files, drills, r),
    assumptions: r.assumptions,
    lines: options.lines ?? {},
  };
}

function readBatch(raw: NonNullable<RawJig['batch']>, r: Reader): NonNullable<Jig['batch']> {
  const big = { sign: 'positive', max: 10_000 } as const;
  const [low, high] = [
    r.length(raw.girth[0], ['batch', 'girth', 0], big),
    r.length(raw.girth[1], ['batch', 'girth', 1], big),
  ];
  if (low > high) r.complain(['batch', 'girth'], `from ${low} to ${high} mm`, 'the smallest girth first', 'swap them');
  return { girth: [low, high], count: raw.count };
}

/** The largest drum has some two hundred holes; with many times as many every check would take minutes (judgement). */
const MOST_HOLES = 5000;

function refuseTooMany(rows: Jig['rows'], fittings: Jig['fittings'], r: Reader): void {
  const groups = [
    ...rows.map((x, i) => [x.count * x.holes.points.length, ['lugs', 'rows', i]] as const),
    ...fittings.map((x, i) => [x.at.length * x.holes.points.length, ['fittings', i]] as const),
  ];
  const all = groups.reduce((sum, [holes]) => sum + holes, 0);
  if (all <= MOST_HOLES) return;
  const [most, path] = groups.reduce((a, b) => (b[0] > a[0] ? b : a));
  r.complain(path, `${most} holes, ${all} in all`, `at most ${MOST_HOLES} holes`, 'check count, columns and rows');
}

/** An offset straight across the hardware must meet the shell: |across| < R. */
function refuseTooWide(rows: Jig['rows'], fittings: Jig['fittings'], radius: number, r: Reader): void {
  const groups = [
    ...rows.map((x, i) => [x.holes, ['lugs', 'rows', i]] as const),
    ...fittings.map((x, i) => [x.holes, ['fittings', i, 'holes']] as const),
  ];
  for (const [pattern, path] of groups) {
    const widest = Math.max(0, ...pattern.points.map((p) => Math.abs(p.across)));
    if (widest >= radius)
      r.complain(
        path,
        `a hole ${widest} mm across from its fitting's line`,
        `less than the shell's radius, ${radius.toFixed(1)} mm`,
        'measure the spacing again, and check its unit',
      );
  }
}
