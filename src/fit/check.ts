import type { Fact } from '../model/finding.ts';
import type { Jig, Limits } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import { checkBeds } from './beds.ts';
import { type Bench, lay } from './bench.ts';
import { checkFeet } from './feet.ts';
import { checkFootRock } from './foot-rock.ts';
import { checkGates } from './gates.ts';
import { checkHead } from './head.ts';
import { checkHoles } from './holes.ts';
import { checkHoops } from './hoops.ts';
import { checkJoints } from './joints.ts';
import { limitsOf } from './limits.ts';
import { checkOverhang } from './overhang.ts';
import { checkRims } from './rims.ts';
import { checkRodLine } from './rod-line.ts';
import { checkRods } from './rods.ts';
import { checkScrews } from './screws.ts';
import { checkSeasons } from './seasons.ts';
import { checkSnare } from './snare.ts';
import { checkState } from './state.ts';
import { checkStrainer } from './strainer.ts';
import { checkThreads } from './thread.ts';
import { checkUsual } from './usual.ts';

/** Every check of "will it go together", in the order a builder reads them. */
const CHECKS: readonly ((bench: Bench) => readonly Fact[])[] = [
  checkHead,
  checkState,
  checkUsual,
  checkRods,
  checkThreads,
  checkRodLine,
  checkHoops,
  checkFeet,
  checkOverhang,
  checkRims,
  checkBeds,
  checkHoles,
  checkJoints,
  checkStrainer,
  checkGates,
  checkSnare,
  checkScrews,
  checkFootRock,
  checkSeasons,
];

/** Stops first, then care, then notes; within a level in the order of the checks. */
const RANK = { stop: 0, care: 1, note: 2 } as const;

/**
 * Will it go together: every fact about this jig as laid out. What is physically wrong is a `stop`; rules of thumb and
 * closeness are `care`; what could not be checked, and what was worked out for the builder, is a `note`.
 * @param jig as `resolveJig` gives it
 * @param layout where everything goes, as `layOut` gives it for the same jig
 * @param limits limits that differ from the workshop's own in the jig file, mm and degrees
 * @returns facts, stops first; `sentences` puts them in words
 * @throws never
 * @source each finding names its own; geometry, ISO 273, Wood Handbook, or common practice
 */
export function check(jig: Jig, layout: Layout, limits: Limits = {}): readonly Fact[] {
  const bench = lay(jig, layout, { ...limitsOf(jig), ...limits });
  return CHECKS.flatMap((run) => run(bench)).sort((a, b) => RANK[a.level] - RANK[b.level]);
}
