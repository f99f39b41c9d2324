import { fitRigid, type RigidFit, type Vector } from '../geometry/rigid.ts';
import { type Deg, type Mm, toDeg, toRad, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { LAND } from './cover.ts';
import { atPose, BRIDGE, type Cure, type Drilled, type OpenedHole, proven, spoils } from './proven.ts';

/**
 * A hole opened by more than this part of its diameter is a slot and no longer a hole eased with a file (judgement,
 * no source).
 */
const EASED = 0.25;
/** A slot longer than the hole is wide holds no washer. */
const LONGEST_SLOT = 1;
/**
 * The cures that get the fitting on, least damaging first: turned round; one hole opened; several opened; the fewest
 * holes plugged and drilled afresh. Each is proven: the screws are checked against the holes as they would be, and the
 * openings against foot and washer, and against holes and feet around it. Cures that would show, or cut into a neighbour,
 * are left out while another is there.
 */
export function cures(d: Drilled): readonly Cure[] {
  const found: Cure[] = [];
  if (d.turns) {
    const turned = fitRigid(d.reaches, { from: 180 });
    if (turned !== undefined && turned.miss <= tolerance.fit) found.push(proven(d, 'turn', turned, []));
  }
  for (let i = 0; i < d.reaches.length; i++) {
    const fit = fitRigid(d.reaches.map((r, k) => ({ ...r, opens: k === i })));
    if (fit !== undefined) add(found, opened(d, fit));
  }
  const all = fitRigid(d.reaches);
  if (all !== undefined) add(found, opened(d, all));
  add(found, plugged(d));
  const ranked = found.sort((a, b) => showing(a) - showing(b) || a.damage_mm2 - b.damage_mm2);
  const covered = ranked.filter((c) => showing(c) === 0);
  return covered.length > 0 ? covered : ranked;
}

/**
 * 0: nothing shows. 1: it shows beside the foot. 2: no washer lies on the wood all round it. 3: it spoils a
 * neighbour.
 */
const showing = (c: Cure): 0 | 1 | 2 | 3 =>
  c.covered !== 'no' ? 0 : spoils(c.cover) ? 3 : (c.cover.washer_mm ?? 0) >= LAND ? 1 : 2;

const add = (list: Cure[], cure: Cure | undefined): void => {
  if (cure !== undefined) list.push(cure);
};

/** Holes opened just as far as the screws stand out of reach at this pose. */
function opened(d: Drilled, fit: RigidFit): Cure | undefined {
  const openings = d.reaches.flatMap((r, i): OpenedHole[] => {
    const off = fit.off[i]!;
    const away = Math.hypot(off.x, off.y);
    const by = away - Math.max(0, r.reach);
    if (by <= tolerance.fit) return [];
    const towards = toDeg(Math.atan2(off.x, off.y));
    return [
      {
        hole: d.ids[i]!,
        by_mm: by,
        towards_deg: (towards + 360) % 360,
        towards: inWords(towards),
        drill_mm: d.drill + 2 * by,
      },
    ];
  });
  const longest = Math.max(0, ...openings.map((o) => o.by_mm));
  if (openings.length === 0 || longest > LONGEST_SLOT * d.drill || leastWood(d, openings) < BRIDGE) return undefined;
  return proven(d, longest > EASED * d.drill ? 'slot' : 'open', fit, openings);
}

/** Least wood between two openings of the fitting, by their ends: slots are short beside the way between holes. */
function leastWood(d: Drilled, openings: readonly OpenedHole[]): Mm {
  const ends = d.reaches.map(({ hole }, i): readonly Vector[] => {
    const o = openings.find((p) => p.hole === d.ids[i]);
    if (o === undefined) return [hole];
    const a = toRad(o.towards_deg);
    return [hole, { x: hole.x + o.by_mm * Math.sin(a), y: hole.y + o.by_mm * Math.cos(a) }];
  });
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < ends.length; i++) {
    for (let j = 0; j < i; j++) {
      for (const p of ends[i]!) for (const q of ends[j]!) least = Math.min(least, Math.hypot(p.x - q.x, p.y - q.y));
    }
  }
  return least - d.drill;
}

/** The fewest holes to plug, so that the hardware goes on the rest; drilled afresh where its screws then stand. */
function plugged(d: Drilled): Cure | undefined {
  const n = d.reaches.length;
  for (let count = 1; count <= n; count++) {
    let best: { fit: RigidFit; which: readonly number[]; moved: Mm } | undefined;
    for (const which of choose(n, count)) {
      const rest = d.reaches.filter((_, i) => !which.includes(i));
      const fit = rest.length === 0 ? still(d) : fitRigid(rest);
      if (fit === undefined || fit.miss > tolerance.fit) continue;
      const pose = posed(d, fit);
      const moved = which.reduce((s, i) => s + Math.hypot(pose.off[i]!.x, pose.off[i]!.y), 0);
      if (best === undefined || moved < best.moved) best = { fit: pose, which, moved };
    }
    if (best === undefined) continue;
    const { fit, which } = best;
    const redrills = which.map((i) => ({
      hole: d.ids[i]!,
      across_mm: fit.off[i]!.x,
      upright_mm: fit.off[i]!.y,
    }));
    return proven(d, 'plug', fit, [], redrills);
  }
  return undefined;
}

/** Largest number of holes for which every choice is tried; beyond it all are drilled afresh. */
const MOST_CHOICES = 12;

function* choose(n: number, count: number): Generator<readonly number[]> {
  if (n > MOST_CHOICES && count > 1 && count < n) return;
  const pick = function* (from: number, left: number): Generator<readonly number[]> {
    if (left === 0) yield [];
    else for (let i = from; i <= n - left; i++) for (const rest of pick(i + 1, left - 1)) yield [i, ...rest];
  };
  yield* pick(0, count);
}

/** The hardware where the plan has it. */
const still = (d: Drilled): RigidFit => posed(d, { miss: 0, turn: 0, shift: { x: 0, y: 0 }, off: [], pull: [] });

/** All screws at a pose found from some of them. */
function posed(d: Drilled, fit: RigidFit): RigidFit {
  const off = d.reaches.map(({ screw, hole }) => {
    const s = atPose(screw, fit);
    return { x: s.x - hole.x, y: s.y - hole.y };
  });
  return { ...fit, off };
}

/** Eight directions, as one looks at the outside of the shell with the top edge up. */
function inWords(fromUp: Deg): string {
  const words = [
    'up',
    'up and to the right',
    'to the right',
    'down and to the right',
    'down',
    'down and to the left',
    'to the left',
    'up and to the left',
  ];
  return words[Math.round(wrapDeg(fromUp) / 45) % 8]!;
}
