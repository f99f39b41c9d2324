import { type Deg, type Mm, toRad } from '../../units/scalar.ts';
import { spell } from '../number.ts';
import { KIND, type ReplayMove } from '../replay-move.ts';
import type { LiveData, LiveReplay } from './data.ts';

/** Cuts nearer together than this belong to one hole, mm over the skin. */
const SAME_PLACE = 9;
/** Nearer than this to a planned hole the bit is at it, mm over the skin. */
const AT_HOLE = 3;

interface Pose {
  readonly move: ReplayMove;
  readonly x: Mm;
  readonly y: Mm;
  readonly z: Mm;
  readonly a: Deg;
}

/** The dry run on a time slider: bit, turning shell, holes filling, the line now running, findings to step through. */
export function startReplay(replay: LiveReplay, data: Pick<LiveData, 'dryRun' | 'rotary'>): void {
  const { moves } = replay;
  const get = <T extends Element>(selector: string): T | null => document.querySelector<T>(selector);
  const slider = get<HTMLInputElement>('#replay-time');
  const last = moves[moves.length - 1];
  if (!slider || !last) return;
  const total = last[5];
  const shell = get('#replay-shell');
  const bit = get('#replay-bit');
  const now = get('#replay-now')!;
  const listing = get<HTMLElement>('#replay-lines')!;
  const play = get<HTMLButtonElement>('#replay-play')!;
  const speed = get<HTMLSelectElement>('#replay-speed')!;
  const lines = (data.rotary?.program ?? '').split('\n');
  const opened = openings(replay);
  const cursor = addCursor(replay);
  const cut = cutOpen(replay);
  let time = 0;
  let shownLine = -1;

  const show = (): void => {
    const pose = poseAt(moves, time);
    shell?.setAttribute('transform', `rotate(${(replay.signOfA * facing(replay) * pose.a).toFixed(2)})`);
    bit?.setAttribute('transform', `translate(${pose.y.toFixed(2)} ${(-pose.z).toFixed(2)})`);
    cursor(pose);
    cut(pose, time);
    for (const o of opened) {
      for (const e of o.marks) e.classList.toggle('done', o.at <= time);
    }
    slider.value = String(Math.round((time / total) * 1000));
    const kind = pose.move[6] === KIND.feed ? 'cutting' : pose.move[6] === KIND.rapid ? 'rapid' : 'waiting';
    now.textContent = `${spell(time)} of ${spell(total)} · line ${pose.move[0]} · ${kind} · tool ${pose.move[7] < 0 ? 'none' : pose.move[7]} · X ${pose.x.toFixed(1)} Z ${pose.z.toFixed(1)} A ${pose.a.toFixed(1)}`;
    slider.setAttribute('aria-valuetext', `${spell(time)}, line ${pose.move[0]}`);
    if (pose.move[0] !== shownLine) {
      shownLine = pose.move[0];
      listing.replaceChildren(...around(lines, shownLine));
    }
  };
  const go = (t: number): void => {
    time = Math.max(0, Math.min(total, t));
    show();
  };
  let playing: number | undefined;
  const stop = (): void => {
    if (playing !== undefined) cancelAnimationFrame(playing);
    playing = undefined;
    play.textContent = 'Play';
    play.setAttribute('aria-pressed', 'false');
  };
  play.addEventListener('click', () => {
    if (playing !== undefined) return stop();
    if (time >= total) time = 0;
    play.textContent = 'Pause';
    play.setAttribute('aria-pressed', 'true');
    let before: number | undefined;
    const frame = (at: number): void => {
      go(time + ((at - (before ?? at)) / 1000) * Number(speed.value));
      before = at;
      if (time >= total) stop();
      else playing = requestAnimationFrame(frame);
    };
    playing = requestAnimationFrame(frame);
  });
  slider.addEventListener('input', () => {
    stop();
    go((Number(slider.value) / 1000) * total);
  });
  findingsOnTimeline(
    data,
    moves,
    total,
    (t) => {
      stop();
      go(t);
    },
    () => time,
  );
  go(0);
}

/** Between the ends of two moves, along the straight way. */
export function poseAt(moves: readonly ReplayMove[], time: number): Pose {
  let [low, high] = [0, moves.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (moves[middle]![5] < time) low = middle + 1;
    else high = middle;
  }
  const move = moves[low]!;
  const from = moves[low - 1] ?? move;
  const span = move[5] - from[5];
  const part = span > 0 ? Math.max(0, Math.min(1, (time - from[5]) / span)) : 1;
  const mix = (i: 1 | 2 | 3 | 4): number => from[i] + (move[i] - from[i]) * part;
  return { move, x: mix(1), y: mix(2), z: mix(3), a: mix(4) };
}

/** When each planned hole is first through: a cut near its place that ends below the wall. */
function openings(replay: LiveReplay): readonly { readonly at: number; readonly marks: readonly Element[] }[] {
  const through = replay.moves.filter((m) => m[6] === KIND.feed && m[3] <= -replay.wall);
  return replay.holes.map((hole) => {
    const first = through.find((m) => {
      const around = ((((replay.signOfA * m[4] - hole.angle) % 360) + 540) % 360) - 180;
      const across = around * ((Math.PI * replay.radius) / 180) - facing(replay) * m[2];
      return Math.hypot(across, heightOf(replay, m[1]) - hole.height) < AT_HOLE + hole.radius;
    });
    const id = CSS.escape(hole.id);
    const marks = [...document.querySelectorAll(`.replay-sheet [data-hole="${id}"], [data-bore="${id}"]`)];
    return { at: first ? first[5] : Number.POSITIVE_INFINITY, marks };
  });
}

