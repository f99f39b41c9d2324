import type { LiveData } from '../page/live-data.ts';
import type { startAgain } from './again.ts';
import { relight, startBar, startPicking } from './pick.ts';
import { keepTicks } from './ticks.ts';
import { startTurning } from './turning.ts';
import { solidParts, unpack } from './unpack.ts';

// First what is used with dirty hands: ticks and picks. What works numbers out again is inflated after the first picture.
const data = JSON.parse(document.getElementById('data')?.textContent ?? '{}') as LiveData;
const ticks = keepTicks(data.digest);
startPicking();
startBar();
const turning = startTurning();
document.documentElement.classList.add('live');

setTimeout(async () => {
  try {
    await unpack('again-packed');
  } catch {
    // A browser that cannot inflate shows the page as it was made.
    return;
  }
  (globalThis as { benchAgain?: typeof startAgain }).benchAgain?.(data, {
    redrawn: () => {
      ticks.show();
      relight();
    },
    scene: (scene) => turning.draw(scene),
    solid: solidParts,
  });
  document.documentElement.classList.add('able');
  // For the bench's table: when the fields answer.
  performance.mark('bench ready');
});
