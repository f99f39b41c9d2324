import {
  AmbientLight,
  CircleGeometry,
  ConeGeometry,
  CylinderGeometry,
  DirectionalLight,
  Group,
  Matrix4,
  Mesh,
  MeshLambertMaterial,
  PerspectiveCamera,
  Scene,
  Vector3,
  WebGLRenderer,
} from 'three';
import { toRad } from '../units/scalar.ts';
import { type Course, facing, type Pose, type Visit } from './course.ts';
import { boreOf, forget, shellOf, stand } from './solid-bodies.ts';
import { type Eye, steer } from './steer.ts';

/** The replay in 3D. */
export interface ReplaySolid {
  /** `turn` is how far the shell has turned, degrees clockwise seen from the + X end. */
  readonly pose: (turn: number, pose: Pose, time: number) => void;
  readonly end: () => void;
}

const BIT_LONG = 70;

/**
 * The bare shell as it hangs in the machine: + X to the right, the bit above it, as seen from the front. Holes are dark
 * where a bit has begun, and open where one has gone through.
 */
export function startReplaySolid(canvas: HTMLCanvasElement, course: Course, visits: readonly Visit[]): ReplaySolid {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  renderer.setPixelRatio(Math.min(2, devicePixelRatio));
  const world = new Scene();
  const camera = new PerspectiveCamera(30, 1, 10, 10_000);
  const sun = new DirectionalLight(0xffffff, 2.2);
  const { radius, depth } = course;
  const hung = hang(course);
  const bit = new Group();
  world.add(new AmbientLight(0xffffff, 1.5), sun, hung.turning, bit);
  const eye: Eye = { turn: 24, lift: 26, far: 1 };
  let asked: number | undefined;
  let tool = Number.NaN;

  const render = (): void => {
    asked = undefined;
    const [width, height] = [canvas.clientWidth, canvas.clientHeight];
    if (width === 0) return;
    renderer.setSize(width, height, false);
    camera.aspect = width / height;
    const size = Math.max(radius * 1.3, depth * 0.7);
    const away = (size / Math.tan(toRad(15))) * eye.far * Math.max(1, 1 / camera.aspect);
    camera.position.setFromSphericalCoords(away, toRad(90 - eye.lift), toRad(eye.turn));
    camera.position.x += depth / 2;
    camera.lookAt(depth / 2, radius * 0.12, 0);
    camera.updateProjectionMatrix();
    sun.position.copy(camera.position).applyAxisAngle(new Vector3(0, 1, 0), toRad(-30));
    sun.position.y += size * 2;
    renderer.render(world, camera);
  };
  const ask = (): void => {
    asked ??= requestAnimationFrame(render);
  };
  steer(canvas, eye, ask, () => {});
  const watch = new ResizeObserver(ask);
  watch.observe(canvas);

  return {
    pose: (turn, pose, time) => {
      hung.turning.rotation.x = -toRad(turn);
      hung.at(visits, time);
      bit.position.set(pose.x, radius + pose.z, -pose.y);
      if (pose.move[7] !== tool) {
        tool = pose.move[7];
        bit.traverse(forget);
        bit.clear();
        bit.add(...bitOf(course, tool));
      }
      ask();
    },
    end: () => {
      if (asked !== undefined) cancelAnimationFrame(asked);
      watch.disconnect();
      world.traverse(forget);
      renderer.dispose();
    },
  };
}

/** The shell with its axis along X and the strainer line up, in a group that turns about X. */
function hang(course: Course): {
  readonly turning: Group;
  readonly at: (visits: readonly Visit[], time: number) => void;
} {
  const turning = new Group();
  const drum = new Group();
  const way = facing(course);
  // Drum: Y along its axis, Z to the strainer line. Machine: X along the axis, Y up here, Z to the viewer.
  drum.matrixAutoUpdate = false;
  drum.matrix = new Matrix4()
    .makeBasis(new Vector3(0, 0, way), new Vector3(way, 0, 0), new Vector3(0, 1, 0))
    .setPosition(way > 0 ? 0 : course.depth, 0, 0);
  turning.add(drum);
  let shell = new Group();
  let shown = '';
  return {
    turning,
    at: (visits, time) => {
      const state = visits.map((v) => (v.through <= time ? 'o' : v.touched <= time ? '.' : ' ')).join('');
      if (state === shown) return;
      shown = state;
      shell.traverse(forget);
      shell.removeFromParent();
      const open = course.holes.filter((_, i) => state[i] === 'o');
      const begun = course.holes.filter((_, i) => state[i] === '.');
      shell = shellOf(course, open, 2048);
      shell.add(...open.map((h) => boreOf(course, h)), ...begun.map((h) => dimple(course, h)));
      drum.add(shell);
    },
  };
}

/** Where a bit has begun and is not through: a dark spot on the skin. */
function dimple(course: Course, hole: Course['holes'][number]): Mesh {
  const spot = new Mesh(new CircleGeometry(hole.radius, 24), new MeshLambertMaterial({ color: 0x5b4320 }));
  stand(spot, hole.angle, hole.height, course.radius + 0.3);
  return spot;
}

/** Bit and chuck, tip at the origin, upright. */
function bitOf(course: Course, tool: number): Mesh[] {
  const known = course.tools.find((t) => t.id === tool);
  const r = (known?.diameter ?? 6) / 2;
  const tip = known?.cone === undefined ? r * 0.5 : r / Math.tan(toRad(known.cone / 2));
  const steel = (): MeshLambertMaterial => new MeshLambertMaterial({ color: 0x6f7f8d });
  const point = new Mesh(new ConeGeometry(r, tip, 24).rotateX(Math.PI).translate(0, tip / 2, 0), steel());
  const shank = new Mesh(new CylinderGeometry(r, r, BIT_LONG - tip, 24).translate(0, (BIT_LONG + tip) / 2, 0), steel());
  const chuck = new Mesh(
    new CylinderGeometry(Math.max(14, r * 1.5), Math.max(10, r * 1.2), 34, 32).translate(0, BIT_LONG + 17, 0),
    new MeshLambertMaterial({ color: 0x93a3b1 }),
  );
  // Before the first tool change nothing is in the chuck.
  return tool < 0 ? [chuck] : [point, shank, chuck];
}
