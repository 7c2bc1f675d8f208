import { describe, expect, it } from 'vitest';
import { printBarText, readBarText } from '../../../common/chart/bar-text.ts';
import { lastCells, musicOf, printed, problemsOf, shortCells, shortProblems } from './read-for-test.ts';

const kinds = (text: string): string[] =>
  readBarText(text).map(({ kind, text: token }) => `${kind} ${token}`);

describe('tokens', () => {
  it('[NOTE-29] are separated by blanks', () => {
    expect(kinds(' Dm7   G7/B  / //// r N.C. % %% /G <Bb7 <N.C. "a  b" C')).toEqual([
      'chord Dm7',
      'chord G7/B',
      'slash /',
      'slash ////',
      'rest r',
      'noChord N.C.',
      'repeat %',
      'repeat %%',
      'bass /G',
      'chord <Bb7',
      'noChord <N.C.',
      'word "a  b"',
      'chord C',
    ]);
  });

  it('[NOTE-29] keep their blanks in round brackets, unless the bracket is never closed', () => {
    expect(kinds('C7(b9   #11) F7((b9) x)y G')).toEqual([
      'chord C7(b9 #11)',
      'unknown F7((b9) x)y',
      'chord G',
    ]);
    expect(kinds('C7(b9 F "x)" G')).toEqual(['unknown C7(b9', 'chord F', 'word "x)"', 'chord G']);
  });

  it('[NOTE-29] say where they stand in the text that was read', () => {
    expect(readBarText('  C7  “x” F').map(({ at }) => at)).toEqual([2, 6, 10]);
    expect(printBarText(readBarText('  C7  “x”F  '))).toBe('C7 "x"F');
  });
});

