import { existsSync, readFileSync } from 'node:fs';

/** At least this share (%) of a part's mutants must be killed, equivalent ones counted as not. */
const FLOOR = 80;

export const reportOf = (path) => `reports/mutation/${path.replaceAll('/', '-').replace(/\.ts$/, '')}.json`;

/** Prints the share killed and the survivors no reason is given for; 1 when a part is below the floor or has such. */
export function printReport(chosen) {
  const kept = JSON.parse(readFileSync(new URL('./survivors.json', import.meta.url), 'utf8'));
  const parts = new Map();
  const rows = [];
  let bad = false;
  for (const { part, path } of chosen) {
    const last = lastOf(path);
    if (last?.source !== readFileSync(path, 'utf8')) {
      rows.push([path, last === undefined ? 'not run' : 'changed since its run']);
      bad = true;
      continue;
    }
    const sum = summed(mutantsOf(last), kept[path] ?? []);
    rows.push([path, sum]);
    parts.set(part, [...(parts.get(part) ?? []), sum]);
    for (const m of sum.open) {
      console.log(`${m.status.toLowerCase().padEnd(10)} ${path}:${m.line}  ${m.from} -> ${m.to}`);
      console.log(`           ${m.within}`);
    }
  }
  for (const [part, sums] of parts) {
    const sum = sums.reduce(added);
    rows.push([part, sum]);
    if (shareOf(sum) < FLOOR || sum.open.length > 0) bad = true;
  }
  console.log(
    `\n${'file, part'.padEnd(32)} mutants  killed  unloaded   endless  survived  explained   share (floor ${FLOOR} %)`,
  );
  for (const [name, sum] of rows) console.log(`${name.padEnd(32)} ${typeof sum === 'string' ? sum : cells(sum)}`);
  return bad ? 1 : 0;
}

const cells = (s) =>
  `${[s.total, s.killed, s.unloaded, s.endless, s.survived, s.survived - s.open.length]
    .map((n, i) => String(n).padStart([7, 6, 8, 9, 8, 9][i]))
    .join('  ')}  ${shareOf(s).toFixed(1).padStart(6)} %`;

const shareOf = (s) => (100 * (s.killed + s.unloaded + s.endless)) / Math.max(1, s.total);

const added = (a, b) => ({
  total: a.total + b.total,
  killed: a.killed + b.killed,
  unloaded: a.unloaded + b.unloaded,
  endless: a.endless + b.endless,
  survived: a.survived + b.survived,
  open: [...a.open, ...b.open],
});

function summed(mutants, kept) {
  const of = (...statuses) => mutants.filter((m) => statuses.includes(m.status));
  const lived = of('Survived', 'NoCoverage', 'Slow');
  const [killed, unloaded, endless] = [of('Killed').length, of('Unloaded').length, of('Timeout').length];
  return {
    total: killed + unloaded + endless + lived.length,
    killed,
    unloaded,
    endless,
    survived: lived.length,
    open: lived.filter((m) => !kept.some((k) => names(k, m))),
  };
}

/** Does an entry of the list name this mutant? By its line's text, what was changed, and to what; blanks do not count. */
const names = (k, m) =>
  k.within === m.within && (k.from ?? m.from) === m.from && (k.to === undefined || [k.to].flat().includes(m.to));

const oneLine = (text) => text.replace(/\s+/g, ' ').trim();

/** A file's last run as the tool reported it; undefined before the first. */
export function lastOf(path, report = reportOf(path)) {
  return existsSync(report) ? JSON.parse(readFileSync(report, 'utf8')).files[path] : undefined;
}

/** Past the time allowed, but not seen to go round for ever: slow, perhaps, and no proof that a test noticed. */
const isSlow = (m) => m.status === 'Timeout' && !/^Hit limit/.test(m.statusReason ?? '');

/** A file that no longer loads fails every test file before its first test: the tool sees no test fail. */
const isUnloaded = (m) => m.static && m.status === 'Survived' && m.testsCompleted === 0;

/** No test is known to notice this mutant. */
export const isOpen = (m) => !isUnloaded(m) && (['Survived', 'NoCoverage'].includes(m.status) || isSlow(m));

/** Every mutant of a file's last run, with the words that name it whatever its line number. */
function mutantsOf(last) {
  const lines = last.source.split('\n');
  return last.mutants.map((m) => {
    const { start, end } = m.location;
    const text = lines.slice(start.line - 1, end.line);
    text[text.length - 1] = text.at(-1).slice(0, end.column - 1);
    text[0] = text[0].slice(start.column - 1);
    return {
      line: start.line,
      within: oneLine(lines[start.line - 1]),
      from: oneLine(text.join('\n')),
      to: oneLine(m.replacement ?? ''),
      status: isUnloaded(m) ? 'Unloaded' : isSlow(m) ? 'Slow' : m.status,
    };
  });
}
