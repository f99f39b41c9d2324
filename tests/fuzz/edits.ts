import fc from 'fast-check';

/** A text's UTF-8 bytes, each as one character, so that a find that is no text can be kept in a file. */
export const bytesOf = (text: string): string => Buffer.from(text, 'utf8').toString('latin1');

/** A few hundred bytes of anything. */
export const bytes = fc.uint8Array({ maxLength: 400 }).map((b) => Buffer.from(b).toString('latin1'));

interface Edit {
  readonly at: number;
  readonly how: 'byte' | 'lose' | 'double' | 'digit' | 'lose-line' | 'double-line' | 'swap-lines' | 'letter';
  readonly much: number;
}
const edit: fc.Arbitrary<Edit> = fc.record({
  at: fc.nat(1_000_000),
  how: fc.constantFrom('byte', 'lose', 'double', 'digit', 'lose-line', 'double-line', 'swap-lines', 'letter'),
  much: fc.nat(255),
});

function edited(text: string, e: Edit): string {
  const at = e.at % Math.max(1, text.length);
  const all = text.split('\n');
  const row = e.at % all.length;
  const [one, two] = [all[row]!, all[(row + 1 + (e.much % 9)) % all.length]!];
  switch (e.how) {
    case 'byte':
      return text.slice(0, at) + String.fromCharCode(e.much) + text.slice(at + 1);
    case 'lose':
      return text.slice(0, at) + text.slice(at + 1 + (e.much % 40));
    case 'double':
      return text.slice(0, at) + text.slice(at, at + (e.much % 60)) + text.slice(at);
    case 'digit':
      return text.slice(0, at) + text.slice(at).replace(/[\d.]/, String(e.much % 10));
    case 'letter':
      return text.slice(0, at) + text.slice(at).replace(/[A-Z]/, 'GMXYZAFSTPQRIJ'[e.much % 14]!);
    case 'lose-line':
      return all.toSpliced(row, 1).join('\n');
    case 'double-line':
      return all.toSpliced(row, 0, one).join('\n');
    case 'swap-lines':
      return all
        .with(row, two)
        .with((row + 1 + (e.much % 9)) % all.length, one)
        .join('\n');
    default: {
      const never: never = e.how;
      throw new Error(`unknown edit ${String(never)}`);
    }
  }
}

/** Sound texts with bytes, digits, letters and lines changed, lost, doubled and swapped. */
export const mutationsOf = (sound: readonly string[]): fc.Arbitrary<string> =>
  fc
    .tuple(fc.constantFrom(...sound), fc.array(edit, { minLength: 1, maxLength: 6 }))
    .map(([text, edits]) => edits.reduce(edited, text));
