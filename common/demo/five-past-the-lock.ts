/** Five in a bar, three and two, between two vamps. */
export const FIVE_PAST_THE_LOCK = `title: Five Past the Lock
by: Tomas
key: C minor
time: 5/4 (3+2)
tempo: 152
feel: straight 8ths
count: 1

[Vamp]
| "bass alone first" Cm9 Gm7 | Abmaj7 Bb7sus |
[A]
| Cm9     | Abmaj7  | Cm9   | Abmaj7    |
| Fm9     | Bb13    | Ebmaj7 | D7#9 G7#5 |
[B]
| Abmaj7  | Gm7     | Fm7   | Gm7       |
| Abmaj7  | Am7b5   | D7b9  | "break" G7#5 r r r r |
[C]
| Cm9     | Abmaj7  | Cm9   | Abmaj7    |
| Fm9 Bb13 | Ebmaj7 Abmaj7 | Dm7b5 G7b9 | Cm9 |]
[Ending]
| Cm9 Gm7 | Abmaj7 Bb7sus | "hold" Cm(maj7) |]

road:
  Intro: [Vamp] vamp "build from the bass"
  Head: A B C
  Solos: A B C open "tenor, guitar"
  Head out: A B C
  Vamp out: [Vamp] vamp "drums over it"
  End: Ending
`;
