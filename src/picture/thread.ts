import type { Thread } from '../model/thread.ts';
import { trimmed } from '../say/saying.ts';
import { el, label, n, picture, wordWidth } from './svg.ts';

/** Turns drawn: enough for a difference of a few hundredths a turn to show. */
const TURNS = 10;

/**
 * Two threads that should be one, cut along their middle, to scale: the crests run apart from the first turn on, and the
 * wider one does not go into the narrower. Both with 60° flanks (ISO 68-1), as metric and unified threads have.
 */
export function threadPicture(rod: Thread, lug: Thread): string {
  const length = TURNS * Math.max(rod.pitch, lug.pitch);
  const size = length / 16;
  const deep = 0.54 * Math.max(rod.pitch, lug.pitch);
  const gap = 1.2 * size;
  const body = [
    bar(rod, 0, length, 'rod'),
    label(length + size, rod.diameter / 2 + size * 0.35, told('rod', rod), '', size),
    el('g', { transform: `translate(0 ${n(rod.diameter + gap)})` }, bar(lug, 0, length, 'metal')),
    label(length + size, rod.diameter + gap + lug.diameter / 2 + size * 0.35, told('lug', lug), '', size),
  ].join('');
  const width = length + 2 * size + wordWidth([told('rod', rod), told('lug', lug)], size);
  return picture(
    { x: -size, y: -deep - size, width, height: rod.diameter + lug.diameter + gap + 2 * (deep + size) },
    `Thread of the rod, ${rod.name}, over the thread the lug takes, ${lug.name}, to scale`,
    'threads',
    body,
  );
}

const told = (what: string, t: Thread): string =>
  `${what}: ${t.name}, ${trimmed(t.diameter, 2)} mm, a turn every ${trimmed(t.pitch, 3)} mm`;

/** A threaded bar as wide as the thread's major diameter, crests from the left end on; `length` cuts its last turn. */
function bar(t: Thread, from: number, length: number, cls: string): string {
  const turns = Math.floor(length / t.pitch);
  // Depth of an external thread's flank: 0.614 of the pitch (ISO 68-1, 17/24 of the triangle's height).
  const root = 0.614 * t.pitch;
  const teeth = (crest: number, inward: number): string[] =>
    Array.from({ length: turns }, (_, i) => {
      const x = from + i * t.pitch;
      return `${n(x)} ${n(crest)}L${n(x + t.pitch / 2)} ${n(crest + inward)}`;
    });
  const end = n(from + turns * t.pitch);
  const upper = [...teeth(0, root), `${end} 0`];
  const lower = [...teeth(t.diameter, -root), `${end} ${n(t.diameter)}`]
    .reverse()
    .map((p) => p.split('L').reverse().join('L'));
  return el('path', { class: cls, d: `M${upper.join('L')}L${lower.join('L')}Z` });
}
