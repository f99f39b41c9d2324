/** What somebody else's program does with the library: from a jig file's text to findings, flat files and a judged program. */
import { readFileSync } from 'node:fs';
import {
  check,
  chord,
  type Finding,
  interpret,
  type Jig,
  type Layout,
  layOut,
  type Move,
  nest,
  parseText,
  planCollar,
  planRotary,
  planWrap,
  readLength,
  removal,
  resolveJig,
  startDryRun,
  toDxf,
} from 'lugwright';

const text = readFileSync(process.argv[2] as string, 'utf8');
const parsed = parseText(text);
if (!parsed.ok) throw new Error(parsed.issues.map((i) => `${i.line}:${i.column} ${i.found}`).join('\n'));
const resolved = resolveJig(parsed.raw, { lines: parsed.lines });
if (!resolved.ok) throw new Error(resolved.issues.map((i) => i.found).join('\n'));
const jig: Jig = resolved.jig;
const layout: Layout = layOut(jig);

const levels: Finding['level'][] = check(jig, layout).map((fact) => fact.level);
const wrap = planWrap(jig, layout, { digest: 'none' }).value;
const collar = planCollar(jig, layout, { digest: 'none' }).value;
const sheets = collar.made
  ? nest(collar.parts, jig.collar.sheet, { kerf: 0.2, title: jig.name, digest: 'none' }).value
  : [];
const rotary = planRotary(jig, layout, { digest: 'none', version: 'none' }).value;

const { shell } = jig;
const { machine, tools, datum, backing, runout } = jig.rotary;
const context = { layout, shell, machine, tools, datum, backing, runout };
const run = startDryRun(context);
run.push(rotary.text);
const judged = run.finish();
const moves = [...interpret(rotary.text, machine)].filter((m): m is Move => m.kind !== 'problem');
const inch = readLength('1-1/2 in', 'mm');

console.log(
  `library: ${layout.holes.length} holes, ${levels.filter((l) => l === 'stop').length} stops, ` +
    `wrap ${toDxf(wrap.whole).length} characters, ${sheets.length} collar sheets, ${moves.length} moves, ` +
    `${judged.value.holes.length} holes found, ${removal(moves, context).sites.length} places cut, ` +
    `chord ${chord(shell.radius, 36).toFixed(3)} mm, 1-1/2 in = ${inch.ok ? inch.value : '?'} mm`,
);
