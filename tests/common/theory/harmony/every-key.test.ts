import { describe, expect, it } from 'vitest';
import { noteAt } from '../../../../common/theory/pitch.ts';
import { readingFor } from '../../../../common/theory/transpose.ts';
import { keyOf, numerals } from './progressions.ts';

/** Common practice, no source, where the row names none. */
const ROWS: readonly (readonly [what: string, key: string, chords: string, numerals: string])[] = [
  ['leading-tone chord of the fifth', 'C', '| C | F#dim7 | G7 | C |', 'I vii°7/V V7 I'],
  ['the same spelled from above', 'C', '| C | Gbdim7 | G7 | C |', 'I vii°7/V V7 I'],
  ['leading-tone chord of vi', 'C', '| C | Abdim7 | Am7 |', 'I vii°7/vi vi7'],
  ['of the fourth in minor', 'C minor', '| Cm | Edim7 | Fm |', 'i vii°7/iv iv'],
  ['of the fifth in minor', 'C minor', '| Cm | F#dim7 | G7 |', 'i vii°7/V V7'],
  [
    'blues with the raised fourth',
    'C blues',
    '| F7 | F#dim7 | C7/G | A7b9 | D7 | G7 |',
    'IV7 ♯IV°7 I7/5 V7/ii V7/V V7',
  ],
  ['the same spelled as flat fifth', 'C blues', '| F7 | Gbdim7 | C7/G |', 'IV7 ♯IV°7 I7/5'],
  ['substitutes in a row', 'C', '| Em7 | Eb7 | Dm7 | Db7 | Cmaj7 |', 'iii7 subV7/ii ii7 subV7 I△7'],
  ['the same spelled with sharps', 'C', '| Em7 | D#7 | Dm7 | C#7 | Cmaj7 |', 'iii7 subV7/ii ii7 subV7 I△7'],
  ['substitute of the fourth', 'C', '| Cmaj7 | Gb7 | Fmaj7 |', 'I△7 subV7/IV IV△7'],
  ['backdoor', 'C', '| Fm7 | Bb7 | Cmaj7 |', 'iv7 ♭VII7 I△7'],
  ['backdoor spelled with sharps', 'C', '| E#m7 | A#7 | Cmaj7 |', 'iv7 ♭VII7 I△7'],
  ['backdoor, iv with a sixth', 'C', '| F | Fm6 | C |', 'IV iv6 I'],
  ['augmented sixth as dominant seventh, major', 'C', '| C | Ab7 | G7 | C |', 'I subV7/V V7 I'],
  ['augmented sixth before the six-four chord', 'C', '| F | Ab7 | C/G | G7 | C |', 'IV subV7/V I/5 V7 I'],
  ['augmented sixth in minor', 'C minor', '| Cm | Ab7 | G7 | Cm |', 'i subV7/V V7 i'],
  ['augmented sixth spelled with sharps', 'C minor', '| Cm | G#7 | G7 | Cm |', 'i subV7/V V7 i'],
  ['line from minor down', 'C minor', '| Cm | Cm/B | Cm/Bb | Cm/A | Abmaj7 |', 'i i△7/7 i7/♭7 i/6 VI△7'],
  ['line within minor', 'C minor', '| Cm | Cm(maj7) | Cm7 | Cm6 |', 'i i△7 i7 i6'],
  [
    'line to the half-diminished',
    'C minor',
    '| Cm | Cm(maj7)/B | Cm7/Bb | Am7b5 | Abmaj7 | G7 |',
    'i i△7/7 i7/♭7 viø7 VI△7 V7',
  ],
  ['major borrowed in minor', 'C minor', '| Cm | Dm7b5 | G7b9 | C |', 'i iiø7 V7 I'],
  ['dorian fourth in minor', 'C minor', '| Cm7 | F | Cm7 | Gm |', 'i7 IV i7 v'],
  ['phrygian second in minor', 'C minor', '| Cm | Dbmaj7 | G7 | Cm |', 'i ♭II△7 V7 i'],
  ['flat sixth and seventh in major', 'C', '| C | Ab | Bb | C |', 'I ♭VI ♭VII I'],
  ['minor ii–V in major', 'C', '| Cmaj7 | Dm7b5 | G7b9 | Cmaj7 |', 'I△7 iiø7 V7 I△7'],
  ['basses that step down', 'C', '| C | G/B | Am | C/G | F | C/E | Dm | G |', 'I V/3 vi I/5 IV I/3 ii V'],
  ['dominants over their thirds', 'C', '| C | A7/C# | Dm | B7/D# | Em |', 'I V7/ii/3 ii V7/iii/3 iii'],
  ['seventh in the bass', 'C', '| C | C/Bb | F/A | Fm/Ab | C/G | G7 |', 'I V7/IV/♭7 IV/3 iv/♭3 I/5 V7'],
  ['diminished triad of the melodic scale', 'C minor', '| Cm | Adim | Gm |', 'i vi° v'],
];

/** Semitones that bring C to every key with up to seven accidentals, by the way the trade would read it. */
const KEYS = Array.from({ length: 12 }, (_, i) => i - 6);

describe('what chords do in every key (common practice, no source)', () => {
  it.each(ROWS)('[HARM-5] %s, in %s', (_, key, chords, expected) => {
    for (const semitones of KEYS) {
      const reading = readingFor(keyOf(key), semitones);
      expect(numerals(key, chords, reading), `${semitones}`).toBe(expected);
    }
  });

  it.each(ROWS)(
    '[HARM-5] %s, in %s, chords and key spelled with up to seven accidentals',
    (_, key, chords, expected) => {
      for (let fifths = -7; fifths <= 7; fifths++) {
        const [, mode = ''] = key.split(' ');
        // Roots move along the line of fifths, so that nothing is respelled.
        const moved = chords.replace(/(?<=[ /])[A-G][b#]?/g, (note) => noteAt(fifthsFrom(note) + fifths));
        if (/(?:bbb|###|x)/.test(moved)) continue;
        expect(numerals(`${noteAt(fifths)} ${mode}`.trim(), moved), moved).toBe(expected);
      }
    },
  );
});

const fifthsFrom = (note: string): number =>
  'FCGDAEB'.indexOf(note.slice(0, 1)) -
  1 +
  7 * ((note.match(/#/g) ?? []).length - (note.slice(1).match(/b/g) ?? []).length);
