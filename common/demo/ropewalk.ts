/** A blues of twelve bars with a send-off into the solos, fours with the drums and a tag. */
export const ROPEWALK = `title: Ropewalk
by: Ines
key: F blues
time: 4/4
tempo: 176
feel: swing
count: 2

[Intro]
| F7 / D7alt / | Gm7 / C7 / | F7 / Ab7 / | "hits 1 2& 4" Gm7 C7 C7b9 |
[A]
| F7  | Bb7   | F7    | Cm7 F7  |
| Bb7 | Bdim7 | F7/C  | Am7b5 D7b9 |
| Gm7 | C7    | "head: break 2" Am7 D7b9 | Gm7 C7 |]

road:
  Intro: Intro
  Head: A x2
  Solos: A open "tenor, trumpet, guitar"
  Fours: A x2 trade 4 "drums"
  Head out: A x2
  Tag: last 4 x3
`;
