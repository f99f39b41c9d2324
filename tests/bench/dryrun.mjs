// The dry run: reading a long program against a general G-code library and a bare pass over its bytes, memory against
// length, and taking wood away against an exact solid-geometry library. Best of several runs, all in this process.
import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { alone, atLeast, atMost, best, bundled, seeded, table } from './kit.mjs';

const ENTRY = `
export { readProgram } from './src/dryrun/program.ts';
export { startDryRun } from './src/dryrun/dry-run.ts';
export { benchOf } from './src/dryrun/context.ts';
export { interpret } from './src/dryrun/interpret.ts';
export { removal } from './src/dryrun/removal.ts';
export { inspect } from './src/dryrun/measure.ts';
export { context, MACHINE, SHELL, TOOLS } from './tests/helpers/drill-program.ts';
`;

const LINES = Number(process.env.BENCH_LINES ?? 1_000_000);

/** Plain moves above the shell, the same every run. */
function longProgram(lines) {
  const next = seeded(7);
  const out = ['G21 G17 G90 G94 G98 G54', 'G0 Z40', 'T3 M6', 'S1500 M3', 'G0 X50 Y0 A0', 'G1 Z20 F300'];
  for (let i = out.length; i < lines - 1; i++) {
    const [x, y] = [(next() * 100).toFixed(3), (next() * 20).toFixed(3)];
    out.push(
      i % 10 === 0
        ? `G0 X${x} Y${y}`
        : i % 10 === 5
          ? `G1 X${x} Z${(5 + next() * 9).toFixed(3)} F${Math.round(100 + next() * 900)}`
          : `X${x} Y${y}`,
    );
  }
  out.push('M2');
  return new TextEncoder().encode(`${out.join('\n')}\n`);
}

/** The least any reader must do: look at every byte and tell words from line ends. */
function barePass(bytes) {
  let words = 0;
  let lines = 0;
  for (let i = 0; i < bytes.length; i++) {
    const c = bytes[i];
    if (c === 10) lines++;
    else if (c >= 65 && c <= 90) words++;
  }
  return words + lines;
}

const pieces = (bytes, push) => {
  for (let at = 0; at < bytes.length; at += 262144) push(bytes.subarray(at, at + 262144));
};

/** Sixty through holes round the test shell, and the solids that stand for them. */
function sixty(m) {
  const holes = Array.from({ length: 60 }, (_, i) => ({
    id: `h-${i + 1}`,
    fitting: `h-${i + 1}`,
    role: 'lug',
    angle: (i % 20) * 18,
    height: 40 + 36 * Math.floor(i / 20),
    drill: 6,
    edge: 'bottom',
    across: 0,
    axes: 'radial',
  }));
  const c = m.context({ layout: { ...m.SHELL, placed: [], holes } });
  const lines = ['G21 G17 G90 G94 G98', 'G0 Z40', 'T3 M6', 'S1500 M3', 'G4 P3'];
  for (const h of holes) lines.push(`G0 X${h.height} Y0 A${h.angle}`, 'G0 Z1', 'G1 Z-9.5 F200', 'G0 Z10');
  lines.push('M5', 'M2');
  return { c, holes, moves: [...m.interpret(lines, m.MACHINE)].filter((x) => x.kind !== 'problem') };
}

/** Wood between two cylinders that a bore of radius r across them takes out; Simpson's rule over y = r sin t. */
function bored({ radius, inside }, r, parts = 2000) {
  const slice = (t) => {
    const y = r * Math.sin(t);
    return 2 * r * r * Math.cos(t) ** 2 * (Math.sqrt(radius ** 2 - y * y) - Math.sqrt(inside ** 2 - y * y));
  };
  const h = Math.PI / parts;
  let sum = slice(-Math.PI / 2) + slice(Math.PI / 2);
  for (let i = 1; i < parts; i++) sum += slice(-Math.PI / 2 + i * h) * (i % 2 === 1 ? 4 : 2);
  return (sum * h) / 3;
}

const fat = (n) => Math.sqrt((2 * Math.PI) / n / Math.sin((2 * Math.PI) / n));

