import { closeSync, existsSync, openSync, readFileSync, readSync, realpathSync, statSync } from 'node:fs';
import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { MAX_BYTES } from '../jig/refused-early.ts';
import { resolveJig } from '../jig/resolve.ts';
import { type Parsed, parseText } from '../jig/text.ts';
import type { Jig } from '../model/jig.ts';
import { BadInput, badInput, sentence, systemWords } from './failure.ts';

/** A jig file, read and resolved, with its text for the page. */
export interface JigInput {
  readonly file: string;
  readonly text: string;
  readonly raw: Record<string, unknown>;
  readonly jig: Jig;
  /** Profile files it names, read. */
  readonly profiles: Readonly<Record<string, unknown>>;
  /** Where every plain scalar stands in the text. */
  readonly spans: (Parsed & { ok: true })['spans'];
}

/** At most `limit` bytes of a file or of standard input (`-`); larger input is refused before it is read. */
export function readText(file: string, limit: number, what: string): string {
  try {
    return file === '-' ? readStdin(limit, what) : readFile(file, limit, what);
  } catch (error) {
    if (error instanceof BadInput) throw error;
    throw badInput(
      `${what} cannot be read: ${systemWords(error)}`,
      'a file that can be read, or - for standard input',
      'check the path',
      shown(file),
    );
  }
}

const shown = (file: string): string => (file === '-' ? 'standard input' : file);

function readFile(file: string, limit: number, what: string): string {
  const stat = statSync(file);
  if (stat.isDirectory()) throw badInput(`${what} is a folder`, 'a file', 'name the file inside it', file);
  if (stat.size > limit) throw tooLarge(file, stat.size, limit, what);
  // A pipe or device has no size to ask for: read it with the same limit.
  if (!stat.isFile()) {
    const fd = openSync(file, 'r');
    try {
      return decode(readAll(fd, limit, file, what), file, what);
    } finally {
      closeSync(fd);
    }
  }
  return decode(readFileSync(file), file, what);
}

const readStdin = (limit: number, what: string): string => decode(readAll(0, limit, '-', what), '-', what);

function readAll(fd: number, limit: number, file: string, what: string): Buffer {
  const parts: Buffer[] = [];
  let size = 0;
  for (;;) {
    const part = Buffer.allocUnsafe(64 * 1024);
    const got = readSome(fd, part);
    if (got === 0) return Buffer.concat(parts);
    size += got;
    if (size > limit) throw tooLarge(shown(file), size, limit, what);
    parts.push(part.subarray(0, got));
  }
}

/** A terminal or slow pipe may say "not yet"; wait for it. */
export function readSome(fd: number, into: Buffer): number {
  for (;;) {
    try {
      return readSync(fd, into, 0, into.length, null);
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code;
      if (code === 'EOF') return 0;
      if (code !== 'EAGAIN') throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20);
    }
  }
}

const tooLarge = (file: string, size: number, limit: number, what: string): BadInput =>
  atStart(
    `${what} has over ${Math.floor(Math.min(size, limit * 1000) / 1024)} KB`,
    `at most ${limit / 1024} KB`,
    'check that this is the right file',
    file,
  );

/** A complaint about the whole file stands at its first line. */
const atStart = (found: string, allowed: string, tryThis: string, file: string): BadInput =>
  new BadInput([{ file, line: 1, column: 1, found, allowed, try: tryThis }]);

function decode(bytes: Buffer, file: string, what: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const found = `${what} is not UTF-8 text`;
    throw atStart(found, 'plain UTF-8 text', 'save it as UTF-8, or check that it is the right file', shown(file));
  }
}

/** Reads, checks and resolves a jig file with the profile files it names. Every complaint carries file, line and column. */
export function readJig(file: string): JigInput {
  const text = readText(file, MAX_BYTES, 'the jig file');
  const parsed = parseText(text);
  if (!parsed.ok) throw new BadInput(parsed.issues.map((i) => ({ file: shown(file), ...i })));
  const raw = parsed.raw as Record<string, unknown>;
  const read = readProfiles(file, raw, parsed);
  const profiles = Object.fromEntries(Object.entries(read).map(([name, { profile }]) => [name, profile.raw]));
  const resolved = resolveJig(raw, { profiles, lines: parsed.lines });
  if (!resolved.ok) {
    const complaints = resolved.issues.map((i) => {
      const own = i.of && read[i.of.profile];
      return i.of && own
        ? { file: own.path, ...own.profile.place(i.of.issue) }
        : { file: shown(file), ...parsed.place(i) };
    });
    // A profile that two keys name is complained of once.
    throw new BadInput([...new Map(complaints.map((c) => [sentence(c), c])).values()]);
  }
  return { file, text, raw, jig: resolved.jig, profiles, spans: parsed.spans };
}

const PROFILE_KEYS: readonly (readonly [string, string])[] = [
  ['wrap', 'material'],
  ['wrap', 'sheet'],
  ['wrap', 'paper'],
  ['collar', 'material'],
  ['collar', 'sheet'],
  ['rotary', 'machine'],
  ['accuracy', 'profile'],
];

interface ReadProfile {
  readonly path: string;
  readonly profile: Parsed & { ok: true };
}

function readProfiles(
  file: string,
  raw: Record<string, unknown>,
  parsed: Parsed & { ok: true },
): Record<string, ReadProfile> {
  const found: Record<string, ReadProfile> = {};
  for (const [group, key] of PROFILE_KEYS) {
    const name = (raw[group] as Record<string, unknown> | undefined)?.[key];
    if (typeof name !== 'string' || !/\.ya?ml$/i.test(name) || name in found) continue;
    const complain = (why: string, allowed: string, tryThis: string) =>
      new BadInput([
        {
          file: shown(file),
          ...parsed.place({ path: [group, key], found: `the profile ${name}: ${why}`, allowed, try: tryThis }),
        },
      ]);
    const folder = file === '-' ? process.cwd() : dirname(resolve(file));
    const path = join(folder, name);
    if (isAbsolute(name) || !isInside(folder, path))
      throw complain(
        "outside the jig file's folder",
        "a YAML file in the jig file's own folder or below it",
        'copy it beside the jig file',
      );
    if (!existsSync(path))
      throw complain('it does not exist', 'a built-in name, or a YAML file beside the jig', 'check its name');
    if (!isInside(realpathSync(folder), realpathSync(path)))
      throw complain(
        "a link that leads outside the jig file's folder",
        "a file in the jig file's own folder tree",
        'copy it beside the jig file',
      );
    // As the jig file was named: from where the command was given.
    const told = file === '-' ? name : join(dirname(file), name);
    const profile = parseText(
      readText(path, MAX_BYTES, 'the profile'),
      `profile: ${key === 'profile' ? 'accuracy' : key}`,
    );
    if (!profile.ok) throw new BadInput(profile.issues.map((i) => ({ file: told, ...i })));
    found[name] = { path: told, profile };
  }
  return found;
}

function isInside(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== '' && !isAbsolute(way) && way !== '..' && !way.startsWith(`..${sep}`);
}
