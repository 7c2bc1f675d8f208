import { describe, expect, it } from 'vitest';
import { analyse } from '../../../../common/theory/harmony/analyse.ts';
import { findKey } from '../../../../common/theory/harmony/find-key.ts';
import { printNumeral } from '../../../../common/theory/harmony/numeral.ts';
import { scaleChoices } from '../../../../common/theory/harmony/scale-choice.ts';
import { printKey } from '../../../../common/theory/key.ts';
import type { NoteNames } from '../../../../common/theory/note-name.ts';
import { analysed, first, numerals, PROGRESSIONS, timed } from './progressions.ts';

const reasons = (key: string, text: string): string[] => analysed(key, text).map(({ reason }) => reason);
const jobs = (key: string, text: string): string[] => analysed(key, text).map(({ job }) => job);
const also = (key: string, text: string): string =>
  analysed(key, text)
    .map((each) => (each.also ? printNumeral(each.also) : '–'))
    .join(' ');
/** The keys in which the chords are heard, one for each run. */
const keys = (key: string, text: string): string[] =>
  analysed(key, text)
    .map((each) => printKey(each.key))
    .filter((name, i, all) => name !== all[i - 1]);

describe('chords of the key (common practice, no source)', () => {
  it('[HARM-8] says from which minor scale a chord comes', () => {
    expect(reasons('C minor', '| Cm7 | Cm(maj7) | Cm6 | F7 | Cm |')).toEqual([
      'home',
      'home, from melodic minor',
      'home, from melodic minor',
      'leads away from home, from melodic minor',
      'home',
    ]);
    expect(numerals('C minor', '| Cm7 | Dm7 | G7 | Eb+ | Abmaj7 | Dm7b5 | Cm |')).toBe(
      'i7 ii7 V7 III+ VI△7 iiø7 i',
    );
  });

  it('[HARM-8] V of minor comes from harmonic minor, as its scale does', () => {
    expect(reasons('A minor', '| Am | E | F |')[1]).toBe('dominant of the key, from harmonic minor');
    expect(reasons('A minor', '| Am | E+ | F |')[1]).toBe('dominant of the key, from harmonic minor');
    const [, five] = analysed('A minor', '| Am | E | F |');
    const symbol = timed('A minor', '| E |')[0]?.symbol;
    if (five === undefined || symbol === undefined) throw new Error('no chord');
    expect(scaleChoices(symbol, five)[0]?.scale).toBe('phrygian dominant');
  });

  it('[HARM-8] a mode has its own chords, and a dominant on its fifth', () => {
    expect(jobs('D dorian', '| Dm7 | G7 | Dm7 | A7 | Dm7 |')).toEqual([
      'tonic',
      'subdominant',
      'tonic',
      'dominant',
      'tonic',
    ]);
    expect(numerals('G mixolydian', '| G7 | F | C | G7 | C |')).toBe('I7 ♭VII IV I7 IV');
    expect(numerals('F lydian', '| Fmaj7 | G7 | Em7 | Fmaj7 |')).toBe('I△7 II7 vii7 I△7');
  });

  it('[HARM-9] a blues is I7, IV7 and V7, with ♯IV°7 on the way back', () => {
    expect(
      numerals(
        'F blues',
        '| F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7/C | Am7b5 D7b9 | Gm7 | C7 | Am7 D7b9 | Gm7 C7 |',
      ),
    ).toBe('I7 IV7 I7 ii7/IV I7 IV7 ♯IV°7 I7/5 iiø7/ii V7/ii ii7 V7 iii7 V7/ii ii7 V7');
    expect(numerals('A blues', '| A7 | D7 | A7 | A7 | D7 | D7 | A7 | A7 | E7 | D7 | A7 | E7 |')).toBe(
      'I7 IV7 I7 I7 IV7 IV7 I7 I7 V7 IV7 I7 V7',
    );
    expect(reasons('F blues', '| F7 | Bb7 | Bdim7 | F7/C |')).toEqual([
      'home of the blues',
      'fourth of the blues',
      'passes from B♭7 to F7/C',
      'home of the blues',
    ]);
  });

  it('[HARM-9] a blues is one also where its key is written as major', () => {
    const text = '| C7 | F7 | C7 | % | F7 | % | C7 | A7 | Dm7 | G7 | C7 | G7 |';
    expect(numerals('C', text)).toBe('I7 IV7 I7 I7 IV7 IV7 I7 V7/ii ii7 V7 I7 V7');
    expect(keys('C', text)).toEqual(['C blues']);
    expect(keys('C', '| Cmaj7 | C7 | F7 | Fm7 | Cmaj7 |')).toEqual(['C major']);
  });

  it('[HARM-9] a minor blues has i and iv', () => {
    expect(numerals('C minor blues', '| Cm7 | Fm7 | Cm7 | C7alt | Fm7 | Ab7 G7 | Cm7 |')).toBe(
      'i7 iv7 i7 V7/iv iv7 subV7/V V7 i7',
    );
  });

  it('[HARM-4] a bass that walks under one chord keeps its reason', () => {
    expect(reasons('C', '| C | C/D | C/E | F |').slice(0, 3)).toEqual(['home', 'home', 'home']);
  });

  it('[HARM-10] tells a deceptive cadence, and home over its fifth before V', () => {
    expect(reasons('C', '| G7 | Am7 |')[0]).toBe('dominant of the key; Am7 comes instead of home');
    expect(reasons('C', '| G7 | Abmaj7 |')[0]).toBe('dominant of the key; A♭△7 comes instead of home');
    expect(reasons('C minor', '| G7 | Ab |')[0]).toBe('dominant of the key; A♭ comes instead of home');
    expect(reasons('C', '| G7 | F7 |')[0]).toBe('dominant of the key');
    expect(reasons('Db', '| Gb | Db/Ab | Ab7 | Db |')[1]).toBe('home over its fifth: A♭7 is kept waiting');
    expect(reasons('Bb', '| Bb/F | F7/A | Bb |')[0]).toBe('home');
    expect(reasons('F phrygian', '| Fm7 | Cm7b5 | Fm7 |')[1]).toBe('fifth of the key, without its pull home');
  });

  it('[HARM-10] V7 is V7 wherever it goes', () => {
    expect(first('C', '| G7 | Am7 |')).toBe('V7');
    expect(first('C', '| G7 | F7 |')).toBe('V7');
    expect(first('C minor', '| G7alt | Abmaj7 |')).toBe('V7');
    expect(reasons('C', '| Dm7 | G7 | Cmaj7 |')).toEqual(['prepares G7', 'dominant of C△7', 'home']);
  });
});

