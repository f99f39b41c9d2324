import type { Frame3, Placement, Vec3 } from '../collar/plan.ts';
import { spansOf } from '../drawing/spans.ts';
import type { Part, Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { Mm } from '../units/scalar.ts';
import { written } from './number.ts';
import { triangulate } from './triangulate.ts';
import { zipStored } from './zip.ts';

export interface SolidOptions {
  readonly title: string;
  /** Widest gap between an arc and its chords, mm. */
  readonly chord?: Mm;
}

/** Close enough to look at and to print; far coarser than a cut. */
const CHORD: Mm = 0.05;
/** Room between collars that are shown beside each other. */
const APART: Mm = 40;

/**
 * The assembled collar as a 3MF package (3MF Core Specification 1.3, from memory: Open Packaging with one model part, millimetres): one
 * watertight body for each part, placed as often as it is cut. Collars stand beside each other, for only one at a time is
 * on a shell, and everything lies in the positive octant, as the specification asks of a build.
 */
export function toThreeMf(parts: readonly Part[], placements: readonly Placement[], options: SolidOptions): Uint8Array {
  const meshes = new Map<string, { id: number; mesh: Mesh; name: string }>();
  const thickness = new Map(placements.map((p) => [p.part, p.thickness]));
  for (const part of parts) {
    const t = thickness.get(part.id);
    if (t === undefined) continue;
    meshes.set(part.id, { id: meshes.size + 1, mesh: meshOf(part, t, options.chord ?? CHORD), name: part.name });
  }
  const shifts = shiftsOf(placements, (id) => meshes.get(id)?.mesh);
  const objects = [...meshes.values()].map(({ id, mesh, name }) => objectXml(id, mesh, name));
  const items = placements.flatMap((p) => {
    const id = meshes.get(p.part)?.id;
    const shift = shifts.get(p.collar);
    return id === undefined || shift === undefined ? [] : [itemXml(id, p, shift)];
  });
  const model = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<model unit="millimeter" xml:lang="en" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">',
    `<metadata name="Title">${escaped(options.title)}</metadata>`,
    '<resources>',
    ...objects,
    '</resources>',
    '<build>',
    ...items,
    '</build>',
    '</model>',
    '',
  ].join('\n');
  const file = (name: string, text: string) => ({ name, data: new TextEncoder().encode(text) });
  return zipStored([
    file('[Content_Types].xml', TYPES),
    file('_rels/.rels', RELATIONS),
    file('3D/3dmodel.model', model),
  ]);
}

interface Mesh {
  readonly vertices: readonly Vec3[];
  readonly triangles: readonly (readonly [number, number, number])[];
}

/** A part as a plate of its thickness: its flat outline with its cut-outs, swept upwards. Closed and outward-facing. */
function meshOf(part: Part, thickness: Mm, chord: Mm): Mesh {
  const outline = contourOf(part.outer, chord);
  const holes = part.inner.map((s) => contourOf(s, chord).reverse());
  const flat = [outline, ...holes].flat();
  const n = flat.length;
  const caps = triangulate(outline, holes);
  const vertices = [0, thickness].flatMap((z) => flat.map((p): Vec3 => [p.x, p.y, z]));
  const triangles: [number, number, number][] = [];
  for (const [a, b, c] of caps) triangles.push([a, c, b], [n + a, n + b, n + c]);
  let base = 0;
  for (const ring of [outline, ...holes]) {
    for (let i = 0; i < ring.length; i++) {
      const [a, b] = [base + i, base + ((i + 1) % ring.length)];
      triangles.push([a, b, n + b], [a, n + b, n + a]);
    }
    base += ring.length;
  }
  return { vertices, triangles };
}

