import { keepTicks } from './ticks.ts';

/** What the page's script is given in the element `data`. */
interface LiveData {
  readonly digest: string;
}

const data = JSON.parse(document.getElementById('data')?.textContent ?? '{}') as LiveData;
keepTicks(data.digest);
document.documentElement.classList.add('live');