describe('time in a bar', () => {
  it.each([
    ['Fm7 / / /', 'Fm7@0+4'],
    ['Fm7 ///', 'Fm7@0+4'],
    ['Fm7 / Bb7 /', 'Fm7@0+2 Bb7@2+2'],
    ['Fm7 / / Bb7', 'Fm7@0+3 Bb7@3+1'],
    ['Fm7 r r r', 'Fm7@0+1 rest@1+3'],
    ['r Fm7 r Bb7', 'rest@0+1 Fm7@1+1 rest@2+1 Bb7@3+1'],
    ['C C / N.C.', 'C@0+1 C@1+2 none@3+1'],
  ])('[NOTE-30] is counted where a slash or a rest stands: %j', (bar, cells) => {
    expect(lastCells(`| ${bar} |`)).toBe(cells);
    expect(problemsOf(`| ${bar} |`)).toEqual([]);
  });

  it.each([
    ['4/4', 'C', 'C@0+4'],
    ['4/4', 'C F', 'C@0+2 F@2+2'],
    ['4/4', 'C F G C', 'C@0+1 F@1+1 G@2+1 C@3+1'],
    ['4/4', 'C F C F C F C F', 'C@0+0.5 F@0.5+0.5 C@1+0.5 F@1.5+0.5 C@2+0.5 F@2.5+0.5 C@3+0.5 F@3.5+0.5'],
    ['3/4', 'C F G', 'C@0+1 F@1+1 G@2+1'],
    ['6/8', 'C F', 'C@0+1 F@1+1'],
    ['12/8', 'C F', 'C@0+2 F@2+2'],
    ['5/4 (3+2)', 'C F', 'C@0+3 F@3+2'],
    ['5/4 (2+3)', 'C F', 'C@0+2 F@2+3'],
    ['7/8 (2+2+3)', 'C F G', 'C@0+2 F@2+2 G@4+3'],
    ['6/4 (4+2)', 'C F', 'C@0+4 F@4+2'],
    ['6/4 (4+2)', 'C F G', 'C@0+2 F@2+2 G@4+2'],
    ['5/4 (3+2)', 'C F G A B', 'C@0+1 F@1+1 G@2+1 A@3+1 B@4+1'],
  ])('[NOTE-31] is else shared: in %s %j', (time, bar, cells) => {
    expect(lastCells(`time: ${time}\n| ${bar} |`)).toBe(cells);
    expect(problemsOf(`time: ${time}\n| ${bar} |`)).toEqual([]);
  });

  it.each([
    ['4/4', 'C F G', 'C@0+2 F@2+1 G@3+1', 'C / F G'],
    ['5/4', 'C F', 'C@0+3 F@3+2', 'C / / F /'],
    ['5/4', 'C F G', 'C@0+2 F@2+2 G@4+1', 'C / F / G'],
    ['3/4', 'C "x" F', 'C@0+2 F@2+1', 'C / "x" F'],
    ['7/8 (4+3)', 'C F G', 'C@0+3 F@3+2 G@5+2', 'C / / F / G /'],
  ])('[NOTE-32] is read in whole pulses where neither goes: in %s %j', (time, bar, cells, suggestion) => {
    const text = `time: ${time}\n| ${bar} |`;
    expect(lastCells(text)).toBe(cells);
    expect(problemsOf(text)).toMatchObject([{ kind: 'uneven-share', line: 2, column: 3, suggestion }]);
    expect(lastCells(`time: ${time}\n| ${suggestion} |`)).toBe(cells);
    expect(problemsOf(`time: ${time}\n| ${suggestion} |`)).toEqual([]);
  });

  it('[NOTE-33] too few: the last goes on', () => {
    expect(lastCells('| Fm7 / Bb7 / |')).toBe('Fm7@0+2 Bb7@2+2');
    expect(lastCells('| Fm7 / |')).toBe('Fm7@0+4');
    expect(lastCells('| Fm7 r |')).toBe('Fm7@0+1 rest@1+3');
    expect(problemsOf('| Fm7 / Bb7 |')).toMatchObject([
      { kind: 'too-few-pulses', line: 1, column: 9, suggestion: 'Fm7 / Bb7 /' },
    ]);
    expect(problemsOf('| Fm7 r |')).toMatchObject([{ suggestion: 'Fm7 r r r' }]);
  });

  it('[NOTE-33] too many: the bar keeps its metre and the rest has no place', () => {
    expect(shortCells('| C / F / G / | A |')).toEqual(['C@0+2 F@2+2', 'A@0+4']);
    expect(shortProblems('| C / F / G / | A |')).toEqual(['too-many-pulses 1:11']);
    expect(shortCells('| C F G A B | E |')).toEqual(['C@0+1 F@1+1 G@2+1 A@3+1', 'E@0+4']);
    expect(shortProblems('| C F G A B | E |')).toEqual(['too-many-chords 1:11']);
    expect(lastCells('time: 6/8\n| C / / / / / |')).toBe('C@0+2');
    expect(problemsOf('time: 6/8\n| C / / / / / |')[0]?.words).toContain('dotted quarter');
  });

  it.each([
    ['Am7 / / / /', 'Am7 / / /'],
    ['Am7 ////', 'Am7 ///'],
    ['Am7 / / //', 'Am7 / / /'],
  ])('[NOTE-33] one slash too many after the chord is named: %j', (bar, suggestion) => {
    expect(problemsOf(`| ${bar} |`)).toMatchObject([
      {
        kind: 'too-many-pulses',
        words: 'One slash too many: the chord is the first pulse.',
        suggestion,
      },
    ]);
    expect(lastCells(`| ${bar} |`)).toBe('Am7@0+4');
  });
});

