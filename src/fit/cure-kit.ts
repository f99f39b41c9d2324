import type { Fact } from '../model/finding.ts';
import type { Fitting, Jig, LugRow } from '../model/jig.ts';
import type { Layout, Placed } from '../model/layout.ts';
import { type Deg, type Mm, toDeg, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { fromEdge, type Side } from './bench.ts';

/** A change of the jig file that may clear a finding: keys by path and their new values, as a builder would write them. */
export interface Cure {
  readonly set: Readonly<Record<string, unknown>>;
  /** What it means at the bench. */
  readonly say: string;
  /** Of two cures that do the same the cheaper is taken: 1 moves, 2 buys a rod, drill or screw, 3 and up other hardware. */
  readonly cost: number;
}

/** One finding, and what its cures are worked out from. */
export interface Case {
  readonly fact: Fact;
  readonly jig: Jig;
  readonly layout: Layout;
}

export const num = (c: Case, key: string): number => Number(c.fact.facts?.[key]);
export const word = (c: Case, key: string): string => String(c.fact.facts?.[key] ?? '');
export const sideOf = (c: Case): Side => (word(c, 'side') === 'bottom' ? 'bottom' : 'top');

/** What a builder sets out with a rule, mm. */
const STEP: Mm = 0.5;
/** Float dust, as a share of a step. */
const DUST = 1 / 1_000_000;

export const upTo = (v: number, step = STEP): number => Math.ceil(v / step - DUST) * step;
export const downTo = (v: number, step = STEP): number => Math.floor(v / step + DUST) * step;

const tidy = (v: number): number => Math.round(v * 1000) / 1000;
export const inMm = (v: Mm): string => `${tidy(v)} mm`;
const inDeg = (v: Deg): string => `${tidy(wrapDeg(v))} deg`;

/** The value in [low, high] nearest to `now`, on a step of the rule where one lies there. */
export function within(low: number, high: number, now: number): number {
  const stepped = now < low ? upTo(low) : now > high ? downTo(high) : now;
  return stepped >= low - tolerance.noise && stepped <= high + tolerance.noise ? stepped : (low + high) / 2;
}

interface Thing {
  readonly path: string;
  readonly title: string;
  readonly thing: LugRow | Fitting;
  readonly row?: LugRow;
}

/** The row or fitting a key path such as `lugs.rows.0` or `fittings.2` names. */
export function thingAt(jig: Jig, path: string): Thing | undefined {
  const index = Number(path.split('.').pop());
  const row = path.startsWith('lugs.rows.') ? jig.rows[index] : undefined;
  if (row) return { path, title: `the ${row.name} lugs`, thing: row, row };
  const fitting = path.startsWith('fittings.') ? jig.fittings[index] : undefined;
  return fitting && { path, title: `the ${fitting.name}`, thing: fitting };
}

/** The row or fitting that the finding speaks of first. */
export const subject = (c: Case): Thing | undefined => thingAt(c.jig, word(c, 'group'));

/** A row or fitting brought to `to` mm from the edge of `side`, written from the edge it is measured from. */
export function setFrom(c: Case, { path, title, thing }: Thing, side: Side, to: Mm): Cure[] {
  const { depth } = c.jig.shell;
  const height = side === 'top' ? depth - to : to;
  const distance = thing.edge === 'middle' ? height - depth / 2 : thing.edge === 'top' ? depth - height : height;
  if (thing.edge !== 'middle' && distance <= 0) return [];
  const where = thing.edge === 'middle' ? 'the middle' : `the ${thing.edge} edge`;
  return [
    { set: { [`${path}.distance`]: inMm(distance) }, say: `set ${title} ${inMm(distance)} from ${where}`, cost: 1 },
  ];
}

/** The finding's subject further from an edge by at least `over`. */
export function moveIn(c: Case, side: Side, over: Mm): Cure[] {
  const it = subject(c);
  return it ? setFrom(c, it, side, upTo(fromEdge(side, it.thing.height, c.jig.shell.depth) + over)) : [];
}

/** The same distance, measured from the other edge. */
export function flipEdge(it: Thing | undefined): Cure[] {
  if (!it || it.thing.edge === 'middle') return [];
  const edge = it.thing.edge === 'top' ? 'bottom' : 'top';
  return [{ set: { [`${it.path}.edge`]: edge }, say: `measure ${it.title} from the ${edge} edge`, cost: 1 }];
}

export const placedAt = (c: Case, id: string): Placed | undefined => c.layout.placed.find((p) => p.id === id);

/** One place of a fitting put at an angle; lugs stay with their row. */
export function putAt(c: Case, placed: Placed | undefined, angle: Deg): Cure[] {
  if (!placed?.key.startsWith('fittings.')) return [];
  const same = c.layout.placed.filter((p) => p.key === placed.key);
  const say = `put ${placed.id} at ${inDeg(angle)}`;
  const set = {
    [`${placed.key}.at`]: same.length === 1 ? inDeg(angle) : same.map((p) => inDeg(p === placed ? angle : p.angle)),
  };
  return [{ set, say, cost: 1 }];
}

/** One place moved round the shell by `around` mm and a step more. */
export function shiftRound(c: Case, placed: Placed | undefined, around: Mm): Cure[] {
  if (!placed || !Number.isFinite(around) || around === 0) return [];
  return putAt(c, placed, placed.angle + toDeg((around + Math.sign(around) * 2 * STEP) / c.layout.radius));
}

/** A row or fitting moved up by `up` mm and a step more. */
export function shiftUp(c: Case, placed: Placed | undefined, up: Mm): Cure[] {
  const it = placed && thingAt(c.jig, placed.key);
  if (!it || !Number.isFinite(up) || up === 0) return [];
  const to = it.thing.height + Math.sign(up) * upTo(Math.abs(up) + 2 * STEP);
  return setFrom(c, it, 'bottom', to);
}

/** A fitting put midway between two lugs of the first row, the nearest such places first. */
export function betweenLugs(c: Case, placed: Placed | undefined): Cure[] {
  const row = c.jig.rows[0];
  if (!row || !placed || placed.role === 'strainer' || placed.role === 'butt') return [];
  const pitch = 360 / row.count;
  const middles = Array.from({ length: row.count }, (_, i) => wrapDeg(row.first + (i + 0.5) * pitch));
  const away = (a: Deg) => Math.min(wrapDeg(a - placed.angle), wrapDeg(placed.angle - a));
  return middles
    .sort((a, b) => away(a) - away(b))
    .slice(0, 4)
    .flatMap((a) => putAt(c, placed, a));
}
