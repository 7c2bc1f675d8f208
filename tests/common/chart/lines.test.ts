import { describe, expect, it } from 'vitest';
import { readChart } from '../../../common/chart/read-chart.ts';
import { printed, problemsOf, shortBars, shortProblems } from './read-for-test.ts';

const SLOW_FERRY = `title: Slow Ferry
by: Harbour Street Five
key: Eb blues
time: 4/4
tempo: 108
feel: straight 16ths
count: 2

[A]
| Eb7   | %     | Eb7   | %     |
| Ab7   | Adim7 | Eb7   | C7alt |
[B]
| Fm7   | Bb7   | Fm7   | Bb7   |
| Gm7b5 | C7b9  | "break" Fm7 r r r | "fill" Eb7 / <Bb7 / |]

road:
  Head: A B x2
  Solos: A B open "guitar, tenor"
  Head out: A B
  Tag: last 4 x3
`;

describe('a whole chart', () => {
  it('[NOTE-5] [NOTE-24] is printed as it was tidily typed', () => {
    expect(problemsOf(SLOW_FERRY)).toEqual([]);
    expect(printed(SLOW_FERRY)).toBe(SLOW_FERRY);
  });

  it('[NOTE-5] is tidied: blanks, columns, order and capitals of header words, the road map last', () => {
    const text = 'road:\nHead:  A   x2\n\n\nTEMPO:108\nTitle:Low   Tide\n[ A ]   C|F   G|\n';
    expect(printed(text)).toBe(
      'title: Low   Tide\ntempo: 108\n\n[A]\n| C   | F G |\n\nroad:\n  Head: A x2\n',
    );
  });

  it('[NOTE-24] keeps its lines as phrases, however long or short', () => {
    const bars = readChart('| C | F |\n| G |\n\n| A | B | C | D | E | F | G |').chart.sections[0]?.bars;
    expect(bars?.map(({ lineEnd }) => lineEnd)).toEqual(
      [0, 1, 1, 0, 0, 0, 0, 0, 0, 1].map((end) => end === 1),
    );
    expect(printed('| C | F |\n\n\n| G |')).toBe('| C | F |\n| G |\n');
  });
});

describe('lines', () => {
  it('[NOTE-11] are told apart in order: blank, section, music, road map, header, else kept', () => {
    const { chart } = readChart(
      'title: x\n[A | B] | C |\ntempo: 9 | F |\nroad:\n[title: y]\nHead: A\nand so on',
    );
    expect(chart.sections.map(({ label, bars }) => [label, bars.map(({ text }) => text)])).toEqual([
      ['A | B', ['C', 'tempo: 9', 'F']],
      ['title: y', []],
    ]);
    expect(chart.head).toEqual({ title: 'x' });
    expect(chart.lines.map(({ text }) => text)).toEqual(['Head: A', 'and so on', 'road:']);
  });

  it('[NOTE-11] a bar line in quotes makes no music', () => {
    const { chart } = readChart('title: "Ebb | Flow"\nnote: see "a | b"\nroad:\n  Head: A "in | out"');
    expect(chart.sections).toEqual([]);
    expect(chart.head.title).toBe('"Ebb | Flow"');
    expect(chart.road[0]?.words).toBe('in | out');
  });

  it('[NOTE-11] bars, and whatever else, may follow on the line of a section', () => {
    expect(printed('[A] | C | F |\n[B] C | F\n[C] loud')).toBe('[A]\n| C | F |\n[B]\n| C | F |\n[C]\nloud\n');
  });

  it('[NOTE-12] a remark stays in its place and is not reported', () => {
    const text = `note: first
title: Low Tide
Note: under the title

[A]
note: under the name
| C | F |
NOTE: under the line
| G |

road:
  note: in the road map
  Head: A
  note: at the end
`;
    expect(problemsOf(text)).toEqual([]);
    expect(printed(text)).toBe(text);
  });

  it('[NOTE-13] an unreadable line stays in its place and is reported', () => {
    const text = 'what is this\ntitle: Low Tide\nor this?\n\n[A]\nDm7 G7\n| C |\n[B\n';
    expect(printed(text)).toBe(text);
    expect(
      problemsOf(text).map(({ kind, line, column, suggestion }) => [kind, line, column, suggestion]),
    ).toEqual([
      ['unreadable-line', 1, 1, 'note: what is this'],
      ['unreadable-line', 3, 1, 'note: or this?'],
      ['unreadable-line', 6, 1, '| Dm7 G7 |'],
      ['unreadable-line', 8, 1, '[B]'],
    ]);
  });
});

