import {
  closeSync,
  existsSync,
  lstatSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { type BadInput, badInput, systemWords } from './failure.ts';

const LOCK = '.lugwright-lock';

/** Makes the folder; true when it was not there before. */
export function makeFolder(folder: string): boolean {
  if (refuseFolder(folder)) return false;
  try {
    makeDeep(folder);
    return true;
  } catch (error) {
    throw cannotMake(folder, error);
  }
}

/** Step by step: Node's own way tries for ever where a folder is there and takes nothing (`/proc`). */
function makeDeep(folder: string): void {
  try {
    makeOne(folder);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT' || existsSync(dirname(folder))) throw error;
    makeDeep(dirname(folder));
    makeOne(folder);
  }
}

function makeOne(folder: string): void {
  try {
    mkdirSync(folder);
  } catch (error) {
    // Another run may have been quicker.
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
  }
}

const cannotMake = (folder: string, error: unknown): BadInput =>
  badInput(
    `the output folder cannot be made: ${systemWords(error)}`,
    'a folder that you may write to',
    'name another with --out',
    folder,
  );

/**
 * Whether the folder is there; to be asked before long work. A link is refused: what it points to may be somebody else's.
 */
export function refuseFolder(folder: string): boolean {
  let stat: ReturnType<typeof lstatSync> | undefined;
  try {
    stat = lstatSync(folder, { throwIfNoEntry: false });
  } catch (error) {
    throw cannotMake(folder, error);
  }
  if (stat?.isSymbolicLink())
    throw badInput(
      'the output folder is a link to another place',
      'a real folder',
      'name the folder itself with --out',
      folder,
    );
  if (stat && !stat.isDirectory())
    throw badInput('the output folder is a file', 'a folder', 'name another with --out', folder);
  return stat !== undefined;
}

/**
 * One run at a time in a folder: a file with the process id, made only where there is none. A dead run's lock is taken
 * over: moved aside first, which only one of several can do, and looked at again before it goes.
 */
export function lock(folder: string): () => void {
  const path = join(folder, LOCK);
  for (let attempt = 0; attempt < 3; attempt++) {
    try {
      const fd = openSync(path, 'wx');
      writeSync(fd, String(process.pid));
      closeSync(fd);
      return () => rmSync(path, { force: true });
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
      refuseLiving(ownerOf(path), folder);
      const aside = `${path}-${process.pid}`;
      if (!moved(path, aside)) continue;
      const owner = ownerOf(aside);
      if (isAlive(owner)) moved(aside, path);
      else rmSync(aside, { force: true });
      refuseLiving(owner, folder);
    }
  }
  throw badInput('the folder is locked', 'one run at a time', `remove ${LOCK}`, folder);
}

function refuseLiving(pid: number, folder: string): void {
  if (!isAlive(pid)) return;
  throw badInput(
    `another run (process ${pid}) is writing this folder`,
    'one run at a time',
    `wait for it, or remove ${LOCK} if it is gone`,
    folder,
  );
}

/** Process that a lock belongs to; 0 for none. A lock just made is empty for a moment: it is given time to be filled. */
function ownerOf(path: string): number {
  for (let wait = 0; wait < 20; wait++) {
    let text: string;
    try {
      text = readFileSync(path, 'utf8');
    } catch {
      return 0;
    }
    if (text !== '') return Number(text);
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 10);
  }
  return 0;
}

function moved(from: string, to: string): boolean {
  try {
    renameSync(from, to);
    return true;
  } catch {
    return false;
  }
}

function isAlive(pid: number): boolean {
  if (!Number.isInteger(pid) || pid <= 0) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
