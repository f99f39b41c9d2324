import type { Fact } from '../model/finding.ts';
import type { Mm } from '../units/scalar.ts';
import { shorterTurn, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, raise, SIDES } from './bench.ts';
import { type Gathered, gather } from './gather.ts';

/** Holes on the glue line of a reinforcement ring, on its end, on a stave joint or on a seam. */
export function checkJoints(bench: Bench): Fact[] {
  const found: Gathered[] = [];
  const { shell } = bench.jig;
  for (const hole of bench.layout.holes) {
    const placed = hole.fitting;
    const radius = hole.drill / 2;
    const say = (id: string, off: Mm, facts: Record<string, string | number>, keys: readonly string[]) => {
      if (off >= radius - tolerance.noise) return;
      found.push({
        key: `${id} ${hole.role} ${facts['ring'] ?? ''}`,
        over: radius - off,
        fact: raise(bench, {
          level: 'care',
          id,
          at: hole.id,
          measured: off,
          limit: radius,
          facts: { ...facts, fitting: placed },
          keys,
        }),
      });
    };
    for (const joint of shell.joints)
      say('hole-on-joint', bench.layout.radius * toRad(Math.abs(shorterTurn(joint, hole.angle))), { joint }, [
        'shell.joints',
      ]);
    for (const side of SIDES) {
      const ring = shell.rings[side];
      if (!ring) continue;
      const inner = side === 'top' ? shell.depth - ring.width : ring.width;
      say('hole-on-ring-edge', Math.abs(hole.height - inner), { ring: side, width: ring.width, height: inner }, [
        `shell.rings.${side}`,
      ]);
      const within = side === 'top' ? hole.height > inner : hole.height < inner;
      if (ring.joint !== undefined && within)
        say(
          'hole-on-ring-joint',
          bench.layout.radius * toRad(Math.abs(shorterTurn(ring.joint, hole.angle))),
          { ring: side, joint: ring.joint },
          [`shell.rings.${side}`],
        );
    }
  }
  return gather(found);
}
