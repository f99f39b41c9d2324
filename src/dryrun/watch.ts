import type { Tool } from '../model/machine.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { cutsSideways } from './bit.ts';
import type { Bench } from './context.ts';
import { endEpisode } from './cut-made.ts';
import type { Entry } from './done.ts';
import { begin, type Episode, newEpisode, visit } from './episode.ts';
import type { Gatherer } from './gather.ts';
import { atEnds, tooDeep } from './hindrances.ts';
import { holesMade } from './holes-made.ts';
import { type ChipLoad, chipOf, recordLoad, widenLoad } from './load.ts';
import { watchRepeats } from './repeats.ts';
import { alongArc } from './sample.ts';
import { type Cut, SAME_DEPTH, type Stations, stations } from './stations.ts';
import { A, axisOr0, type Step, X, Y, Z } from './step.ts';
import { tellOnce } from './tell-once.ts';
import { deepestOf, deepestOnWay, goesSideways, ON_SKIN, touches, turns } from './wood.ts';

/** Room between tip and skin on the way from hole to hole, and where a rapid ends (common practice, no source). */
const LEAST_ROOM: Mm = 0.5;

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
  const made = holesMade(bench, places);
  const repeats = watchRepeats();
  const tell = tellOnce(g);
  const skin = { radius: bench.radius, depth: bench.depth };
  const e: Episode = newEpisode();
  let tool: Tool | undefined;
  let toolId = -1;
  let waiting = 0;
  let touchedWood = false;
  const loads = recordLoad();
  /** Since the program began, with the step now judged. */
  let elapsed = 0;
  /** Seconds since the spindle started, without the step now judged; NaN: nothing to wait for. */
  let sinceStart = Number.NaN;
  let thisStep = 0;
  const last = new Float64Array(6).fill(Number.NaN);

  const radiusOf = (): Mm => (tool === undefined ? 0 : tool.diameter / 2);
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
        if (s.direction === 'off' && e.active && touches(-s.to[Z]!)) tell.stop('spindle-stopped-in-wood', s);
        return;
      case 'pause':
        repeats.pause();
        return;
      default:
        return;
    }
  }

  function toolChange(s: Step): void {
    toolId = s.tool;
    repeats.tool(s.tool);
    tool = bench.tools.get(s.tool);
    tell.tool(s.tool, tool?.kind);
    if (touches(-s.to[Z]!)) tell.stop('tool-change-in-shell', s, -s.to[Z]!);
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
      if (!sideways && hole !== 'old')
        repeats.enter(hole, { line: s.line, depth: -to[Z]!, tool: toolId, kind: tool?.kind ?? 'unknown' });
      return;
    }
    touchedWood = true;
    checkContact(s);
    if (turns(from, to)) tell.stop('turned-in-wood', s, deep);
    else tell.stop('rapid-into-wood', s, deep);
  }

  /** Going from hole to hole just above the high spot leaves no room for a shell that is not as round as was thought. */
  function checkClearance(s: Step): void {
    const low = Math.min(s.from[Z]!, s.to[Z]!);
    const wanted = Math.max(LEAST_ROOM, bench.context.runout);
    const isLow = low < wanted - tolerance.same && !touches(-low);
    if (isLow && overShell(s.from[X]!) && overShell(s.to[X]!)) tell.careOfTool('low-over-shell', s, low, wanted);
  }

  /** A rapid that ends at the skin itself meets it where the bit was touched off a little low. */
  function checkApproach(s: Step): void {
    const z = s.to[Z]!;
    const lands = s.from[Z]! > z && z >= 0 && z < LEAST_ROOM - tolerance.same && overShell(s.to[X]!);
    if (lands && toolId > 0 && !isInHole(s.to)) tell.careOfTool('approach-low', s, z, LEAST_ROOM);
  }

  const holeAt = (p: Float64Array): Cut | 'old' | undefined => made.at(p, tool);
  const isInHole = (p: Float64Array): boolean => holeAt(p) !== undefined;
  const checkEnds = (s: Step): void => atEnds(s.to[X]!, radiusOf(), bench, tell.reached(s));
  const overShell = (x: number): boolean => x > 0 && x < bench.depth;

  function feed(s: Step): void {
    const { from, to } = s;
    const sideways = goesSideways(from, to) || turns(from, to) || s.kind === 'arc';
    const down = to[Z]! < from[Z]!;
    const air = from[Z]! > ON_SKIN && to[Z]! > ON_SKIN && s.kind !== 'arc';
    const deep = air ? -Infinity : deepestOf(s, radiusOf(), skin);
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
        tell.stop(turns(from, to) ? 'turned-in-wood' : 'sideways-in-wood', s, deep);
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

  /** What must be true whenever the bit is in the wood. */
  function checkContact(s: Step): void {
    if (s.direction === 'off' || s.speed <= 0) tell.stopOfTool('spindle-off-in-wood', s);
    else if (s.direction === 'ccw') tell.stopOfTool('spindle-backwards', s);
    else checkRunUp(s);
    if (toolId <= 0) tell.stopOfTool('no-tool', s);
    if (Number.isNaN(s.to[X]!) || Number.isNaN(s.to[A]!)) tell.stopOfTool('place-unset', s);
    tooDeep(-Math.min(axisOr0(s.from[Z]!), s.to[Z]!), axisOr0(s.to[X]!), tool, bench, tell.reached(s));
    if (tool !== undefined) checkEnds(s);
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

  /** The bit has left the wood: what it did becomes a cut at a place. */
  function close(): void {
    if (!e.active) return;
    const done = endEpisode(e, tool, bench);
    tell.left();
    if (done.cut.kind === 'line' && !done.cut.wood) return;
    const station = places.at(done.x, done.y, done.a);
    if (!station) return;
    station.seconds += waiting;
    waiting = 0;
    repeats.add(station.cuts, done.cut, e.fromAbove);
  }

  return {
    step,
    stations: places,
    touched: () => touchedWood,
    load: () => loads.result(bench),
    intoLast: repeats.intoLast,
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
