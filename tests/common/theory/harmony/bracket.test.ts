import { describe, expect, it } from 'vitest';
import { analyse } from '../../../../common/theory/harmony/analyse.ts';
import { bracketsOf } from '../../../../common/theory/harmony/bracket.ts';
import { timed } from './progressions.ts';

const brackets = (key: string, text: string): string[] => {
  const chords = timed(key, text);
  return bracketsOf(chords, analyse(chords)).map(({ from, to, words }) => `${from}–${to} ${words}`);
};

describe('brackets and arrows (Open Music Theory, “ii–V–I”; else common practice, no source)', () => {
  it('[HARM-23] a ii and its dominant, where they lead and where not', () => {
    expect(brackets('C', '| Dm7 | G7 | Cmaj7 |')).toEqual(['0–1 ii–V–I']);
    expect(brackets('C minor', '| Dm7b5 | G7sus G7 | Cm |')).toEqual(['0–2 ii–V–I']);
    expect(brackets('F', '| Am7b5 | D7b9 | Gm7 | C7 | Am7 |')).toEqual(['0–1 ii–V to Gm7', '2–3 ii–V']);
    expect(brackets('C', '| Dm7 | Db7 | Cmaj7 |')).toEqual(['0–1 ii–subV–I']);
  });

  it('[HARM-23] none over a home and the chord with which it takes turns', () => {
    expect(brackets('G dorian', '| Gm7 | C7 | Gm7 | C7 | Gm7 |')).toEqual([]);
    expect(brackets('A minor', '| Am7 | D7 | Am7 | D7 | Am7 |')).toEqual([]);
    expect(brackets('A mixolydian', '| A7 | Em7 | A7 | Em7 | A7 |')).toEqual([]);
    expect(brackets('G minor', '| Gm7 | C7 | F7 | Bb |')).toEqual(['0–1 ii–V to F7']);
    expect(brackets('C', '| Em7 | A7 | Am7 | D7 | G7 |')).toEqual(['0–1 ii–V to D7', '2–3 ii–V to G7']);
  });

  it('[HARM-23] the backdoor, and dominants in a row', () => {
    expect(brackets('C', '| Fm7 | Bb7 | Cmaj7 |')).toEqual(['0–1 backdoor']);
    expect(brackets('Bb', '| D7 | % | G7 | % | C7 | % | F7 | % | Bb |')).toEqual([
      '0–7 four dominants in a row',
    ]);
    expect(brackets('Bb', '| Bb | Gm7 | Eb | Cm |')).toEqual([]);
  });

  it('[HARM-23] a dominant points at its goal, beyond the end at the top', () => {
    const chords = timed('C', '| Cmaj7 | A7 | Dm7 | G7 |');
    const all = analyse(chords, chords.slice(0, 2));
    expect(all.map(({ leadsTo }) => leadsTo)).toEqual([
      null,
      { index: 2, by: 'fifth' },
      null,
      { index: 4, by: 'fifth' },
    ]);
    const [sub] = analyse(timed('C', '| Db7 | Cmaj7 |'));
    expect(sub?.leadsTo).toEqual({ index: 1, by: 'semitone' });
    const [never] = analyse(timed('C', '| E7 | Fmaj7 |'));
    expect(never?.leadsTo).toBeNull();
  });
});
