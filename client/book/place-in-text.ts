/**
 * The offset of a place in a text.
 * @param line from 1; beyond the end: the end
 * @param column from 1, in UTF-16 units; beyond the line's end: the line's end
 */
export const placeInText = (text: string, line: number, column: number): number => {
  let start = 0;
  for (let at = 1; at < line; at++) {
    const end = text.indexOf('\n', start);
    if (end < 0) return text.length;
    start = end + 1;
  }
  const end = text.indexOf('\n', start);
  return Math.min(start + column - 1, end < 0 ? text.length : end);
};
