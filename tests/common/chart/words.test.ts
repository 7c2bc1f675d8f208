import { describe, expect, it } from 'vitest';
import type { Mark, Word } from '../../../common/chart/bar-music.ts';
import { countPulses, readCounts } from '../../../common/chart/read-counts.ts';
import { COMMON_TIME, readMetre } from '../../../common/chart/read-metre.ts';
import {
  lastCells,
  musicOf,
  printed,
  problemsOf,
  shortBars,
  shortCells,
  shortProblems,
} from './read-for-test.ts';

const wordsIn = (text: string): readonly Word[] => musicOf(text).at(-1)?.words ?? [];
const metre = (text: string) => readMetre(text) ?? COMMON_TIME;

describe('words over the bar', () => {
  it('[NOTE-42] stand at the token after them', () => {
    expect(wordsIn('| "a" C / "b" "c" F "d" / |').map(({ text, atPulse }) => [text, atPulse])).toEqual([
      ['a', 0],
      ['b', 2],
      ['c', 2],
      ['d', 3],
    ]);
    expect(wordsIn('| C "x" F |')).toEqual([{ text: 'x', atPulse: 2 }]);
    expect(wordsIn('| C F "x" |')).toEqual([{ text: 'x', atPulse: 2 }]);
    expect(wordsIn('| "only words" |')).toEqual([{ text: 'only words', atPulse: 0 }]);
    expect(wordsIn('| C / / / / "late" F |')).toEqual([{ text: 'late', atPulse: 3 }]);
  });

  it('[NOTE-42] may hold a bar line, and stay as they are typed', () => {
    expect(shortBars('| "one | two" C | F |')).toEqual(['"one | two" C', 'F']);
    expect(printed('| "Oh – the  tide" C |')).toBe('| "Oh – the  tide" C |\n');
  });

  it.each([
    'no cymbal tail',
    'Bea',
    'ev’ry morning',
    'louder: much louder',
    'Tomas: fill',
    'key change',
    '',
    'fine',
  ])('[NOTE-42] that do not act are a note: %j', (words) => {
    expect(problemsOf(`| "${words}" C |`)).toEqual([]);
    expect(wordsIn(`| "${words}" C |`)).toEqual(words === '' ? [] : [{ text: words, atPulse: 0 }]);
  });

  it.each<[string, Mark]>([
    ['break', { kind: 'break', bars: 1 }],
    ['break 2', { kind: 'break', bars: 2 }],
    ['Break  2', { kind: 'break', bars: 2 }],
    ['stop-time', { kind: 'stopTime' }],
    ['stop–time', { kind: 'stopTime' }],
    ['hits 1 2& 4', { kind: 'hits', counts: '1 2& 4' }],
    ['kicks 2& 4', { kind: 'kicks', counts: '2& 4' }],
    ['fill', { kind: 'fill' }],
    ['hold', { kind: 'hold' }],
    ['short', { kind: 'short' }],
    ['let ring', { kind: 'letRing' }],
    ['on cue', { kind: 'onCue' }],
    ['3/4', { kind: 'metre', metre: metre('3/4') }],
    ['5/4 (3+2)', { kind: 'metre', metre: metre('5/4 (3+2)') }],
    ['key G', { kind: 'key', key: 'G' }],
    ['key Eb minor', { kind: 'key', key: 'Eb minor' }],
    ['tempo 132', { kind: 'tempo', bpm: 132 }],
    ['rit', { kind: 'rit' }],
    ['rit.', { kind: 'rit' }],
    ['accel', { kind: 'accel' }],
    ['a tempo', { kind: 'aTempo' }],
    ['swing', { kind: 'feel', feel: 'swing' }],
    ['latin', { kind: 'feel', feel: 'latin' }],
    ['in 2', { kind: 'feel', feel: 'in 2' }],
    ['in 4', { kind: 'feel', feel: 'in 4' }],
    ['half-time', { kind: 'feel', feel: 'half-time' }],
    ['double-time', { kind: 'feel', feel: 'double-time' }],
    ['p', { kind: 'dynamic', sign: 'p' }],
    ['mf', { kind: 'dynamic', sign: 'mf' }],
    ['ff', { kind: 'dynamic', sign: 'ff' }],
    ['cresc', { kind: 'dynamic', sign: 'cresc' }],
    ['dim', { kind: 'dynamic', sign: 'dim' }],
    ['tacet 8', { kind: 'tacet', bars: 8 }],
    ['segno', { kind: 'segno' }],
    ['To Coda', { kind: 'toCoda' }],
  ])('[NOTE-43] act: %j', (words, mark) => {
    expect(problemsOf(`| "${words}" C |`)).toEqual([]);
    expect(wordsIn(`| "${words}" C |`)[0]?.mark).toEqual(mark);
  });

  it.each([
    ['brake', 'break'],
    ['brake 2', 'break 2'],
    ['breaks', 'break'],
    ['stoptime', 'stop-time'],
    ['Stop Time', 'stop-time'],
    ['pickup', 'pick-up'],
    ['sengo', 'segno'],
    ['half time', 'half-time'],
    ['letring', 'let ring'],
    ['hit 1 2& 4', 'hits 1 2& 4'],
    ['kick 2&', 'kicks 2&'],
    ['fil', 'fill'],
    ['temop 132', 'tempo 132'],
    ['last x: brake', 'break'],
    ['filll', 'fill'],
    ['fills', 'fill'],
    ['hodl', 'hold'],
    ['hld', 'hold'],
    ['brek', 'break'],
    ['swign', 'swing'],
    ['tacit', 'tacet'],
    ['balad', 'ballad'],
    ['shufle', 'shuffle'],
    ['shiffle', 'shuffle'],
    ['strait 8ths', 'straight 8ths'],
    ['douple time', 'double-time'],
  ])('[NOTE-44] near misses are asked about and do not act: %j', (words, meant) => {
    const [problem] = problemsOf(`| "${words}" C |`);
    expect(problem).toMatchObject({ kind: 'near-miss', line: 1, column: 3, suggestion: `"${meant}"` });
    expect(problem?.words).toContain(`${meant}?`);
    expect(wordsIn(`| "${words}" C |`)[0]).not.toHaveProperty('mark');
  });

  it.each(
    [
      'Bill full fall fell file told cold gold old sold held hole frill',
      'sing wing ring sting shot short-ish sport boss satin bread beak Baker licks picks kiss funky flunk hats his sits',
      'ruffle salad accent temp fit bit',
    ].flatMap((words) => words.split(' ')),
  )('[NOTE-44] words that are words of their own are a note to the players: %s', (word) => {
    expect(problemsOf(`| "${word}" C |`)).toEqual([]);
    expect(problemsOf(`| "${word} comes in" C |`)).toEqual([]);
    expect(problemsOf(`| "solos: ${word}" C |`)).toEqual([]);
  });

  it.each([
    ['break 0', 'bars-out-of-range'],
    ['tacet 1000', 'bars-out-of-range'],
    ['tempo 500', 'bad-tempo'],
    ['key H', 'unknown-key'],
    ['key eb minor', 'unknown-key'],
    ['key', 'unknown-key'],
    ['hits', 'bad-counts'],
    ['kicks 2x', 'bad-counts'],
    ['4/5', 'bad-metre'],
    ['5/4 (3+3)', 'bad-metre'],
    ['hits 1 5', 'counts-out-of-bar'],
    ['hits 3 1', 'counts-out-of-bar'],
  ])('[NOTE-44] known words with a wrong figure are reported: %j', (words, kind) => {
    expect(shortProblems(`| C | "${words}" F |`)).toEqual([`${kind} 1:7`]);
    expect(musicOf(`| C | "${words}" F |`)).toHaveLength(2);
  });
});

