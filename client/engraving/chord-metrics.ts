/**
 * Widths of the condensed face, so that a chord's width is known before anything is drawn and the size that
 * fits a bar is arithmetic, not measurement.
 *
 * Source: advance widths of Barlow Condensed SemiBold (version 1.408, 1000 units to the em), read with
 * `measureText` at 1000 px, kerning off. In thousandths of the font size, for the characters from U+0020 to U+007E.
 */
const ADVANCES = [
  200, 269, 306, 606, 434, 772, 581, 152, 279, 279, 361, 439, 199, 325, 211, 386, 450, 274, 425, 426, 459,
  428, 429, 392, 434, 423, 252, 218, 439, 439, 439, 413, 759, 456, 462, 457, 472, 435, 415, 462, 477, 224,
  443, 477, 415, 538, 507, 467, 457, 455, 461, 434, 452, 478, 471, 665, 460, 456, 406, 330, 386, 330, 413,
  405, 206, 434, 437, 422, 437, 426, 291, 431, 439, 215, 211, 433, 199, 665, 439, 432, 441, 441, 313, 398,
  282, 438, 415, 592, 417, 403, 368, 319, 171, 319, 480,
];

/** Height of the capitals over the font size. */
export const CAP_HEIGHT = 0.703;

/** Width of a text over its font size, without kerning. Characters not in the table count as wide ones. */
export const textWidthEm = (text: string): number => {
  let width = 0;
  for (const character of text) width += ADVANCES[(character.codePointAt(0) ?? 0) - 0x20] ?? 700;
  return width / 1000;
};
