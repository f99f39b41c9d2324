import { createHash } from 'node:crypto';
import { existsSync, lstatSync, mkdirSync, readdirSync, readFileSync, renameSync, rmdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { BadInput, badInput, systemWords } from './failure.ts';
import { lock, makeFolder } from './folder.ts';
import { writeAtomic, writeWhole } from './write-file.ts';

/**
 * A set of files swapped into a folder whole. Order: lock; build beside (`.lugwright-new`); write the journal, which is
 * the moment of decision; rename every file in; write the manifest; remove the journal. Killed before the journal, the
 * old set stands; after it, the journal marks the set unfinished and the next run finishes it. Only files that the
 * manifest lists with their hash are ever replaced or removed: anything else in the folder belongs to somebody.
 */
export interface OutputFile {
  readonly name: string;
  readonly data: string | Uint8Array;
}

export interface Written {
  readonly files: readonly string[];
  /** Files of ours that somebody changed and that were therefore kept. */
  readonly kept: readonly string[];
}

const MANIFEST = '.lugwright-set.json';
const JOURNAL = '.lugwright-unfinished.json';
const STAGING = '.lugwright-new';
/** Forms that a builder fills in: once changed they are kept, and the rest of the set is replaced round them. */
const FORMS: ReadonlySet<string> = new Set(['readings.csv']);

type Hashes = Record<string, string>;

export function writeSet(folder: string, files: readonly OutputFile[]): Written {
  const made = makeFolder(folder);
  let release: (() => void) | undefined;
  try {
    release = lock(folder);
    finishJournal(folder);
    const old = readHashes(join(folder, MANIFEST));
    const { kept, blocked } = othersFiles(folder, files, old);
    if (blocked.length > 0) throw blockedBy(folder, blocked);
    const mine = files.filter((f) => !kept.includes(f.name));
    const fresh: Hashes = Object.fromEntries(mine.map((f) => [f.name, hash(f.data)]));
    stage(folder, mine, fresh);
    writeAtomic(
      join(folder, JOURNAL),
      JSON.stringify(
        { note: 'A set is being swapped in; run lugwright make again to finish it.', fresh, old },
        null,
        1,
      ),
    );
    swapIn(folder, fresh, old, kept);
    return { files: mine.map((f) => f.name), kept };
  } catch (error) {
    // Without the lock what stands there is another run's.
    if (release && !existsSync(join(folder, JOURNAL)))
      ifPossible(() => rmSync(join(folder, STAGING), { recursive: true, force: true }));
    if (error instanceof BadInput) throw error;
    throw badInput(
      `the folder cannot be written: ${systemWords(error)}`,
      'a folder with room that you may write to',
      'name another with --out; the old set still stands',
      folder,
    );
  } finally {
    ifPossible(() => release?.());
    if (made) ifPossible(() => readdirSync(folder).length === 0 && rmdirSync(folder));
  }
}

/** Tidying that must not hide why it came to that. */
function ifPossible(tidy: () => unknown): void {
  try {
    tidy();
  } catch {
    // What is left behind is taken over by the next run.
  }
}

/** Files in the way: `kept` are forms somebody filled in; `blocked` are not ours or changed by hand. */
function othersFiles(folder: string, files: readonly OutputFile[], old: Hashes): { kept: string[]; blocked: string[] } {
  const kept: string[] = [];
  const blocked: string[] = [];
  for (const name of new Set([...files.map((f) => f.name), ...Object.keys(old)])) {
    const path = join(folder, name);
    const stat = lstatSync(path, { throwIfNoEntry: false });
    if (!stat || isOurs(path, [old[name]])) continue;
    if (FORMS.has(name) && stat.isFile()) kept.push(name);
    else if (files.some((f) => f.name === name)) blocked.push(name);
    else delete old[name];
  }
  return { kept, blocked };
}

const blockedBy = (folder: string, names: readonly string[]): BadInput =>
  new BadInput(
    names.map((name) => ({
      file: join(folder, name),
      found: 'a file that this tool did not write, or that was changed since',
      allowed: 'only files of an earlier set, unchanged, are replaced',
      try: 'move it away, or name another folder with --out; nothing was touched',
    })),
  );

function stage(folder: string, files: readonly OutputFile[], fresh: Hashes): void {
  const staging = join(folder, STAGING);
  rmSync(staging, { recursive: true, force: true });
  mkdirSync(staging);
  for (const f of files) writeWhole(join(staging, f.name), f.data);
  for (const [name, sum] of Object.entries(fresh)) {
    if (hash(readFileSync(join(staging, name))) !== sum) throw new Error(`${name} did not arrive whole`);
  }
}

/** Everything after the journal: may be run again from any point. */
function swapIn(folder: string, fresh: Hashes, old: Hashes, kept: readonly string[]): void {
  const staging = join(folder, STAGING);
  for (const name of Object.keys(fresh)) {
    if (existsSync(join(staging, name)) && isOurs(join(folder, name), [old[name], fresh[name]]))
      renameSync(join(staging, name), join(folder, name));
  }
  for (const [name, sum] of Object.entries(old)) {
    const path = join(folder, name);
    if (name in fresh || kept.includes(name)) continue;
    if (isOurs(path, [sum])) rmSync(path, { force: true });
  }
  writeAtomic(
    join(folder, MANIFEST),
    JSON.stringify(
      { note: 'Files of this set with their SHA-256; other files in this folder are never touched.', files: fresh },
      null,
      1,
    ),
  );
  rmSync(staging, { recursive: true, force: true });
  rmSync(join(folder, JOURNAL), { force: true });
}

/** Nothing there, or a plain file with one of these hashes. */
function isOurs(path: string, sums: readonly (string | undefined)[]): boolean {
  const stat = lstatSync(path, { throwIfNoEntry: false });
  return !stat || (stat.isFile() && sums.includes(hash(readFileSync(path))));
}

/** An earlier run was cut off after its journal: finish what it had decided. */
function finishJournal(folder: string): void {
  const path = join(folder, JOURNAL);
  if (!existsSync(path)) return;
  try {
    const { fresh, old } = JSON.parse(readFileSync(path, 'utf8')) as { fresh: Hashes; old: Hashes };
    swapIn(folder, fresh, old, []);
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    rmSync(path, { force: true });
  }
}

function readHashes(path: string): Hashes {
  if (!existsSync(path)) return {};
  try {
    return { ...(JSON.parse(readFileSync(path, 'utf8')) as { files: Hashes }).files };
  } catch {
    return {};
  }
}

const hash = (data: string | Uint8Array): string => createHash('sha256').update(data).digest('hex');
