import type { LugRod, LugRow } from '../model/jig.ts';
import type { Deg, Mm } from '../units/scalar.ts';
import { wrapDeg } from '../units/scalar.ts';
import type { KeyPath } from './complaint.ts';
import { OFFSET, type Reader, SMALL } from './reader.ts';
import { resolveFoot } from './resolve-foot.ts';
import { resolvePattern, resolveThread, withoutSpacings } from './resolve-pattern.ts';
import { distanceBounds, heightOf } from './resolve-shell.ts';
import type { Loose, RawFoot, RawJig, RawLugRod, RawPattern } from './schema.ts';

type RawLugs = NonNullable<RawJig['lugs']>;

/**
 * Rows of lugs. A row takes what the lugs say unless it says otherwise, key by key in `holes` and `rod`. A row measured
 * from the bottom edge is the same casting turned by 180 deg (not mirrored): its points and foot are turned.
 */
export function resolveRows(raw: RawLugs, depth: Mm, r: Reader): LugRow[] {
  const names = rowNames(raw.rows.map((row) => row.edge));
  if (raw.first === undefined)
    r.assume('lugs.first', 'half', 'half a pitch from the strainer line, so that no lug meets the strainer');
  if (raw.ends === undefined) r.assume('lugs.ends', 'one', 'a lug serves one hoop');
  return raw.rows.map((row, i) => {
    const path: KeyPath = ['lugs', 'rows', i];
    const turned = row.edge === 'bottom';
    const count = row.count ?? raw.count;
    const holes: Loose<RawPattern> | undefined = mergedHoles(raw.holes, row.holes);
    const rawFoot: RawFoot | undefined = row.foot ?? raw.foot;
    const rawRod: Loose<RawLugRod> | undefined = row.rod || raw.rod ? { ...raw.rod, ...row.rod } : undefined;
    if (!holes)
      r.complain(
        row.holes === undefined ? ['lugs'] : path,
        'no holes',
        'the hole pattern of a lug',
        'add holes: measure one lug',
      );
    const distance = r.length(row.distance, [...path, 'distance'], distanceBounds(row.edge));
    const foot =
      rawFoot && resolveFoot(rawFoot, row.foot ? [...path, 'foot'] : ['lugs', 'foot'], { rimUp: true, turned }, r);
    const rod = rawRod && resolveLugRod(rawRod, row.rod ? [...path, 'rod'] : ['lugs', 'rod'], r);
    return {
      name: names[i] as string,
      edge: row.edge,
      distance,
      height: heightOf(row.edge, distance, depth),
      count,
      first: firstLug(
        row.first ?? raw.first ?? 'half',
        count,
        [...(row.first === undefined ? ['lugs'] : path), 'first'],
        r,
      ),
      turned,
      holes: resolvePattern(
        holes ?? { layout: 'single', drill: 6 },
        row.holes ? [...path, 'holes'] : ['lugs', 'holes'],
        turned,
        r,
      ),
      ...(foot === undefined ? {} : { foot }),
      ...(rod === undefined ? {} : { rod }),
    };
  });
}

/** A row's own keys over the lugs'; a row with a layout of its own starts its spacings afresh. */
function mergedHoles(
  all: Loose<RawPattern> | undefined,
  own: Loose<RawPattern> | undefined,
): Loose<RawPattern> | undefined {
  if (!all || !own) return own ?? all;
  return { ...(own.layout === undefined || own.layout === all.layout ? all : withoutSpacings(all)), ...own };
}

/** `top`, `bottom`, `middle`; with a number when several rows share an edge: `top`, `top2`. */
function rowNames(edges: readonly string[]): string[] {
  const seen = new Map<string, number>();
  return edges.map((edge) => {
    const n = (seen.get(edge) ?? 0) + 1;
    seen.set(edge, n);
    return n === 1 ? edge : `${edge}${n}`;
  });
}

function firstLug(raw: string | number, count: number, path: KeyPath, r: Reader): Deg {
  return raw === 'half' ? 180 / count : wrapDeg(r.angle(raw, path));
}

function resolveLugRod(raw: Loose<RawLugRod>, path: KeyPath, r: Reader): LugRod {
  for (const key of ['face', 'catch', 'bottom'] as const) {
    if (raw[key] === undefined) r.complain(path, `no ${key}`, 'face, catch and bottom', `add ${key}: measure one lug`);
  }
  const face = r.length(raw.face ?? 1, [...path, 'face'], OFFSET);
  const bites = r.length(raw.catch ?? 0, [...path, 'catch'], { sign: 'zero', max: 300 });
  const bottom = r.length(raw.bottom ?? 1, [...path, 'bottom'], SMALL);
  if (raw.catch !== undefined && raw.bottom !== undefined && bottom <= bites) {
    r.complain(
      [...path, 'bottom'],
      `bottom ${bottom} mm and catch ${bites} mm`,
      'bottom deeper than catch: both are depths below the face',
      'measure both from the face the rod goes into',
    );
  }
  const takes = raw.takes === undefined ? undefined : resolveThread(raw.takes, [...path, 'takes'], r);
  const standoff = r.optional(raw.standoff, [...path, 'standoff'], SMALL);
  return {
    face,
    catch: bites,
    bottom,
    ...(takes === undefined ? {} : { takes }),
    ...(standoff === undefined ? {} : { standoff }),
  };
}
