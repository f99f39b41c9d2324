import { describe, expect, test } from 'vitest';
import { planCollar } from '../../src/collar/collar.ts';
import type { CollarPlan } from '../../src/collar/plan.ts';
import { emc } from '../../src/geometry/moisture.ts';
import type { Fact } from '../../src/model/finding.ts';
import { collarSayings } from '../../src/say/collar.ts';
import { fitSayings } from '../../src/say/fit.ts';
import { planned, type Raw } from '../helpers/jigs.ts';

const R = 177.8;
const drum = (more: Raw = {}, collar: Raw = {}): Raw => ({
  jig: 1,
  name: 'again and again',
  shell: {
    diameter: 2 * R,
    depth: 152,
    wall: 6.35,
    round: 0.4,
    edges: 'cut',
    build: 'stave',
    wood: 'black-cherry',
  },
  lugs: {
    count: 8,
    rows: [
      { edge: 'top', distance: 40 },
      { edge: 'bottom', distance: 40 },
    ],
    holes: { layout: 'upright', spacing: 25.4, drill: 4.6, screw: 'M4 x 12' },
  },
  climate: { workshop: { temperature: 16, humidity: 50 }, home: { temperature: 21, humidity: 40 } },
  method: 'collar',
  collar: {
    material: 'birch-ply-6',
    thickness: 5.8,
    sheet: 'laser-900x600',
    bushing: { inside: 4.6, outside: 8, length: 16 },
    ...collar,
  },
  ...more,
});

function run(raw: Raw): { plan: CollarPlan; find: (id: string) => Fact } {
  const { jig, layout } = planned(raw);
  const { value: plan, facts } = planCollar(jig, layout, { digest: 'abcdef0123456789' });
  const find = (id: string): Fact => {
    const f = facts.find((x) => x.id === id);
    if (f === undefined) throw new Error(`${id} not among ${facts.map((x) => x.id).join(' ')}`);
    const saying = collarSayings[id] ?? fitSayings[id];
    for (const text of [saying?.text(f), saying?.try(f)]) expect(text).not.toMatch(/\?|undefined|NaN|Infinity/);
    return f;
  };
  return { plan, find };
}

describe('the season in which shells still go into the collar', () => {
  test('at its ends the shell has grown by the room it had, or shrunk by what the wedges follow', () => {
    const { plan, find } = run(drum());
    const f = find('collar-season');
    // Black cherry moves 0.00248 of its size along the rings for each % of moisture (Wood Handbook, table 13-5).
    const girthAt = (humidity: number): number => 2 * Math.PI * R * (1 + 0.00248 * (emc(16, humidity) - emc(16, 50)));
    const [dry, wet] = [f.measured as number, f.limit as number];
    expect(wet).toBeGreaterThan(50);
    expect(dry).toBeLessThan(50);
    // 0.1 % of humidity is some 0.05 mm of girth.
    expect(Math.abs(girthAt(wet) - plan.serves.girth[1])).toBeLessThan(0.1);
    expect(Math.abs(girthAt(dry) - plan.serves.held)).toBeLessThan(0.1);
  });
  test('more clearance reaches into damper weather; ply hardly moves at all', () => {
    const wet = (raw: Raw): number => run(raw).find('collar-season').limit as number;
    expect(wet(drum({}, { clearance: 1.5 }))).toBeGreaterThan(wet(drum()) + 3);
    const ply = drum({ shell: { ...(drum()['shell'] as Raw), build: 'ply' } });
    expect(wet(ply)).toBeGreaterThan(wet(drum()) + 10);
  });
  test('no climate, no wood: not checked, and says what it needs', () => {
    const bare = drum({ shell: { diameter: 2 * R, depth: 152, wall: 6.35, round: 0.4, edges: 'cut' } });
    delete bare['climate'];
    const { jig, layout } = planned(bare);
    const facts = planCollar(jig, layout, { digest: '' }).facts;
    const f = facts.find((x) => String(x.facts?.['check']).includes('season'));
    expect(f?.id).toBe('not-checked');
    expect(f?.facts?.['needs']).toMatch(/climate.*build.*wood/);
  });
});

