import type { Tool, ToolKind } from '../model/machine.ts';
import { type Deg, type Mm, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';

/** Every kind a tool list may name, for messages and for the schema. */
export const TOOL_KINDS: readonly ToolKind[] = ['twist', 'brad-point', 'spur', 'stepped', 'end-mill', 'v-bit'];

/** What a builder writes of a bit; the rest is filled in by `completeTool`. */
export interface ToolWords {
  readonly id: number;
  readonly kind: ToolKind;
  readonly diameter: Mm;
  readonly point?: Deg | undefined;
  readonly lead?: Mm | undefined;
  readonly lips?: number | undefined;
  readonly flute?: Mm | undefined;
  readonly stickout?: Mm | undefined;
  readonly shank?: Mm | undefined;
  readonly maxSpeed?: number | undefined;
  readonly step?: { readonly diameter: Mm; readonly length: Mm } | undefined;
}

/**
 * A bit with every blank filled. Defaults are common practice, no source: 118 deg points (general-purpose twist drills),
 * 90 deg engraving points, a brad point's spur leading by a fifth of the diameter (makers vary from 0.15 to 0.3: measure
 * it), a spur bit's by 3 mm (2 to 5), two lips, stub-length flutes, and 8 mm more than the flute out of the collet.
 */
export function completeTool(words: ToolWords): Tool {
  const { id, kind, diameter } = words;
  const point = words.point ?? defaultPoint(kind);
  const lead = words.lead ?? defaultLead(kind, diameter);
  const flute = words.flute ?? defaultFlute(kind, diameter, point);
  return {
    id,
    kind,
    diameter,
    ...(point === undefined ? {} : { point }),
    ...(lead === undefined ? {} : { lead }),
    lips: words.lips ?? 2,
    flute,
    stickout: words.stickout ?? Math.max(flute + 8, 20),
    shank: words.shank ?? defaultShank(kind, diameter),
    ...(words.maxSpeed === undefined ? {} : { maxSpeed: words.maxSpeed }),
    ...(kind === 'stepped' ? { step: words.step ?? { diameter: diameter / 2, length: Math.max(6, diameter) } } : {}),
  };
}

/** Point angles where nothing is said: general-purpose twist drills, engraving points (common practice, no source). */
export const POINTS = { twist: 118, stepped: 118, 'v-bit': 90 } as const;
const defaultPoint = (kind: ToolKind): Deg | undefined =>
  kind in POINTS ? POINTS[kind as keyof typeof POINTS] : undefined;

function defaultLead(kind: ToolKind, diameter: Mm): Mm | undefined {
  if (kind === 'brad-point') return 0.2 * diameter;
  return kind === 'spur' ? 3 : undefined;
}

function defaultFlute(kind: ToolKind, diameter: Mm, point: Deg | undefined): Mm {
  if (kind === 'v-bit') return diameter / 2 / Math.tan(toRad(point ?? POINTS['v-bit']) / 2);
  if (kind === 'end-mill') return Math.min(Math.max(12, 4 * diameter), 40);
  return Math.max(30, 3 * diameter + 12);
}

/** Large brad-point and spur bits are sold with shanks turned down to 8 or 10 mm; small mills sit on 3.175 mm. */
function defaultShank(kind: ToolKind, diameter: Mm): Mm {
  if (kind === 'end-mill' || kind === 'v-bit') return Math.max(3.175, Math.min(diameter, 6.35));
  return kind === 'twist' || kind === 'stepped' ? diameter : Math.min(diameter, 8);
}

/**
 * Bore from here up with a spur bit rather than a brad point: brad points above this are rare (common practice, no
 * source).
 */
const SPUR_FROM: Mm = 16;
/** Twist drills above this have shanks no small collet takes (common practice, no source). */
const TWIST_TO: Mm = 12;
/** Below this a brad point has no room for its spur: a twist drill on a centre mark (common practice, no source). */
const BRAD_FROM: Mm = 3;
/** The mill every router owner has, in its long form, or it does not reach through a thick wall. */
const SMALL_MILL = { diameter: 3.175, flute: 17 } as const;

/**
 * The set for `tools: default`, common practice, no source: a V bit for centre marks; for holes with a pilot a twist drill
 * of the pilot's size and a twist drill of the hole's; for the others a brad point (a spur bit when large, a twist drill
 * when tiny); and a small end mill for holes no drill can turn slowly enough for. Numbered from 1 in that order, by size.
 */
export function defaultTools(drills: readonly { readonly drill: Mm; readonly pilot?: Mm | undefined }[]): Tool[] {
  const wanted: { kind: ToolKind; diameter: Mm }[] = [];
  const want = (kind: ToolKind, diameter: Mm): void => {
    const there = wanted.some((w) => w.kind === kind && Math.abs(w.diameter - diameter) < tolerance.same);
    if (!there) wanted.push({ kind, diameter });
  };
  const bySize = [...drills].sort((a, b) => a.drill - b.drill);
  const piloted = (h: { drill: Mm; pilot?: Mm | undefined }): boolean => h.pilot !== undefined && h.drill <= TWIST_TO;
  for (const h of [...drills].sort((a, b) => (a.pilot ?? 0) - (b.pilot ?? 0))) if (piloted(h)) want('twist', h.pilot!);
  for (const h of bySize) want(piloted(h) ? 'twist' : soleBit(h.drill), h.drill);
  const set: Omit<ToolWords, 'id'>[] = [{ kind: 'v-bit', diameter: 6 }, ...wanted];
  if (bySize.some((h) => h.drill > SMALL_MILL.diameter * 1.2)) set.push({ kind: 'end-mill', ...SMALL_MILL });
  return set.map((w, i) => completeTool({ id: i + 1, ...w }));
}

function soleBit(drill: Mm): ToolKind {
  if (drill < BRAD_FROM) return 'twist';
  return drill >= SPUR_FROM ? 'spur' : 'brad-point';
}
