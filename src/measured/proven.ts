import type { Reach, RigidFit, Vector } from '../geometry/rigid.ts';
import type { Foot } from '../model/jig.ts';
import type { Thread } from '../model/thread.ts';
import { type Deg, type Mm, toRad } from '../units/scalar.ts';
import { type Beside, underFoot, woodBeside } from './beside.ts';
import { type Cover, farRim, insideFoot, LAND, type Opening, washerFor } from './cover.ts';

/**
 * A fitting against its holes as drilled, in the fitting's own frame (x across, y upright, origin at the plan's
 * place).
 */
export interface Drilled {
  readonly ids: readonly string[];
  /** Screw on the hardware and the hole meant for it. */
  readonly reaches: readonly Reach[];
  readonly drill: Mm;
  readonly thread: Thread;
  readonly foot?: Foot;
  /** Holes and feet of what is around it. */
  readonly beside: Beside;
  /** Whether the hardware works as well the other way up. */
  readonly turns: boolean;
}

export interface OpenedHole {
  readonly hole: string;
  /** How far the rim moves. */
  readonly by_mm: Mm;
  /** Which way, degrees from straight up, growing to the right (clockwise) as seen from outside. */
  readonly towards_deg: Deg;
  /** In words: `up`, `down and to the right`, … */
  readonly towards: string;
  /** Round drill that would open as far, on the same middle. */
  readonly drill_mm: Mm;
}

export interface Redrilled {
  readonly hole: string;
  /** From the hole as drilled: right and up. */
  readonly across_mm: Mm;
  readonly upright_mm: Mm;
}

/** One way to get the fitting on. `damage_mm2`: the wood cut, plus a handicap for each hole touched and each plug. */
export interface Cure {
  readonly kind: 'turn' | 'open' | 'slot' | 'plug';
  readonly openings: readonly OpenedHole[];
  readonly redrills: readonly Redrilled[];
  readonly damage_mm2: number;
  readonly cover: Cover;
  /**
   * Every opening stays under foot and washer, and clear of what is around. `unknown`: the jig does not say how large
   * the foot is.
   */
  readonly covered: 'yes' | 'no' | 'unknown';
  /** How the hardware stands once it is on. */
  readonly pose: { readonly across_mm: Mm; readonly upright_mm: Mm; readonly turn_deg: Deg };
}

/** Wood that must stay between two openings, mm (common practice, no source). */
export const BRIDGE = 2;
/**
 * Each hole that has to be touched at all, as if this much more were cut, mm^2: one hole opened beats two (judgement,
 * no source).
 */
const TOUCHED = 2;
/**
 * A plug and a new hole are more work and more harm than their wood: as if this much more were cut, mm^2 (judgement,
 * no source).
 */
const PLUG_HARM = 100;

/** It cuts into a neighbour, or takes the wood between them. */
export const spoils = (c: Cover): boolean => c.under !== null || (c.beside_mm ?? BRIDGE) < BRIDGE;

/** A point of the hardware where it comes to stand on the shell. */
export const atPose = (p: Vector, fit: Pick<RigidFit, 'turn' | 'shift'>): Vector => {
  const c = Math.cos(toRad(fit.turn));
  const s = Math.sin(toRad(fit.turn));
  return { x: c * p.x - s * p.y + fit.shift.x, y: s * p.x + c * p.y + fit.shift.y };
};

/** From the shell back to the hardware's own frame, where its foot is known. */
const onHardware = (p: Vector, fit: Pick<RigidFit, 'turn' | 'shift'>): Vector => {
  const c = Math.cos(toRad(fit.turn));
  const s = Math.sin(toRad(fit.turn));
  const x = p.x - fit.shift.x;
  const y = p.y - fit.shift.y;
  return { x: c * x + s * y, y: -s * x + c * y };
};

/** A cure with what it costs and what covers it, every screw checked against its hole as it would be. */
export function proven(
  d: Drilled,
  kind: Cure['kind'],
  fit: RigidFit,
  openings: readonly OpenedHole[],
  redrills: readonly Redrilled[] = [],
): Cure {
  const radius = d.drill / 2;
  const byHole = new Map(openings.map((o) => [o.hole, o]));
  const again = new Set(redrills.map((r) => r.hole));
  let foot: Mm | null = d.foot === undefined ? null : Number.POSITIVE_INFINITY;
  let far = 0;
  let wood = Number.POSITIVE_INFINITY;
  let under: string | undefined;
  for (const [i, { screw, hole }] of d.reaches.entries()) {
    const at = atPose(screw, fit);
    const o = byHole.get(d.ids[i]!);
    const a = toRad(o?.towards_deg ?? 0);
    const by = o?.by_mm ?? 0;
    const open: Opening = { from: hole, to: { x: hole.x + by * Math.sin(a), y: hole.y + by * Math.cos(a) }, radius };
    const fresh: Opening = { from: at, to: at, radius };
    const isFresh = again.has(d.ids[i]!);
    // What is left as it was drilled is not this cure's doing.
    if (o !== undefined || isFresh) {
      const cut = isFresh ? fresh : open;
      wood = Math.min(wood, woodBeside(cut, d.beside));
      under ??= underFoot(cut, d.beside);
    }
    // A plug needs no washer, but it must not show beside the foot.
    far = Math.max(far, farRim(at, isFresh ? fresh : open));
    if (foot !== null && d.foot !== undefined) {
      for (const p of [open.from, open.to, ...(isFresh ? [at] : [])]) {
        foot = Math.min(foot, insideFoot(d.foot, onHardware(p, fit)) - radius);
      }
    }
  }
  const washer = washerFor(d.thread, far);
  const cover: Cover = {
    foot_mm: foot,
    washer_mm: washer / 2 - far,
    washer,
    beside_mm: Number.isFinite(wood) ? wood : null,
    under: under ?? null,
  };
  const room = Math.min(foot ?? Number.POSITIVE_INFINITY, washer / 2 - far);
  const covered = room < LAND || spoils(cover) ? 'no' : foot === null ? 'unknown' : 'yes';
  const taken = openings.reduce((s, o) => s + o.by_mm * d.drill + TOUCHED, 0);
  const plugs = redrills.length * (Math.PI * radius * radius + PLUG_HARM);
  return {
    kind,
    openings,
    redrills,
    damage_mm2: taken + plugs,
    cover,
    covered,
    pose: { across_mm: fit.shift.x, upright_mm: fit.shift.y, turn_deg: fit.turn },
  };
}
