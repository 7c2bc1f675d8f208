/** A source of short ids that are never reused. Comes in as an argument, so that the core stays pure. */
export type MakeId = () => string;

/** Ids "b1", "b2" … in order: for reading a text twice to the same chart, and for tests. */
export const countingIds = (prefix: string): MakeId => {
  let last = 0;
  return () => `${prefix}${++last}`;
};

const LETTERS = '0123456789abcdefghijklmnopqrstuvwxyz';

/**
 * Ids of 10 letters and digits (51 bits) made from random bytes.
 * @param randomBytes gives n random bytes, each 0–255 (`crypto.getRandomValues` on a tablet and on the relay)
 */
export const randomIds =
  (randomBytes: (n: number) => Uint8Array): MakeId =>
  () => {
    let id = '';
    while (id.length < 10) {
      for (const byte of randomBytes(16)) {
        // 252 = 7 × 36: bytes above would make the first letters likelier.
        if (byte < 252 && id.length < 10) id += LETTERS[byte % 36];
      }
    }
    return id;
  };
