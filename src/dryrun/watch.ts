import type { Tool } from '../model/machine.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { cutsSideways, fits } from './bit.ts';
import type { Bench } from './context.ts';
import type { Entry } from './done.ts';
import { begin, type Episode, endEpisode, newEpisode, visit } from './episode.ts';
import type { Gatherer } from './gather.ts';
import { type ChipLoad, chipOf, recordLoad } from './load.ts';
import { skinPoint } from './place.ts';
import { alongArc } from './sample.ts';
import { countShells } from './shells.ts';
import { type Cut, type Stations, skinGap, stations } from './stations.ts';
import { A, type Step, X, Y, Z } from './step.ts';
import { deepestOnWay, goesSideways, ON_SKIN, touches, turns } from './wood.ts';

/** A smaller difference of depth is the same depth. */
const SAME_DEPTH: Mm = 0.02;

/** Room between tip and skin on the way from hole to hole, and where a rapid ends (common practice, no source). */
const LEAST_ROOM: Mm = 0.5;
/** Repeated visits of one place that are kept. */
const MOST_AGAIN = 100;

const MOST_ENTRIES = 100;

/** How far from the middle of a bored hole a bit may stand in it. */
const WIDEST_HOLE: Mm = 30;

/** Follows the bit through the wood: what it touches that it must not, and which places it visits. */
export interface WoodWatch {
  readonly step: (step: Step) => void;
  readonly finish: (line: number) => void;
  readonly stations: Stations;
  /** Seconds of a step belong to the place the bit works at or goes to. */
  readonly charge: (seconds: number) => void;
  readonly touched: () => boolean;
  readonly load: () => ChipLoad;
  /** Rapids down holes of the first shell, made when the second is on, if there is one. */
  readonly intoLast: () => readonly Entry[];
}

