import { completeTool } from '../../src/data/tools.ts';
import type { DryRunContext } from '../../src/dryrun/context.ts';
import type { Hole, Layout } from '../../src/model/layout.ts';
import type { Machine } from '../../src/model/machine.ts';

/** A shell, a machine and a plan for dry-run tests, and a plain program for it, written here and nowhere else. */
export const SHELL = { radius: 163.7, inside: 157.1, wall: 6.6, depth: 152, wood: 'black-cherry' };

export const MACHINE: Machine = {
  name: 'bench',
  spindle: { min: 500, max: 6000, watts: 750, seconds: 3, collet: 13 },
  swing: 620,
  travel: { x: [0, 500], y: [-60, 60], z: [-60, 100] },
  hasY: true,
  rapid: { x: 3000, y: 3000, z: 1500, a: 3600 },
  feed: 2000,
  acceleration: { x: 300, y: 300, z: 200, a: 180 },
  a: 'iso',
  rotary: 'endless',
  toolChange: 'hand',
  toolChangeSeconds: 60,
  understands: { cycles: true, inverseTime: true, arcs: true, lineNumbers: true, comments: 'brackets', decimals: 4 },
  fixture: { hold: 'plates', chuck: 8, tailstock: 8, mandrel: 40 },
};

export const TOOLS = [
  completeTool({ id: 1, kind: 'v-bit', diameter: 6 }),
  completeTool({ id: 2, kind: 'twist', diameter: 2.5 }),
  completeTool({ id: 3, kind: 'twist', diameter: 6 }),
  completeTool({ id: 4, kind: 'twist', diameter: 5 }),
  completeTool({ id: 5, kind: 'end-mill', diameter: 3.175 }),
];

const hole = (id: string, angle: number, height: number, drill: number, pilot?: number): Hole => ({
  id,
  fitting: id.replace(/-[a-z]$/, ''),
  role: 'lug',
  angle,
  height,
  drill,
  ...(pilot === undefined ? {} : { pilot }),
  edge: 'bottom',
  across: 0,
  axes: 'radial',
});

/** Eight lugs of two holes, a strainer, a butt, and a vent that makes the plan unlike its mirror image. */
export function plan(vent = 67.5): Layout {
  const holes: Hole[] = [];
  for (let k = 0; k < 8; k++) {
    holes.push(
      hole(`lug-${k + 1}-a`, 22.5 + 45 * k, 128.7, 6, 2.5),
      hole(`lug-${k + 1}-b`, 22.5 + 45 * k, 103.3, 6, 2.5),
    );
  }
  holes.push(hole('strainer-a', 0, 60, 5, 2.5), hole('strainer-b', 0, 32, 5, 2.5));
  holes.push(hole('butt-a', 180, 60, 5, 2.5), hole('butt-b', 180, 32, 5, 2.5));
  holes.push(hole('vent', vent, 76, 11));
  return { ...SHELL, placed: [], holes };
}

export const context = (over: Partial<DryRunContext> = {}): DryRunContext => ({
  layout: plan(),
  shell: SHELL,
  machine: MACHINE,
  tools: TOOLS,
  datum: 'bottom',
  backing: 12,
  runout: 0.5,
  ...over,
});

export interface ProgramStyle {
  readonly datum?: 'top' | 'bottom';
  readonly reversed?: boolean;
  readonly inch?: boolean;
  readonly cycles?: boolean;
}

/** A sound program: pilots, full holes, and the vent bored by a mill; every word in its place. */
export function soundProgram(c: DryRunContext, style: ProgramStyle = {}): string[] {
  const unit = style.inch ? 25.4 : 1;
  const n = (mm: number): string => String(Number((mm / unit).toFixed(style.inch ? 5 : 4)));
  const deg = (d: number): string => String(Number(d.toFixed(4)));
  const datum = style.datum ?? c.datum;
  const sign = (datum === 'bottom') !== (style.reversed ?? false) ? 1 : -1;
  const x = (h: Hole): string => n(datum === 'bottom' ? h.height : SHELL.depth - h.height);
  const lines = [`${style.inch ? 'G20' : 'G21'} G17 G90 G94 G40 G49 G80 G54 G98`, `G0 Z${n(40)}`];
  const depth = (r: number): number => SHELL.radius - Math.sqrt(SHELL.inside ** 2 - r * r) + c.runout + 0.5;
  const change = (id: number, speed: number): void => {
    lines.push('M5', `G0 Z${n(40)}`, `T${id} M6`, `S${speed} M3`, 'G4 P3');
  };
  const drill = (h: Hole, bottom: number, feed: number): void => {
    lines.push(`G0 X${x(h)} Y0 A${deg(sign * h.angle)}`);
    if (style.cycles) {
      lines.push(`G83 X${x(h)} Y0 Z${n(-bottom)} R${n(1)} Q${n(3)} F${n(feed)}`, 'G80');
      return;
    }
    lines.push(`G0 Z${n(1)}`, `G1 Z${n(-bottom / 2)} F${n(feed)}`, `G0 Z${n(1)}`, `G0 Z${n(-bottom / 2 + 0.3)}`);
    lines.push(`G1 Z${n(-bottom)} F${n(feed)}`, `G0 Z${n(10)}`);
  };
  change(2, 3000);
  for (const h of c.layout.holes) if (h.pilot) drill(h, depth(1.25) + 1.25 / Math.tan((59 * Math.PI) / 180), 300);
  for (const [id, size, speed, feed] of [
    [3, 6, 1500, 220],
    [4, 5, 1500, 200],
  ] as const) {
    change(id, speed);
    for (const h of c.layout.holes)
      if (h.drill === size) drill(h, depth(size / 2) + size / 2 / Math.tan((59 * Math.PI) / 180), feed);
  }
  change(5, 6000);
  for (const h of c.layout.holes.filter((q) => q.drill === 11)) {
    for (const orbit of [1.4, 2.7, 5.5 - 1.5875]) {
      lines.push(
        `G0 X${x(h)} Y0 A${deg(sign * h.angle)}`,
        `G0 Z${n(1)}`,
        `G1 X${n(Number(x(h)) * unit + orbit)} F${n(600)}`,
      );
      let z = 1;
      const bottom = -depth(5.5);
      while (z > bottom) {
        z = Math.max(bottom, z - 1);
        lines.push(`G3 X${n(Number(x(h)) * unit + orbit)} Y0 I${n(-orbit)} J0 Z${n(z)}`);
      }
      lines.push(`G3 X${n(Number(x(h)) * unit + orbit)} Y0 I${n(-orbit)} J0`, `G1 X${x(h)}`, `G0 Z${n(10)}`);
    }
  }
  lines.push('M5', `G0 Z${n(40)}`, 'M2');
  return lines;
}
