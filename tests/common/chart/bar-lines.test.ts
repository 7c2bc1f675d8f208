import { describe, expect, it } from 'vitest';
import { readChart } from '../../../common/chart/read-chart.ts';
import { barsOf, printed, problemsOf, shortBars, shortCells, shortProblems } from './read-for-test.ts';

describe('bar lines', () => {
  it.each([
    ['| C | F |', ['C', 'F']],
    ['C | F', ['C', 'F']],
    ['C |', ['C']],
    ['| C || F |]', ['C ||', 'F |]']],
    ['|| C | F ||', ['C', 'F ||']],
    ['|C|F|', ['C', 'F']],
    ['| C\n| F', ['C', 'F']],
    ['| C |\n|| F |', ['C ||', 'F']],
    ['| C |\n:| F |', ['C :|', 'F']],
    ['| C ||\n|| F |', ['C ||', 'F']],
    ['| C |:\n| F :|', ['C', '|: F :|']],
    ['| C |1.\n| F :|', ['C', '1. F :|']],
    ['| C |\n|]', ['C |]']],
    ['| C |||', ['C ||']],
  ])('[NOTE-21] end bars and are supplied where they are missing: %j', (text, bars) => {
    expect(shortBars(text)).toEqual(bars);
  });

  it.each([
    ['| C | | F |', ['C', '', 'F'], ['empty-bar 1:6']],
    ['| | C |', ['', 'C'], ['empty-bar 1:2']],
    ['| C | | ||', ['C', '', '||'], ['empty-bar 1:6', 'empty-bar 1:8']],
    ['|', [''], ['empty-bar 1:1']],
    ['|: | C :|', ['|:', 'C :|'], ['empty-bar 1:1']],
    ['| C || ||', ['C ||', '||'], ['empty-bar 1:7']],
    ['| C | | |: F :|', ['C', '', '|: F :|'], ['empty-bar 1:6']],
    ['| C |:', ['C', '|:'], ['unclosed-repeat 1:5', 'empty-bar 1:5']],
  ] as const)('[NOTE-22] make an empty bar: %j', (text, bars, problems) => {
    expect(shortBars(text)).toEqual(bars);
    expect(shortProblems(text)).toEqual(problems);
    expect(shortBars(printed(text))).toEqual(shortBars(text));
  });

  it('[NOTE-22] the chord goes on through an empty bar', () => {
    expect(shortCells('| C7 | | F |')).toEqual(['C7@0+4', '~C7@0+4', 'F@0+4']);
    expect(shortCells('| | C7 |')[0]).toBe('none@0+4');
    expect(problemsOf('| C7 | | F |')[0]?.suggestion).toBe('%');
    expect(problemsOf('| | C7 |')[0]).not.toHaveProperty('suggestion');
  });

  it.each([
    ['|: C :| |: F :|', ['|: C :|', '|: F :|']],
    ['|: C :||: F :|', ['|: C :|', '|: F :|']],
    ['|: C :|: F :|', ['|: C :|', '|: F :|']],
    ['| C || |: F :|', ['C ||', '|: F :|']],
    ['| C ||: F :|', ['C ||', '|: F :|']],
    ['| C | |: F :|', ['C', '|: F :|']],
    ['|: C |1. F :| |2. G |', ['|: C', '1. F :|', '2. G']],
    ['|: C :| | F |', ['|: C :|', 'F']],
    ['|: C :|x3 | F |', ['|: C :|x3', 'F']],
    ['|: C :|| F |', ['|: C :|', 'F']],
    ['|: C :|]', ['|: C :|']],
  ])('[NOTE-23] nothing stands between signs that touch: %j', (text, bars) => {
    expect(shortBars(text)).toEqual(bars);
    expect(problemsOf(text)).toEqual([]);
    expect(shortBars(printed(text))).toEqual(bars);
  });

  it('[NOTE-23] an empty bar behind a closing sign is printed so that it stays one', () => {
    const text = '|: C :| | | F |';
    expect(shortBars(text)).toEqual(['|: C :|', '', 'F']);
    expect(shortBars(printed(text))).toEqual(['|: C :|', '', 'F']);
  });

  it('[NOTE-24] stand in columns that long bars do not widen', () => {
    expect(printed('| C | Dm7 G7 |\n| "a long word over the bar" F | G |')).toBe(
      '| C      | Dm7 G7 |\n| "a long word over the bar" F | G      |\n',
    );
  });
});

describe('sections', () => {
  it('[NOTE-25] keep both of one name and report the second', () => {
    const text = '[A]\n| C |\n[A]\n| F |\n[A2]\n| G |\n';
    expect(printed(text)).toBe(text);
    expect(
      problemsOf(text).map(({ kind, line, column, suggestion }) => [kind, line, column, suggestion]),
    ).toEqual([['section-twice', 3, 1, '[A3]']]);
    expect(shortProblems('[A]\n| C |\n[a]\n| F |')).toEqual([]);
  });

  it('[NOTE-25] music before any is a section without a name', () => {
    const { chart } = readChart('| C |\n[A]\n| F |');
    expect(chart.sections.map(({ label }) => label)).toEqual(['', 'A']);
    expect(printed('[]\n| C |')).toBe('| C |\n');
    expect(shortProblems('[A]\n| C |\n[]\n| F |')).toEqual(['section-without-name 3:1']);
    expect(printed('[A]\n| C |\n[ ]\n| F |')).toBe('[A]\n| C |\n[]\n| F |\n');
  });

  it('[NOTE-25] without bars are reported', () => {
    expect(shortProblems('[A]\n| C |\n  [B]\n')).toEqual(['empty-section 3:3']);
  });
});