/** Corners of a closed shape, counter-clockwise, arcs in chords. */
function contourOf(shape: Shape, chord: Mm): FlatPoint[] {
  if (shape.kind === 'circle') {
    const count = Math.max(12, chords(shape.radius, 2 * Math.PI, chord));
    return Array.from({ length: count }, (_, i) => round(shape.center, shape.radius, (2 * Math.PI * i) / count));
  }
  const points: FlatPoint[] = [];
  for (const s of spansOf(shape)) {
    points.push(s.a);
    if (s.kind === 'line') continue;
    const count = chords(s.radius, Math.abs(s.sweep), chord);
    for (let i = 1; i < count; i++) points.push(round(s.center, s.radius, s.start + (i * s.sweep) / count));
  }
  let twice = 0;
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length] as FlatPoint;
    twice += p.x * q.y - q.x * p.y;
  });
  return twice > 0 ? points : points.reverse();
}

const round = (c: FlatPoint, r: Mm, at: number): FlatPoint => ({
  x: c.x + r * Math.cos(at),
  y: c.y + r * Math.sin(at),
});

/** Chords along a sweep that stay within `chord` of the arc: sagitta r (1 - cos(step / 2)). */
const chords = (r: Mm, sweep: number, chord: Mm): number =>
  chord >= r ? 1 : Math.max(1, Math.ceil(sweep / (2 * Math.acos(1 - chord / r))));

/** How far each collar is moved to stand beside the one before it, in the positive octant. */
function shiftsOf(placements: readonly Placement[], mesh: (id: string) => Mesh | undefined): Map<string, Vec3> {
  const boxes = new Map<string, { min: [number, number, number]; max: [number, number, number] }>();
  for (const p of placements) {
    const box = boxes.get(p.collar) ?? {
      min: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
      max: [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY],
    };
    for (const v of mesh(p.part)?.vertices ?? []) {
      const q = moved(p.frame, v);
      for (const i of [0, 1, 2] as const) {
        box.min[i] = Math.min(box.min[i], q[i]);
        box.max[i] = Math.max(box.max[i], q[i]);
      }
    }
    boxes.set(p.collar, box);
  }
  const shifts = new Map<string, Vec3>();
  let x = 0;
  for (const [tag, box] of boxes) {
    if (!Number.isFinite(box.min[0])) continue;
    shifts.set(tag, [x - box.min[0], -box.min[1], -box.min[2]]);
    x += box.max[0] - box.min[0] + APART;
  }
  return shifts;
}

const moved = (f: Frame3, v: Vec3): Vec3 =>
  [0, 1, 2].map(
    (i) => (f.origin[i] as number) + v[0] * (f.x[i] as number) + v[1] * (f.y[i] as number) + v[2] * (f.z[i] as number),
  ) as unknown as Vec3;

/** A tenth of a micrometre, which no printer sees. */
const number = (value: number, digits = 4): string => written(value, digits);

function objectXml(id: number, mesh: Mesh, name: string): string {
  const vertices = mesh.vertices.map((v) => `<vertex x="${number(v[0])}" y="${number(v[1])}" z="${number(v[2])}"/>`);
  const triangles = mesh.triangles.map(([a, b, c]) => `<triangle v1="${a}" v2="${b}" v3="${c}"/>`);
  return [
    `<object id="${id}" type="model" name="${escaped(name)}"><mesh><vertices>`,
    vertices.join(''),
    '</vertices><triangles>',
    triangles.join(''),
    '</triangles></mesh></object>',
  ].join('\n');
}

/** Row vectors: the images of x, y and z, then the origin. */
function itemXml(id: number, p: Placement, shift: Vec3): string {
  const { x, y, z, origin } = p.frame;
  const rows = [x, y, z].flat().map((v) => number(v, 9));
  const place = origin.map((v, i) => number(v + (shift[i] as number)));
  const label = `${p.part} ${p.instance}`;
  return `<item objectid="${id}" partnumber="${escaped(label)}" transform="${[...rows, ...place].join(' ')}"/>`;
}

const escaped = (text: string): string =>
  text
    .replace(/[\p{Cc}\p{Cs}\uFFFE\uFFFF]/gu, ' ')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;');

const TYPES = `<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
</Types>
`;
const RELATIONS = `<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
<Relationship Id="rel0" Target="/3D/3dmodel.model" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
</Relationships>
`;
