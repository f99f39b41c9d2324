import type { SolidScene } from '../../picture/solid.ts';
import { onPick, pick } from './pick.ts';
import type { SolidOptions, SolidView } from './solid.ts';

type Start = (options: SolidOptions) => SolidView;

/**
 * Brings the turning view to life when it comes near the screen: inflates the packed script, which the security policy
 * allows by its hash, and runs it. Where there is no WebGL the page says so and the flat drawings stay.
 */
export function startSolidLater(first: SolidScene): { readonly draw: (scene: SolidScene) => void } {
  const canvas = document.getElementById('solid-canvas');
  const packed = document.getElementById('solid-packed')?.textContent ?? '';
  let scene = first;
  let view: SolidView | undefined;
  if (!(canvas instanceof HTMLCanvasElement) || packed === '') return { draw: () => {} };
  const say = (text: string): void => {
    document.getElementById('solid-note')!.textContent = text;
  };
  const start = async (): Promise<void> => {
    try {
      const run = await unpack(packed);
      view = run({ canvas, pick });
      view.draw(scene);
      onPick((hole, fitting) => view?.light(hole, fitting));
      say('Drag or use the arrow keys to turn, + and − to come nearer; press a hole to pick it.');
    } catch {
      canvas.hidden = true;
      say('No turning view: this browser gives the page no WebGL. The flat drawings show the same holes.');
    }
  };
  const watch = new IntersectionObserver(
    (entries) => {
      if (!entries.some((e) => e.isIntersecting)) return;
      watch.disconnect();
      void start();
    },
    { rootMargin: '200px' },
  );
  watch.observe(canvas);
  return {
    draw: (next) => {
      scene = next;
      view?.draw(next);
    },
  };
}

async function unpack(packed: string): Promise<Start> {
  const probe = document.createElement('canvas');
  if (!probe.getContext('webgl2')) throw new Error('no WebGL');
  const bytes = Uint8Array.from(atob(packed), (c) => c.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  const script = document.createElement('script');
  script.textContent = await new Response(stream).text();
  document.head.append(script);
  const run = (globalThis as { benchSolid?: Start }).benchSolid;
  if (!run) throw new Error('the view did not start');
  return run;
}
