import type { SolidScene } from '../picture/solid.ts';
import type { SolidParts } from './solid.ts';

/** What the page gives to the script that works numbers out again. */
export interface Bench {
  /** Called after sections were replaced, to set ticks and lights again. */
  readonly redrawn: () => void;
  readonly scene: (scene: SolidScene) => void;
  /** Rejected where there is no WebGL or no 3D script. */
  readonly solid: () => Promise<SolidParts>;
}

const running = new Map<string, Promise<void>>();

/** Inflates a packed script, which the security policy allows by its hash, and runs it; once. */
export function unpack(id: string): Promise<void> {
  const known = running.get(id);
  if (known) return known;
  const run = inflate(document.getElementById(id)?.textContent ?? '').then((text) => {
    const script = document.createElement('script');
    script.textContent = text;
    document.head.append(script);
  });
  running.set(id, run);
  return run;
}

async function inflate(packed: string): Promise<string> {
  if (packed === '') throw new Error('nothing to unpack');
  const bytes = Uint8Array.from(atob(packed), (c) => c.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  return new Response(stream).text();
}

/** The 3D script, where the browser can draw with it. */
export async function solidParts(): Promise<SolidParts> {
  if (!document.createElement('canvas').getContext('webgl2')) throw new Error('no WebGL');
  await unpack('solid-packed');
  const parts = (globalThis as { benchSolid?: SolidParts }).benchSolid;
  if (!parts) throw new Error('the view did not start');
  return parts;
}

/** Calls `start` once, when the element comes near the screen. */
export function whenNear(element: Element, start: () => void): void {
  const watch = new IntersectionObserver(
    (entries) => {
      if (!entries.some((e) => e.isIntersecting)) return;
      watch.disconnect();
      start();
    },
    { rootMargin: '200px' },
  );
  watch.observe(element);
}
