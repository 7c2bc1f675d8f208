import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chordPitchClasses } from '../../../../common/theory/chord-tones.ts';
import { analyse } from '../../../../common/theory/harmony/analyse.ts';
import { type ScaleChoice, scaleChoices } from '../../../../common/theory/harmony/scale-choice.ts';
import { pitchClassOf } from '../../../../common/theory/pitch.ts';
import { scaleNotes } from '../../../../common/theory/scale.ts';
import { readingFor } from '../../../../common/theory/transpose.ts';
import { keyOf, PROGRESSIONS, timed } from './progressions.ts';

/** Choices for the chord at a place in a progression. */
const choices = (key: string, text: string, at = 0): ScaleChoice[] => {
  const all = timed(key, text);
  const [chord, analysis] = [all[at], analyse(all)[at]];
  if (!chord || !analysis) throw new Error(`no chord at ${at} of ${text}`);
  return scaleChoices(chord.symbol, analysis);
};
const names = (key: string, text: string, at = 0): string[] =>
  choices(key, text, at).map(({ scale }) => scale);
const best = (key: string, text: string, at = 0): string => {
  const [choice] = choices(key, text, at);
  return choice ? `${choice.tonic} ${choice.scale}` : '';
};

describe('scales for a chord in its function (common practice, no source)', () => {
  it.each([
    ['C', '| Cmaj7 |', 'C major'],
    ['C', '| Dm7 | G7 |', 'D dorian'],
    ['C', '| Em7 |', 'E phrygian'],
    ['C', '| Fmaj7 |', 'F lydian'],
    ['C', '| G7 | Cmaj7 |', 'G mixolydian'],
    ['C', '| Am7 |', 'A natural minor'],
    ['C', '| Bm7b5 |', 'B locrian'],
    ['C', '| A7 | Dm7 |', 'A mixolydian ♭13'],
    ['C', '| B7 | Em7 |', 'B phrygian dominant'],
    ['C', '| E7 | Am7 |', 'E phrygian dominant'],
    ['C', '| C7 | Fmaj7 |', 'C mixolydian'],
    ['C', '| D7 | G7 |', 'D mixolydian'],
    ['C', '| Gm7 | C7 | F |', 'G dorian'],
    ['C', '| F7 | C |', 'F lydian dominant'],
    ['C', '| Bb7 | Cmaj7 |', 'Bb lydian dominant'],
    ['C', '| Db7 | Cmaj7 |', 'Db lydian dominant'],
    ['C', '| Ab7 | G7 |', 'Ab lydian dominant'],
    ['C', '| Abmaj7 | G7 |', 'Ab lydian'],
    ['C', '| Dbmaj7 | C |', 'Db lydian'],
    ['C', '| Fm7 | Bb7 |', 'F dorian'],
    ['C', '| C#dim7 | Dm7 |', 'C# whole-half diminished'],
    ['C', '| F#m7b5 | B7 | Em |', 'F# locrian'],
    ['C', '| F/G | C |', 'G mixolydian'],
    ['C minor', '| Cm6 |', 'C melodic minor'],
    ['C minor', '| Cm7 |', 'C natural minor'],
    ['C minor', '| Dm7b5 | G7 |', 'D locrian'],
    ['C minor', '| G7b9 | Cm |', 'G phrygian dominant'],
    ['C minor', '| Fm7 |', 'F dorian'],
    ['C minor', '| Abmaj7 |', 'Ab lydian'],
    ['C minor', '| Bb7 | Eb |', 'Bb mixolydian'],
    ['D dorian', '| Dm7 |', 'D dorian'],
    ['C', '| Galt | C |', 'G altered'],
    ['C', '| D7#11 | G7 |', 'D lydian dominant'],
    ['C', '| G13b9 | C |', 'G half-whole diminished'],
    ['C', '| G9#5 | C |', 'G whole tone'],
    ['C', '| Fm6 | C |', 'F melodic minor'],
    ['C', '| Bm7 | E7 | Am |', 'B dorian'],
    ['C', '| F#m7 | B7 | Em |', 'F# dorian'],
    ['C minor', '| Am7 | D7 | Gm |', 'A dorian'],
    ['C', '| G7#9 | C |', 'G altered'],
    ['C', '| E7#9 | Am7 |', 'E altered'],
    ['C', '| G13#9 | C |', 'G half-whole diminished'],
    ['C', '| G7b9 | C |', 'G half-whole diminished'],
    ['C', '| G7b13 | C |', 'G mixolydian ♭13'],
    ['C', '| G7susb9 | C |', 'G phrygian'],
    ['C', '| Fm/G | C |', 'G phrygian'],
    ['C minor', '| G7sus | Cm |', 'G phrygian'],
  ])('[HARM-28] in %s over the first chord of %s the first is %s', (key, text, expected) => {
    expect(best(key, text)).toBe(expected);
  });

  it('[HARM-28] says where the notes come from', () => {
    expect(choices('C', '| Dm7 |')[0]?.reason).toBe('the notes of C major');
    expect(choices('C', '| B7 | Em7 |')[0]?.reason).toBe('C major with D♯ and F♯');
    expect(choices('C', '| Fm7 | Bb7 |')[0]?.reason).toBe('the notes of C minor');
    // As the chord is spelled, not as the key would spell it.
    expect(choices('Ab', '| B7 | Bbm7 |')[0]?.reason).toBe('A♭ major with B and F♯ and A');
  });

  it('[HARM-28] further choices follow: what leads to minor, what pulls hardest', () => {
    expect(names('C', '| E7 | Am7 |').slice(0, 2)).toEqual(['phrygian dominant', 'altered']);
    expect(names('C', '| G7 | Cmaj7 |')).toEqual(
      expect.arrayContaining(['altered', 'half-whole diminished']),
    );
    expect(names('C', '| Cmaj7 |')).toEqual(['major', 'lydian', 'major pentatonic']);
    expect(names('C minor', '| Dm7b5 | G7 |')).toEqual(['locrian', 'locrian ♮2']);
    // Without a third, where the key has a minor one.
    expect(names('C', '| Dsus2 | Dm |').slice(0, 2)).toEqual(['dorian', 'melodic minor']);
    expect(names('A minor', '| Asus2 | Am |')).not.toContain('major');
  });

  it('[HARM-29] a scale has what the symbol names, and is spelled from its tonic', () => {
    for (const [key, text] of PROGRESSIONS) {
      const all = timed(key, text);
      const analyses = analyse(all);
      all.forEach(({ symbol }, i) => {
        const analysis = analyses[i];
        if (!analysis) return;
        const fitting = scaleChoices(symbol, analysis).filter(({ scale }) => !/pentatonic|blues/.test(scale));
        expect(fitting.length, symbol.typed).toBeGreaterThan(0);
        const required = symbol.degrees.filter((degree) => degree !== '5' && degree !== '11');
        for (const { notes } of fitting) {
          const tones = notes.map(pitchClassOf);
          expect(tones).toEqual(expect.arrayContaining(chordPitchClasses({ ...symbol, degrees: required })));
          expect(notes.every((note) => note.length <= 2)).toBe(true);
        }
      });
    }
  });

  it('[HARM-29] over an altered dominant the scales that have its fifth come first', () => {
    expect(names('C', '| G7b9 | C |')).toEqual(['half-whole diminished', 'phrygian dominant', 'altered']);
    expect(names('C minor', '| G7b9 | Cm |').slice(0, 1)).toEqual(['phrygian dominant']);
    expect(names('C', '| G7#11 | C |').slice(0, 2)).toEqual(['lydian dominant', 'half-whole diminished']);
  });

  it('[HARM-28] over a bass that walks under one chord the scale stays', () => {
    expect([0, 1, 2].map((at) => best('C', '| Am | Am/B | Am/C | F |', at))).toEqual([
      'A natural minor',
      'A natural minor',
      'A natural minor',
    ]);
  });

  it('[HARM-29] a suspended dominant has its fourth, however it is written', () => {
    for (const text of ['G7sus', 'F/G', 'Dm7/G', 'Fmaj7/G', 'Fm/G', 'G7susb9', 'G13sus']) {
      const offered = choices('C', `| ${text} | C |`);
      expect(offered.length, text).toBeGreaterThan(0);
      for (const { scale, tonic, notes } of offered)
        expect([tonic, notes.includes('C')], scale).toEqual(['G', true]);
    }
    expect(names('C', '| F/G | C |')).toEqual(['mixolydian', 'dorian']);
  });

  it('[HARM-29] chord tones are spelled as in the chord, other notes without double accidentals', () => {
    const notes = (key: string, text: string): string => choices(key, text)[0]?.notes.join(' ') ?? '';
    expect(notes('F#', '| D#7 | G#m7 |')).toBe('D# E# F## G# A# B C#');
    expect(notes('Gb', '| Cbm7 | Fb7 |')).toBe('Cb Db Ebb Fb Gb Ab Bbb');
    expect(notes('C', '| Ebdim7 | Dm7 |')).not.toMatch(/bb|##/);
    expect(notes('G#m', '| G#m | E7 |')).not.toMatch(/bb|##/);
  });

  it('[HARM-30] notes to avoid', () => {
    const avoided = (key: string, text: string): string =>
      choices(key, text)
        .slice(0, 1)
        .flatMap(({ avoid }) => avoid)
        .join(' ');
    expect(avoided('C', '| Cmaj7 |')).toBe('F');
    expect(avoided('C', '| Dm7 |')).toBe('');
    expect(avoided('C', '| Em7 |')).toBe('F C');
    expect(avoided('C', '| Fmaj7 |')).toBe('');
    expect(avoided('C', '| G7 | C |')).toBe('C');
    expect(avoided('C', '| G7sus | C |')).toBe('B');
    expect(avoided('C', '| Am7 |')).toBe('F');
    expect(avoided('C', '| Bm7b5 |')).toBe('C');
    expect(avoided('C', '| B7 | Em |')).toBe('E');
    expect(avoided('C', '| Bdim7 | C |')).toBe('');
    // What the symbol names may be held; the eleventh that a thirteenth stacks is left out.
    expect(avoided('C minor', '| Cm(b6) | Fm |')).toBe('');
    expect(avoided('C', '| G11 | C |')).toBe('');
    expect(avoided('C', '| Cmaj13 |')).toBe('F');
  });

  it('[HARM-31] the blues scale over the whole blues', () => {
    const blues = '| F7 | Bb7 | Cm7 F7 | Bb7 | Bdim7 | D7 | Gm7 | C7 |';
    timed('F blues', blues).forEach((_, at) => {
      const all = choices('F blues', blues, at);
      expect(all.find(({ scale }) => scale === 'blues')).toMatchObject({
        tonic: 'F',
        notes: scaleNotes('F', 'blues'),
      });
      expect(all[0]?.scale).not.toBe('blues');
    });
    expect(best('F blues', blues)).toBe('F mixolydian');
    expect(best('F blues', blues, 1)).toBe('Bb mixolydian');
    expect(names('F', '| F7 |')).not.toContain('blues');
    expect(names('C minor blues', '| Cm7 | Fm7 |')).toContain('blues');
  });

  it('[HARM-5] the choices are the same in every key', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...PROGRESSIONS),
        fc.integer({ min: -6, max: 6 }),
        ([key, text], semitones) => {
          const reading = readingFor(keyOf(key), semitones);
          const scales = (chords: ReturnType<typeof timed>) => {
            const analyses = analyse(chords);
            return chords.map(({ symbol }, i) => {
              const analysis = analyses[i];
              return analysis ? scaleChoices(symbol, analysis).map(({ scale }) => scale) : [];
            });
          };
          expect(scales(timed(key, text, reading))).toEqual(scales(timed(key, text)));
        },
      ),
      { numRuns: 60 },
    );
  });
});