describe('suspended triads (common practice, no source)', () => {
  it('[HARM-1] have the size of the chord that the key has there', () => {
    expect(numerals('C', '| Csus4 C | Dsus2 Dm | Asus4 Am | Fsus2 F | Gsus4 G | C |')).toBe(
      'Isus I iisus2 ii visus vi IVsus2 IV Vsus V I',
    );
    expect(numerals('A minor', '| Asus2 Am | Csus2 C | Dsus4 Dm | Esus4 E | Am |')).toBe(
      'isus2 i IIIsus2 III ivsus iv Vsus V i',
    );
  });
});

describe('dominants of other chords (common practice, no source)', () => {
  it.each([
    ['C', '| A7 | Dm7 |', 'V7/ii'],
    ['C', '| B7 | Em7 |', 'V7/iii'],
    ['C', '| C7 | Fmaj7 |', 'V7/IV'],
    ['C', '| D7 | G7 |', 'V7/V'],
    ['C', '| E7 | Am7 |', 'V7/vi'],
    ['C', '| E7 | A7 |', 'V7/vi'],
    ['C', '| Bb7 | Ebmaj7 |', 'V7/♭III'],
    ['C', '| Eb7 | Abmaj7 |', 'V7/♭VI'],
    ['C', '| F7 | Bb |', 'V7/♭VII'],
    ['C', '| Ab7 | Dbmaj7 |', 'V7/♭II'],
    ['C', '| D | G |', 'V/V'],
    ['C', '| E | Am |', 'V/vi'],
    ['C', '| C+ | F |', 'V+/IV'],
    ['C minor', '| C7 | Fm7 |', 'V7/iv'],
    ['C minor', '| Eb7 | Ab |', 'V7/VI'],
    ['C minor', '| Bb7 | Eb |', 'V7/III'],
    ['C minor', '| F7 | Bb7 |', 'V7/VII'],
    ['C minor', '| D7 | G7 |', 'V7/V'],
    ['Eb blues', '| C7alt | Fm7 |', 'V7/ii'],
  ])('[HARM-11] in %s %s begins with %s', (key, text, expected) => {
    expect(first(key, text)).toBe(expected);
  });

  it('[HARM-11] says whose dominant it is, and names each of a row', () => {
    expect(reasons('F', '| D7 | Gm7 |')[0]).toBe('dominant of Gm7');
    expect(numerals('Bb', '| D7 | G7 | C7 | F7 | Bb |')).toBe('V7/vi V7/ii V7/V V7 I');
  });

  it.each([
    ['| D7 | Dm7 | G7 |', 'V7/V ii7 V7', 'dominant of G7, which comes after Dm7'],
    ['| A7 | Em7 A7 | Dm7 |', 'V7/ii iii7 V7/ii ii7', 'dominant of Dm, taken up again after Em7'],
    [
      '| Ab7 | Dm7 G7 | C |',
      'subV7/V ii7 V7 I',
      'stands in for D7, a semitone above G7, which comes after Dm7',
    ],
    ['| D7 | C/G G7 | C |', 'V7/V I/5 V7 I', 'dominant of G7, which comes after C/G'],
    [
      '| Ab7 | C/G G7 | C |',
      'subV7/V I/5 V7 I',
      'stands in for D7, a semitone above G7, which comes after C/G',
    ],
    ['| Db7 | G7 | Cmaj7 |', 'subV7 V7 I△7', 'stands in for G7, a semitone above C△7, which comes after G7'],
  ])('[HARM-12] the goal of %s comes later', (text, expected, reason) => {
    expect(numerals('C', text)).toBe(expected);
    expect(reasons('C', text)[0]).toBe(reason);
  });

  it('[HARM-34] the substitute of the dominant that is due comes instead', () => {
    expect(numerals('C', '| Em7 A7 | Ab7 G7 | C |')).toBe('iii7 V7/ii subV7/V V7 I');
    expect(reasons('C', '| Em7 A7 | Ab7 G7 | C |')[1]).toBe('dominant of D7, for which A♭7 stands in');
    expect(numerals('F#', '| B | A#m7 | G#7 | G7 | F# |')).toBe('IV iii7 V7/V subV7 I');
    expect(numerals('C', '| F7 | E7 | Eb7 | D7 | Db7 | C |')).toBe('subV7/iii V7/vi subV7/ii V7/V subV7 I');
    expect(numerals('C', '| Bb7 | A7 | Dm7 |')).toBe('subV7/vi V7/ii ii7');
  });

  it.each([
    ['C', '| E7 | Fmaj7 |', 'V7/vi', 'dominant of Am, which does not come'],
    ['C', '| D7 | Fmaj7 | C |', 'V7/V', 'dominant of G, which does not come'],
    ['C', '| F7 | C |', 'IV7', 'with a blue seventh'],
    ['C', '| E | F |', 'V/vi', 'dominant of Am, which does not come'],
    ['C', '| A | F |', 'V/ii', 'dominant of Dm, which does not come'],
    ['C', '| Ab7 | C |', '♭VI7', 'borrowed from C minor, with a blue seventh'],
    ['C', '| Bb7 | F |', '♭VII7', 'borrowed from C minor'],
    ['C minor', '| Ab7 | Cm |', 'VI7', 'with a blue seventh'],
  ])('[HARM-13] in %s %s begins with %s', (key, text, numeral, reason) => {
    expect(first(key, text)).toBe(numeral);
    expect(reasons(key, text)[0]).toBe(reason);
  });

  it('[HARM-13] i7 and IV7 in a vamp lead nowhere', () => {
    expect(numerals('A minor', '| Am7 | D7 | Am7 | D7 | Am7 |')).toBe('i7 IV7 i7 IV7 i7');
    expect(also('A minor', '| Am7 | D7 | Am7 | D7 | Am7 |')).toBe('– – – – –');
  });

  it('[HARM-13] at the end I7 is home with a blue seventh', () => {
    expect(numerals('C', '| Dm7 | G7 | C7 |')).toBe('ii7 V7 I7');
    expect(first('C', '| C7 |')).toBe('V7/IV');
    expect(numerals('Eb', '| Eb | Bbm7 Eb7 | Am7 D7 | Abmaj7 |')).toBe('I ii7/IV V7/IV ii7/iii V7/iii IV△7');
    expect(numerals('E', '| E7sus | E | A | E7sus | A | E |')).toBe('I7sus I IV V7sus/IV IV I');
    expect(reasons('E', '| E7sus | E |')[0]).toBe('home, its third suspended');
  });

  it.each([
    ['C', '| Db7 | Cmaj7 |', 'subV7'],
    ['C', '| Eb7 | Dm7 |', 'subV7/ii'],
    ['C', '| F7 | Em7 |', 'subV7/iii'],
    ['C', '| Gb7 | Fmaj7 |', 'subV7/IV'],
    ['C', '| Ab7 | G7 |', 'subV7/V'],
    ['C', '| Bb7 | Am7 |', 'subV7/vi'],
    ['C minor', '| Db7 | Cm7 |', 'subV7'],
    ['C minor', '| Ab7 | G7 |', 'subV7/V'],
  ])('[HARM-14] in %s %s begins with %s', (key, text, expected) => {
    expect(first(key, text)).toBe(expected);
  });

  it('[HARM-14] says for what it stands in', () => {
    expect(reasons('C', '| Db7 | Cmaj7 |')[0]).toBe('stands in for G7, a semitone above C△7');
  });

  it('[HARM-15] the backdoor', () => {
    expect(numerals('C', '| Fm7 | Bb7 | Cmaj7 |')).toBe('iv7 ♭VII7 I△7');
    expect(reasons('C', '| Fm7 | Bb7 | Cmaj7 |')[1]).toBe('backdoor: a tone below C△7');
    expect(numerals('F', '| Bb | Bbm7 Eb7 | Am7 D7 | Gm7 C7 | F |')).toBe('IV iv7 ♭VII7 iii7 V7/ii ii7 V7 I');
    expect(numerals('Bb', '| Dm7 | Bbm7 Eb7 | Fmaj7 |')).toBe('iii7 iv7/V ♭VII7/V V△7');
    expect(jobs('C', '| Bb7 | Cmaj7 |')[0]).toBe('backdoor');
  });

  it.each([
    ['C', '| Gm7 | C7 | Fmaj7 |', 'ii7/IV V7/IV IV△7'],
    ['C', '| Em7b5 | A7b9 | Dm7 |', 'iiø7/ii V7/ii ii7'],
    ['C', '| F#m7b5 | B7 | Em7 |', 'iiø7/iii V7/iii iii7'],
    ['C', '| Bbm7 | Eb7 | Abmaj7 |', 'ii7/♭VI V7/♭VI ♭VI△7'],
    ['C', '| Gm7 | Gb7 | Fmaj7 |', 'ii7/IV subV7/IV IV△7'],
    ['C', '| Abm7 | Db7 | Cmaj7 |', '♭vi7 subV7 I△7'],
    ['C minor', '| Gm7b5 | C7b9 | Fm7 |', 'iiø7/iv V7/iv iv7'],
  ])('[HARM-16] in %s %s is %s', (key, text, expected) => {
    expect(numerals(key, text)).toBe(expected);
  });

  it('[HARM-16] a chord of the key has being a ii as its second name', () => {
    expect(numerals('C', '| Am7 | D7 | G7 |')).toBe('vi7 V7/V V7');
    expect(also('C', '| Am7 | D7 | G7 |')).toBe('ii7/V – –');
    expect(also('C', '| Bm7b5 | E7 | Am7 |')).toBe('iiø7/vi – –');
    expect(reasons('C', '| Am7 | D7 | G7 |')[0]).toBe('stands in for home; also ii of D7');
    expect(also('G minor', '| Cm7 | F7 | Bbmaj7 |')).toBe('ii7/III VII7 –');
  });

  it.each([
    ['C', '| C | C#dim7 | Dm7 | D#dim7 | Em7 |', 'I ♯I°7 ii7 ♯II°7 iii7'],
    ['C', '| F | F#dim7 | G7 | G#dim7 | Am |', 'IV ♯IV°7 V7 ♯V°7 vi'],
    ['C', '| Em7 | Ebdim7 | Dm7 |', 'iii7 ♭III°7 ii7'],
    ['C', '| C/E | Ebdim7 | Dm7 |', 'I/3 ♭III°7 ii7'],
    ['C', '| F | F#dim7 | C/G |', 'IV ♯IV°7 I/5'],
    ['Eb', '| Gm11 | Gbdim7 | Fm7/Bb | Eb |', 'iii7 ♭III°7 V7sus I'],
    ['C', '| Am7 | C#dim7 | Dm7 |', 'vi7 vii°7/ii ii7'],
    ['C', '| C | G#dim7 | Am7 |', 'I vii°7/vi vi7'],
    ['C', '| Bdim7 | C |', 'vii°7 I'],
    ['C', '| C | Cdim7 | C |', 'I I°7 I'],
    ['C', '| C | D#dim7 | C |', 'I ♯II°7 I'],
    ['C', '| Dm7 | Ddim7 | C |', 'ii7 ii°7 I'],
    ['C minor', '| Ddim | G7 | Bdim7 | Cm |', 'ii° V7 vii°7 i'],
    ['C minor', '| Ab | Adim7 | Bb7 |', 'VI ♯VI°7 VII7'],
    ['C minor', '| Cm7 | Bdim7 | Bbm7 | Eb7 | Ab |', 'i7 ♯VII°7 ii7/VI V7/VI VI'],
    ['C', '| C | Cdim7 | Dm7 | G7 |', 'I I°7 ii7 V7'],
  ])('[HARM-17] in %s %s is %s', (key, text, expected) => {
    expect(numerals(key, text)).toBe(expected);
  });

  it('[HARM-17] says from where to where it passes, and its other name', () => {
    expect(reasons('C', '| C | C#dim7 | Dm7 |')[1]).toBe('passes from C to Dm7');
    expect(also('C', '| C | C#dim7 | Dm7 |')).toBe('– vii°7/ii –');
    expect(reasons('C', '| Am7 | C#dim7 | Dm7 |')[1]).toBe('leads up to Dm7');
    expect(reasons('C', '| C | Cdim7 | C |')[1]).toBe('keeps the root of C');
    expect(reasons('C', '| C | Cdim7 | Dm7 |')[1]).toBe('keeps the root of C');
    expect(reasons('G', '| Em | Fdim7 | Em |')[1]).toBe('leaves Em by a semitone and comes back');
  });
});