describe('repeats', () => {
  it.each([
    [':|', ':|'],
    [':|x3', ':|x3'],
    [':| x3', ':|x3'],
    [':|3x', ':|x3'],
    [':| 3x', ':|x3'],
    [':|x 3', ':|x3'],
    [':|X3', ':|x3'],
    [':|×3', ':|x3'],
    [':|x03', ':|x3'],
    [':| x3 | F |', ':|x3'],
    [':|x2', ':|x2'],
  ])('[NOTE-26] are played as often as %j says', (sign, right) => {
    const text = `|: C | G ${sign}`;
    expect(barsOf(text)[1]?.right).toBe(right);
    expect(problemsOf(text)).toEqual([]);
    expect(barsOf(printed(text))[1]?.right).toBe(right);
  });

  it('[NOTE-26] less than twice or very often are reported and printed as they were', () => {
    expect(problemsOf('|: C :|x1').map(({ kind, suggestion }) => [kind, suggestion])).toEqual([
      ['repeat-times', ':|'],
    ]);
    expect(shortProblems('|: C :|x100')).toEqual(['repeat-times 1:6']);
    expect(printed('|: C :|x100')).toBe('|: C :|x100\n');
  });

  it('[NOTE-26] an x that is part of a token is none', () => {
    expect(shortBars('|: C :| x3y |')).toEqual(['|: C :|', 'x3y']);
    expect(shortBars(printed('|: C :| | x3 F |'))).toEqual(['|: C :|', 'x3 F']);
  });

  it('[NOTE-27] that are not closed before their section ends are reported', () => {
    expect(shortProblems('[A]\n| C |: F |\n[B]\n| G :|')).toEqual(['unclosed-repeat 2:5']);
    expect(problemsOf('|: C |: F :| G :|')).toEqual([]);
    expect(problemsOf('| C | F :| G :|')).toEqual([]);
    expect(shortProblems('|: C | |: F :|')).toEqual(['unclosed-repeat 1:1']);
  });

  it('[NOTE-27] a closing sign with nothing before it in its section is an empty bar', () => {
    expect(shortBars('[A]\n:| C |')).toEqual([':|', 'C']);
    expect(shortProblems('[A]\n:| C |')).toEqual(['empty-bar 2:1']);
  });
});

describe('endings', () => {
  it.each([
    ['|1.', '1.'],
    ['|1.2.', '1.2.'],
    ['|1,2.', '1.2.'],
    ['|1.,2.', '1.2.'],
    ['|1-2.', '1.2.'],
    ['| 1.', '1.'],
    ['|1.2.3.', '1.2.3.'],
  ])('[NOTE-28] are written right after a bar line: %j', (sign, ending) => {
    const text = `|: C ${sign} F :|`;
    expect(barsOf(text).map((bar) => bar.ending)).toEqual(['', ending]);
    expect(barsOf(text)[1]?.text).toBe('F');
    expect(barsOf(printed(text))[1]?.ending).toBe(ending);
  });

  it('[NOTE-28] stand after any sign', () => {
    const text = '|: C |1. F :|2. G :|x2 3. A ||';
    expect(shortBars(text)).toEqual(['|: C', '1. F :|', '2. G :|x2', '3. A ||']);
    expect(printed(text)).toBe('|: C |1. F :|2. G :|x2 3. A ||\n');
    expect(shortBars('|:1. C :|')).toEqual(['|: 1. C :|']);
    expect(shortBars('1. C :|2. F')).toEqual(['1. C :|', '2. F']);
  });

  it.each([
    '|: C |1. F :|2. G |',
    '|: C |1. F :|2. G :|',
    '|: C |1. F :|2. G | A | B ||',
    '|: C |1.2. F :|3. G |',
    '|: C |1.3. F :|2.4. G :| A |',
    '|: C |1. F :| G |',
    '|: C |1. F :|2. G |: C |1. F :|2. G |',
    '| C |1. F :|2. G || D |1. F :|2. G |',
  ])('[NOTE-28] are in order: %j', (text) => expect(problemsOf(text)).toEqual([]));

  it.each([
    ['|: C |1. F :|1. G |', 'ending-twice 1:14', '|2.'],
    ['|: C |1.1. F :|2. G |', 'ending-twice 1:7', '|2.'],
    ['|: C |1. F :|3. G |', 'ending-missing 1:14', undefined],
    ['|: C |2. F :|', 'ending-missing 1:7', undefined],
    ['|: C |0.1. F :|2. G|', 'ending-missing 1:7', undefined],
    ['| C |1. F |2. G |', 'ending-without-repeat 1:6', undefined],
    ['| C |1. F |', 'ending-without-repeat 1:6', undefined],
    ['|: C |1. F || G :|', 'ending-without-repeat 1:7', undefined],
  ])('[NOTE-28] are reported: %j', (text, problem, suggestion) => {
    expect(shortProblems(text)).toEqual([problem]);
    expect(problemsOf(text)[0]?.suggestion).toBe(suggestion);
  });

  it('[NOTE-28] a number without its dot is a token, and what was meant is asked', () => {
    expect(problemsOf('|: C |1 F :|').map(({ kind, suggestion }) => [kind, suggestion])).toEqual([
      ['unknown-chord', '|1.'],
    ]);
  });
});
