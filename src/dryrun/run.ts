import type { Block } from './block.ts';
import { WHOLE } from './block.ts';
import { at } from './codes.ts';
import { type Problem, type RemarkId, type RuleId, refusal, remark } from './rules.ts';
import type { State } from './state.ts';

/** Who listens to a program as it is read. */
export interface Listener {
  /** The step holds only during the call. */
  readonly step: (step: State['step']) => void;
  readonly problem: (problem: Problem) => void;
}

export interface Settings {
  /** How far a pecking drill stops above the bottom it left, mm. The report gives no figure; 0.010 in is its reference's constant. */
  readonly cycleBackOff: number;
  /** Where a pecking drill clears its chips between pecks: at R, or at the level the cycle ends at. */
  readonly peckClears: 'retract' | 'end-level';
  /** Greatest T and H. */
  readonly slots: number;
  /** G28's and G30's places, absolute X Y Z A B C. */
  readonly home: Float64Array;
  readonly secondHome: Float64Array;
  readonly homeKnown: boolean;
  /** Length offset of each H, mm; what is missing is 0. */
  readonly lengths: Readonly<Record<number, number>>;
}

export interface Run {
  readonly state: State;
  readonly block: Block;
  readonly settings: Settings;
  readonly listener: Listener;
  /** Remarks that are made once a program. */
  readonly said: Set<RemarkId>;
  line: number;
}

export function refuse(run: Run, id: RuleId, word: string): false {
  run.listener.problem(refusal(id, run.line, word));
  return false;
}

/** A remark is made once a program: the first line it holds for is enough. */
export function say(run: Run, id: RemarkId, word: string): void {
  if (run.said.has(id)) return;
  run.said.add(id);
  run.listener.problem(remark(id, run.line, word));
}

/** A word of the block as text, for messages. */
export const worded = (block: Block, letter: string): string => `${letter}${block.value[at(letter)]!}`;
export const gWord = (code: number): string => `G${code / 10}`;

/** Lengths mean nothing before G20 or G21: told once, and taken as millimetres. */
export function unitsMatter(run: Run, word: string): void {
  if (run.state.unit !== 0) return;
  say(run, 'units-unset', word);
}

/** The whole number a field stands for, or -1 when it is not whole or out of range. */
export function whole(value: number, least: number, greatest: number): number {
  const rounded = Math.round(value);
  return Math.abs(value - rounded) <= WHOLE && rounded >= least && rounded <= greatest ? rounded : -1;
}
