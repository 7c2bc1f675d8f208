/**
 * The text without control characters and without those that turn the direction of what follows (U+202A–202E,
 * U+2066–2069): in a name they scramble what stands beside it. Letters of scripts that run from right to left stay.
 */
export const withoutControls = (text: string): string =>
  text.replace(/[\p{Cc}\u202a-\u202e\u2066-\u2069]/gu, '');
