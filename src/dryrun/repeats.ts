import type { Entry } from './done.ts';
import { widenLoad } from './load.ts';
import { countShells } from './shells.ts';
import { type Cut, SAME_DEPTH } from './stations.ts';

/** Repeated visits of one place that are kept. */
const MOST_AGAIN = 100;
const MOST_ENTRIES = 100;

/** Tells new cuts from those that do again what was done, in this shell or, after a pause, in the next. */
export interface Repeats {
  readonly pause: () => void;
  readonly tool: (id: number) => void;
  /** Adds a cut to those of its place, or to the one it only repeats or deepens. */
  readonly add: (cuts: Cut[], cut: Cut, fromAbove: boolean) => void;
  /** A rapid down a hole: if it was made before a pause and the shell was changed there, it is not there any more. */
  readonly enter: (hole: Cut, entry: Entry) => void;
  /** Rapids down holes of the first shell, made when the second is on, if there is one. */
  readonly intoLast: () => readonly Entry[];
}

export function watchRepeats(): Repeats {
  let pauses = 0;
  /** Pauses before the last cut that was new, as long as nothing was drilled again. */
  let lastNew = 0;
  let repeats = false;
  const shells = countShells();
  const entries: (Entry & { readonly made: number; readonly pauses: number })[] = [];
  return {
    pause() {
      pauses++;
      shells.pause();
    },
    tool: shells.tool,
    enter(hole, entry) {
      if (hole.pauses < pauses && entries.length < MOST_ENTRIES) entries.push({ ...entry, made: hole.pauses, pauses });
    },
    add(cuts, cut, fromAbove) {
      const before = cuts.find(
        (c) =>
          c.kind === cut.kind &&
          c.wood === cut.wood &&
          c.tool === cut.tool &&
          Math.abs(c.radius - cut.radius) <= SAME_DEPTH,
      );
      const isDeeper = before !== undefined && cut.depth > before.depth + SAME_DEPTH;
      const again = before !== undefined && !isDeeper && fromAbove && cut.kind !== 'line';
      const shell = cut.wood ? shells.cut(again ? before : undefined) : 0;
      if (!before) {
        cuts.push({ ...cut, pauses, shell });
        if (!repeats) lastNew = pauses;
        return;
      }
      before.pauses = pauses;
      widenLoad(before.load, cut.load);
      before.strokes++;
      before.lastLine = cut.lastLine;
      if (isDeeper) {
        before.depth = cut.depth;
        if (cut.bore) before.bore = cut.bore;
        if (!repeats) lastNew = pauses;
      } else if (again && cut.wood && before.again.length < MOST_AGAIN) {
        before.again.push({ line: cut.line, shell });
        repeats = true;
      }
    },
    intoLast: () => entries.filter((e) => e.made <= lastNew && e.pauses > lastNew),
  };
}
