import { findMethod, type MarkingMethod, METHODS, termsOf } from '../data/methods.ts';
import { leastWhere, quantile, samplingError } from '../geometry/statistics.ts';
import type { ErrorTerm } from '../model/accuracy.ts';
import { fact } from '../model/fact.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig, Method, Pattern } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Staged } from '../model/stage.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { pairGoesOn, pairSpread, pairStraight } from './chance.ts';
import type { BudgetReport, Chance, Group, GroupBudget, MethodBudget } from './report.ts';
import { type Bore, type Needs, shareMet, simulate } from './simulate.ts';
import { type Spread, sigmaOf, spreadOf } from './spread.ts';
import { lineOf, ownTerms, warnings } from './tell.ts';

export type { BudgetReport } from './report.ts';

export interface BudgetOptions {
  /** Only this way of marking and drilling; the jig's own when not said, and all of them when the jig names none. */
  readonly method?: Method;
  /** Chance wanted that the whole drum goes together, 0…1 (default the jig file's, else 0.95). */
  readonly level?: number;
  /** Terms in place of the jig file's and the tables'. */
  readonly terms?: Partial<Readonly<Record<Method, readonly ErrorTerm[]>>>;
  /** Drilled fittings in a simulation, where no closed form exists (default 2000; 0 leaves those unknown). */
  readonly samples?: number;
  readonly seed?: number;
}

const DEFAULT_LEVEL = 0.95;
const DEFAULT_SAMPLES = 2000;
const DEFAULT_SEED = 1;

/**
 * The accuracy budget: for a way of marking and drilling, how far holes stray, the chance that each fitting and the whole
 * drum goes on (and goes on straight), and the hole that lifts it to the level wanted. Every error is taken as normal and
 * independent from fitting to fitting. Raises `care` and `note` only: these are chances.
 */
export function budget(jig: Jig, layout: Layout, options: BudgetOptions = {}): Staged<BudgetReport> {
  const level = options.level ?? jig.accuracy?.level ?? DEFAULT_LEVEL;
  const samples = options.samples ?? DEFAULT_SAMPLES;
  const facts: Fact[] = [];
  const { groups, notChecked } = groupsOf(jig, layout);
  for (const { group, key, needs } of notChecked) {
    facts.push({
      level: 'note',
      id: 'not-checked',
      at: group,
      measured: null,
      limit: null,
      unit: '',
      facts: { check: 'the chance that it goes on', needs },
      ...lineOf(jig, key),
    });
  }
  const asked = options.method ?? jig.method;
  if (asked === undefined) {
    facts.push(
      fact('note', 'not-checked', 'shell', null, null, '', {
        check: 'the chance that the drum goes together',
        needs: 'method (how you mark and drill)',
      }),
    );
  }
  const methods = (asked === undefined ? METHODS : [findMethod(asked)]).map((method) =>
    methodBudget(method, jig, groups, level, samples, options),
  );
  const chosen = asked === undefined ? undefined : methods[0];
  if (chosen !== undefined) facts.push(...ownTerms(chosen, jig), ...warnings(chosen, level, jig, groups));
  return {
    value: { level, samples, methods, notChecked: notChecked.map(({ group, needs }) => ({ group, needs })) },
    facts,
  };
}

function groupsOf(jig: Jig, layout: Layout) {
  const patterns = new Map<string, Pattern>();
  for (const row of jig.rows) patterns.set(`lug ${row.name}`, row.holes);
  for (const fitting of jig.fittings) patterns.set(`fitting ${fitting.name}`, fitting.holes);
  const ids = new Map<string, { group: string; key: string; at: string[] }>();
  for (const p of layout.placed) {
    const name = `${p.role === 'lug' ? 'lug' : 'fitting'} ${p.group}`;
    const seen = ids.get(name);
    if (seen) seen.at.push(p.id);
    else ids.set(name, { group: p.role === 'lug' ? `${p.group}-lugs` : p.group, key: p.key, at: [p.id] });
  }
  const groups: Group[] = [];
  const notChecked: { group: string; key: string; needs: string }[] = [];
  for (const [name, { group, key, at }] of ids) {
    const pattern = patterns.get(name);
    if (pattern === undefined || pattern.points.length === 0) continue;
    const screw = pattern.screw?.thread.diameter;
    // A lone hole without a screw is a vent, not something that must go on.
    if (screw !== undefined) groups.push({ group, at, key, pattern, screw });
    else if (pattern.points.length > 1) notChecked.push({ group, key, needs: 'holes.screw' });
  }
  return { groups, notChecked };
}