describe('counts', () => {
  it('[NOTE-45] are read the trade’s way', () => {
    expect(readCounts('1 e & a')).toBe('1 1e 1& 1a');
    expect(readCounts('1 2& 4a')).toBe('1 2& 4a');
    expect(readCounts('1,2 &,4A')).toBe('1 2 2& 4a');
    expect(readCounts('1&2&')).toBe('1& 2&');
    for (const text of ['', '&', '1b', 'one', '1.5']) expect(readCounts(text)).toBeNull();
  });

  it('[NOTE-45] have their place in the bar', () => {
    expect(countPulses('1 1e 1& 1a 4&', COMMON_TIME)).toEqual([0, 0.25, 0.5, 0.75, 3.5]);
    expect(countPulses('1 1& 1a 2', metre('6/8'))).toEqual([0, 1 / 3, 2 / 3, 1]);
    for (const counts of ['5', '0', '2 1', '1 1']) expect(countPulses(counts, COMMON_TIME)).toBeNull();
    expect(countPulses('1e', metre('6/8'))).toBeNull();
  });

  it('[NOTE-45] as many chords as counts: each on its count', () => {
    expect(lastCells('| "kicks 1 2& 4a" C7 F7 Bb7 |')).toBe('C7@0+1.5 F7@1.5+2.25 Bb7@3.75+0.25');
    expect(lastCells('| G | "kicks 2& 4" C7 F7 |')).toBe('~G@0+1.5 C7@1.5+1.5 F7@3+1');
    expect(lastCells('| "hits 1 2" C7 F7 |')).toBe('C7@0+1 F7@1+3');
    expect(problemsOf('| "kicks 1 2& 4a" C7 F7 Bb7 |')).toEqual([]);
    expect(lastCells('| "kicks 1 2& 4a" C7 F7 |')).toBe('C7@0+2 F7@2+2');
    expect(lastCells('| "kicks 2& 4" C7 / F7 / |')).toBe('C7@0+2 F7@2+2');
  });
});

