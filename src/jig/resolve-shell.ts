import { findWood, WOOD_IDS } from '../data/wood.ts';
import type { Edge, OldHole, Ring, Shell } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import { wrapDeg } from '../units/scalar.ts';
import { GAP, OFFSET, type Reader, SIZE, SMALL } from './reader.ts';
import type { RawJig } from './schema.ts';

/** Height above the bottom edge of a point `distance` from an edge; from the middle, positive is towards the top. */
export function heightOf(edge: Edge, distance: Mm, depth: Mm): Mm {
  if (edge === 'bottom') return distance;
  return edge === 'top' ? depth - distance : depth / 2 + distance;
}

/** Distances from the top or bottom edge are positive; from the middle they may be anything. */
export const distanceBounds = (edge: Edge) => (edge === 'middle' ? OFFSET : SIZE);

/**
 * The bare shell. From a tape reading C with a tape of thickness t: D = C / pi - t. A covering put on after measuring
 * grows the wall, and the radius with it, by its thickness.
 */
export function resolveShell(raw: RawJig['shell'], r: Reader): Shell {
  const at = (key: string) => ['shell', key];
  const measured = outsideDiameter(raw, r);
  const depth = r.length(raw.depth, at('depth'));
  const bareWall = r.length(raw.wall, at('wall'), SMALL);
  if (r.issues.length === 0 && bareWall >= measured / 2) {
    r.complain(
      at('wall'),
      `a wall of ${bareWall} mm in a shell of ${measured.toFixed(1)} mm diameter`,
      `less than the radius, ${(measured / 2).toFixed(1)} mm`,
      'measure both again: one may be in the wrong unit',
    );
  }
  const skin = raw.skin && {
    thickness: r.length(raw.skin.thickness, ['shell', 'skin', 'thickness'], GAP),
    when: raw.skin.when,
  };
  const added = skin?.when === 'after' ? skin.thickness : 0;
  if (added > 0)
    r.assume(
      'shell.skin',
      `diameter and wall grow by the skin (${added} mm on the radius)`,
      'it was put on after the shell was measured',
    );
  const radius = measured / 2 + added;
  const wall = bareWall + added;
  const rings = {
    ...ringAt(raw, 'top', r, depth),
    ...ringAt(raw, 'bottom', r, depth),
  };
  for (const [edge, ring] of Object.entries(rings) as [string, Ring][])
    if (r.issues.length === 0 && wall + ring.thickness >= radius)
      r.complain(
        ['shell', 'rings', edge, 'thickness'],
        `a ring of ${ring.thickness} mm in a wall of ${wall} mm`,
        `with the wall less than the radius, ${radius.toFixed(1)} mm`,
        'measure the ring from the wall inwards, and check its unit',
      );
  if (raw.wood !== undefined) r.named(raw.wood, at('wood'), WOOD_IDS, findWood);
  const nominal = r.optional(raw.nominal, at('nominal'));
  const round = r.optional(raw.round, at('round'), GAP);
  const square = r.optional(raw.square, at('square'), GAP);
  return {
    radius,
    inside: radius - wall,
    wall,
    depth,
    girth: 2 * Math.PI * radius,
    ...(nominal === undefined ? {} : { nominal }),
    ...(raw.wood === undefined ? {} : { wood: raw.wood }),
    ...(raw.build === undefined ? {} : { build: raw.build }),
    ...(round === undefined ? {} : { round }),
    ...(square === undefined ? {} : { square }),
    ...(raw.edges === undefined ? {} : { edges: raw.edges }),
    ...(skin === undefined ? {} : { skin }),
    rings,
    joints: (raw.joints ?? []).map((j, i) => wrapDeg(r.angle(j, ['shell', 'joints', i]))),
    holes: (raw.holes ?? []).map((h, i) => oldHole(h, i, depth, r)),
  };
}

function outsideDiameter(raw: RawJig['shell'], r: Reader): Mm {
  const { diameter, circumference } = raw;
  if ((diameter === undefined) === (circumference === undefined)) {
    r.complain(
      ['shell'],
      diameter === undefined ? 'neither diameter nor circumference' : 'both diameter and circumference',
      'exactly one of diameter and circumference',
      diameter === undefined ? 'add the outside diameter, or the girth read off a tape' : 'keep the one you trust more',
    );
    return 300;
  }
  if (diameter !== undefined) {
    if (raw.tape !== undefined)
      r.complain(
        ['shell', 'tape'],
        'a tape thickness beside a diameter',
        'tape only with circumference',
        'remove tape, or give the circumference',
      );
    return r.length(diameter, ['shell', 'diameter']);
  }
  const girth = r.length(circumference, ['shell', 'circumference'], { sign: 'positive', max: 10_000 });
  const tape = r.optional(raw.tape, ['shell', 'tape'], { sign: 'zero', max: 5 });
  if (tape === undefined)
    r.assume(
      'shell.tape',
      '0 mm',
      'the tape is taken as having no thickness: each 0.1 mm of tape makes the shell 0.1 mm smaller',
    );
  const d = girth / Math.PI - (tape ?? 0);
  if (d <= 0)
    r.complain(
      ['shell', 'circumference'],
      `a girth of ${girth} mm with a tape of ${tape} mm`,
      'a girth that leaves a diameter above 0',
      'measure again',
    );
  return d;
}

function ringAt(
  raw: RawJig['shell'],
  edge: 'top' | 'bottom',
  r: Reader,
  depth: Mm,
): { top?: Ring } | { bottom?: Ring } {
  const ring = raw.rings?.[edge];
  if (!ring) return {};
  const path = ['shell', 'rings', edge];
  const width = r.length(ring.width, [...path, 'width']);
  if (width > depth)
    r.complain(
      [...path, 'width'],
      `${width} mm`,
      `at most the shell's depth, ${depth} mm`,
      'measure the ring along the shell',
    );
  return {
    [edge]: {
      width,
      thickness: r.length(ring.thickness, [...path, 'thickness'], SMALL),
      ...(ring.joint === undefined ? {} : { joint: wrapDeg(r.angle(ring.joint, [...path, 'joint'])) }),
    },
  };
}

function oldHole(h: NonNullable<RawJig['shell']['holes']>[number], i: number, depth: Mm, r: Reader): OldHole {
  const path = ['shell', 'holes', i];
  const distance = r.length(h.distance, [...path, 'distance'], distanceBounds(h.edge));
  return {
    angle: wrapDeg(r.angle(h.at, [...path, 'at'])),
    height: heightOf(h.edge, distance, depth),
    diameter: r.length(h.diameter, [...path, 'diameter'], SMALL),
  };
}