describe('tokens that are unknown', () => {
  it('[NOTE-34] take their time and stay as typed, so that nothing else is shifted', () => {
    expect(shortCells('| C X7 | Hm7 / F / | G |')).toEqual(['C@0+2 ?X7@2+2', '?Hm7@0+2 F@2+2', 'G@0+4']);
    expect(shortProblems('| C X7 | Hm7 / F / | G |')).toEqual(['unknown-chord 1:5', 'unknown-chord 1:10']);
    expect(printed('| C X7 | Hm7 / F / |')).toBe('| C X7      | Hm7 / F / |\n');
  });

  it.each([
    ['am7', 'Am7'],
    ['<bb7', '<Bb7'],
    ['C^7', 'Cmaj7'],
    ['Cj7', 'Cmaj7'],
    ['Ch7', 'Cm7b5'],
    ['C%7', 'Cm7b5'],
    ['C7,', 'C7'],
    ['Dm7G7', 'Dm7 G7'],
    ['Dm7///', 'Dm7 ///'],
    ['C/g', 'C/G'],
    ['/g', '/G'],
    ['rrr', 'r r r'],
    ['.', '/'],
    ['-', '/'],
  ])('[NOTE-34] are asked about: %s', (token, suggestion) => {
    const [problem] = problemsOf(`| ${token} |`);
    expect(problem).toMatchObject({ kind: 'unknown-chord', suggestion, line: 1, column: 3 });
    expect(problem?.words).toContain(`${suggestion}?`);
  });

  it('[NOTE-34] have no suggestion where nobody can know', () => {
    for (const token of ['Zorch', ',,', '…']) {
      expect(problemsOf(`| ${token} |`)[0]).not.toHaveProperty('suggestion');
    }
    expect(problemsOf(`| ${'C'.repeat(5000)} |`)).toHaveLength(1);
  });
});

describe('what goes on', () => {
  it('[NOTE-35] a slash first in a bar: the chord before', () => {
    expect(shortCells('| C / / / | / / F / |\n| / / / G |\n[B]\n| //// |')).toEqual([
      'C@0+4',
      '~C@0+2 F@2+2',
      '~F@0+3 G@3+1',
      '~G@0+4',
    ]);
  });

  it('[NOTE-35] after a rest it is struck anew', () => {
    expect(shortCells('| C r / r | / / / / |')).toEqual(['C@0+1 rest@1+1 C@2+1 rest@3+1', 'C@0+4']);
    expect(shortCells('| C | r | | D |')).toEqual(['C@0+4', 'rest@0+4', 'C@0+4', 'D@0+4']);
  });

  it('[NOTE-35] into a second ending: the chord before the first', () => {
    expect(shortCells('|: C |1. F :|2. / / G / |')).toEqual(['C@0+4', 'F@0+4', '~C@0+2 G@2+2']);
    expect(shortCells('|: C |1. F | D :|2. | | G ||')[3]).toBe('~C@0+4');
    expect(shortCells('|: C |1. F :|2. G || / / A / |')[3]).toBe('~G@0+2 A@2+2');
  });

  it('[NOTE-35] without a chord before it is reported', () => {
    expect(shortProblems('| / / C / |')).toEqual(['slash-without-chord 1:3']);
    expect(lastCells('| / / C / |')).toBe('none@0+2 C@2+2');
  });

  it('[NOTE-36] a lone bass: the same chord over it', () => {
    expect(lastCells('| Cm7 /Bb |')).toBe('Cm7@0+2 Cm7/Bb@2+2');
    expect(shortCells('| C/E | /G / /A♭ / |')[1]).toBe('C/G@0+2 C/A♭@2+2');
    expect(lastCells('| C6/9 /G |')).toBe('C6/9@0+2 C6/9/G@2+2');
    expect(lastCells('| C </G |')).toBe('C@0+2 <C/G@2+2');
    expect(problemsOf('| Cm7 /Bb | C6/9 /G | C/E | Am7/G |')).toEqual([]);
    expect(shortProblems('| /G |\n| N.C. /G |')).toEqual([
      'bass-without-chord 1:3',
      'bass-without-chord 2:8',
    ]);
    expect(lastCells('| /G |')).toBe('?/G@0+4');
  });
});