async function solidLibrary(m, holes) {
  const wasm = await (await import('manifold-3d')).default();
  wasm.setup();
  const { Manifold } = wasm;
  const { radius: R, inside: RI, depth } = m.SHELL;
  const [round, bore] = [720, 96];
  return () => {
    const tube = Manifold.cylinder(depth, R * fat(round), R * fat(round), round).subtract(
      Manifold.cylinder(depth, RI * fat(round), RI * fat(round), round),
    );
    const pegs = holes.map((h) =>
      Manifold.cylinder(40, (h.drill / 2) * fat(bore), (h.drill / 2) * fat(bore), bore)
        .translate([0, 0, RI - 15])
        .rotate([0, 90, 0])
        .rotate([0, 0, h.angle])
        .translate([0, 0, h.height]),
    );
    return tube.volume() - tube.subtract(Manifold.union(pegs)).volume();
  };
}

/** Rows of reading, judging and taking wood away. */
export const dryRunSuite = () => bundled('dry-run', ENTRY, measure);

async function measure(m) {
  const { rows, add } = table();
  const bytes = longProgram(LINES);
  const read = (b) => {
    const reader = m.readProgram({ step: () => {}, problem: () => {} });
    pieces(b, reader.push);
    reader.finish();
  };
  const judge = (b) => {
    const run = m.startDryRun(m.context());
    pieces(b, run.push);
    return run.finish();
  };
  const perSecond = (ms, lines = LINES) => lines / ms / 1000;
  const ours = perSecond(best(8, () => read(bytes)));
  const bare = perSecond(best(8, () => barePass(bytes)));
  const Interpreter = createRequire(import.meta.url)('gcode-interpreter');
  const share = Math.max(1, Math.round(LINES / 5));
  const short = new TextDecoder().decode(longProgram(share));
  const none = () => {};
  const theirs = perSecond(
    best(3, () => new Interpreter({ handlers: { G0: none, G1: none } }).loadFromStringSync(short)),
    share,
  );
  add('lines read a second, millions', ours);
  add('against a general G-code library, times', ours / theirs, atLeast(30));
  add('a bare pass is faster by, times', bare / ours, atMost(4));
  add('lines judged a second, millions', perSecond(best(4, () => judge(bytes))));
  const heap = (lines) => {
    const b = longProgram(lines);
    globalThis.gc?.();
    const before = process.memoryUsage().heapUsed;
    judge(b);
    return (process.memoryUsage().heapUsed - before) / 2 ** 20;
  };
  for (const part of [100, 10, 1]) {
    const some = longProgram(Math.round(LINES / part));
    add(
      `${LINES / part} lines judged, ms`,
      best(3, () => judge(some)),
    );
  }
  for (const part of [100, 10, 1])
    add(`heap after ${LINES / part} lines judged, MiB`, heap(Math.round(LINES / part)), atMost(32));
  const { c, holes, moves } = sixty(m);
  const ms = best(30, () => m.inspect(m.removal(moves, c), c.layout));
  const gone = m.removal(moves, c).volume;
  const measured = m.inspect(m.removal(moves, c), c.layout);
  const worst = (of) => Math.max(...measured.map((h) => Math.abs(of(h))));
  add(
    '60 holes: centre off by at most, mm',
    worst((h) => h.off_mm),
    atMost(0.01),
  );
  add(
    '60 holes: mouth or exit off by at most, mm',
    worst((h) => Math.max(Math.abs(h.entrance_error_mm), Math.abs(h.exit_error_mm))),
    atMost(0.02),
  );
  add('60 holes: volume off the integral, %', 100 * Math.abs(gone / (60 * bored(m.SHELL, 3)) - 1), atMost(0.1));
  const solid = await solidLibrary(m, holes);
  const exact = solid();
  const solidMs = best(5, solid);
  add('wood of 60 holes taken away and measured, ms', ms);
  add('an exact solid library takes longer by, times', solidMs / ms, atLeast(20));
  add('volumes differ by, %', 100 * Math.abs(gone / exact - 1), atMost(0.2));
  // Right through a round hole the sum is exact whatever the grid: holes that end in the wall show what it costs.
  const shallow = (p) => (p.z < -5 ? { ...p, z: -5 } : p);
  const blind = moves.map((x) => ('to' in x ? { ...x, from: shallow(x.from), to: shallow(x.to) } : x));
  for (const grid of [0.05, 0.025, 0.0125, 0.00625])
    add(
      `60 blind holes at a grid of ${grid} mm, ms`,
      best(10, () => m.removal(blind, c, { grid })),
    );
  if (process.env.BENCH_KEEP) writeFileSync(process.env.BENCH_KEEP, bytes);
  return rows;
}

await alone(import.meta.url, dryRunSuite);