describe('words that change bars', () => {
  it('[NOTE-46] a metre holds to the end of its section', () => {
    const music = musicOf('[A]\n| C | "3/4" C | F |\n[B]\n| G |');
    expect(music.map(({ metre: { text }, pulses }) => [text, pulses])).toEqual([
      ['4/4', 4],
      ['3/4', 3],
      ['3/4', 3],
      ['4/4', 4],
    ]);
    expect(lastCells('| "5/4 (2+3)" C F |')).toBe('C@0+2 F@2+3');
    expect(musicOf('| "2nd x: 3/4" C |')[0]?.pulses).toBe(4);
  });

  it('[NOTE-46] so does a key', () => {
    const keys = musicOf('key: C\n[A]\n| C | "key G" G | D |\n[B]\n| C |').map(({ key }) => key);
    expect(keys).toEqual(['C', 'G', 'G', 'C']);
  });

  it('[NOTE-47] tacet is one bar here, with a mark of many', () => {
    const [first, tacet, last] = musicOf('| C | "tacet 8" | / / F / |');
    expect([first?.pulses, tacet?.pulses, last?.pulses]).toEqual([4, 4, 4]);
    expect(tacet?.words).toEqual([{ text: 'tacet 8', atPulse: 0, mark: { kind: 'tacet', bars: 8 } }]);
    expect(shortCells('| C | "tacet 8" | / / F / |').slice(1)).toEqual(['rest@0+4', 'C@0+2 F@2+2']);
    expect(problemsOf('| C | "tacet 8" |')).toEqual([]);
    expect(lastCells('| "tacet 4" Am7 |')).toBe('Am7@0+4');
  });

  it('[NOTE-48] a pick-up is shorter than a bar, each token one pulse', () => {
    const [pickUp, bar] = musicOf('| "pick-up" r G7 | C |');
    expect([pickUp?.pickUp, pickUp?.pulses, bar?.pickUp, bar?.pulses]).toEqual([true, 2, false, 4]);
    expect(shortCells('| "pick-up" r G7 | C |')[0]).toBe('rest@0+1 G7@1+1');
    expect(shortCells('| "pick-up" G7 | C |')[0]).toBe('G7@0+1');
    expect(musicOf('[A]\n| C |\n[B]\n| "pick-up" G7 // | C |').map((one) => one.pulses)).toEqual([4, 3, 4]);
    expect(problemsOf('[A]\n| C |\n[B]\n| "pick-up" G7 // | C |')).toEqual([]);
  });

  it.each([
    ['| C | "pick-up" G7 |', 'pick-up-not-first 1:7'],
    ['| "pick-up" G7 / / / |', 'pick-up-length 1:3'],
    ['| "pick-up" |', 'pick-up-length 1:3'],
  ])('[NOTE-48] is else reported and an ordinary bar: %j', (text, problem) => {
    expect(shortProblems(text)).toEqual([problem]);
    expect(musicOf(text).every(({ pickUp, pulses }) => !pickUp && pulses === 4)).toBe(true);
  });
});

