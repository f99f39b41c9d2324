import type { Finding } from '../model/finding.ts';
import { type Course, visits } from './course.ts';

/** A finding and the moment of the program at which it shows, s. */
export interface Spot {
  readonly at: number;
  readonly finding: Finding;
}

/**
 * Findings on the timeline: the dry run's own by the program line they name, everything else that says stop or care by the
 * first cut at the hole or fitting it speaks of. What names no place in the program (a rod, a head) has no moment.
 */
export function spotsOf(course: Course, dry: readonly Finding[], all: readonly Finding[]): readonly Spot[] {
  const { moves, holes } = course;
  const touched = visits(course).map((v) => v.touched);
  const end = moves[moves.length - 1]![5];
  const byPlace = (at: string): number | undefined => {
    const words = new Set([at, ...at.split(/[\s,/+&]+/)]);
    const times = holes.flatMap((h, i) => (words.has(h.id) || words.has(h.of) ? [touched[i]!] : []));
    const first = Math.min(...times);
    return Number.isFinite(first) ? first : undefined;
  };
  const own = new Set(dry.map((f) => JSON.stringify(f)));
  const others = all.filter((f) => f.level !== 'note' && !own.has(JSON.stringify(f)));
  return [
    ...dry
      .filter((f) => f.level !== 'note')
      .map((finding) => ({
        finding,
        at: moves.find((m) => finding.line !== undefined && m[0] >= finding.line)?.[5] ?? byPlace(finding.at) ?? end,
      })),
    ...others.flatMap((finding) => {
      const at = byPlace(finding.at);
      return at === undefined ? [] : [{ at, finding }];
    }),
  ].sort((a, b) => a.at - b.at);
}
