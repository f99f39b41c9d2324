import type { Layout } from '../model/layout.ts';
import type { Tool } from '../model/machine.ts';
import type { LoadRow } from '../picture/dryrun-load.ts';
import type { DrilledMark, WayPoint } from '../picture/dryrun-map.ts';
import type { HoleSection, SectionSlice, ToolShare } from '../picture/dryrun-section.ts';
import { shorterTurn } from '../units/scalar.ts';
import type { Inspected } from './measure.ts';
import type { Removal } from './removal.ts';
import type { DryRunReport } from './report.ts';
import { type Site, STRETCHES } from './stretches.ts';

/** Mouths as measured, which may be longer one way than the other, as the map of what is gone wants them. */
export const measuredMarks = (holes: readonly Inspected[]): DrilledMark[] =>
  holes.flatMap((h) =>
    h.entrance === null
      ? []
      : [
          {
            id: h.id,
            angle_deg: h.entrance.angle_deg,
            height_mm: h.entrance.height_mm,
            along_mm: h.entrance.along_mm,
            around_mm: h.entrance.around_mm,
            through: h.exit !== null,
          },
        ],
  );

/** Holes and marks in the order they were begun, once for each tool. */
export function wayPoints(report: DryRunReport): WayPoint[] {
  return report.visits.map((v) => ({ angle_deg: v.angle_deg, height_mm: v.height_mm, tool: v.tool }));
}

export const toolShares = (report: DryRunReport, tools: readonly Tool[]): ToolShare[] =>
  report.perTool.map((t) => ({
    tool: t.tool,
    name: toolName(t.tool, tools),
    feed: t.feed,
    other: t.seconds - t.feed,
  }));

export const loadRows = (report: DryRunReport, tools: readonly Tool[]): LoadRow[] =>
  report.chip_load.tools.map((t) => ({ name: toolName(t.tool, tools), allowed: t.allowed_mm, series: t.series }));

function toolName(id: number, tools: readonly Tool[]): string {
  const tool = tools.find((k) => k.id === id);
  return id < 0 ? 'before any tool' : tool ? `T${id} ${tool.kind} ${tool.diameter}` : `T${id}`;
}

/** The section along the shell's axis through the middle of the hole `id`; undefined when no wood is gone there. */
export function sectionOf(
  removal: Removal,
  holes: readonly Inspected[],
  id: string,
  plan: Layout,
): HoleSection | undefined {
  const index = holes.findIndex((h) => h.id === id);
  const site = removal.sites[index];
  const mouth = holes[index]?.entrance ?? holes[index]?.exit;
  if (!site || !mouth) return undefined;
  const { bench } = removal;
  const bottom = bench.context.datum === 'bottom';
  const middle = bottom ? mouth.angle_deg : -mouth.angle_deg;
  const layers = site.radii.length - 2;
  const slices: SectionSlice[] = [];
  for (let k = 0; k < layers; k++)
    slices.push({ depth: bench.radius - site.radii[k]!, thickness: site.slab, gone: goneAt(site, k, middle) });
  return {
    id,
    x: bottom ? mouth.height_mm : bench.depth - mouth.height_mm,
    planned: plan.holes.find((h) => h.id === id)?.drill ?? null,
    wall: bench.context.shell.wall,
    backing: bench.context.backing ?? 0,
    slices,
  };
}

/** The stretches on the line of a layer nearest to an angle. */
function goneAt(site: Site, layer: number, turn: number): readonly (readonly [number, number])[] {
  let best = 0;
  let gap = Infinity;
  for (let j = 0; j < site.lines; j++) {
    const d = Math.abs(shorterTurn(turn, site.turns[layer * site.lines + j]!));
    if (d < gap) {
      gap = d;
      best = j;
    }
  }
  const cell = layer * site.lines + best;
  return Array.from({ length: site.counts[cell]! }, (_, i) => {
    const at = (cell * STRETCHES + i) * 2;
    return [site.stretches[at]!, site.stretches[at + 1]!] as const;
  }).sort((a, b) => a[0] - b[0]);
}
