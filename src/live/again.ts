import { programAgain, recompute } from '../jobs/recompute.ts';
import type { LiveData } from '../page/live-data.ts';
import { solidScene } from '../picture/solid.ts';
import { startEditing } from './edit.ts';
import { restartReplay } from './replay.ts';
import type { Bench } from './unpack.ts';

/** Brings fields and replay to life: the main job's own code, run on the jig file that stands in the page. */
export function startAgain(data: LiveData, bench: Bench): void {
  const { source } = data;
  const asMade = recompute(source.object, { profiles: source.profiles ?? {}, lines: source.lines });
  if (!asMade.ok) return;
  const options = { ...data.asked, digest: data.digest, version: data.version };
  bench.scene(solidScene(asMade.jig, asMade.layout));
  const replayAsMade = (): void => {
    const { made, findings } = programAgain(asMade, options);
    restartReplay(asMade, made, [...asMade.view.findings, ...findings], bench);
  };
  whenIdle(replayAsMade);
  startEditing(data, options, bench, replayAsMade);
}

/** When nothing else is to be done; not every browser can say when that is. */
function whenIdle(work: () => void): void {
  if ('requestIdleCallback' in globalThis) requestIdleCallback(work);
  else setTimeout(work, 50);
}

(globalThis as { benchAgain?: typeof startAgain }).benchAgain = startAgain;