describe('reaches', () => {
  const ROAD = 'road:\n  In: A\n  Head: A\n  Blow: A open\n';

  it.each([
    ['head: break 2', { leg: 'Head' }, 'break 2'],
    ['Solos: fill', { leg: 'Solos' }, 'fill'],
    ['head out: hold', { leg: 'Head out' }, 'hold'],
    ['1st x: softly', { only: 1 }, 'softly'],
    ['2nd x only: fill', { only: 2 }, 'fill'],
    ['3rd time: fill', { only: 3 }, 'fill'],
    ['last x: hold', { last: true }, 'hold'],
  ])('[NOTE-49] %j', (words, reach, text) => {
    expect(wordsIn(`| "${words}" C |`)).toMatchObject([{ text, reach }]);
    expect(problemsOf(`| "${words}" C |`)).toEqual([]);
  });

  it('[NOTE-49] are the legs of the road map where one is written', () => {
    expect(wordsIn(`[A]\n| "blow: fill" C |\n${ROAD}`)[0]?.reach).toEqual({ leg: 'Blow' });
    expect(wordsIn(`[A]\n| "solos: fill" C |\n${ROAD}`)).toEqual([{ text: 'solos: fill', atPulse: 0 }]);
    expect(shortProblems(`[A]\n| "solos: fill" C |\n${ROAD}`)).toEqual(['unknown-reach 2:3']);
  });

  it.each([
    ['solo: fill', '"solos: fill"'],
    ['x2: break', '"2nd x: break"'],
    ['2 x: break', '"2nd x: break"'],
  ])('[NOTE-49] a near miss is asked about: %j', (words, suggestion) => {
    expect(problemsOf(`| "${words}" C |`)).toMatchObject([{ kind: 'unknown-reach', suggestion }]);
    expect(wordsIn(`| "${words}" C |`)).toEqual([{ text: words, atPulse: 0 }]);
  });
});

describe('quotes that are not closed', () => {
  it.each([
    ['| "break C7 | F | G |', ['"break C7', 'F', 'G'], 'unclosed-quote 1:3', '"break" C7'],
    ['| C "fill | "x" F | G |', ['C "fill', '"x" F', 'G'], 'unclosed-quote 1:5', '"fill"'],
    ['|: C | "loud now :|', ['|: C', '"loud now :|'], 'unclosed-quote 1:8', '"loud now"'],
    ['| C | F "', ['C', 'F "'], 'unclosed-quote 1:9', '""'],
  ])('[NOTE-50] are reported, and take no more than their bar: %j', (text, bars, problem, suggestion) => {
    expect(shortBars(text)).toEqual(bars);
    expect(shortProblems(text)).toEqual([problem]);
    expect(problemsOf(text)[0]?.suggestion).toBe(suggestion);
  });

  it('[NOTE-50] [NOTE-5] stay open when printed, and do not act', () => {
    expect(printed('|  "break 2  | F |')).toBe('| "break 2 | F        |\n');
    expect(wordsIn('| "break 2 |')).toEqual([{ text: 'break 2', atPulse: 0 }]);
  });
});