describe('guests and other keys (common practice, no source)', () => {
  it.each([
    ['C', 'Fm7', 'iv7', 'borrowed from C minor'],
    ['C', 'Abmaj7', '♭VI△7', 'borrowed from C minor'],
    ['C', 'Ebmaj7', '♭III△7', 'borrowed from C minor'],
    ['C', 'Bb', '♭VII', 'borrowed from C minor'],
    ['C', 'Dm7b5', 'iiø7', 'borrowed from C minor'],
    ['C', 'Dbmaj7', '♭II△7', 'borrowed from C phrygian'],
    ['C', 'Bbmaj7', '♭VII△7', 'borrowed from C dorian'],
    ['C', 'Gm7', 'v7', 'borrowed from C minor'],
    ['C', 'Fm(maj7)', 'iv△7', 'borrowed from C harmonic major'],
    ['C', 'D', 'II', 'borrowed from C lydian'],
    ['C minor', 'Db', '♭II', 'borrowed from C phrygian'],
    ['C minor', 'Cmaj7', 'I△7', 'borrowed from C major'],
    ['C minor', 'Em7', '♯iii7', 'borrowed from C major'],
  ])('[HARM-18] in %s %s is %s, %s', (key, symbol, numeral, reason) => {
    // Between two home chords, so that nothing else explains it.
    const home = key === 'C' ? 'Cmaj7' : 'Cm';
    expect(numerals(key, `| ${home} | ${symbol} | ${home} |`).split(' ')[1]).toBe(numeral);
    expect(reasons(key, `| ${home} | ${symbol} | ${home} |`)[1]).toBe(reason);
  });

  it('[HARM-35] the Neapolitan chord', () => {
    expect(numerals('F minor', '| Fm | Gb/Bb | C7 | Fm |')).toBe('i ♭II/3 V7 i');
    expect(reasons('F minor', '| Fm | Gb/Bb | C7 | Fm |')[1]).toBe(
      'borrowed from F phrygian; the Neapolitan chord',
    );
    expect(reasons('C', '| C | Db | C/G | G7 | C |')[1]).toBe(
      'borrowed from C phrygian; the Neapolitan chord',
    );
    expect(reasons('C', '| C | Db | C |')[1]).toBe('borrowed from C phrygian');
  });

  it('[HARM-33] the line in a minor chord: its seventh or sixth is raised', () => {
    const line = '| Dm Dm(maj7) | Dm7 | G7 | Am Am(maj7) | Am7 Am6 | C |';
    expect(numerals('C', line)).toBe('ii ii△7 ii7 V7 vi vi△7 vi7 vi6 I');
    expect(reasons('C', line)[5]).toBe('stands in for home, its seventh raised');
    expect(reasons('C', line)[7]).toBe('stands in for home, its sixth raised');
    expect(numerals('F# minor', '| Bm Bm(maj7) | Bm7 | C#7 | F#m F#m(maj7) | F#m7 F#m6 |')).toBe(
      'iv iv△7 iv7 V7 i i△7 i7 i6',
    );
    expect(reasons('C minor', '| Fm(maj7) | G7 |')[0]).toBe('prepares G7, its seventh raised');
  });

  it('[HARM-19] a visited chord, a sliding one and a stranger', () => {
    expect(reasons('C minor', '| Cm | G7 | C |')[2]).toBe('borrowed from C major');
    expect(reasons('C', '| B7 | Emaj7 | Dm7 |')[1]).toBe('home for a moment: B7 led here');
    expect(reasons('C', '| Em7 | Ebm7 | Dm7 | G7 |')[1]).toBe('slides a semitone to Dm7');
    expect(reasons('C', '| Bm7 | Bbm7 | Am7 |').slice(0, 2)).toEqual([
      'slides a semitone to B♭m7',
      'slides a semitone to Am7',
    ]);
    expect(numerals('C', '| C | F#m7 | C |')).toBe('I ♯iv7 I');
    expect(reasons('C', '| C | F#m7 | C |')[1]).toBe('not from the key');
  });

  it('[HARM-20] a bridge that leaves the key', () => {
    const bridge =
      '| Bbmaj7 | % | C#m7 | F#7 | Bmaj7 | % | Bm7 | E7 | Amaj7 | % | Am7 | D7 | Gmaj7 | % | Gm7 C7 | Cm7 F7 | Bb |';
    expect(keys('Bb', bridge)).toEqual(['B♭ major', 'B major', 'A major', 'G major', 'B♭ major']);
    expect(numerals('Bb', bridge)).toBe(
      'I△7 I△7 ii7 V7 I△7 I△7 ii7 V7 I△7 I△7 ii7 V7 I△7 I△7 vi7 V7/V ii7 V7 I',
    );
  });

  it('[HARM-20] a minor chord is reached in one key and is the ii of the next', () => {
    const text = '| Abmaj7 | % | Bbm7 | Eb7 | Abm7 | Db7 | Gbmaj7 | % | Bbm7 | Eb7 | Ab6 | % |';
    expect(keys('Ab', text)).toEqual(['A♭ major', 'G♭ major', 'A♭ major']);
    expect(numerals('Ab', text)).toBe('I△7 I△7 ii7 V7 ii7 V7 I△7 I△7 ii7 V7 I6 I6');
  });

  it('[HARM-20] two chords in turns for four bars make a home of the first', () => {
    const modes = '| Dm7 | Em7 | Dm7 | Em7 | Ebm7 | Fm7 | Ebm7 | Fm7 | Dm7 | Em7 | Dm7 | % |';
    expect(keys('D dorian', modes)).toEqual(['D dorian', 'E♭ dorian', 'D dorian']);
    expect(numerals('D dorian', modes)).toBe('i7 ii7 i7 ii7 i7 ii7 i7 ii7 i7 ii7 i7 i7');
    const vamp = '| Em7 | A7 | Em7 | A7 | Gm7 | C7 | Gm7 | C7 | Em7 | A7 |';
    expect(keys('E minor', vamp)).toEqual(['E minor', 'G dorian', 'E minor']);
    // Not where they are a ii and a dominant whose goal comes.
    expect(keys('C', '| Cmaj7 | % | Abm7 Db7 | Abm7 Db7 | Abm7 Db7 | Abm7 Db7 | Cmaj7 | % |')).toEqual([
      'C major',
    ]);
    expect(keys('Eb', '| Ebmaj7 | % | Am7 | D7 | Am7 | D7 | Gmaj7 | % | Fm7 | Bb7 | Eb | % |')).toEqual([
      'E♭ major',
      'G major',
      'E♭ major',
    ]);
  });

  it('[HARM-20] a triad that the written key does not have makes a cadence elsewhere', () => {
    const text = '| C | F | G | C | E | A | E | B | E | A | B | E | C | F | G | C |';
    expect(keys('C', text)).toEqual(['C major', 'E major', 'C major']);
    expect(keys('C', '| C | F | Bb | F | C | F | Bb | F | C | F | Bb | F |')).toEqual(['C major']);
  });

  it('[HARM-20] does not leave the key for a chord that has its own dominant there', () => {
    const text = '| Abmaj7 | Ebm7 | Ab7 | Dbmaj7 | Gb7 | Fm7 | Bb7 | Bbm7 | Eb7 | Abmaj7 |';
    expect(keys('Ab', text)).toEqual(['A♭ major']);
    expect(keys('G minor', '| Cm7 | F7 | Bbmaj7 | Ebmaj7 | Am7b5 | D7 | Gm6 |')).toEqual(['G minor']);
    expect(keys('C', '| Cmaj7 | Fm7 | Bb7 | Cmaj7 | Dm7b5 | G7b9 | Cmaj7 |')).toEqual(['C major']);
  });

  it('[HARM-20] does not part a ii, its dominant and its goal', () => {
    for (const [key, text] of PROGRESSIONS) {
      const all = analysed(key, text);
      all.forEach(({ job, leadsTo, key: heard }, i) => {
        if (job === 'dominant' && leadsTo?.index === i + 1) expect(all[i + 1]?.key).toEqual(heard);
      });
    }
  });

  it('[HARM-20] a chord held for a phrase is a home, as in tunes made of modes', () => {
    const text = '| Dm7 | % | % | % | Ebm7 | % | % | % | Dm7 | % | % | % |';
    expect(keys('D dorian', text)).toEqual(['D dorian', 'E♭ dorian', 'D dorian']);
    expect(new Set(numerals('D dorian', text).split(' '))).toEqual(new Set(['i7']));
  });

  it.each([
    ['| Abmaj7 | Fm7 | Bbm7 | Eb7 | Cm7b5 | F7b9 | Bbm7 Eb7 | Abmaj7 |', 'A♭ major'],
    ['| Cm7 | F7 | Bbmaj7 | Ebmaj7 | Am7b5 | D7 | Gm6 | % |', 'G minor'],
    ['| F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7/C | D7 | Gm7 | C7 | F7 D7 | Gm7 C7 |', 'F blues'],
    ['| C | G | Am | F |', 'C major'],
    ['| Am | F | C | G |', 'A minor'],
    ['| A | G | D | A |', 'A major'],
    ['| C | C+ | C6 | C7 | F | Fm | C | G7 |', 'C major'],
    ['| Dm7b5 | Dbm6 | Cm7 | Bdim7 | Bbm7 | Eb7 | Abmaj7 |', 'A♭ major'],
    ['| E5 | G5 | A5 | C5 B5 |', 'E minor'],
    // Begins and ends at home, with a bridge elsewhere.
    [
      '| Ebmaj7 | Fm7 Bb7 | Ebmaj7 | % | Am7 | D7 | Gmaj7 | Em7 | Am7 | D7 | Gmaj7 | % | Gm7 | C7 | Fmaj7 | % | Fm7 | Bb7 | Ebmaj7 | % |',
      'E♭ major',
    ],
    ['| Dmaj7 | Em7 A7 | Dmaj7 | % | F#7 | % | Bm | % | F#7 | % | Bm | E7 | A7 | % | Dmaj7 | % |', 'D major'],
    // Ends on its turnaround.
    [
      '| Bb6 G7 | Cm7 F7 | Bb6 Gm7 | Cm7 F7 | Fm7 Bb7 | Eb7 Edim7 | Bb/F G7 | Cm7 F7 | D7 | % | G7 | % | C7 | % | F7 | % |',
      'B♭ major',
    ],
    ['| Gm7 | Cm7 | Gm7 | G7alt | Cm7 | % | Gm7 | % | Eb7 | D7alt | Gm7 Bb7 | Eb7 Ab7 |', 'G minor'],
    ['| F#m7b5 | B7 | Em7 | % | Am7 | D7 | Gmaj7 | Cmaj7 | F#m7b5 | B7 | Em | % |', 'E minor'],
    ['| Em7b5 | A7 | Cm7 | F7 | Fm7 | Bb7 | Ebmaj7 | Ab7 | Bbmaj7 |', 'B♭ major'],
  ])('[HARM-21] the key of %s is %s', (text, expected) => {
    const key = findKey(timed('C', text));
    expect(key && printKey(key)).toBe(expected);
  });

  it('[HARM-21] there is no key without chords', () => {
    expect(findKey([])).toBeNull();
  });

  it('[HARM-22] every chord has a reason', () => {
    for (const [key, text] of PROGRESSIONS) {
      for (const reason of reasons(key, text)) expect(reason).toMatch(/^[a-zA-Z].{3,}/);
    }
  });
});

