/** A blues of sixteen bars: the hands expect twelve, and the last bar leads into the top over the same chord. */
export const SLOW_FERRY = `title: Slow Ferry
by: Harbour Street Five
key: Eb blues
time: 4/4
tempo: 108
feel: straight 16ths
count: 2

[A]
| Eb7   | %     | Eb7   | %     |
| Ab7   | Adim7 | Eb7   | C7alt |
[B]
| Fm7   | Bb7   | Fm7   | Bb7   |
| Gm7b5 | C7b9  | "break" Fm7 r r r | "fill" Eb7 / <Bb7 / |]

road:
  Head: A B x2
  Solos: A B open "guitar, tenor"
  Head out: A B
  Tag: last 4 x3
`;
