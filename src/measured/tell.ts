import type { Fact } from '../model/finding.ts';
import type { Layout } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import type { FittingVerdict } from './goes.ts';
import { tellingPairs } from './pairs.ts';
import type { Cure } from './proven.ts';
import type { Reading } from './readings.ts';
import type { MeasuredReport } from './report.ts';

/** A fitting farther than this (mm) beside its plan pulls its rods or straps aside (common practice, no source). */
const BESIDE: Mm = 2;
/** A fitting turned by more than this (deg) shows (common practice, no source). */
const CROOKED = 2;

/** The findings of a measured shell, as data. */
export function tellFindings(layout: Layout, report: MeasuredReport, kept: readonly Reading[]): Fact[] {
  const facts: Fact[] = [];
  const raise = (f: Partial<Fact> & Pick<Fact, 'level' | 'id' | 'at'>): void => {
    facts.push({ measured: null, limit: null, unit: 'mm', ...f });
  };
  if (report.counts.read === 0) {
    raise({
      level: 'note',
      id: 'not-checked',
      at: 'shell',
      unit: '',
      facts: { check: 'which fittings go on as drilled', needs: 'readings: every line of the form is blank' },
    });
    return facts;
  }
  for (const v of report.fittings) {
    if (v.goesOn === null) {
      raise({
        level: 'note',
        id: 'not-checked',
        at: v.id,
        unit: '',
        facts: {
          check: 'whether it goes on as drilled',
          needs: v.needs === 'readings' ? missing(v, layout, kept) : (v.needs ?? 'readings'),
        },
      });
    } else if (!v.goesOn) {
      raise({
        level: 'stop',
        id: 'fitting-does-not-go-on',
        at: v.id,
        measured: v.off_mm,
        limit: v.reach_mm,
        facts: {
          miss: v.miss_mm!,
          sigma: v.sigma_mm!,
          crossChecked: v.crossChecked ? 'yes' : 'no',
          ...cureFacts(v.cures[0]),
        },
      });
    } else if (v.miss_mm! > -Math.max(2 * v.sigma_mm!, v.walk_mm! / 2)) {
      raise({
        level: 'care',
        id: 'fitting-close',
        at: v.id,
        measured: v.off_mm,
        limit: v.reach_mm,
        facts: { sigma: v.sigma_mm!, walk: v.walk_mm! },
      });
    }
  }
  for (const v of report.fittings) tellPlace(v, report, raise);
  for (const h of report.rimHabits) {
    raise({
      level: 'care',
      id: 'readings-over-rims',
      at: 'shell',
      measured: h.off_mm,
      limit: h.left_mm,
      facts: { kind: h.kind, rims: rimWord(h.kind, h.over), count: h.readings },
    });
  }
  for (const { reading: r, most_mm } of report.impossible) {
    raise({
      level: 'care',
      id: 'reading-impossible',
      at: nameOf(r),
      measured: r.value,
      limit: most_mm,
      line: r.line,
      facts: { kind: r.kind },
    });
  }
  const told = new Set<Reading>();
  for (const m of report.misreadings) {
    if (told.has(m.reading)) continue;
    const r = m.reading;
    if (m.or.length === 0) {
      raise({
        level: 'care',
        id: 'reading-suspect',
        at: nameOf(r),
        measured: r.value,
        limit: m.value,
        line: r.line,
        facts: {
          sigma: m.sigma,
          off: r.value - m.value,
          slip: slipOf(r, m.value, Math.max(0.3, 3 * m.sigma), layout.depth),
        },
      });
    } else {
      for (const o of m.or) told.add(o);
      raise({
        level: 'care',
        id: 'readings-disagree',
        at: nameOf(r),
        measured: r.value,
        limit: m.value,
        line: r.line,
        facts: { others: m.or.map((o) => `${nameOf(o)} (line ${o.line})`).join(', '), count: m.or.length + 1 },
      });
    }
  }
  for (const c of report.closures) {
    if (Math.abs(c.sum_mm - c.girth_mm) <= c.allowed_mm) continue;
    raise({
      level: 'care',
      id: 'readings-do-not-close',
      at: 'shell',
      measured: c.sum_mm,
      limit: c.girth_mm,
      facts: {
        chords: c.readings.length,
        off: c.sum_mm - c.girth_mm,
        allowed: c.allowed_mm,
        lines: c.readings.map((r) => r.line).join(', '),
      },
    });
  }
  return facts;
}

type Raise = (f: Partial<Fact> & Pick<Fact, 'level' | 'id' | 'at'>) => void;

