import { closeSync, fsyncSync, lstatSync, openSync, renameSync, rmSync, writeSync } from 'node:fs';
import { badInput, systemWords } from './failure.ts';

/** Written beside and renamed in: a reader finds the old text or the new. */
export function writeAtomic(path: string, text: string): void {
  writeWhole(`${path}.tmp`, text);
  renameSync(`${path}.tmp`, path);
}

/** Every byte on the disk before it returns. */
export function writeWhole(path: string, data: string | Uint8Array): void {
  const bytes = typeof data === 'string' ? Buffer.from(data, 'utf8') : data;
  const fd = openSync(path, 'w');
  try {
    for (let at = 0; at < bytes.length; ) at += writeSync(fd, bytes, at);
    fsyncSync(fd);
  } finally {
    closeSync(fd);
  }
}

/** One file that the caller named: written beside and renamed in. A file that is there is refused unless `replace`. */
export function writePlain(path: string, data: string, replace = false): void {
  const stat = lstatSync(path, { throwIfNoEntry: false });
  if (stat && !replace)
    throw badInput('there is a file already', 'a new name', 'choose another name, or move it away', path);
  const beside = `${path}.tmp-${process.pid}`;
  try {
    writeWhole(beside, data);
    renameSync(beside, path);
  } catch (error) {
    rmSync(beside, { force: true });
    throw badInput(
      `it cannot be written: ${systemWords(error)}`,
      'a place that you may write to',
      'choose another folder',
      path,
    );
  }
}
