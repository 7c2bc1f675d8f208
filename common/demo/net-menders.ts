/** Thirty-two bars, A A B A: the first two A’s as one repeat with two endings, after a pick-up. */
export const NET_MENDERS = `title: Net Menders
by: Bea
key: Ab
time: 4/4
tempo: 138
feel: swing
count: 2

[A]
| "pick-up" Eb7 / |: Abmaj7 | Fm7 | Bbm7 | Eb7 |
| Cm7b5 | F7b9 |1. Bbm7 Eb7 | Abmaj7 Eb7 :|
|2. Bbm7 Eb7 | Abmaj7 ||
[Bridge]
| Ebm7 | Ab7 | Dbmaj7 | Gb7 |
| Fm7  | Bb7 | Bbm7   | Eb7 ||
[Last A]
| Abmaj7 | Fm7  | Bbm7 | Eb7 |
| Cm7b5  | F7b9 | Bbm7 Eb7 | "solos: fill" Abmaj7 Eb7 |]

road:
  Head: A Bridge Last A
  Solos: A Bridge Last A open "trumpet, tenor, guitar"
  Head out: A Bridge Last A
  Tag: last 4 x3
`;