/** +1 when + X leads to the top edge: shell angles then count anticlockwise seen from there, and + Y lies clockwise. */
const facing = (replay: LiveReplay): 1 | -1 => (replay.datum === 'bottom' ? 1 : -1);

const heightOf = (replay: LiveReplay, x: Mm): Mm => (replay.datum === 'bottom' ? x : replay.depth - x);

/** A cross on the unrolled skin that follows the bit. */
function addCursor(replay: LiveReplay): (pose: Pose) => void {
  const sheet = document.querySelector('.replay-sheet');
  if (!sheet) return () => {};
  const cross = document.createElementNS('http://www.w3.org/2000/svg', 'path');
  cross.setAttribute('class', 'aim');
  cross.setAttribute('d', 'M-14 0H14M0 -14V14M-9 0a9 9 0 1 0 18 0a9 9 0 1 0 -18 0');
  sheet.append(cross);
  const girth = 2 * Math.PI * replay.radius;
  return (pose) => {
    const angle = replay.signOfA * pose.a;
    const turned = ((((angle - replay.from) % 360) + 360) % 360) + replay.from;
    const u = (turned / 360) * girth - facing(replay) * pose.y;
    cross.setAttribute(
      'transform',
      `translate(${u.toFixed(2)} ${(replay.depth - heightOf(replay, pose.x)).toFixed(2)})`,
    );
  };
}

/**
 * The wall under the bit: for each tool how deep and how wide it has gone at this place so far. Sideways the bit may move
 * in X and Y (a bore); what it sweeps along X is what the cut shows.
 */
function cutOpen(replay: LiveReplay): (pose: Pose, time: number) => void {
  const gone = document.getElementById('replay-gone');
  const tip = document.querySelector('#replay-tip path');
  if (!gone || !tip) return () => {};
  const bitOf = (tool: number) => replay.tools.find((t) => t.id === tool);
  const radiusAt = (tool: number, depth: Mm): Mm => {
    const bit = bitOf(tool);
    const full = (bit?.diameter ?? 6) / 2;
    return bit?.cone === undefined ? full : Math.min(full, depth * Math.tan(toRad(bit.cone / 2)));
  };
  const perDegree = (Math.PI * replay.radius) / 180;
  return (pose, time) => {
    const swept = new Map<number, { from: Mm; to: Mm; depth: Mm }>();
    const take = (tool: number, x: Mm, z: Mm): void => {
      if (z >= 0) return;
      const r = radiusAt(tool, -z);
      const s = swept.get(tool) ?? { from: x - r, to: x + r, depth: 0 };
      swept.set(tool, { from: Math.min(s.from, x - r), to: Math.max(s.to, x + r), depth: Math.max(s.depth, -z) });
    };
    for (const m of replay.moves) {
      if (m[5] > time) break;
      const turned = (((m[4] - pose.a + 540) % 360) - 180) * perDegree;
      if (m[6] === KIND.feed && Math.hypot(m[1] - pose.x, turned - m[2] + pose.y) < SAME_PLACE)
        take(m[7], m[1] - pose.x, m[3]);
    }
    take(pose.move[7], 0, pose.z);
    const shapes = [...swept].map(([tool, s]) => {
      const path = document.createElementNS('http://www.w3.org/2000/svg', 'path');
      const [a, b, depth, middle] = [s.from, s.to, s.depth, (s.from + s.to) / 2].map((v) => v.toFixed(2));
      path.setAttribute(
        'd',
        `M${a} 0H${b}${bitOf(tool)?.cone === undefined ? `V${depth}H${a}` : `L${middle} ${depth}`}Z`,
      );
      path.setAttribute('class', 'bore');
      return path;
    });
    gone.replaceChildren(...shapes);
    const r = (bitOf(pose.move[7])?.diameter ?? 6) / 2;
    const z = -pose.z;
    tip.setAttribute(
      'd',
      `M${-r} -60V${(z - r * 0.4).toFixed(2)}L0 ${z.toFixed(2)}L${r} ${(z - r * 0.4).toFixed(2)}V-60Z`,
    );
  };
}

function around(lines: readonly string[], line: number): (string | Node)[] {
  const out: (string | Node)[] = [];
  for (let i = Math.max(1, line - 3); i <= Math.min(lines.length, line + 3); i++) {
    const text = `${String(i).padStart(5)}  ${lines[i - 1] ?? ''}`;
    if (i === line) {
      const strong = document.createElement('b');
      strong.textContent = `${text}\n`;
      out.push(strong);
    } else out.push(`${text}\n`);
  }
  return out;
}

function findingsOnTimeline(
  data: Pick<LiveData, 'dryRun'>,
  moves: readonly ReplayMove[],
  total: number,
  go: (time: number) => void,
  time: () => number,
): void {
  const next = document.getElementById('replay-next') as HTMLButtonElement;
  const strip = document.getElementById('replay-marks')!;
  const spots = (data.dryRun?.findings ?? [])
    .flatMap((f) => {
      const move = f.line === undefined ? undefined : moves.find((m) => m[0] >= f.line!);
      return move ? [{ at: move[5], f }] : [];
    })
    .sort((a, b) => a.at - b.at);
  next.hidden = spots.length === 0;
  for (const spot of spots) {
    const mark = document.createElement('span');
    mark.className = `spot ${spot.f.level}`;
    mark.style.left = `${(spot.at / total) * 100}%`;
    strip.append(mark);
  }
  next.addEventListener('click', () => {
    const spot = spots.find((s) => s.at > time() + 0.01) ?? spots[0];
    if (!spot) return;
    go(spot.at);
    document.getElementById('replay-now')!.append(` · ${spot.f.level.toUpperCase()}: ${spot.f.text}`);
  });
}
