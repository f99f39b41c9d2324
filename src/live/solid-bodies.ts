import {
  BackSide,
  BoxGeometry,
  BufferGeometry,
  CanvasTexture,
  Color,
  CylinderGeometry,
  DoubleSide,
  Float32BufferAttribute,
  Group,
  LatheGeometry,
  Mesh,
  MeshLambertMaterial,
  type Object3D,
  RingGeometry,
  Vector2,
} from 'three';
import type { SolidScene } from '../picture/solid.ts';
import { toRad } from '../units/scalar.ts';

type ShellShape = Pick<SolidScene, 'radius' | 'inside' | 'depth'>;
type ShellHole = Pick<SolidScene['holes'][number], 'angle' | 'height' | 'radius'>;

/** Puts a body on the skin, its own Z outwards. */
export function stand(o: Object3D, angle: number, height: number, out: number): void {
  o.position.set(out * Math.sin(toRad(angle)), height, out * Math.cos(toRad(angle)));
  o.rotation.y = toRad(angle);
}

/** The drum as bodies: the shell with its bores, castings, hoops, rods. */
export function build(s: SolidScene): Group {
  const drum = new Group();
  const metal = (): MeshLambertMaterial => new MeshLambertMaterial({ color: 0x93a3b1 });
  drum.add(shellOf(s, s.holes, 4096), ...s.holes.map((h) => boreOf(s, h)));
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
    rod.position.set(r.at * Math.sin(toRad(r.angle)), (r.from + r.to) / 2, r.at * Math.cos(toRad(r.angle)));
    drum.add(rod);
  }
  return drum;
}

/** Walls with holes cut through by a mask, rims, the strainer line. */
export function shellOf(s: ShellShape, holes: readonly ShellHole[], sharpness: number): Group {
  const drum = new Group();
  const mask = holeMask(s, holes, sharpness);
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
  const line = new Mesh(new BoxGeometry(0.8, s.depth, 0.6), new MeshLambertMaterial({ color: new Color(0x12548f) }));
  stand(line, 0, s.depth / 2, s.radius);
  drum.add(line);
  return drum;
}

/** The wall of one hole. */
export function boreOf(s: ShellShape, h: ShellHole): Group {
  const bore = new Mesh(
    new CylinderGeometry(h.radius, h.radius, s.radius - s.inside, 20, 1, true),
    new MeshLambertMaterial({ color: 0x8a6838, side: BackSide }),
  );
  const hub = new Group();
  bore.rotation.x = Math.PI / 2;
  hub.add(bore);
  stand(hub, h.angle, h.height, (s.radius + s.inside) / 2);
  return hub;
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

/**
 * White where there is wood, black where a hole is: real see-through holes without cutting a body. `width` in pixels is one
 * turn.
 */
function holeMask(s: ShellShape, holes: readonly ShellHole[], width: number): CanvasTexture {
  const girth = 2 * Math.PI * s.radius;
  const scale = width / girth;
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = Math.max(64, Math.round(s.depth * scale));
  const ink = canvas.getContext('2d')!;
  ink.fillStyle = '#fff';
  ink.fillRect(0, 0, width, canvas.height);
  ink.fillStyle = '#000';
  for (const h of holes) {
    for (const turn of [-1, 0, 1]) {
      ink.beginPath();
      ink.arc((h.angle / 360 + turn) * width, canvas.height - h.height * scale, h.radius * scale, 0, 2 * Math.PI);
      ink.fill();
    }
  }
  return new CanvasTexture(canvas);
}

/** Gives back what the graphics card holds of a body. */
export function forget(o: Object3D): void {
  if (!(o instanceof Mesh)) return;
  o.geometry.dispose();
  const material = o.material as MeshLambertMaterial;
  material.alphaMap?.dispose();
  material.dispose();
}
