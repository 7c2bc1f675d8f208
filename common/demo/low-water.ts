/** Twenty-four bars that end and begin on one chord: sixteen bars of D minor over the top, and nobody hears it go by. */
export const LOW_WATER = `title: Low Water
by: Tomas
key: D dorian
time: 4/4
tempo: 104
feel: funk
count: 2

[A]
| Dm11 | % | % | % |
| Dm11 | % | % | "1st x: fill" Dm11 |
[B]
| "stop-time" Bbmaj7#11 | % | A7sus | A7alt |
| "funk" Bbmaj7#11 | Gm9 | Em7b5 | "break" A7alt r r r |
[C]
| Dm11 | % | % | % |
| Dm11 | % | % | Dm11 |]

road:
  Intro: A vamp "guitar, then bass, then all"
  Head: A B C x2
  Solos: A B C open "trumpet, tenor, guitar, bass"
  Head out: A B C
  Out: C vamp "down to nothing"
`;