function methodBudget(
  method: MarkingMethod,
  jig: Jig,
  groups: readonly Group[],
  level: number,
  samples: number,
  options: BudgetOptions,
): MethodBudget {
  const terms = options.terms?.[method.id] ?? jig.accuracy?.terms[method.id] ?? termsOf(method);
  const spread = spreadOf(terms, jig.shell);
  const fittings = groups.reduce((n, g) => n + (g.pattern.points.length > 1 ? g.at.length : 0), 0);
  const each = level ** (1 / Math.max(1, fittings));
  const memo = new Map<string, Needs>();
  const reports = groups.map((g) => {
    const bores = boresOf(g.pattern, method.bores, jig.shell);
    const needs = (): Needs | null => {
      if (samples <= 0) return null;
      const key = JSON.stringify(bores);
      const known = memo.get(key) ?? simulate(bores, spread, samples, options.seed ?? DEFAULT_SEED);
      memo.set(key, known);
      return known;
    };
    return groupBudget(g, bores, spread, each, needs);
  });
  const whole = (pick: (g: GroupBudget) => Chance | null): number | null =>
    reports.reduce<number | null>((p, g) => {
      const chance = pick(g);
      return p === null || chance === null ? null : p * chance.value ** g.at.length;
    }, 1);
  return {
    method: method.id,
    name: method.name,
    bores: method.bores,
    terms: terms.map((t) => ({ ...t, sigma: sigmaOf(t) })),
    sigma: {
      hole: { around_mm: spread.hole.around, along_mm: spread.hole.along },
      place: { around_mm: spread.place.around, along_mm: spread.place.along },
    },
    groups: reports,
    drum: { goesOn: whole((g) => g.goesOn), straight: whole((g) => g.straight), fittings },
  };
}

/** The pattern's screws with the walk of a hole that points to the axis while its screw stands parallel, or the reverse. */
function boresOf(
  pattern: Pattern,
  bores: 'radial' | 'parallel',
  shell: { readonly radius: Mm; readonly wall: Mm },
): Bore[] {
  return pattern.points.map(({ across, upright }) => {
    const walk = bores === pattern.axes ? 0 : (across * shell.wall) / shell.radius;
    // A radial bore comes nearer the middle towards the inside; a parallel one stays behind radial screws.
    return { at: { x: across, y: upright }, walk: { x: bores === 'radial' ? -walk : walk, y: 0 } };
  });
}

/** A walk below this is beyond a bench's sight: the closed forms are used as if there were none. */
const WALK_COUNTS = tolerance.chord;

function groupBudget(g: Group, bores: Bore[], spread: Spread, each: number, needs: () => Needs | null): GroupBudget {
  const clearance = g.pattern.drill - g.screw;
  const reach = clearance / 2;
  const walk = Math.max(...bores.map((b) => Math.abs(b.walk.x)));
  const base = {
    group: g.group,
    at: g.at,
    holes: bores.length,
    drill_mm: g.pattern.drill,
    screw_mm: g.screw,
    clearance_mm: clearance,
    walk_mm: walk,
  };
  const byHand = closedForms(bores, spread, walk);
  const simulated = byHand?.free !== undefined && byHand.held !== undefined ? null : needs();
  const side = (which: 'free' | 'held'): { chance: Chance | null; drill: Mm | null } => {
    const form = byHand?.[which];
    if (form !== undefined) {
      const drill = g.screw + 2 * leastWhere((c) => form(c) >= each, 0, MOST_REACH, tolerance.join);
      return { chance: { value: form(reach), how: bores.length === 1 ? 'one hole' : 'closed form' }, drill };
    }
    if (simulated === null) return { chance: null, drill: null };
    const value = shareMet(simulated[which], reach);
    return {
      chance: { value, how: 'simulated', error: samplingError(value, simulated[which].length) },
      drill: g.screw + 2 * quantile(simulated[which], each),
    };
  };
  const free = side('free');
  const held = side('held');
  return {
    ...base,
    goesOn: free.chance,
    straight: held.chance,
    drillFor_mm: { goesOn: free.drill, straight: held.drill },
  };
}

/** Half clearance (mm) beyond which no hole size is looked for. */
const MOST_REACH = 20;

type Form = (reach: Mm) => number;

/** Chance by reach where a closed form exists: one hole, two holes, and two holes with an even walk when free to turn. */
function closedForms(
  bores: readonly Bore[],
  spread: Spread,
  walk: Mm,
): { readonly free?: Form; readonly held?: Form } | undefined {
  if (bores.length === 1) {
    const enters: Form = (reach) => (reach >= walk / 2 ? 1 : 0);
    return { free: enters, held: enters };
  }
  if (bores.length !== 2) return undefined;
  const [a, b] = bores as readonly [Bore, Bore];
  const span = { x: b.at.x - a.at.x, y: b.at.y - a.at.y };
  const p = pairSpread(span, spread);
  if (walk < WALK_COUNTS)
    return { free: (reach) => pairGoesOn(reach, span, p), held: (reach) => pairStraight(reach, p) };
  const even = Math.abs(span.y) < tolerance.same && Math.abs(a.walk.x + b.walk.x) < tolerance.same;
  return even ? { free: (reach) => pairGoesOn(reach, span, p, walk) } : undefined;
}
