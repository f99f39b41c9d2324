/** So many lines in a row that break the language: no program. */
const REFUSED = 100_000;
/** So many lines in a row that do nothing. */
const IDLE = 5_000_000;
/** So many bytes without a line's end. */
const LINE_BYTES = 64 * 2 ** 20;
/** Default of `mostLines`. */
export const MOST_LINES = 100_000_000;

/** Watches for programs that never end: a stream of nothing, of nonsense, or of one line. */
export interface EndlessWatch {
  /** A line did something. */
  readonly worked: () => void;
  readonly refused: () => void;
  /** So many bytes were read, and the reader stands at this line. Gives why it should read no further, or ''. */
  readonly read: (bytes: number, line: number) => string;
}

export function watchEndless(mostLines = MOST_LINES): EndlessWatch {
  let refused = 0;
  let workedAt = 0;
  let now = 0;
  let lineBytes = 0;
  return {
    worked() {
      refused = 0;
      workedAt = now;
    },
    refused: () => void refused++,
    read(bytes, line) {
      lineBytes = line === now ? lineBytes + bytes : 0;
      now = line;
      if (lineBytes > LINE_BYTES) return `the line is longer than ${LINE_BYTES / 2 ** 20} million bytes`;
      if (refused > REFUSED) return `more than ${REFUSED} lines in a row break the language`;
      if (line - workedAt > IDLE) return `more than ${IDLE} lines in a row move nothing`;
      return line > mostLines ? `it has more than ${mostLines} lines` : '';
    },
  };
}
