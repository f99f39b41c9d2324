import { existsSync, readFileSync } from 'node:fs';

/** At least this share of a part's mutants must be killed. */
const FLOOR = 80;

const oneLine = (text) => text.replace(/\s+/g, ' ').trim();

/** Every mutant of a report with the words that name it whatever its line number. */
function mutantsOf(report) {
  return Object.entries(report.files).flatMap(([file, { source, mutants }]) => {
    const lines = source.split('\n');
    return mutants.map((m) => {
      const { start, end } = m.location;
      const text = lines.slice(start.line - 1, end.line);
      text[text.length - 1] = text.at(-1).slice(0, end.column - 1);
      text[0] = text[0].slice(start.column - 1);
      return {
        file,
        line: start.line,
        within: oneLine(lines[start.line - 1]),
        from: oneLine(text.join('\n')),
        to: oneLine(m.replacement ?? ''),
        status: m.status,
      };
    });
  });
}

const isKept = (m, kept) =>
  (kept[m.file] ?? []).some(
    (k) =>
      k.within === m.within && (k.from ?? m.from) === m.from && (k.to === undefined || [k.to].flat().includes(m.to)),
  );

/** Prints the share killed and the survivors no reason is given for; 1 when a part is below the floor or has such. */
export function printReport(parts) {
  const kept = JSON.parse(readFileSync(new URL('./survivors.json', import.meta.url), 'utf8'));
  let bad = false;
  const rows = [];
  for (const part of parts) {
    const path = `reports/mutation/${part}.json`;
    if (!existsSync(path)) {
      console.log(`${part}: no run yet`);
      bad = true;
      continue;
    }
    const mutants = mutantsOf(JSON.parse(readFileSync(path, 'utf8')));
    const byFile = groupBy(mutants);
    for (const [file, list] of byFile) rows.push([`  ${file}`, ...counts(list, kept)]);
    rows.push([part, ...counts(mutants, kept)]);
    const { share, open } = tally(mutants, kept);
    if (share < FLOOR || open.length > 0) bad = true;
    for (const m of open) {
      console.log(`${m.status === 'NoCoverage' ? 'unmet   ' : 'survived'} ${m.file}:${m.line}  ${m.from} -> ${m.to}`);
      console.log(`         ${m.within}`);
    }
  }
  console.log(
    `\n${'part and file'.padEnd(34)}mutants  killed  timed out  survived  explained  share (floor ${FLOOR} %)`,
  );
  for (const [name, total, killed, timeout, lived, explained, share] of rows) {
    const cells = [total, killed, timeout, lived, explained].map((v, i) => String(v).padStart([7, 8, 11, 10, 11][i]));
    console.log(`${name.padEnd(34)}${cells.join('')}  ${share.toFixed(1)} %`);
  }
  return bad ? 1 : 0;
}

function groupBy(mutants) {
  const map = new Map();
  for (const m of mutants) map.set(m.file, [...(map.get(m.file) ?? []), m]);
  return map;
}

function tally(mutants, kept) {
  const count = (status) => mutants.filter((m) => m.status === status).length;
  const lived = mutants.filter((m) => m.status === 'Survived' || m.status === 'NoCoverage');
  const open = lived.filter((m) => !isKept(m, kept));
  const [killed, timeout] = [count('Killed'), count('Timeout')];
  const total = killed + timeout + lived.length;
  return { total, killed, timeout, lived, open, share: (100 * (killed + timeout)) / Math.max(1, total) };
}

function counts(mutants, kept) {
  const { total, killed, timeout, lived, open, share } = tally(mutants, kept);
  return [total, killed, timeout, lived.length, lived.length - open.length, share];
}
