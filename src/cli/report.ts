import type { Finding } from '../model/finding.ts';
import { EXIT } from './failure.ts';
import { paint, type Terminal } from './terminal.ts';

/** 1 when a finding says stop, else 0. */
export const exitFor = (findings: readonly Finding[]): number =>
  findings.some((f) => f.level === 'stop') ? EXIT.stop : EXIT.done;

const LABEL = { stop: 'STOP', care: 'care', note: 'note' } as const;

/** Findings for people: level, place, what is wrong, what to try; lines of the file where known. */
export function sayFindings(findings: readonly Finding[], t: Terminal): string {
  return findings
    .map((f) => {
      const line = f.line === undefined ? '' : ` (line ${f.line})`;
      const cure = f.try === '' ? '' : `\n      try: ${f.try}`;
      return `${paint(t, f.level, LABEL[f.level])}  ${f.at}${line}: ${f.text}${cure}\n`;
    })
    .join('');
}

export function verdict(
  findings: readonly Finding[],
  t: Terminal,
  good = 'It goes together as far as was checked',
): string {
  const count = (level: Finding['level']) => findings.filter((f) => f.level === level).length;
  const [stops, cares, notes] = [count('stop'), count('care'), count('note')];
  const rest = `${cares} to take care of, ${notes} noted`;
  return stops > 0
    ? `${paint(t, 'stop', `STOP: ${stops} finding${stops === 1 ? '' : 's'} to cure`)}; ${rest}.`
    : `${paint(t, 'good', good)}; ${rest}.`;
}
