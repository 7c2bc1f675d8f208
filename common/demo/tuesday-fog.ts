/** A ballad of sixteen bars; the tempo lifts for the solo and falls back. */
export const TUESDAY_FOG = `title: Tuesday Fog
by: Harbour Street Five
key: Db
time: 4/4
tempo: 66
feel: ballad
count: 1

[A]
| "solos: tempo 76" "head out: tempo 66" Dbmaj7 Bb7b9 | Ebm7 Ab7 | Fm7 Bb7alt | Ebm7 Ab13 |
| Abm7 Db7b9 | Gbmaj7 B7#11 | Fm7 Edim7 | Ebm7 Ab7 ||
[B]
| Gbmaj7 | Gm7b5 C7b9 | Fm7 | Bb7sus Bb7b9 |
| Ebm7 Ebm7/Db | Cm7b5 F7b9 | Bbm7 Eb9 | "head: fill" Ebm7 Ab7sus |]
[Ending]
| Dbmaj7 Bb7b9 | "on cue" Ebm7 Ab7sus | "hold" Dbmaj9 |]

road:
  Head: A B "trumpet, guitar only"
  Solos: A B open "tenor"
  Head out: A B
  End: Ending
`;
