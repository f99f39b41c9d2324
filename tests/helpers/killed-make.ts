import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const JOURNAL = '.lugwright-unfinished.json';
const MANIFEST = '.lugwright-set.json';

/** Two jig files of one drum, whose sets differ in names and bytes. */
const jigText = (depth: number, count: number): string => `jig: 1
name: Test
shell: { diameter: 300 mm, depth: ${depth} mm, wall: 6 mm }
lugs: { count: ${count}, rows: [{ edge: top, distance: 36 mm }], holes: { layout: single, drill: 6 mm } }
wrap: { sheet: ${count > 4 ? 'laser-900x600' : 'laser-600x400'} }
`;

/** A whole `make` that is ended without warning, and what it leaves. */
export class KilledMake {
  private readonly home: string;
  private readonly program: string;
  private readonly old: string;
  private readonly sets: Readonly<Record<'old' | 'new', Readonly<Record<string, string>>>>;
  private tries = 0;

  /** `program`: the command as built, which must stay what it is meanwhile. */
  constructor(home: string, program = 'bin/lugwright.mjs') {
    this.home = home;
    this.program = program;
    mkdirSync(home, { recursive: true });
    writeFileSync(join(home, 'old.yaml'), jigText(150, 4));
    writeFileSync(join(home, 'new.yaml'), jigText(160, 6));
    this.old = join(home, 'old');
    this.made('old', this.old);
    this.made('new', join(home, 'new'));
    this.sets = { old: seen(this.old), new: seen(join(home, 'new')) };
    if (same(this.sets.old, this.sets.new)) throw new Error('the two sets are one');
  }

  /** How many times a whole run changes the file system. */
  changes(): number {
    const file = join(this.home, 'count');
    const folder = this.start();
    this.run('new', folder, { KILL_COUNT: file });
    rmSync(folder, { recursive: true });
    return Number(readFileSync(file, 'utf8'));
  }

  /**
   * Over an old set, a run that is killed by the preloaded guard or, `after` milliseconds, from outside; then a run with the
   * jig file of the old or the new set. Throws unless a reader finds the old set, the new set, or one marked unfinished, and
   * the next run leaves its own set whole, with nothing of anybody else's touched.
   */
  try(guard: Readonly<Record<string, string>>, next: 'old' | 'new', after?: number): 'old' | 'new' | 'unfinished' {
    const folder = this.start();
    writeFileSync(join(folder, 'notes.txt'), 'mine');
    this.run('new', folder, guard, after);
    const left = seen(folder);
    const state = existsSync(join(folder, JOURNAL))
      ? 'unfinished'
      : same(left, { ...this.sets.old, 'notes.txt': 'mine' })
        ? 'old'
        : same(left, { ...this.sets.new, 'notes.txt': 'mine' })
          ? 'new'
          : undefined;
    if (state === undefined) throw new Error(`neither set stands: ${Object.keys(left).join(', ')}`);
    this.made(next, folder);
    if (!same(seen(folder), { ...this.sets[next], 'notes.txt': 'mine' }))
      throw new Error(`after a kill that left the set ${state}, the next run did not leave the ${next} set`);
    const hidden = readdirSync(folder).filter((n) => n.startsWith('.'));
    if (hidden.join() !== MANIFEST) throw new Error(`left behind: ${hidden.join(', ')}`);
    rmSync(folder, { recursive: true });
    return state;
  }

  private start(): string {
    const folder = join(this.home, `try-${this.tries++}`);
    cpSync(this.old, folder, { recursive: true });
    return folder;
  }

  private made(set: 'old' | 'new', folder: string): void {
    const r = this.run(set, folder, {});
    if (r.status !== 0) throw new Error(`make ended with ${r.status}: ${r.stderr}`);
  }

  private run(set: 'old' | 'new', folder: string, guard: Readonly<Record<string, string>>, timeout?: number) {
    const preload = Object.keys(guard).length === 0 ? [] : ['--import', './tests/helpers/kill-at.mjs'];
    return spawnSync(
      process.execPath,
      [...preload, this.program, 'make', join(this.home, `${set}.yaml`), '--out', folder, '--quiet'],
      {
        env: { ...process.env, ...guard },
        encoding: 'utf8',
        ...(timeout === undefined ? {} : { timeout, killSignal: 'SIGKILL' }),
      },
    );
  }
}

/** What stands in a folder under names that are not hidden. */
const seen = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder)
      .filter((n) => !n.startsWith('.'))
      .sort()
      .map((n) => [n, readFileSync(join(folder, n), 'latin1')]),
  );

const same = (a: Readonly<Record<string, string>>, b: Readonly<Record<string, string>>): boolean =>
  Object.keys(a).length === Object.keys(b).length && Object.entries(a).every(([name, text]) => b[name] === text);
