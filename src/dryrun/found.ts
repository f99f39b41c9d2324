import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { FoundHole } from './report.ts';
import type { Seen } from './seen.ts';
import { loadsOf, type Station } from './stations.ts';

/** A hole as the report tells it; `gap`: way from its planned place, null where it belongs to none. */
export function foundHole(id: string, s: Seen, gap: Mm | null): FoundHole {
  const cuts = s.station.cuts.filter((c) => c.wood);
  return {
    id,
    angle_deg: s.station.angle,
    height_mm: s.station.height,
    diameter_mm: s.clear > 0 ? s.size : s.entrance,
    clear_mm: s.clear,
    entrance_mm: s.entrance,
    through: s.short <= tolerance.same,
    depth_mm: s.depth,
    how: s.main.kind === 'bore' ? 'bored' : s.clear > 0 ? 'drilled' : 'marked',
    tools: [...new Set(cuts.map((c) => c.tool?.id ?? -1))],
    off_mm: gap,
    seconds: s.station.seconds,
    chip_load: loadsOf(s.station),
    first_line: Math.min(...cuts.map((c) => c.line)),
    last_line: Math.max(...cuts.map((c) => c.lastLine)),
  };
}

/** A place where the bit only marks, told the same way. */
export function markOf(id: string, s: Station, gap: Mm | null): FoundHole {
  const depth = Math.max(...s.cuts.map((c) => c.depth));
  return {
    id,
    angle_deg: s.angle,
    height_mm: s.height,
    diameter_mm: 0,
    clear_mm: 0,
    entrance_mm: 0,
    through: false,
    depth_mm: depth,
    how: 'marked',
    tools: [...new Set(s.cuts.map((c) => c.tool?.id ?? -1))],
    off_mm: gap,
    seconds: s.seconds,
    chip_load: loadsOf(s),
    first_line: Math.min(...s.cuts.map((c) => c.line)),
    last_line: Math.max(...s.cuts.map((c) => c.lastLine)),
  };
}
