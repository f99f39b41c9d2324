/** Edit distance (insert, delete, replace, swap neighbours), for "did you mean". */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1;
      let best = Math.min((last[j] as number) + 1, (row[j - 1] as number) + 1, (last[j - 1] as number) + cost);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        best = Math.min(best, (before[j - 2] as number) + 1);
      row.push(best);
    }
    before = last;
    last = row;
  }
  return last[b.length] as number;
}

/** The nearest of `known` to `word`, or undefined when none is near enough to be meant. */
export function nearest(word: string, known: readonly string[]): string | undefined {
  const given = word.slice(0, 60).toLowerCase();
  let best: string | undefined;
  let bestDistance = Math.max(1, Math.floor(given.length * 0.4)) + 0.5;
  // Of two letters many words are near: one is meant only when it alone is one slip away.
  if (given.length < 3) {
    const slips = known.filter((k) => k.length <= 3 && editDistance(given, k.toLowerCase()) <= 1);
    return known.find((k) => k.toLowerCase() === given) ?? (slips.length === 1 ? slips[0] : theOneEnding(given, known));
  }
  for (const candidate of known) {
    const slip = editDistance(given, candidate.toLowerCase());
    // A word begun or gone on with is near, or a part of it, but not as near as one slip.
    const isPart = candidate.startsWith(given) || given.startsWith(candidate) || candidate.split('-').includes(given);
    const d = isPart ? Math.min(slip, 1.25) : slip;
    if (d < bestDistance) [best, bestDistance] = [candidate, d];
  }
  return best;
}

/** `a4` of `paper-a4`, `slow` of `rotary-slow`: a name said short, when it is the end of one alone. */
function theOneEnding(given: string, known: readonly string[]): string | undefined {
  const ending = known.filter((k) => k.toLowerCase().endsWith(`-${given}`));
  return ending.length === 1 ? ending[0] : undefined;
}
