/** A bossa that leaves for a Coda the last time. */
export const CRATE_OF_LEMONS = `title: Crate of Lemons
by: Ines
key: G minor
time: 4/4
tempo: 132
feel: bossa
count: 2

[Intro]
| Gm6 | Ebmaj7 | Am7b5 | D7b9 ||
[A]
| Gm6    | %      | Cm7   | F7   |
| Bbmaj7 | Ebmaj7 | Am7b5 | D7b9 ||
[B]
| Gm6 | % | Dm7b5 | G7b9 |
| Cm7 | F7 | Bbmaj7 | Ebmaj7 |
| Am7b5 | "to coda" D7b9 | Gm6 | Am7b5 D7b9 |]
[Coda]
| Gm7 Gm/F | Em7b5 A7 | Ebmaj7 | Am7b5 D7b9 |
| Gm6 | Ebmaj7 | Am7b5 D7b9 | "hold" Gm6/9 |]

road:
  Intro: Intro
  Head: A B
  Solos: A B open "tenor, guitar"
  Head out: A B al Coda
`;