describe('note names', () => {
  /** Where notes are sung they are called so; from memory. */
  const SUNG: Readonly<Record<string, string>> = {
    C: 'Do',
    D: 'Re',
    E: 'Mi',
    F: 'Fa',
    G: 'Sol',
    A: 'La',
    B: 'Si',
  };
  /** Reasons have no other capitals than those of notes. */
  const sung = (words: string): string =>
    words.replace(/(?<![A-Za-z])[A-G]/gu, (letter) => SUNG[letter] ?? letter);

  it.each(PROGRESSIONS)('[HARM-22] reasons call notes as their reader does, in %s', (key, text) => {
    const chords = timed(key, text);
    const [english, solfege] = (['english', 'solfege'] as const).map((names) =>
      analyse(chords, [], names).map(({ reason }) => reason),
    );
    expect(solfege).toEqual(english?.map(sung));
  });

  it('[HARM-22] in a diminished passing chord, a borrowed one and a ii–V; H and B in German', () => {
    const chords = timed('Eb', '| Abmaj7 | Adim7 | Eb/Bb | Abm6 | Cm7 F7 | Bb7 | Ebmaj7 |');
    const said = (names: NoteNames) => analyse(chords, [], names).map(({ reason }) => reason);
    expect(said('solfege')[1]).toBe('passes from La♭△7 to Mi♭/Si♭');
    expect(said('solfege')[3]).toBe('borrowed from Mi♭ minor');
    expect(said('solfege')[5]).toBe('dominant of Si♭7');
    expect(said('german')[1]).toBe('passes from A♭△7 to E♭/B');
    expect(said('german')[5]).toBe('dominant of B7');
  });

  it('[HARM-22] scales give their reasons in them', () => {
    const chords = timed('C', '| Cmaj7 | Fm7 | Cmaj7 |');
    const [, analysis] = analyse(chords);
    const [, four] = chords;
    if (analysis === undefined || four === undefined) throw new Error('no chord');
    const reasonsIn = (names: NoteNames) =>
      scaleChoices(four.symbol, analysis, names).map(({ reason }) => reason);
    expect(reasonsIn('english').join()).toMatch(/\bC minor/);
    expect(reasonsIn('solfege').join()).toMatch(/\bDo minor/);
    expect(reasonsIn('solfege')).toEqual(reasonsIn('english').map(sung));
  });
});
