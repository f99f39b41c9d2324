import {
  AmbientLight,
  DirectionalLight,
  DoubleSide,
  Group,
  Mesh,
  MeshLambertMaterial,
  PerspectiveCamera,
  Raycaster,
  RingGeometry,
  Scene,
  Vector2,
  Vector3,
  WebGLRenderer,
} from 'three';
import type { SolidScene } from '../picture/solid.ts';
import { shorterTurn, toRad } from '../units/scalar.ts';
import { build, forget, stand } from './solid-bodies.ts';
import { startReplaySolid } from './solid-replay.ts';
import { type Eye, steer } from './steer.ts';

/** The turning view, as the page holds it. */
export interface SolidView {
  readonly draw: (scene: SolidScene) => void;
  readonly light: (hole: string | undefined, fitting: string | undefined) => void;
}

interface SolidOptions {
  readonly canvas: HTMLCanvasElement;
  readonly pick: (hole: string) => void;
}

/**
 * Builds the view: Y up along the shell's axis, the strainer line towards + Z, angles growing anticlockwise from above.
 * Throws when the browser gives no WebGL.
 */
function startSolid({ canvas, pick }: SolidOptions): SolidView {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  renderer.setPixelRatio(Math.min(2, devicePixelRatio));
  const world = new Scene();
  const camera = new PerspectiveCamera(32, 1, 10, 10_000);
  const sun = new DirectionalLight(0xffffff, 2.2);
  world.add(new AmbientLight(0xffffff, 1.5), sun);
  let drum = new Group();
  let now: SolidScene | undefined;
  let lit: readonly [string | undefined, string | undefined] = [undefined, undefined];
  const eye: Eye = { turn: 20, lift: 24, far: 1 };
  let asked = false;

  const render = (): void => {
    asked = false;
    const width = canvas.clientWidth;
    const height = canvas.clientHeight;
    if (!now || width === 0) return;
    renderer.setSize(width, height, false);
    camera.aspect = width / height;
    const size = Math.max(now.radius * 1.25, now.depth * 0.75);
    const away = ((size * 2) / Math.tan(toRad(16)) / 2) * eye.far * Math.max(1, 1 / camera.aspect);
    camera.position.setFromSphericalCoords(away, toRad(90 - eye.lift), toRad(eye.turn)).y += now.depth / 2;
    camera.lookAt(0, now.depth / 2, 0);
    camera.updateProjectionMatrix();
    sun.position
      .copy(camera.position)
      .applyAxisAngle(new Vector3(0, 1, 0), toRad(35))
      .setY(camera.position.y + size * 2);
    renderer.render(world, camera);
  };
  const ask = (): void => {
    if (!asked) requestAnimationFrame(render);
    asked = true;
  };
  const light = (): void => {
    if (!now) return;
    drum.getObjectByName('mark')?.removeFromParent();
    drum.traverse((o) => {
      if (o instanceof Mesh && typeof o.userData['fitting'] === 'string') {
        (o.material as MeshLambertMaterial).color.set(o.userData['fitting'] === lit[1] ? 0xd9632e : 0x93a3b1);
      }
    });
    const hole = now.holes.find((h) => h.id === lit[0]);
    if (hole) {
      const mark = new Mesh(
        new RingGeometry(hole.radius + 1.5, hole.radius + 5, 40),
        new MeshLambertMaterial({ color: 0xd9632e, emissive: 0x882200, side: DoubleSide, depthTest: false }),
      );
      mark.name = 'mark';
      mark.renderOrder = 2;
      stand(mark, hole.angle, hole.height, now.radius + 0.8);
      drum.add(mark);
    }
    ask();
  };

  steer(canvas, eye, ask, (x, y) => {
    if (!now) return;
    const ray = new Raycaster();
    ray.setFromCamera(new Vector2(x, y), camera);
    const hit = ray
      .intersectObject(drum, true)
      .find((h) => h.object.userData['skin'] === true || typeof h.object.userData['fitting'] === 'string');
    if (!hit) return;
    const fitting = hit.object.userData['fitting'] as string | undefined;
    const nearest = fitting === undefined ? nearestHole(now, hit.point) : now.holes.find((h) => h.of === fitting)?.id;
    if (nearest !== undefined) pick(nearest);
  });
  new ResizeObserver(ask).observe(canvas);

  return {
    draw: (scene) => {
      now = scene;
      world.remove(drum);
      drum.traverse(forget);
      drum = build(scene);
      world.add(drum);
      light();
    },
    light: (hole, fitting) => {
      lit = [hole, fitting];
      light();
    },
  };
}

function nearestHole(s: SolidScene, p: Vector3): string | undefined {
  const angle = (Math.atan2(p.x, p.z) * 180) / Math.PI;
  let best: string | undefined;
  let least = 25;
  for (const h of s.holes) {
    const around = s.radius * toRad(shorterTurn(angle, h.angle));
    const way = Math.hypot(around, h.height - p.y);
    if (way < least) [best, least] = [h.id, way];
  }
  return best;
}

/** What the packed 3D script leaves behind. */
export interface SolidParts {
  readonly turning: typeof startSolid;
  readonly replay: typeof startReplaySolid;
}

// The page finds the views here once the inflated script has run.
(globalThis as { benchSolid?: SolidParts }).benchSolid = { turning: startSolid, replay: startReplaySolid };
