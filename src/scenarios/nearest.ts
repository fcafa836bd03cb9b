/** The word that takes the fewest single-letter edits from `word`; null when none is near. */
export function nearestWord(word: string, words: readonly string[]): string | null {
  const ranked = words
    .map((known) => ({ known, edits: editDistance(word.toLowerCase(), known.toLowerCase()) }))
    .sort((a, b) => a.edits - b.edits);
  const [best] = ranked;
  return best && best.edits <= Math.max(2, word.length / 3) ? best.known : null;
}

/** Insertions, deletions and substitutions between two words (Levenshtein, 1966). */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++)
      next[j] = Math.min(next[j - 1] + 1, row[j] + 1, row[j - 1] + Number(a[i - 1] !== b[j - 1]));
    row = next;
  }
  return row[b.length];
}
