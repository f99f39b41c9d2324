import type { LiveData } from './data.ts';
import { startEditing } from './edit.ts';
import { relight, startBar, startPicking } from './pick.ts';
import { keepTicks } from './ticks.ts';

const data = JSON.parse(document.getElementById('data')?.textContent ?? '{}') as LiveData;
const ticks = keepTicks(data.digest);
startPicking();
startBar();
startEditing(data, () => {
  ticks.show();
  relight();
});
document.documentElement.classList.add('live');
