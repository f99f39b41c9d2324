import type { Fact } from '../model/finding.ts';
import { type Mm, shorterTurn, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, lineAcross, notChecked, raise, type Side, sidesServed } from './bench.ts';

/** What passes the bottom hoop: straps through its gates, legs beside its ears. */
export const checkGates = (bench: Bench): Fact[] => [...strapsAtGates(bench), ...legsAtEars(bench)];

/** Strap lines against the gates of the bottom hoop, where the hoop has gates. */
function strapsAtGates(bench: Bench): Fact[] {
  const gates = bench.jig.hoops.bottom?.gates ?? [];
  if (gates.length === 0) {
    const strainer = bench.groups.find((g) => g.fitting?.role === 'strainer');
    return strainer && bench.jig.hoops.bottom
      ? [notChecked(bench, 'hoop-bottom', 'gates over the straps', ['hoops.bottom.gates'], 'hoops.bottom')]
      : [];
  }
  return bench.groups.flatMap((group) => {
    const fitting = group.fitting;
    if (fitting?.role !== 'strainer' && fitting?.role !== 'butt') return [];
    return group.placed.flatMap((p) => {
      const strap = lineAcross(bench, p.angle, fitting.snareLine ?? 0);
      const misses = gates.map((g) => bench.layout.radius * toRad(Math.abs(shorterTurn(g.at, strap))) - g.width / 2);
      const miss = Math.min(...misses);
      if (miss <= tolerance.noise) return [];
      return [
        raise(bench, {
          level: 'care',
          id: 'gate-not-over-strap',
          at: p.id,
          measured: miss,
          limit: 0,
          facts: { what: group.title, gates: gates.map((g) => `${g.at} deg`).join(', ') },
          keys: ['hoops.bottom.gates'],
        }),
      ];
    });
  });
}

/** Half the width of a hoop's ear with its rod head (common practice, no source), mm. */
const HALF_EAR: Mm = 10;

/** Whether a part with this gap over the shell runs outside that hoop's tension rods, where both are measured. */
export function passesOutside({ jig, layout }: Bench, side: Side, clear: Mm | undefined): boolean {
  const circle = jig.hoops[side]?.earCircle;
  if (clear === undefined || circle === undefined) return false;
  return layout.radius + clear >= (circle + (jig.rods?.thread?.diameter ?? 0)) / 2;
}

/** A leg's rod passes the bottom hoop: beside an ear, not over it. Ears stand over the lugs of that hoop. */
function legsAtEars(bench: Bench): Fact[] {
  const { jig, layout } = bench;
  const lugs = bench.groups
    .filter((g) => g.row && sidesServed(jig, g.row).includes('bottom'))
    .flatMap((g) => g.placed.map((p) => p.angle));
  if (!jig.hoops.bottom) return [];
  return bench.groups.flatMap((group) => {
    const rod = group.fitting?.rod;
    if (!rod || group.fitting?.role !== 'leg') return [];
    const need = rod.diameter / 2 + HALF_EAR;
    return group.placed.flatMap((p) => {
      const line = lineAcross(bench, p.angle, rod.across);
      const off = layout.radius * toRad(Math.min(...lugs.map((a) => Math.abs(shorterTurn(a, line)))));
      if (off >= need - tolerance.noise) return [];
      const touch = (rod.diameter + (jig.rods?.thread?.diameter ?? 0)) / 2;
      const blocked = off < touch - tolerance.noise && !passesOutside(bench, 'bottom', rod.clear);
      return [
        raise(bench, {
          level: blocked ? 'stop' : 'care',
          id: blocked ? 'leg-rod-on-rod' : 'leg-rod-near-ear',
          at: p.id,
          measured: off,
          limit: blocked ? touch : need,
          facts: { over: (blocked ? touch : need) - off, one: p.id },
          keys: [`${group.key}.at`],
        }),
      ];
    });
  });
}
