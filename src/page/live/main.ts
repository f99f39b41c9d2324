import { solidScene } from '../../picture/solid.ts';
import type { LiveData } from './data.ts';
import { startEditing } from './edit.ts';
import { startSolidLater } from './inflate.ts';
import { relight, startBar, startPicking } from './pick.ts';
import { startReplay } from './replay.ts';
import { keepTicks } from './ticks.ts';

const data = JSON.parse(document.getElementById('data')?.textContent ?? '{}') as LiveData;
const ticks = keepTicks(data.digest);
startPicking();
startBar();
const solid = data.scene ? startSolidLater(data.scene) : undefined;
startEditing(data, (view) => {
  ticks.show();
  relight();
  if (data.scene) solid?.draw(view ? solidScene(view.jig, view.layout) : data.scene);
});
if (data.replay) startReplay(data.replay, data);
document.documentElement.classList.add('live');