/** Error function by its series (Abramowitz and Stegun 7.1.5), good to 1e-9 below 3. */
function erf(x: number): number {
  let [sum, term] = [x, x];
  for (let n = 1; n < 80; n++) {
    term *= (-x * x) / n;
    sum += term / (2 * n + 1);
  }
  return (2 / Math.sqrt(Math.PI)) * sum;
}

describe('worn bushings, through the accuracy budget', () => {
  test('P = erf(c / sigma) for every lug, sigma with the play grown by half the wear and its lean', () => {
    const { plan, find } = run(drum());
    const f = find('collar-wear');
    const guide = plan.bores[0]?.guide as number;
    const gap = plan.bores[0]?.gap as number;
    const shift = 0.5 + (gap + 6.35 / 2) / guide;
    expect(f.facts?.['shift']).toBeCloseTo(shift, 9);
    // Evenly within a half-width w has the standard deviation w / sqrt 3: bit, bushing, cut; bell curves: gap and casting.
    const chance = (worn: number): number => {
      const even = (w: number): number => w / Math.sqrt(3);
      const sigma = Math.hypot(even(0.1 + shift * worn), even(0.1), even(0.1), 0.08, 0.1);
      return 100 * erf((4.6 - 4) / 2 / sigma) ** 16;
    };
    expect(f.measured).toBeCloseTo(chance(0), 4);
    for (const i of [1, 2, 3]) expect(f.facts?.[`goesOn${i}`]).toBeCloseTo(chance(f.facts?.[`worn${i}`] as number), 3);
    const due = f.facts?.['due'] as number;
    expect(chance(0)).toBeLessThan(95);
    expect(due).toBe(0);
  });
  test('the wear at which bushings are due is where the chance falls below 95 %', () => {
    const raw = drum();
    raw['lugs'] = { ...(raw['lugs'] as Raw), holes: { layout: 'upright', spacing: 25.4, drill: 5, screw: 'M4 x 12' } };
    const f = run(raw).find('collar-wear');
    const shift = f.facts?.['shift'] as number;
    const at = (worn: number): number => {
      const even = (w: number): number => w / Math.sqrt(3);
      return erf(0.5 / Math.hypot(even(0.1 + shift * worn), even(0.1), even(0.1), 0.08, 0.1)) ** 16;
    };
    const due = f.facts?.['due'] as number;
    expect(due).toBeGreaterThan(0.05);
    expect(at(due - 0.03)).toBeGreaterThan(0.95);
    expect(at(due + 0.01)).toBeLessThan(0.95);
  });
  test('fittings without screws: not checked', () => {
    const raw = drum();
    raw['lugs'] = { ...(raw['lugs'] as Raw), holes: { layout: 'upright', spacing: 25.4, drill: 5 } };
    const { jig, layout } = planned(raw);
    const f = planCollar(jig, layout, { digest: '' }).facts.find((x) => String(x.facts?.['check']).includes('worn'));
    expect(f?.facts?.['needs']).toMatch(/screw/);
  });
});

describe('three layouts', () => {
  test('whole rings, rings in pieces and sectors are worked out, and the least is named', () => {
    const { plan, find } = run(drum());
    const { whole, pieces, sector } = plan.layouts;
    if (whole === undefined || pieces === undefined || sector === undefined) throw new Error('three, please');
    expect(whole).toBe(plan.tradeoff.rings?.sheetArea);
    expect(sector).toBe(plan.tradeoff.sector?.sheetArea);
    expect(pieces).not.toBe(whole);
    const f = find('collar-layouts');
    expect(f.limit).toBeCloseTo(Math.min(whole, pieces, sector) / 100, 9);
    expect(f.facts?.['times']).toBeCloseTo(whole / Math.min(whole, pieces, sector), 9);
  });
  test('on a small sheet whole rings do not go, and it says so', () => {
    const { plan, find } = run(drum({}, { sheet: 'laser-600x400' }));
    expect(plan.layouts.whole).toBeUndefined();
    expect(plan.layouts.pieces).toBe(plan.tradeoff.rings?.sheetArea);
    expect(collarSayings['collar-layouts']?.text(find('collar-layouts'))).toContain('whole rings do not go');
  });
});