export function watchWood(bench: Bench, g: Gatherer): WoodWatch {
  const places = stations(bench);
  const skin = { radius: bench.radius, depth: bench.depth };
  const e: Episode = newEpisode();
  let tool: Tool | undefined;
  let toolId = -1;
  let waiting = 0;
  let touchedWood = false;
  /** One report for each stay in the wood and each fault. */
  const told = new Set<string>();
  let pauses = 0;
  /** Pauses before the last cut that was new, as long as nothing was drilled again. */
  let lastNew = 0;
  let repeats = false;
  const shells = countShells();
  const loads = recordLoad();
  /** Since the program began, with the step now judged. */
  let elapsed = 0;
  const entries: (Entry & { readonly made: number; readonly pauses: number })[] = [];
  /** Seconds since the spindle started, without the step now judged; NaN: nothing to wait for. */
  let sinceStart = Number.NaN;
  let thisStep = 0;
  const last = new Float64Array(6).fill(Number.NaN);

  const radiusOf = (): Mm => (tool === undefined ? 0 : tool.diameter / 2);
  /** And one for each tool, where one cure heals all. */
  const toldOfTool = new Set<string>();

  const once = (id: string, step: Step, measured: number | null = null, forAll = told): void => {
    if (forAll.has(id)) return;
    forAll.add(id);
    g.raise('stop', id, {
      at: `line ${step.line}`,
      line: step.line,
      measured,
      unit: measured === null ? '' : 'mm',
      facts: { tool: toolId, kind: tool?.kind ?? 'unknown' },
    });
  };

  function step(s: Step): void {
    last.set(s.to);
    switch (s.kind) {
      case 'tool':
        close();
        toolChange(s);
        return;
      case 'rapid':
        rapid(s);
        return;
      case 'feed':
      case 'arc':
        feed(s);
        return;
      case 'spindle':
        sinceStart = s.direction === 'off' ? Number.NaN : 0;
        if (s.direction === 'off' && e.active && touches(-s.to[Z]!)) once('spindle-stopped-in-wood', s);
        return;
      case 'pause':
        pauses++;
        shells.pause();
        return;
      default:
        return;
    }
  }

  function toolChange(s: Step): void {
    toolId = s.tool;
    shells.tool(s.tool);
    tool = bench.tools.get(s.tool);
    if (touches(-s.to[Z]!)) once('tool-change-in-shell', s, -s.to[Z]!);
    told.clear();
    toldOfTool.clear();
    if (tool === undefined && s.tool > 0)
      g.raise('stop', 'tool-not-in-jig', {
        at: `line ${s.line}`,
        line: s.line,
        facts: { tool: s.tool, tools: [...bench.tools.keys()].join(', ') },
      });
  }

  function rapid(s: Step): void {
    const { from, to } = s;
    const up = !(to[Z]! < from[Z]!);
    const sideways = goesSideways(from, to) || turns(from, to);
    if (sideways || to[Z]! >= 0) close();
    if (sideways) checkClearance(s);
    else checkApproach(s);
    if (from[Z]! >= 0 && to[Z]! >= 0) return;
    const deep = deepestOnWay(from, to, radiusOf(), skin);
    if (!touches(deep) && touches(-Math.min(from[Z]!, to[Z]!))) checkEnds(s);
    if (!touches(deep) || (up && !sideways)) return;
    // Back down the hole this stroke is still making.
    if (!sideways && e.active && !e.sideways && -to[Z]! <= e.deepest + SAME_DEPTH) return;
    const hole = holeAt(to);
    if (hole !== undefined && (!sideways || isInHole(from))) {
      if (!sideways) intoHole(s, hole);
      return;
    }
    touchedWood = true;
    checkContact(s);
    if (turns(from, to)) once('turned-in-wood', s, deep);
    else once('rapid-into-wood', s, deep);
  }

  /** Going from hole to hole just above the high spot leaves no room for a shell that is not as round as was thought. */
  function checkClearance(s: Step): void {
    const low = Math.min(s.from[Z]!, s.to[Z]!);
    const wanted = Math.max(LEAST_ROOM, bench.context.runout);
    if (
      !(low < wanted - tolerance.same) ||
      touches(-low) ||
      !overShell(s.from[X]!) ||
      !overShell(s.to[X]!) ||
      toldOfTool.has('low-over-shell')
    )
      return;
    toldOfTool.add('low-over-shell');
    g.raise('care', 'low-over-shell', { at: `line ${s.line}`, line: s.line, measured: low, limit: wanted, unit: 'mm' });
  }

  /** A rapid that ends at the skin itself meets it where the bit was touched off a little low. */
  function checkApproach(s: Step): void {
    const z = s.to[Z]!;
    const lands = s.from[Z]! > z && z >= 0 && z < LEAST_ROOM - tolerance.same && overShell(s.to[X]!);
    if (!lands || toolId <= 0 || toldOfTool.has('approach-low') || isInHole(s.to)) return;
    toldOfTool.add('approach-low');
    const { line } = s;
    g.raise('care', 'approach-low', { at: `line ${line}`, line, measured: z, limit: LEAST_ROOM, unit: 'mm' });
  }

  const overShell = (x: number): boolean => x > 0 && x < bench.depth;

  /** The hole at this place that is already wide and deep enough for this bit. */
  function holeAt(p: Float64Array): Cut | 'old' | undefined {
    const r = radiusOf();
    const [x, y, a] = [zeroed(p[X]!), zeroed(p[Y]!), zeroed(p[A]!)];
    if (isInOldHole(x, y, a, r)) return 'old';
    const station = places.near(x, y, a) ?? places.near(x, y, a, WIDEST_HOLE);
    if (!station) return undefined;
    const aside = Math.hypot(x - station.x, arcGap(p, station.a, station.y));
    const depth = -p[Z]!;
    return station.cuts.find((c) => {
      if (!c.wood || c.kind === 'line') return false;
      if (c.kind === 'plunge' && c.tool !== undefined && tool !== undefined)
        return fits(tool, depth, aside, c.tool, c.depth, SAME_DEPTH);
      return c.radius + SAME_DEPTH >= r + aside && c.depth + SAME_DEPTH >= depth;
    });
  }
  const isInHole = (p: Float64Array): boolean => holeAt(p) !== undefined;

  /** Down a hole that was made before a pause: if the shell was changed there, it is not there any more. */
  function intoHole(s: Step, hole: Cut | 'old'): void {
    if (hole === 'old' || hole.pauses >= pauses || entries.length >= MOST_ENTRIES) return;
    entries.push({
      line: s.line,
      depth: -s.to[Z]!,
      tool: toolId,
      kind: tool?.kind ?? 'unknown',
      made: hole.pauses,
      pauses,
    });
  }

  /** Holes that were in the shell before are air. */
  const isInOldHole = (x: Mm, y: Mm, a: number, r: Mm): boolean =>
    (bench.context.shell.holes ?? []).some(
      (old) => skinGap(old, skinPoint(x, y, a, bench.radius, bench.frame), bench.radius) + r <= old.diameter / 2,
    );

  const arcGap = (p: Float64Array, a: number, y: Mm): Mm => {
    const turn = ((((zeroed(p[A]!) - a) % 360) + 540) % 360) - 180;
    return zeroed(p[Y]!) - y - (bench.radius * turn * Math.PI) / 180;
  };

  function feed(s: Step): void {
    const { from, to } = s;
    const sideways = goesSideways(from, to) || turns(from, to) || s.kind === 'arc';
    const down = to[Z]! < from[Z]!;
    const air = from[Z]! > ON_SKIN && to[Z]! > ON_SKIN && s.kind !== 'arc';
    const deep = air ? -Infinity : deepest(s);
    if (!touches(deep) && touches(-Math.min(from[Z]!, to[Z]!))) checkEnds(s);
    // A pen touches the skin and goes no deeper; the spindle stands.
    const pen = sideways && s.direction === 'off' && deep >= -ON_SKIN && !touches(deep);
    const contact = touches(deep) || pen;
    if (!contact && (!down || (sideways && e.active && e.wood))) {
      // A wide helix leaves the wood at its sides, where the skin lies lower, and comes back into it: one cut.
      if (sideways && !(from[Z]! < 0 && to[Z]! < 0 && !turns(from, to))) close();
      else if (e.active && to[Z]! >= 0) close();
      return;
    }
    if (!e.active) begin(e, from, s.line);
    if (contact && !e.wood) {
      begin(e, from, s.line);
      e.wood = true;
      touchedWood = true;
    }
    e.lastLine = s.line;
    if (contact && !pen) {
      checkContact(s);
      measureLoad(s);
    }
    if (contact && !pen && sideways && !(s.kind === 'feed' && !down && isInHole(from) && isInHole(to))) {
      if (tool !== undefined && !cutsSideways(tool))
        once(turns(from, to) ? 'turned-in-wood' : 'sideways-in-wood', s, deep);
    }
    if (sideways) e.sideways = true;
    if (s.kind === 'arc') alongArc(s, (x, y, z, a) => visit(e, x, y, a, z));
    else {
      if (e.count === 0) visit(e, from[X]!, from[Y]!, from[A]!, from[Z]!);
      visit(e, to[X]!, to[Y]!, to[A]!, to[Z]!);
    }
  }

  function measureLoad(s: Step): void {
    if (tool === undefined || !(s.speed > 0)) return;
    const chip = chipOf(s, tool, bench.radius);
    if (!(chip > 0)) return;
    loads.add(toolId, elapsed - thisStep, elapsed, chip);
    widenLoad(e.load, { from: elapsed - thisStep, to: elapsed, least: chip, most: chip });
  }

  function deepest(s: Step): Mm {
    if (s.kind !== 'arc') return deepestOnWay(s.from, s.to, radiusOf(), skin);
    let deep = -Infinity;
    const p = Float64Array.from(s.from);
    const q = Float64Array.from(s.from);
    alongArc(s, (x, y, z) => {
      q[X] = x;
      q[Y] = y;
      q[Z] = z;
      deep = Math.max(deep, deepestOnWay(p, q, radiusOf(), skin));
      p.set(q);
    });
    return deep;
  }

  /** What must be true whenever the bit is in the wood. */
  function checkContact(s: Step): void {
    if (s.direction === 'off' || s.speed <= 0) once('spindle-off-in-wood', s, null, toldOfTool);
    else if (s.direction === 'ccw') once('spindle-backwards', s, null, toldOfTool);
    else checkRunUp(s);
    if (toolId <= 0) once('no-tool', s, null, toldOfTool);
    if (Number.isNaN(s.to[X]!) || Number.isNaN(s.to[A]!)) once('place-unset', s, null, toldOfTool);
    checkDepth(s);
  }

  /** The first cut after a start must leave the spindle its time to reach speed. */
  function checkRunUp(s: Step): void {
    const wanted = bench.context.machine.spindle.seconds;
    if (sinceStart < wanted - tolerance.same)
      g.raise('care', 'spin-up-short', {
        at: `line ${s.line}`,
        line: s.line,
        measured: sinceStart,
        limit: wanted,
        unit: 's',
        facts: { tool: toolId },
      });
    sinceStart = Number.NaN;
  }

  function checkDepth(s: Step): void {
    const deep = -Math.min(zeroed(s.from[Z]!), s.to[Z]!);
    const { shell, backing, machine } = bench.context;
    const wall = shell.wall + bench.inside - bench.insideAt(zeroed(s.to[X]!), radiusOf());
    const raise = (id: string, limit: Mm): void => {
      if (told.has(id)) return;
      told.add(id);
      g.raise('stop', id, {
        at: `line ${s.line}`,
        line: s.line,
        measured: deep,
        limit,
        unit: 'mm',
        facts: { tool: toolId },
      });
    };
    const farWall = bench.radius + bench.inside;
    const mandrel = machine.fixture.mandrel > 0 ? bench.radius - machine.fixture.mandrel / 2 : Infinity;
    if (deep > farWall) raise('hits-far-wall', farWall);
    else if (deep > mandrel) raise('hits-mandrel', mandrel);
    else if (backing > 0 && deep > wall + backing + tolerance.same) raise('through-backing', wall + backing);
    if (tool === undefined) return;
    if (deep > tool.stickout + tolerance.same) raise('collet-hits-shell', tool.stickout);
    else if (deep > tool.flute + tolerance.same && tool.kind !== 'v-bit')
      raise(tool.shank > tool.diameter + SAME_DEPTH ? 'shank-in-wall' : 'deeper-than-flutes', tool.flute);
    checkEnds(s);
  }

  /** The plates at both ends: no bit below the skin over them or beside them. */
  function checkEnds(s: Step): void {
    const { chuck, tailstock, keepOut } = bench.context.machine.fixture;
    const r = radiusOf();
    const x = s.to[X]!;
    const raise = (id: string, measured: Mm, limit: Mm): void => {
      if (told.has(id)) return;
      told.add(id);
      g.raise('stop', id, { at: `line ${s.line}`, line: s.line, measured, limit, unit: 'mm', facts: { tool: toolId } });
    };
    if (chuck > 0 && x - r < chuck - tolerance.same && x + r > -chuck) raise('in-chuck', x - r, chuck);
    const fromEnd = bench.depth - x;
    if (tailstock > 0 && fromEnd - r < tailstock - tolerance.same && fromEnd + r > -tailstock)
      raise('in-tailstock', fromEnd - r, tailstock);
    for (const { from, to } of keepOut ?? [])
      if (x + r > from + tolerance.same && x - r < to - tolerance.same)
        raise('in-keep-out', x, Math.abs(x - from) < Math.abs(x - to) ? from : to);
  }

  /** The bit has left the wood: what it did becomes a cut at a place. */
  function close(): void {
    if (!e.active) return;
    const made = endEpisode(e, tool, bench);
    told.clear();
    if (made.cut.kind === 'line' && !made.cut.wood) return;
    const station = places.at(made.x, made.y, made.a);
    if (!station) return;
    station.seconds += waiting;
    waiting = 0;
    addCut(station.cuts, made.cut, e.fromAbove);
  }

  function addCut(cuts: Cut[], cut: Cut, fromAbove: boolean): void {
    const before = cuts.find(
      (c) =>
        c.kind === cut.kind &&
        c.wood === cut.wood &&
        c.tool === cut.tool &&
        Math.abs(c.radius - cut.radius) <= SAME_DEPTH,
    );
    const again = before !== undefined && !(cut.depth > before.depth + SAME_DEPTH) && fromAbove && cut.kind !== 'line';
    const shell = cut.wood ? shells.cut(again ? before : undefined) : 0;
    if (!before) {
      cuts.push({ ...cut, pauses, shell });
      if (!repeats) lastNew = pauses;
      return;
    }
    before.pauses = pauses;
    widenLoad(before.load, cut.load);
    before.strokes++;
    before.lastLine = cut.lastLine;
    if (cut.depth > before.depth + SAME_DEPTH) {
      before.depth = cut.depth;
      if (cut.bore) before.bore = cut.bore;
      if (!repeats) lastNew = pauses;
    } else if (again && cut.wood && before.again.length < MOST_AGAIN) {
      before.again.push({ line: cut.line, shell });
      repeats = true;
    }
  }

  return {
    step,
    stations: places,
    touched: () => touchedWood,
    load: () => loads.result(bench),
    intoLast: () => entries.filter((i) => i.made <= lastNew && i.pauses > lastNew),
    charge: (seconds) => {
      waiting += seconds;
      sinceStart += thisStep;
      thisStep = seconds;
      elapsed += seconds;
    },
    finish(line) {
      close();
      if (touches(-last[Z]!) && touchedWood && last[X]! > 0 && last[X]! < bench.depth)
        g.raise('stop', 'ends-in-shell', { at: 'end', line, measured: -last[Z]!, unit: 'mm' });
    },
  };
}

function widenLoad(load: Cut['load'], by: Cut['load']): void {
  load.from = Math.min(load.from, by.from);
  load.to = Math.max(load.to, by.to);
  load.least = Math.min(load.least, by.least);
  load.most = Math.max(load.most, by.most);
}

const zeroed = (value: number): number => (Number.isNaN(value) ? 0 : value);
