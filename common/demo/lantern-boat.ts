/** A slow six-eight whose middle goes up from D to F and comes home. */
export const LANTERN_BOAT = `title: Lantern Boat
by: Bea
key: D
time: 6/8
tempo: 56
feel: ballad
count: 2

[A]
| "p" Dmaj7 | Bm7 | Gmaj7 | A7sus A7 |
| F#m7 | B7b9 | Em7 | A7 ||
[B]
| "key F" "mf" Fmaj7 | Dm7 | Gm7 | C7sus C7 |
| Fmaj7/A | Abdim7 | Gm7 | "key D" A7sus A7b9 ||
[C]
| Dmaj7 | Bm7 | Gmaj7 | Gm6 |
| D/F# | B7b9 | Em7 A7 | Dmaj7 |]
[Ending]
| Bbmaj7 | Em7b5 A7b9 | "rit" Gm6 | "hold" D6/9 |]

road:
  Head: A B C "trumpet"
  Solo: A B open "guitar"
  Head out: C
  End: Ending
`;
