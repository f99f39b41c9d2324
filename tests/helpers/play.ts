import { parseLine } from 'gcode-parser';

/** A stroke of the tip from above, as any reader of the words would make it: mm and degrees. */
export interface Stroke {
  readonly x: number;
  readonly y: number;
  readonly a: number;
  /** Deepest Z of the stroke. */
  readonly z: number;
  readonly tool: number;
  readonly feed: number;
}

/** One straight move in the program's order: mm and degrees, cycles written out. */
export interface Go {
  readonly rapid: boolean;
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly a: number;
  /** 1/min when `inverse`, else mm/min or deg/min. */
  readonly feed: number;
  readonly inverse: boolean;
  readonly spindle: number;
  readonly tool: number;
}

type Words = readonly (readonly [string, number | string])[];

/**
 * A plain player for the words our programs use, on top of an independent tokenizer: straight moves, G81 and G83 with
 * G98, inch and mm. It knows no findings and shares no code with what it checks; an unknown code fails the test.
 */
export function play(text: string): Go[] {
  const at = { x: 0, y: 0, z: 1000, a: 0 };
  const moves: Go[] = [];
  let unit = 1;
  let motion = 80;
  let feed = 0;
  let inverse = false;
  let tool = 0;
  let selected = 0;
  let spindle = 0;
  let speed = 0;
  const go = (rapid: boolean): void => {
    moves.push({ rapid, ...at, feed, inverse, spindle, tool });
  };
  for (const line of text.split('\n')) {
    const words: Words = parseLine(line).words;
    const value = new Map<string, number>();
    for (const [letter, raw] of words) {
      if (typeof raw !== 'number') throw new Error(`not a number: ${line}`);
      if (letter !== 'G' && letter !== 'M') value.set(letter, raw);
    }
    const gs = words.filter(([l]) => l === 'G').map(([, v]) => v as number);
    const ms = words.filter(([l]) => l === 'M').map(([, v]) => v as number);
    for (const g of gs) {
      if ([0, 1, 80, 81, 83].includes(g)) motion = g;
      else if (g === 20) unit = 25.4;
      else if (g === 21) unit = 1;
      else if (g === 93) inverse = true;
      else if (g === 94) inverse = false;
      else if (![4, 17, 40, 43, 49, 54, 90, 98].includes(g)) throw new Error(`unknown G${g}`);
    }
    if (value.has('T')) selected = value.get('T')!;
    if (value.has('S')) speed = value.get('S')!;
    const f = value.get('F');
    if (f !== undefined)
      feed = f * (inverse || motion === 0 ? 1 : value.has('X') || value.has('Y') || value.has('Z') ? unit : 1);
    for (const m of ms) {
      if (m === 3) spindle = speed;
      else if (m === 5) spindle = 0;
      else if (m === 6) {
        tool = selected;
        spindle = 0;
      } else if (![0, 2].includes(m)) throw new Error(`unknown M${m}`);
    }
    if (gs.includes(4) || gs.includes(43)) continue;
    const axes = (['x', 'y', 'z', 'a'] as const).filter((k) => value.has(k.toUpperCase()));
    if (axes.length === 0) continue;
    const to = (k: 'x' | 'y' | 'z' | 'a'): number => value.get(k.toUpperCase())! * (k === 'a' ? 1 : unit);
    if (motion === 0 || motion === 1) {
      for (const k of axes) at[k] = to(k);
      go(motion === 0);
      continue;
    }
    if (value.has('A')) throw new Error(`a cycle turns A: ${line}`);
    cycle(at, value, unit, motion, go);
  }
  return moves;
}

function cycle(
  at: { x: number; y: number; z: number; a: number },
  value: ReadonlyMap<string, number>,
  unit: number,
  motion: number,
  go: (rapid: boolean) => void,
): void {
  const clear = at.z;
  const r = value.get('R')! * unit;
  const bottom = value.get('Z')! * unit;
  const q = motion === 83 ? value.get('Q')! * unit : Number.POSITIVE_INFINITY;
  at.x = (value.get('X') ?? at.x / unit) * unit;
  go(true);
  at.z = r;
  go(true);
  for (let k = 1; ; k++) {
    const level = Math.max(bottom, r - k * q);
    if (k > 1) {
      at.z = r;
      go(true);
      at.z = r - (k - 1) * q + 0.254;
      go(true);
    }
    at.z = level;
    go(false);
    if (level <= bottom + 1e-9) break;
  }
  at.z = clear;
  go(true);
}

/** The holes a list of moves makes: one entry for each time the tip goes below the skin and comes up again. */
export function strokes(moves: readonly Go[]): Stroke[] {
  const out: Stroke[] = [];
  let open: { x: number; y: number; a: number; z: number; tool: number; feed: number } | undefined;
  for (const m of moves) {
    if (m.z < 0) {
      open ??= { x: m.x, y: m.y, a: m.a, z: m.z, tool: m.tool, feed: m.feed };
      open.z = Math.min(open.z, m.z);
    } else if (open && m.z > 5) {
      out.push(open);
      open = undefined;
    }
  }
  return out;
}
