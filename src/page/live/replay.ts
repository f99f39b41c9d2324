import { spell } from '../number.ts';
import { KIND, type ReplayMove } from '../replay-move.ts';
import type { LiveData, LiveReplay } from './data.ts';
import { addCursor, cutOpen, facing, openings, type Pose } from './replay-pictures.ts';

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
