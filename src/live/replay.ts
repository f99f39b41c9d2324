import type { Worked } from '../jobs/recompute.ts';
import type { Finding } from '../model/finding.ts';
import type { MadePart } from '../page/data.ts';
import { replayOf } from '../page/replay.ts';
import { KIND } from '../page/replay-move.ts';
import { replayBody } from '../page/sections/replay.ts';
import { spell } from '../say/saying.ts';
import { type Course, courseOf, facing, poseAt, visits } from './course.ts';
import { addCursor, cutOpen, marksOf } from './replay-pictures.ts';
import type { ReplaySolid } from './solid-replay.ts';
import { type Spot, spotsOf } from './spots.ts';
import { type Bench, whenNear } from './unpack.ts';

/** Takes the listeners of the replay before this one away. */
let before: AbortController | undefined;

/** The dry run on a time slider: bit, turning shell, wood going away, the line now running, findings to step through. */
export function restartReplay(
  worked: Worked,
  made: Pick<MadePart, 'rotary' | 'dryRun'>,
  findings: readonly Finding[],
  bench: Bench,
): void {
  before?.abort();
  const body = document.getElementById('replay-body');
  if (!made.rotary || !body) return;
  const moves = replayOf(made.rotary.program, worked.jig.rotary.machine, worked.jig.shell.radius);
  if (moves.length === 0) return;
  body.innerHTML = replayBody(worked.view, made.rotary);
  before = new AbortController();
  const course = courseOf(worked.jig, worked.layout, made.rotary, moves);
  const spots = spotsOf(course, made.dryRun?.findings ?? [], findings);
  startReplay(course, made.rotary.program.split('\n'), spots, bench, before.signal);
}

const get = <T extends Element>(id: string): T => document.getElementById(id) as unknown as T;

function startReplay(
  course: Course,
  lines: readonly string[],
  spots: readonly Spot[],
  bench: Bench,
  signal: AbortSignal,
): void {
  const { moves } = course;
  const total = moves[moves.length - 1]![5];
  const slider = get<HTMLInputElement>('replay-time');
  const shell = get('replay-shell');
  const bit = get('replay-bit');
  const now = get('replay-now');
  const said = get('replay-said');
  const listing = get('replay-lines');
  const play = get<HTMLButtonElement>('replay-play');
  const speed = get<HTMLSelectElement>('replay-speed');
  const seen = visits(course);
  const marks = marksOf(course);
  const cursor = addCursor(course);
  const cut = cutOpen(course);
  let solid: ReplaySolid | undefined;
  let time = 0;
  let shownLine = -1;

  const show = (): void => {
    const pose = poseAt(moves, time);
    const turn = course.signOfA * facing(course) * pose.a;
    shell.setAttribute('transform', `rotate(${turn.toFixed(2)})`);
    bit.setAttribute('transform', `translate(${pose.y.toFixed(2)} ${(-pose.z).toFixed(2)})`);
    cursor(pose);
    cut(pose, time);
    seen.forEach((v, i) => {
      for (const e of marks[i]!) e.classList.toggle('done', v.through <= time);
    });
    solid?.pose(turn, pose, time);
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
  signal.addEventListener('abort', stop);
  play.addEventListener('click', start, { signal });
  slider.addEventListener('input', slid, { signal });
  function start(): void {
    if (playing !== undefined) {
      stop();
      return;
    }
    if (time >= total) time = 0;
    play.textContent = 'Pause';
    play.setAttribute('aria-pressed', 'true');
    let last: number | undefined;
    const frame = (at: number): void => {
      go(time + ((at - (last ?? at)) / 1000) * Number(speed.value));
      last = at;
      if (time >= total) stop();
      else playing = requestAnimationFrame(frame);
    };
    playing = requestAnimationFrame(frame);
  }
  function slid(): void {
    stop();
    said.textContent = '';
    go((Number(slider.value) / 1000) * total);
  }

  const visit = (spot: Spot | undefined): void => {
    if (!spot) return;
    stop();
    go(spot.at);
    said.textContent = `${spot.finding.level.toUpperCase()}, ${spot.finding.at}: ${spot.finding.text}`;
  };
  showSpots(spots, total);
  get('replay-next').addEventListener('click', () => visit(spots.find((s) => s.at > time + 0.01) ?? spots[0]), {
    signal,
  });
  get('replay-before').addEventListener(
    'click',
    () => visit(spots.findLast((s) => s.at < time - 0.01) ?? spots[spots.length - 1]),
    { signal },
  );
  whenNear(slider, async () => {
    try {
      const { replay } = await bench.solid();
      if (signal.aborted) return;
      const canvas = get<HTMLCanvasElement>('replay-solid');
      canvas.parentElement!.hidden = false;
      get<HTMLElement>('replay-flat').hidden = true;
      const view = replay(canvas, course, seen);
      signal.addEventListener('abort', view.end);
      solid = view;
      show();
    } catch {
      // The flat view from the end stays and shows the same; the turning view above says why.
    }
  });
  // A withheld program opens at what withholds it.
  const first = spots.find((s) => s.finding.level === 'stop');
  if (first) visit(first);
  else go(0);
}

/** A mark on the timeline for each finding that has a moment. */
function showSpots(spots: readonly Spot[], total: number): void {
  for (const id of ['replay-next', 'replay-before']) get<HTMLButtonElement>(id).hidden = spots.length === 0;
  get('replay-marks').replaceChildren(
    ...spots.map((spot) => {
      const mark = document.createElement('span');
      mark.className = `spot ${spot.finding.level}`;
      mark.style.left = `${(spot.at / total) * 100}%`;
      return mark;
    }),
  );
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
