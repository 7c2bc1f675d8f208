/**
 * The known name that a mistyped word was probably meant to be: one slip away, two in a word of six letters or
 * more, capitals not counted; undefined where none is that near.
 * Example: `nearestName('Brige', ['A', 'Bridge'])` is 'Bridge'.
 */
export const nearestName = (typed: string, known: readonly string[]): string | undefined => {
  const word = typed.toLowerCase();
  const most = word.length >= 6 ? 2 : word.length >= 3 ? 1 : 0;
  let nearest: string | undefined;
  let least = most + 1;
  for (const name of known) {
    const slips = slipsBetween(word, name.toLowerCase());
    if (slips < least) {
      nearest = name;
      least = slips;
    }
  }
  return nearest;
};

/** Letters to put in, leave out, change or swap with their neighbour (optimal string alignment distance). */
const slipsBetween = (a: string, b: string): number => {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, column) => column)];
  const at = (row: number, column: number) => rows[row]?.[column] ?? Number.POSITIVE_INFINITY;
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    rows.push(current);
    for (let column = 1; column <= b.length; column++) {
      const changed = a[row - 1] === b[column - 1] ? 0 : 1;
      const swapped = a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      current.push(
        Math.min(
          at(row - 1, column) + 1,
          at(row, column - 1) + 1,
          at(row - 1, column - 1) + changed,
          swapped ? at(row - 2, column - 2) + 1 : Number.POSITIVE_INFINITY,
        ),
      );
    }
  }
  return at(a.length, b.length);
};
