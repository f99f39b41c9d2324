import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { WayPoint } from '../picture/dryrun-map.ts';
import type { ToolShare } from '../picture/dryrun-section.ts';
import type { SetupView } from '../picture/setup.ts';
import { trimmed } from '../say/saying.ts';
import { type Deg, type Mm, shorterTurn, wrapDeg } from '../units/scalar.ts';
import type { RotaryPage } from './data.ts';
import { KIND, type ReplayMove } from './replay-move.ts';

/** Cuts nearer together than this are one visit: pecks, and the turns of a bore, mm over the skin. */
const SAME_PLACE: Mm = 12;

/** Where the shell and the bits stand, from what the program does. */
export function setupView(jig: Jig, layout: Layout, rotary: RotaryPage, moves: readonly ReplayMove[]): SetupView {
  const used = new Map<number, Mm>();
  for (const m of moves) if (m[6] === KIND.feed) used.set(m[7], Math.max(used.get(m[7]) ?? 0, -m[3]));
  const turning = moves.filter((m, i) => i > 0 && m[4] !== moves[i - 1]![4]);
  return {
    machine: jig.rotary.machine,
    datum: rotary.datum,
    sign: rotary.signOfA,
    shell: { radius: layout.radius, inside: layout.inside, depth: layout.depth },
    backing: jig.rotary.backing,
    // The height at which the shell turns under the bit.
    clearance: turning.length > 0 ? Math.min(...turning.map((m) => m[3])) : 0,
    tools: jig.rotary.tools.flatMap((tool) => {
      const deepest = used.get(tool.id);
      return deepest === undefined ? [] : [{ tool, deepest }];
    }),
  };
}

/** The places the program cuts at, in its order. */
export function wayOf(layout: Layout, rotary: RotaryPage, moves: readonly ReplayMove[]): readonly WayPoint[] {
  const out: WayPoint[] = [];
  const perDegree = (Math.PI * layout.radius) / 180;
  for (const m of moves) {
    if (m[6] !== KIND.feed || m[3] >= 0) continue;
    const angle: Deg = wrapDeg(rotary.signOfA * m[4] - ((rotary.datum === 'bottom' ? 1 : -1) * m[2]) / perDegree);
    const height = rotary.datum === 'bottom' ? m[1] : layout.depth - m[1];
    const last = out[out.length - 1];
    const away = last
      ? Math.hypot(shorterTurn(last.angle_deg, angle) * perDegree, height - last.height_mm)
      : Number.POSITIVE_INFINITY;
    if (last?.tool === m[7] && away < SAME_PLACE) continue;
    out.push({ angle_deg: angle, height_mm: height, tool: m[7] });
  }
  return out;
}

/** Seconds of each tool, cutting and otherwise. */
export function sharesOf(jig: Jig, moves: readonly ReplayMove[]): readonly ToolShare[] {
  const found = new Map<number, { feed: number; other: number }>();
  let before = 0;
  for (const m of moves) {
    const share = found.get(m[7]) ?? { feed: 0, other: 0 };
    share[m[6] === KIND.feed ? 'feed' : 'other'] += m[5] - before;
    before = m[5];
    found.set(m[7], share);
  }
  return [...found]
    .filter(([, s]) => s.feed + s.other > 0)
    .map(([tool, s]) => {
      const known = jig.rotary.tools.find((t) => t.id === tool);
      const name = known
        ? `T${tool} ${known.kind} ${trimmed(known.diameter, 2)} mm`
        : tool < 0
          ? 'before any bit'
          : `T${tool}`;
      return { tool, name, ...s };
    });
}
