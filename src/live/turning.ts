import type { SolidScene } from '../picture/solid.ts';
import { onPick, pick } from './pick.ts';
import type { SolidView } from './solid.ts';
import { solidParts, whenNear } from './unpack.ts';

/** Brings the turning view to life when it comes near the screen. Where there is no WebGL the page says so. */
export function startTurning(): { readonly draw: (scene: SolidScene) => void } {
  const canvas = document.getElementById('solid-canvas');
  let scene: SolidScene | undefined;
  let view: SolidView | undefined;
  if (!(canvas instanceof HTMLCanvasElement)) return { draw: () => {} };
  const say = (text: string): void => {
    document.getElementById('solid-note')!.textContent = text;
  };
  const start = async (): Promise<void> => {
    try {
      const parts = await solidParts();
      view = parts.turning({ canvas, pick });
      if (scene) view.draw(scene);
      onPick((hole, fitting) => view?.light(hole, fitting));
      say('Drag or use the arrow keys to turn, + and − to come nearer; press a hole to pick it.');
    } catch {
      canvas.hidden = true;
      say('No turning view: this browser gives the page no WebGL. The flat drawings show the same holes.');
    }
  };
  whenNear(canvas, () => void start());
  return {
    draw: (next) => {
      scene = next;
      view?.draw(next);
    },
  };
}
