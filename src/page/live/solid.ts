import {
  AmbientLight,
  BackSide,
  BoxGeometry,
  BufferGeometry,
  CanvasTexture,
  Color,
  CylinderGeometry,
  DirectionalLight,
  DoubleSide,
  Float32BufferAttribute,
  Group,
  LatheGeometry,
  Mesh,
  MeshLambertMaterial,
  type Object3D,
  PerspectiveCamera,
  Raycaster,
  RingGeometry,
  Scene,
  Vector2,
  Vector3,
  WebGLRenderer,
} from 'three';
import type { SolidScene } from '../../picture/solid.ts';

/** The turning view, as the page holds it. */
export interface SolidView {
  readonly draw: (scene: SolidScene) => void;
  readonly light: (hole: string | undefined, fitting: string | undefined) => void;
}

export interface SolidOptions {
  readonly canvas: HTMLCanvasElement;
  readonly pick: (hole: string) => void;
}

const rad = (deg: number): number => (deg * Math.PI) / 180;

/**
 * Builds the view: Y up along the shell's axis, the strainer line towards + Z, angles growing anticlockwise from above.
 * Throws when the browser gives no WebGL.
 */
export function startSolid({ canvas, pick }: SolidOptions): SolidView {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  renderer.setPixelRatio(Math.min(2, devicePixelRatio));
  const world = new Scene();
  const camera = new PerspectiveCamera(32, 1, 10, 10_000);
  const sun = new DirectionalLight(0xffffff, 2.2);
  world.add(new AmbientLight(0xffffff, 1.5), sun);
  let drum = new Group();
  let now: SolidScene | undefined;
  let lit: readonly [string | undefined, string | undefined] = [undefined, undefined];
  const eye = { turn: 20, lift: 24, far: 1 };
  let asked = false;

  const render = (): void => {
    asked = false;
    const width = canvas.clientWidth;
    const height = canvas.clientHeight;
    if (!now || width === 0) return;
    renderer.setSize(width, height, false);
    camera.aspect = width / height;
    const size = Math.max(now.radius * 1.25, now.depth * 0.75);
    const away = ((size * 2) / Math.tan(rad(16)) / 2) * eye.far * Math.max(1, 1 / camera.aspect);
    camera.position.setFromSphericalCoords(away, rad(90 - eye.lift), rad(eye.turn)).y += now.depth / 2;
    camera.lookAt(0, now.depth / 2, 0);
    camera.updateProjectionMatrix();
    sun.position
      .copy(camera.position)
      .applyAxisAngle(new Vector3(0, 1, 0), rad(35))
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

function forget(o: Object3D): void {
  if (!(o instanceof Mesh)) return;
  o.geometry.dispose();
  const material = o.material as MeshLambertMaterial;
  material.alphaMap?.dispose();
  material.dispose();
}

/** Puts a body on the skin, its own Z outwards. */
function stand(o: Object3D, angle: number, height: number, out: number): void {
  o.position.set(out * Math.sin(rad(angle)), height, out * Math.cos(rad(angle)));
  o.rotation.y = rad(angle);
}

function build(s: SolidScene): Group {
  const drum = new Group();
  const metal = (): MeshLambertMaterial => new MeshLambertMaterial({ color: 0x93a3b1 });
  const mask = holeMask(s);
  for (const [radius, side, color] of [
    [s.radius, 'out', 0xd8b37c],
    [s.inside, 'in', 0xc49c62],
  ] as const) {
    const skin = new Mesh(
      wall(radius, s.depth, side),
      new MeshLambertMaterial({ color, alphaMap: mask, alphaTest: 0.5 }),
    );
    skin.userData['skin'] = side === 'out';
    drum.add(skin);
  }
  const rim = new MeshLambertMaterial({ color: 0xb98d4a, side: DoubleSide });
  for (const y of [0, s.depth]) {
    const edge = new Mesh(new RingGeometry(s.inside, s.radius, 128), rim);
    edge.rotation.x = Math.PI / 2;
    edge.position.y = y;
    drum.add(edge);
  }
  for (const h of s.holes) {
    const bore = new Mesh(
      new CylinderGeometry(h.radius, h.radius, s.radius - s.inside, 20, 1, true),
      new MeshLambertMaterial({ color: 0x8a6838, side: BackSide }),
    );
    const hub = new Group();
    bore.rotation.x = Math.PI / 2;
    hub.add(bore);
    stand(hub, h.angle, h.height, (s.radius + s.inside) / 2);
    drum.add(hub);
  }
  for (const b of s.bodies) {
    const [width, height] = [b.left + b.right, b.top - b.bottom];
    const shape = b.round
      ? new CylinderGeometry(width / 2, width / 2, b.out, 32).rotateX(Math.PI / 2).scale(1, height / width, 1)
      : new BoxGeometry(width, height, b.out);
    // Sunk a little, so that a flat foot shows no gap on the round skin.
    const sink = Math.min(b.out / 2, s.radius - Math.sqrt(Math.max(0, s.radius ** 2 - (width / 2) ** 2)));
    shape.translate((b.right - b.left) / 2, 0, (b.out - sink) / 2);
    const body = new Mesh(shape, metal());
    body.userData['fitting'] = b.id;
    stand(body, b.angle, (b.top + b.bottom) / 2, s.radius - sink / 2);
    drum.add(body);
  }
  for (const h of s.hoops) {
    const points = [
      [h.inner, h.from],
      [h.inner + 2.5, h.from],
      [h.inner + 2.5, h.to > s.depth / 2 ? h.to - 3 : h.from + 3],
      [h.outer, h.to > s.depth / 2 ? h.to - 3 : h.from + 3],
      [h.outer, h.to > s.depth / 2 ? h.to : h.from],
      [h.inner, h.to],
      [h.inner, h.from],
    ].map(([x, y]) => new Vector2(x, y));
    const hoop = new Mesh(
      new LatheGeometry(points, 96),
      new MeshLambertMaterial({ color: 0xaab6c0, side: DoubleSide }),
    );
    drum.add(hoop);
  }
  for (const r of s.rods) {
    const rod = new Mesh(
      new CylinderGeometry(r.radius, r.radius, r.to - r.from, 12),
      new MeshLambertMaterial({ color: 0x6f7f8d }),
    );
    rod.position.set(r.at * Math.sin(rad(r.angle)), (r.from + r.to) / 2, r.at * Math.cos(rad(r.angle)));
    drum.add(rod);
  }
  const line = new Mesh(new BoxGeometry(0.8, s.depth, 0.6), new MeshLambertMaterial({ color: new Color(0x12548f) }));
  stand(line, 0, s.depth / 2, s.radius);
  drum.add(line);
  return drum;
}

/** An open wall with u along the angle and v along the height, seen from outside or inside. */
function wall(radius: number, depth: number, side: 'out' | 'in'): BufferGeometry {
  const steps = 192;
  const at: number[] = [];
  const uv: number[] = [];
  const normal: number[] = [];
  const index: number[] = [];
  const out = side === 'out' ? 1 : -1;
  for (let i = 0; i <= steps; i++) {
    const a = (i / steps) * 2 * Math.PI;
    for (const v of [0, 1]) {
      at.push(radius * Math.sin(a), v * depth, radius * Math.cos(a));
      normal.push(out * Math.sin(a), 0, out * Math.cos(a));
      uv.push(i / steps, v);
    }
    if (i < steps) {
      const k = 2 * i;
      index.push(...(side === 'out' ? [k, k + 2, k + 1, k + 1, k + 2, k + 3] : [k, k + 1, k + 2, k + 1, k + 3, k + 2]));
    }
  }
  const g = new BufferGeometry();
  g.setAttribute('position', new Float32BufferAttribute(at, 3));
  g.setAttribute('normal', new Float32BufferAttribute(normal, 3));
  g.setAttribute('uv', new Float32BufferAttribute(uv, 2));
  g.setIndex(index);
  return g;
}

/** White where there is wood, black where a hole is: real see-through holes without cutting a body. */
function holeMask(s: SolidScene): CanvasTexture {
  const girth = 2 * Math.PI * s.radius;
  const width = 4096;
  const scale = width / girth;
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = Math.max(64, Math.round(s.depth * scale));
  const ink = canvas.getContext('2d')!;
  ink.fillStyle = '#fff';
  ink.fillRect(0, 0, width, canvas.height);
  ink.fillStyle = '#000';
  for (const h of s.holes) {
    for (const turn of [-1, 0, 1]) {
      ink.beginPath();
      ink.arc((h.angle / 360 + turn) * width, canvas.height - h.height * scale, h.radius * scale, 0, 2 * Math.PI);
      ink.fill();
    }
  }
  return new CanvasTexture(canvas);
}

function nearestHole(s: SolidScene, p: Vector3): string | undefined {
  const angle = (Math.atan2(p.x, p.z) * 180) / Math.PI;
  let best: string | undefined;
  let least = 25;
  for (const h of s.holes) {
    const around = (((h.angle - angle + 540) % 360) - 180) * ((Math.PI * s.radius) / 180);
    const way = Math.hypot(around, h.height - p.y);
    if (way < least) [best, least] = [h.id, way];
  }
  return best;
}

/** Drag, wheel with a modifier, and arrow keys turn the view; a press without a drag picks. */
function steer(
  canvas: HTMLCanvasElement,
  eye: { turn: number; lift: number; far: number },
  ask: () => void,
  press: (x: number, y: number) => void,
): void {
  let held: { x: number; y: number; moved: boolean } | undefined;
  canvas.addEventListener('pointerdown', (e) => {
    held = { x: e.clientX, y: e.clientY, moved: false };
    canvas.setPointerCapture(e.pointerId);
  });
  canvas.addEventListener('pointermove', (e) => {
    if (!held) return;
    const [dx, dy] = [e.clientX - held.x, e.clientY - held.y];
    if (!held.moved && Math.hypot(dx, dy) < 5) return;
    eye.turn -= dx * 0.4;
    eye.lift = Math.max(-80, Math.min(85, eye.lift + dy * 0.4));
    held = { x: e.clientX, y: e.clientY, moved: true };
    ask();
  });
  canvas.addEventListener('pointerup', (e) => {
    if (held && !held.moved) {
      const box = canvas.getBoundingClientRect();
      press(((e.clientX - box.left) / box.width) * 2 - 1, 1 - ((e.clientY - box.top) / box.height) * 2);
    }
    held = undefined;
  });
  canvas.addEventListener('pointercancel', () => {
    held = undefined;
  });
  canvas.addEventListener('keydown', (e) => {
    const by: Readonly<Record<string, () => void>> = {
      ArrowLeft: () => (eye.turn -= 10),
      ArrowRight: () => (eye.turn += 10),
      ArrowUp: () => (eye.lift = Math.min(85, eye.lift + 8)),
      ArrowDown: () => (eye.lift = Math.max(-80, eye.lift - 8)),
      '+': () => (eye.far = Math.max(0.4, eye.far / 1.15)),
      '-': () => (eye.far = Math.min(2.5, eye.far * 1.15)),
    };
    const act = by[e.key];
    if (!act) return;
    e.preventDefault();
    act();
    ask();
  });
}

// The page finds the view here once the inflated script has run.
(globalThis as { benchSolid?: typeof startSolid }).benchSolid = startSolid;
