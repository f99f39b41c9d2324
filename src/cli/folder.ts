import { closeSync, lstatSync, mkdirSync, openSync, readFileSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { type BadInput, badInput, systemWords } from './failure.ts';

const LOCK = '.lugwright-lock';

/** Makes the folder; true when it was not there before. */
export function makeFolder(folder: string): boolean {
  if (refuseFolder(folder)) return false;
  try {
    mkdirSync(folder, { recursive: true });
    return true;
  } catch (error) {
    throw cannotMake(folder, error);
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

/** One run at a time in a folder: a file with the process id, made only where there is none. A dead run's lock is taken over. */
export function lock(folder: string): () => void {
  const path = join(folder, LOCK);
  for (let attempt = 0; attempt < 2; attempt++) {
    try {
      const fd = openSync(path, 'wx');
      writeSync(fd, String(process.pid));
      closeSync(fd);
      return () => rmSync(path, { force: true });
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
      const pid = Number(readFileSync(path, 'utf8'));
      if (isAlive(pid))
        throw badInput(
          `another run (process ${pid}) is writing this folder`,
          'one run at a time',
          `wait for it, or remove ${LOCK} if it is gone`,
          folder,
        );
      rmSync(path, { force: true });
    }
  }
  throw badInput('the folder is locked', 'one run at a time', `remove ${LOCK}`, folder);
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
