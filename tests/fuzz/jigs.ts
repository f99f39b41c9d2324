import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { stringify } from 'yaml';
import { resolveJig } from '../../src/jig/resolve.ts';
import { parseText } from '../../src/jig/text.ts';
import { checkFindings } from '../../src/jobs/check.ts';
import { programAgain, recompute, sheetsAgain } from '../../src/jobs/recompute.ts';
import { bytes, bytesOf, mutationsOf } from './edits.ts';
import { complained, finite, sameTwice, told } from './said.ts';
import type { Fuzzed } from './suite.ts';
import { changed } from './trees.ts';

const texts = ['jigs', 'tests/cases/sound'].flatMap((folder) =>
  readdirSync(folder)
    .filter((f) => f.endsWith('.yaml'))
    .map((f) => readFileSync(`${folder}/${f}`, 'utf8')),
);
const trees = texts.map((text) => {
  const parsed = parseText(text);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  return parsed.raw as object;
});

/**
 * Jig files: none may crash or hang the main job. What is refused is refused with its place, what is allowed and a cure; of
 * what is not, every hole lies within the shell or a finding says stop, every number is one, and all comes out the same twice.
 */
export const jigs: Fuzzed<string> = {
  name: 'jigs',
  short: 20,
  inputs: fc.oneof(
    { weight: 8, arbitrary: changed(trees).map((t) => bytesOf(stringify(t, { aliasDuplicateObjects: false }))) },
    { weight: 3, arbitrary: mutationsOf(texts.map(bytesOf)) },
    { weight: 1, arbitrary: bytes },
  ),
  holds(input) {
    let text: string;
    try {
      text = new TextDecoder('utf-8', { fatal: true }).decode(Buffer.from(input, 'latin1'));
    } catch {
      return;
    }
    const parsed = parseText(text);
    if (!parsed.ok) return complained(parsed.issues, text);
    const { raw, lines } = parsed;
    const read = resolveJig(raw, { lines });
    if (!read.ok) return complained(read.issues.map(parsed.place), text);
    const work = recompute(raw, { lines });
    if (!work.ok) throw new Error('read once, refused the second time');
    const { jig, layout } = work;
    finite({ ...layout, ...jig.shell }, 'layout');
    const findings = checkFindings(jig, layout);
    told(findings);
    sameTwice(() => checkFindings(jig, layout));
    const off = layout.holes.find((h) => !(h.height > 0 && h.height < layout.depth));
    if (off !== undefined && !findings.some((f) => f.level === 'stop'))
      throw new Error(`hole ${off.id} at height ${off.height} of ${layout.depth}, and no stop`);
    if (input.length % 4 === 0) {
      const program = programAgain(work, { digest: 'x', version: '0' });
      told(program.findings);
      sameTwice(() => programAgain(work, { digest: 'x', version: '0' }).made);
    }
    if (input.length % 32 === 0) {
      const sheets = sheetsAgain(work, 'x');
      told(sheets.findings);
      finite(sheets.made.sheets, 'sheets');
    }
  },
};
