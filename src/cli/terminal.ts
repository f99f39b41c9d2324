import { EXIT, systemWords } from './failure.ts';

/** The only places where text leaves the program. Colour only on a terminal and never with NO_COLOR. */
export interface Terminal {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** What stands written whole, to be told when what is printed about it is not. */
  readonly stands: (what: string) => void;
  readonly colour: boolean;
  readonly quiet: boolean;
}

export function terminal(quiet: boolean): Terminal {
  let standing = '';
  // A reader that has seen enough (`| head`) closes the pipe: what is left is not written, and nothing is wrong.
  listenOnce(process.stdout, (error) => {
    if (error.code === 'EPIPE') return;
    const but = standing === '' ? '' : `, but ${standing}`;
    process.stderr.write(
      `Standard output cannot be written: ${systemWords(error)}; what was printed is not whole${but}.\n`,
    );
    process.exit(EXIT.badInput);
  });
  // With nowhere left to complain the work still goes on.
  listenOnce(process.stderr, () => undefined);
  const colour = process.stderr.isTTY === true && !process.env['NO_COLOR'] && process.env['TERM'] !== 'dumb';
  return {
    out: (t) => void process.stdout.write(t),
    err: (t) => void process.stderr.write(t),
    stands: (what) => {
      standing = what;
    },
    colour,
    quiet,
  };
}

function listenOnce(stream: NodeJS.WriteStream, heard: (error: NodeJS.ErrnoException) => void): void {
  if (stream.listenerCount('error') === 0) stream.on('error', heard);
}

const CODES = { stop: '1;31', care: '1;33', note: '2', good: '1;32', strong: '1' } as const;

export const paint = (t: Terminal, how: keyof typeof CODES, text: string): string =>
  t.colour ? `\u001b[${CODES[how]}m${text}\u001b[0m` : text;

/**
 * A line on stderr for work that takes over half a second: nothing before that, rewritten in place on a terminal,
 * one line a second otherwise.
 */
export class Progress {
  private readonly began = performance.now();
  private last = Number.NEGATIVE_INFINITY;
  private shown = false;
  private readonly t: Terminal;

  constructor(t: Terminal) {
    this.t = t;
  }

  say(text: string): void {
    const now = performance.now();
    if (this.t.quiet || now - this.began < 500 || now - this.last < (process.stderr.isTTY ? 80 : 1000)) return;
    this.last = now;
    this.shown = true;
    this.t.err(process.stderr.isTTY ? `\r\u001b[K${text}` : `${text}\n`);
  }

  end(): void {
    if (this.shown && process.stderr.isTTY) this.t.err('\r\u001b[K');
  }
}