/** How the fitting stands beside its plan: only where its holes were placed round the shell. */
function tellPlace(v: FittingVerdict, report: MeasuredReport, raise: Raise): void {
  if (v.stands === null || v.uprightMiss_mm === null || v.goesOn !== true || v.holes.length < 2) return;
  const holes = report.holes.filter((h) => v.holes.includes(h.id));
  if (holes.some((h) => h.off_mm === null)) return;
  const around = holes.reduce((s, h) => s + h.off_around_mm!, 0) / holes.length;
  const up = holes.reduce((s, h) => s + h.off_along_mm!, 0) / holes.length;
  const off = Math.hypot(around, up);
  if (off > BESIDE) {
    raise({ level: 'care', id: 'fitting-beside-plan', at: v.id, measured: off, limit: BESIDE, facts: { around, up } });
  }
  if (Math.abs(v.stands.turn_deg) > CROOKED) {
    raise({
      level: 'care',
      id: 'fitting-crooked',
      at: v.id,
      measured: Math.abs(v.stands.turn_deg),
      limit: CROOKED,
      unit: 'deg',
      facts: { room: Math.max(0, 2 * v.uprightMiss_mm) },
    });
  }
}

const nameOf = (r: Pick<Reading, 'kind' | 'from' | 'to'>): string =>
  r.kind === 'edge' ? `${r.from} to the ${r.to} edge` : `${r.from} to ${r.to}`;

const rimWord = (kind: Reading['kind'], over: 'outside' | 'inside'): string =>
  kind === 'chord' ? over : over === 'outside' ? 'far' : 'near';

/** Readings of the form that would tell, those within the fitting first. */
function missing(v: FittingVerdict, layout: Layout, kept: readonly Reading[]): string {
  const has = new Set(kept.map((r) => [r.from, r.to].sort().join(' ')));
  const own = new Set(v.holes);
  const wanted = tellingPairs(layout)
    .filter((p) => (own.has(p.from) || own.has(p.to)) && !has.has([p.from, p.to].sort().join(' ')))
    .sort((a, b) => rank(a, own) - rank(b, own));
  if (wanted.length === 0) return 'more readings of its holes, to another fitting or aslant';
  const first = wanted.slice(0, 3).map((p) => (p.kind === 'edge' ? nameOf(p) : `the chord ${nameOf(p)}`));
  return `readings: ${first.join(', ')}`;
}

const rank = (p: Pick<Reading, 'kind' | 'from' | 'to'>, own: ReadonlySet<string>): number =>
  p.kind === 'chord' && own.has(p.from) && own.has(p.to) ? 0 : p.kind === 'edge' ? 1 : 2;

/** A common slip that explains what was written instead of what was meant; empty when none does. */
function slipOf(r: Pick<Reading, 'kind' | 'value'>, meant: Mm, within: Mm, depth: Mm): string {
  const read = r.value;
  const near = (a: number): boolean => Math.abs(a - meant) <= within;
  if (r.kind === 'edge' && near(depth - read)) return 'measured from the other edge';
  if (near(read * 10) || near(read / 10) || near(read / 100) || near(read * 100)) return 'the decimal point';
  if (near(read * 25.4)) return 'inches written for millimetres';
  for (const ten of [1, 10]) if (near(read + ten) || near(read - ten)) return `${ten} mm misread on the scale`;
  const digits = [...read.toFixed(1)];
  for (let i = 0; i + 1 < digits.length; i++) {
    const swapped = [...digits];
    // The decimal point stays where it is; the digits either side of it may change places.
    const j = swapped[i + 1] === '.' ? i + 2 : i + 1;
    if (swapped[i] === '.' || swapped[j] === undefined) continue;
    [swapped[i], swapped[j]] = [swapped[j]!, swapped[i]!];
    if (near(Number(swapped.join('')))) return 'two digits changed places';
  }
  return '';
}

/** The chosen cure as words and numbers for its sentence. */
function cureFacts(cure: Cure | undefined): Record<string, string | number> {
  if (cure === undefined) return { cure: 'none' };
  return {
    cure: cure.kind,
    openings: cure.openings.map((o) => `${o.hole}|${o.by_mm}|${o.towards}|${o.drill_mm}`).join(';'),
    redrills: cure.redrills.map((r) => `${r.hole}|${r.across_mm}|${r.upright_mm}`).join(';'),
    covered: cure.covered,
    foot: cure.cover.foot_mm ?? '',
    washer: cure.cover.washer ?? '',
    land: cure.cover.washer_mm ?? '',
    beside: cure.cover.beside_mm ?? '',
    under: cure.cover.under ?? '',
  };
}
