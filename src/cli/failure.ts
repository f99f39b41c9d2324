/** Exit status of the command line. */
export const EXIT = Object.freeze({ done: 0, stop: 1, badInput: 2, ownFault: 3 });

/** One complaint about what was given: where, what was found, what is allowed, what to try. */
export interface Complaint {
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
  readonly key?: string;
  readonly found: string;
  readonly allowed: string;
  readonly try: string;
}

/** The command line or an input file is wrong or impossible: exit 2, nothing written. */
export class BadInput extends Error {
  readonly complaints: readonly Complaint[];

  constructor(complaints: readonly Complaint[]) {
    super(complaints.map(sentence).join('\n'));
    this.complaints = complaints;
  }
}

export const badInput = (found: string, allowed: string, tryThis: string, file?: string): BadInput =>
  new BadInput([{ ...(file === undefined ? {} : { file }), found, allowed, try: tryThis }]);

/** `jigs/a.yaml:12:5: shell.wall: the text "thick". Allowed: a length …. Try: …` */
export function sentence(c: Complaint): string {
  const place = c.file === undefined ? '' : `${c.file}${c.line === undefined ? '' : `:${c.line}:${c.column ?? 1}`}: `;
  const key = c.key ? `${c.key}: ` : '';
  return `${place}${key}${c.found}. Allowed: ${c.allowed}. Try: ${c.try}.`;
}

/** What the operating system said, in words. */
export function systemWords(error: unknown): string {
  const code = (error as NodeJS.ErrnoException | undefined)?.code ?? '';
  const words: Readonly<Record<string, string>> = {
    ENOENT: 'it does not exist',
    EACCES: 'permission was refused',
    EPERM: 'permission was refused',
    EISDIR: 'it is a folder',
    ENOTDIR: 'part of the path is a file, not a folder',
    EROFS: 'the file system is read-only',
    ENOSPC: 'the disk is full',
    EFBIG: 'a file would grow larger than is allowed here',
    EDQUOT: 'the disk quota is used up',
    EMFILE: 'too many files are open',
    ENAMETOOLONG: 'the path is too long',
    ELOOP: 'links go round in a circle',
    EEXIST: 'something is there already',
    EBUSY: 'it is in use',
  };
  return (
    words[code] ?? (code === '' ? String((error as Error | undefined)?.message ?? error) : `the system says ${code}`)
  );
}
