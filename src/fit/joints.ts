import { washerOutside } from '../data/screws.ts';
import type { Fact } from '../model/finding.ts';
import type { Hole } from '../model/layout.ts';
import { type Deg, type Mm, shorterTurn, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, notChecked, raise, SIDES } from './bench.ts';
import { type Gathered, gather } from './gather.ts';

/** Holes on a stave joint or seam, and holes and their washers on the edge or the glue joint of a reinforcement ring. */
export function checkJoints(bench: Bench): Fact[] {
  const { shell } = bench.jig;
  const glued = shell.build === 'stave' && shell.joints.length === 0;
  const missing = glued ? [notChecked(bench, 'shell', 'holes on stave joints', ['shell.joints'], 'shell')] : [];
  const washers = new Map(
    bench.groups.flatMap(({ row, fitting, placed }) => {
      const screw = (row ?? fitting)?.holes.screw;
      return screw ? placed.map((p) => [p.id, washerOutside(screw.thread) / 2] as const) : [];
    }),
  );
  const met = bench.layout.holes.flatMap((hole) => [
    ...onJoints(bench, hole),
    ...onRings(bench, hole, Math.max(hole.drill / 2, washers.get(hole.fitting) ?? 0)),
  ]);
  return [...missing, ...gather(met)];
}

const roundShell = (bench: Bench, a: Deg, b: Deg): Mm => bench.layout.radius * toRad(Math.abs(shorterTurn(a, b)));

function onJoints(bench: Bench, hole: Hole): Gathered[] {
  return bench.jig.shell.joints.flatMap((joint) =>
    meets(
      bench,
      hole,
      'hole-on-joint',
      roundShell(bench, joint, hole.angle),
      hole.drill / 2,
      { joint },
      'shell.joints',
    ),
  );
}

function onRings(bench: Bench, hole: Hole, washer: Mm): Gathered[] {
  const { shell } = bench.jig;
  return SIDES.flatMap((side) => {
    const ring = shell.rings[side];
    if (!ring) return [];
    const inner = side === 'top' ? shell.depth - ring.width : ring.width;
    const key = `shell.rings.${side}`;
    const facts = { ring: side, width: ring.width, height: inner };
    const edge = meets(bench, hole, 'hole-on-ring-edge', Math.abs(hole.height - inner), washer, facts, key);
    const within = side === 'top' ? hole.height > inner : hole.height < inner;
    if (ring.joint === undefined || !within) return edge;
    const off = roundShell(bench, ring.joint, hole.angle);
    return [
      ...edge,
      ...meets(bench, hole, 'hole-on-ring-joint', off, hole.drill / 2, { ring: side, joint: ring.joint }, key),
    ];
  });
}

function meets(
  bench: Bench,
  hole: Hole,
  id: string,
  off: Mm,
  reach: Mm,
  facts: Record<string, string | number>,
  key: string,
): Gathered[] {
  if (off >= reach - tolerance.noise) return [];
  const fact = raise(bench, { level: 'care', id, at: hole.id, measured: off, limit: reach, facts, keys: [key] });
  return [{ key: `${id} ${hole.role} ${facts['ring'] ?? ''}`, over: reach - off, fact }];
}