describe('repeat signs', () => {
  it('[NOTE-37] % is the bar before, %% the bar two before', () => {
    expect(shortCells('| Dm7 | G7 | %% | %% | % |')).toEqual(
      ['Dm7', 'G7', 'Dm7', 'G7', 'G7'].map((chord) => `${chord}@0+4`),
    );
    expect(musicOf('| Dm7 | G7 | %% | %% | % |').map(({ repeats }) => repeats)).toEqual([
      undefined,
      undefined,
      2,
      2,
      1,
    ]);
  });

  it('[NOTE-37] repeat chords, rests and pushes, not words', () => {
    const text = '| "fill" C r <F / | "loud" % |';
    expect(shortCells(text)[1]).toBe('C@0+1 rest@1+1 <F@2+2');
    expect(musicOf(text)[1]?.words).toEqual([{ text: 'loud', atPulse: 0 }]);
    expect(problemsOf(text)).toEqual([]);
  });

  it('[NOTE-37] a chord that went on is struck where something else sounds now', () => {
    expect(shortCells('| C | / / F / | % |')[2]).toBe('C@0+2 F@2+2');
    expect(shortCells('| C | | % |').slice(1)).toEqual(['~C@0+4', '~C@0+4']);
  });

  it('[NOTE-37] alone in its bar, and %% in both bars', () => {
    expect(shortProblems('| C | % F |')).toEqual(['repeat-not-alone 1:7']);
    expect(lastCells('| C | % F |')).toBe('?%@0+2 F@2+2');
    expect(shortProblems('| Dm7 | G7 | %% | C |')).toEqual(['lone-double-repeat 1:14']);
    expect(shortProblems('| Dm7 | G7 | %% | %% |\n| %% | "x" %% |')).toEqual([]);
  });

  it('[NOTE-38] do not look past the start of their section or ending', () => {
    expect(shortProblems('[A]\n| C |\n[B]\n| % |')).toEqual(['nothing-to-repeat 4:3']);
    expect(lastCells('[A]\n| C |\n[B]\n| % |')).toBe('~C@0+4');
    expect(shortProblems('|: C | D |1. % | % :|2. F | % |')).toEqual(['nothing-to-repeat 1:14']);
    expect(shortProblems('|: C |1. F :|2. % |')).toEqual(['nothing-to-repeat 1:17']);
    expect(shortProblems('[A]\n| C | %% | %% |')).toEqual(['nothing-to-repeat 2:7']);
    expect(problemsOf('|: C |1. F :|2. G || % |')).toEqual([]);
  });

  it('[NOTE-38] the bar repeated should be as long', () => {
    expect(shortProblems('| C F | "3/4" % |')).toEqual(['repeat-of-other-length 1:15']);
    expect(shortCells('| C F | "3/4" % |')[1]).toBe('C@0+2 F@2+1');
    expect(shortCells('time: 3/4\n| C F G | "4/4" % |')[1]).toBe('C@0+1 F@1+1 G@2+2');
  });
});

describe('rests, no chord, pushes', () => {
  it.each(['N.C.', 'NC', 'n.c.', 'n.c', 'nc'])('[NOTE-39] %s is no chord, which goes on like one', (sign) => {
    expect(shortCells(`| C | ${sign} | / / F / |`)).toEqual(['C@0+4', 'none@0+4', '~none@0+2 F@2+2']);
    expect(problemsOf(`| C | ${sign} |`)).toEqual([]);
  });

  it('[NOTE-40] r is one pulse of rest, alone the whole bar', () => {
    expect(shortCells('| r | C r r D | "fill" r |')).toEqual([
      'rest@0+4',
      'C@0+1 rest@1+2 D@3+1',
      'rest@0+4',
    ]);
    expect(shortCells('time: 6/8\n| r | C r |')).toEqual(['rest@0+2', 'C@0+1 rest@1+1']);
  });

  it('[NOTE-41] a push keeps its place in the bar', () => {
    expect(lastCells('| Eb7 / <Bb7 / |')).toBe('Eb7@0+2 <Bb7@2+2');
    expect(lastCells('| <Eb7 |')).toBe('<Eb7@0+4');
    expect(lastCells('| C <F |')).toBe('C@0+2 <F@2+2');
    expect(shortProblems('| < Bb7 | <r |')).toEqual(['unknown-chord 1:3', 'unknown-chord 1:11']);
  });
});