describe('header', () => {
  it('[NOTE-14] has seven words, capitals aside, in any order', () => {
    const { chart, problems } = readChart(
      'COUNT: 1\nFeel: funk\ntempo : 90\ntime: 3/4\nkey: F\nby: Ines\ntitle: Low Tide: again\n| C |',
    );
    expect(problems).toEqual([]);
    expect(chart.head).toEqual({
      title: 'Low Tide: again',
      by: 'Ines',
      key: 'F',
      time: '3/4',
      tempo: '90',
      feel: 'funk',
      count: '1',
    });
    expect(problemsOf('title:\nkey:\ntempo:\ntime:\ncount:\n| C |')).toEqual([]);
  });

  it.each([
    ['{title: Low Tide}', 'title: Low Tide'],
    ['{titel : Low Tide }', 'title: Low Tide'],
    ['(tempo: 90)', 'tempo: 90'],
    ['{title: Low Tide (again)', 'title: Low Tide (again'],
    ['titel: Low Tide (again)', 'title: Low Tide (again)'],
  ])('[NOTE-15] what is meant by %s has no stray bracket', (line, meant) => {
    expect(problemsOf(`${line}\n| C |`)[0]?.suggestion).toBe(meant);
  });

  it('[NOTE-15] keeps unknown, second and late lines in place and reports them', () => {
    const text =
      'title: Low Tide\nmood: blue\nTitle: High Tide\ntepmo: 90\nkey: F\n\n[A]\n| C |\ntempo: 80\n';
    expect(printed(text)).toBe(text);
    expect(readChart(text).chart.head).toEqual({ title: 'Low Tide', key: 'F' });
    expect(problemsOf(text).map(({ kind, line, suggestion }) => [kind, line, suggestion])).toEqual([
      ['unknown-header', 2, 'note: mood: blue'],
      ['header-twice', 3, undefined],
      ['unknown-header', 4, 'tempo: 90'],
      ['header-too-late', 9, undefined],
    ]);
  });

  it('[NOTE-15] prints a second line below the first whatever the order was', () => {
    const text = 'key: F\ntitle: Low Tide\nkey: G\n';
    expect(printed(text)).toBe('title: Low Tide\nkey: F\nkey: G\n');
    expect(readChart(printed(text)).chart.head.key).toBe('F');
  });

  it.each(['C', 'Eb blues', 'F# minor', 'Bbm', 'C-', 'G maj', 'D minor blues', 'A dorian', 'B♭'])(
    '[NOTE-16] reads the key %s',
    (key) => expect(problemsOf(`key: ${key}\n| C |`)).toEqual([]),
  );

  it.each([
    ['key: eb blues', 'unknown-key 1:6', 'Eb blues'],
    ['  key:  H', 'unknown-key 1:9', undefined],
    ['tempo: 19', 'bad-tempo 1:8', undefined],
    ['tempo: 401', 'bad-tempo 1:8', undefined],
    ['tempo: about 120', 'bad-tempo 1:8', '120'],
    ['count: 9', 'bad-count 1:8', undefined],
    ['count: 2 bars', 'bad-count 1:8', '2'],
    ['time: 5/4 (3+3)', 'bad-metre 1:7', '5/4'],
    ['time: four', 'bad-metre 1:7', undefined],
    ['time: 4/5', 'bad-metre 1:7', undefined],
  ])('[NOTE-16] [NOTE-17] [NOTE-18] [NOTE-19] reports %j', (line, problem, suggestion) => {
    expect(shortProblems(`${line}\n| C |`)).toEqual([problem]);
    expect(problemsOf(`${line}\n| C |`)[0]?.suggestion).toBe(suggestion);
  });

  it('[NOTE-20] takes any words for title, by and feel', () => {
    expect(problemsOf('title: 12/8 or [so]')).toEqual([]);
    expect(problemsOf('feel: like rain\nby: nobody: yet\n| C |')).toEqual([]);
  });
});

describe('the road map', () => {
  it('[NOTE-51] takes each leg apart', () => {
    const { chart, problems } = readChart(`[A] | C |
road:
Head: A B x2
  Head out :  A   B A al Coda
  Solos: "guitar" A B open trade 4 "then tenor"
  Vamp: [Vamp] vamp
  Tag: last 4 x 3
  Blow: A trade 8 bars
  : A`);
    expect(problems).toEqual([]);
    expect(chart.road.map(({ name, sections, times, words }) => [name, sections, times, words])).toEqual([
      ['Head', 'A B', 'x2', ''],
      ['Head out', 'A B A al Coda', '', ''],
      ['Solos', 'A B', 'open trade 4', 'guitar then tenor'],
      ['Vamp', '[Vamp]', 'vamp', ''],
      ['Tag', 'last 4', 'x 3', ''],
      ['Blow', 'A', 'trade 8 bars', ''],
      ['', 'A', '', ''],
    ]);
  });

  it('[NOTE-51] keeps other lines in place; a header word at the margin above the music is the header’s', () => {
    const { chart } = readChart('road:\n  title: A\ntitle: Low Tide\n[A]\n| C |');
    expect(chart.head.title).toBe('Low Tide');
    expect(chart.road.map(({ name }) => name)).toEqual(['title']);
    const text = '[A]\n| C |\n\nroad:\n  then we go on\n  Head: A\n  and stop\n';
    expect(printed(text)).toBe(text);
    expect(shortProblems(text)).toEqual(['unreadable-road-line 5:3', 'unreadable-road-line 7:3']);
    expect(shortBars(text)).toEqual(['C']);
  });

  it('[NOTE-51] [NOTE-5] leaves words open that were left open', () => {
    const text = '[A]\n| C |\n\nroad:\n  Solos: A open "guitar\n  Head: A "one" "two\n';
    expect(shortProblems(text)).toEqual(['unclosed-quote 5:3', 'unclosed-quote 6:3']);
    expect(printed(text)).toBe(text);
  });

  it('[NOTE-52] is one, however often it is begun, and is reported where it is empty', () => {
    const twice = '[A] | C |\nroad:\n Head: A\nroad: Solos: A open';
    expect(problemsOf(twice)).toEqual([]);
    expect(printed(twice)).toBe('[A]\n| C |\n\nroad:\n  Head: A\n  Solos: A open\n');
    expect(printed('[A]\n| C |\nRoad:\n')).toBe('[A]\n| C |\n\nRoad:\n');
    expect(shortProblems('[A]\n| C |\nroad:')).toEqual(['empty-road 3:1']);
    expect(shortProblems('[A]\n| C |\nroad: A B')).toEqual(['unreadable-road-line 3:1']);
    expect(printed('[A]\n| C |\nroad: A B')).toBe('[A]\n| C |\n\nroad: A B\n');
  });
});
