import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bar, Chart } from '../../../common/chart/chart.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { DEMO_BAND } from '../../../common/demo/demo-band.ts';
import { type LostSpotOptions, lostSpots } from '../../../common/form/lost-spots/lost-spots.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { readKey } from '../../../common/theory/key.ts';
import { readingFor } from '../../../common/theory/transpose.ts';

const roadOf = (text: string) => unroll(readChart(text).chart).road;

/** Spots of the leg of that name (Solos) in a chart of these lines: kind, weight, where and the words. */
const spots = (text: string, name = 'Solos', options: LostSpotOptions = {}) => {
  const road = roadOf(text);
  const index = road.legs.findIndex((leg) => leg.name === name);
  const found = lostSpots(road, options)[index]?.spots;
  if (!found) throw new Error(`no leg ${name}`);
  return found;
};
const kinds = (text: string, name?: string): string[] => spots(text, name).map(({ kind }) => kind);
const only = (kind: string, text: string, name?: string) => {
  const [spot, ...others] = spots(text, name).filter((each) => each.kind === kind);
  if (!spot || others.length > 0) throw new Error(`${others.length + (spot ? 1 : 0)} spots of kind ${kind}`);
  return spot;
};

const chart = (key: string, ...lines: string[]): string => `key: ${key}\n\n[A]\n${lines.join('\n')}\n`;
const QUIET = '| Dm7 | G7 | Em7 | A7 |';

describe('the seam', () => {
  it('[LOST-1] counts the bars of one chord over the top and how they split', () => {
    const text = chart('C', '| C7 | % | % | % |', '| F7 | % | C7 | A7 |', '| Dm7 | G7 | D7 | "fill" C7 |');
    expect(only('seam', text)).toMatchObject({
      fromBar: 11,
      toBar: 3,
      atBar: 12,
      weight: 65,
      reason: '5 bars over the top: 1 + 4 of C7',
      announce: 'same chord for 5: listen for the fill in 12',
    });
  });

  it('[LOST-1] counts aloud where nothing tells, in parts of bars where it must', () => {
    const text = chart('C', '| C | % | F | G |', '| Am | F | G | G C |');
    expect(only('seam', text)).toMatchObject({
      reason: '2½ bars over the top: ½ + 2 of C',
      announce: 'same chord for 2½: count ½ + 2',
    });
  });

  it('[LOST-1] a short chord before the top hides it no less', () => {
    const text = chart('C', '| C | % | F | G |', '| Am | F | C | C G7 |');
    expect(only('seam', text)).toMatchObject({
      fromBar: 6,
      reason: '4 bars over the top: 2 + 2 of C; only G7 stands between',
      announce: 'same chord for 4: listen for G7 in 8',
    });
  });

  it('[LOST-1] colours make no other chord, another bass does', () => {
    expect(kinds(chart('C', '| C7 | F7 | C7 | G7 |', '| F7 | D7 | G7 | C13 |'))).toContain('seam');
    expect(kinds(chart('C', '| C7 | F7 | C7 | G7 |', '| F7 | D7 | G7 | C7/E |'))).not.toContain('seam');
    expect(kinds(chart('C', '| C7 | F7 | C7 | G7 |', '| F7 | D7 | G7 | Cm7 |'))).not.toContain('seam');
  });

  it('[LOST-1] lies also between a leg and the next, but not in a vamp', () => {
    const text = `${chart('C', QUIET, '| C | F | G | Dm7 |')}\nroad:\n  Head: A\n  Solos: A open\n  Out: A vamp\n`;
    expect(only('seam', text, 'Head').reason).toBe('2 bars into the next leg: 1 + 1 of Dm7');
    expect(only('seam', text, 'Solos').reason).toBe('2 bars over the top: 1 + 1 of Dm7');
    expect(kinds(text, 'Out')).toEqual([]);
  });
});

describe('length and phrases', () => {
  it.each([
    ['C blues', 16, '16 bars, where a blues usually has 12', 12],
    ['C blues', 10, '10 bars, where a blues usually has 12', 9],
    ['C', 20, '20 bars, which is no multiple of eight', 16],
    ['C', 28, '28 bars, which is no multiple of eight', 24],
    ['C', 6, '6 bars, which is no multiple of eight', 5],
    ['C', 15, '15 bars, which is no multiple of eight', 14],
    ['C', 31, '31 bars, which is no multiple of eight', 30],
    ['C', 17, '17 bars, which is no multiple of eight', 16],
  ])('[LOST-2] in %s, %i bars', (key, bars, reason, atBar) => {
    const music = Array.from({ length: bars }, (_, i) => (i % 2 === 0 ? 'Dm7' : 'G7')).join(' | ');
    expect(only('formLength', chart(key, `| ${music} |`))).toMatchObject({
      reason,
      atBar,
      weight: key.endsWith('blues') ? 80 : 60,
    });
  });

  it.each([
    ['C blues', 12],
    ['C', 8],
    ['C', 32],
    ['C', 24],
    ['C', 4],
    ['C', 2],
  ])('[LOST-2] in %s, %i bars are usual', (key, bars) => {
    const music = Array.from({ length: bars }, (_, i) => (i % 2 === 0 ? 'Dm7' : 'G7')).join(' | ');
    expect(kinds(chart(key, `| ${music} |`))).not.toContain('formLength');
  });

  it('[LOST-2] knows a blues by its changes', () => {
    const blues = ['| C7 | F7 | C7 | % |', '| F7 | % | C7 | A7 |', '| Dm7 | G7 | C7 | G7 |'];
    expect(kinds(chart('C', ...blues))).not.toContain('formLength');
    expect(only('formLength', chart('C', ...blues, '| C7 | A7 | Dm7 | G7 |')).weight).toBe(80);
    const minor = ['| Cm7 | Fm7 | Cm7 | % |', '| Fm7 | % | Cm7 | % |', '| Ab7 | G7 | Cm7 | G7 |'];
    expect(kinds(chart('C minor', ...minor))).not.toContain('formLength');
  });

  it('[LOST-2] is said of choruses: not of an intro or a tag', () => {
    const text = `${chart('C', QUIET, QUIET)}[In]\n| C | G | C | G | C |\n\nroad:\n  Intro: In\n  Head: A\n  Solos: A open\n  Tag: last 3 x3\n`;
    for (const name of ['Intro', 'Head', 'Solos', 'Tag'])
      expect(kinds(text, name)).not.toContain('formLength');
    const long = text.replace('Head: A', 'Head: A In').replace('Solos: A open', 'Solos: A In open');
    expect(only('formLength', long, 'Head').reason).toBe('13 bars, which is no multiple of eight');
  });

  it('[LOST-3] a phrase of five bars, and one of six that leaves no whole fours', () => {
    expect(spots(chart('C', '| C | F | G | Am | F |', '| C | D7 | G |'))).toMatchObject([
      {
        fromBar: 0,
        toBar: 4,
        atBar: 4,
        weight: 55,
        reason: 'a phrase of 5 bars, 1 to 5',
        announce: '5 bars from 1, not 4',
      },
      { fromBar: 5, toBar: 7, atBar: 7, weight: 55, announce: '3 bars from 6, not 4' },
    ]);
    expect(only('oddPhrase', chart('C', QUIET, '| C | F | G | Am | F | G |'))).toMatchObject({
      fromBar: 4,
      toBar: 9,
      atBar: 8,
      weight: 40,
    });
  });

  it('[LOST-3] a single bar after whole phrases is told as one', () => {
    expect(only('oddPhrase', chart('C', QUIET, QUIET, '| F |'))).toMatchObject({
      reason: 'a phrase of 1 bar, 9',
      announce: '1 bar from 9, not 4',
    });
  });

  it('[LOST-3] two and two are four, six and two are eight', () => {
    expect(kinds(chart('C', '| C | F |', '| G | Am |', QUIET))).not.toContain('oddPhrase');
    expect(kinds(chart('C', '| C | F | G | Am | F | G |', '| C | D7 |'))).not.toContain('oddPhrase');
  });

  it('[LOST-3] is no spot where nothing comes after it', () => {
    const text = `${chart('C', QUIET, QUIET)}[End]\n| C | F | C |\n\nroad:\n  Head: A\n  Solos: A open\n  End: End\n`;
    expect(kinds(text, 'End')).toEqual([]);
  });
});

describe('phrases that part', () => {
  const A = '| Cmaj7 | Am7 | Dm7 | G7 |';

  it('[LOST-4] first and second ending: the bar where they part', () => {
    const text = chart(
      'C',
      '|: Cmaj7 | Am7 | Dm7 | G7 |',
      '| Em7 | A7 |1. Dm7 | G7 :|',
      '|2. Dm7 G7 | Cmaj7 |',
    );
    expect(only('partsLater', text)).toMatchObject({
      fromBar: 8,
      toBar: 14,
      atBar: 14,
      weight: 49,
      reason: 'bars 9–14 are 1–6 again, but bar 15 has Dm7 G7, not Dm7',
      announce: 'like 1 to 6, then Dm7 G7',
    });
  });

  it('[LOST-4] the last A of AABA: then comes the top', () => {
    const bridge = '| E7 | % | A7 | % |';
    const found = spots(chart('C', A, A, bridge, A)).filter(({ kind }) => kind === 'partsLater');
    expect(found.map(({ reason }) => reason)).toEqual([
      'bars 5–8 are 1–4 again, but bar 9 has E7, not C△7',
      'bars 13–16 are 1–4 again, but then comes the top, not bar 5',
    ]);
  });

  it('[LOST-4] what never parts is no spot, nor is one held chord', () => {
    expect(kinds(chart('C', A, A))).not.toContain('partsLater');
    expect(kinds(chart('C', '| C | % | F | G |', '| C | % | Am | G |'))).not.toContain('partsLater');
    const sections = '[A]\n| C | % | F | G |\n[B]\n| C | % | Am | G |\n';
    expect(only('partsLater', sections).announce).toBe('like 1 to 2, then Am');
  });
});

describe('breaks, changes and long chords', () => {
  it('[LOST-5] a break and the way back', () => {
    expect(only('break', chart('C', QUIET, '| C | "break" F r r r | G | Dm7 |'))).toMatchObject({
      fromBar: 5,
      toBar: 5,
      weight: 50,
      reason: 'a break of 1 bar in 6; all come in again at 7',
      announce: 'break in 6, in again at 7',
    });
    expect(only('break', chart('C', QUIET, '| C | F | "break 2" G | G7 |'))).toMatchObject({
      toBar: 7,
      weight: 70,
      announce: 'break in 7, in again at the top',
    });
  });

  it('[LOST-5] a break of one pass is one of that pass', () => {
    expect(only('break', chart('C', QUIET, '| C | "last x: break" F | G | Dm7 |')).pass).toBe('last');
  });

  it('[LOST-6] a lone bar of another metre, and a key', () => {
    expect(only('metre', '[A]\n| C | F | G | "2/4" Am |\n[B]\n| Dm7 | G7 | Em7 | A7 |\n')).toMatchObject({
      fromBar: 3,
      toBar: 3,
      weight: 70,
      announce: '2/4 in 4',
    });
    expect(only('key', `${chart('C', QUIET)}[B]\n| "key Eb" Eb | Ab | Bb7 | G7 |\n`)).toMatchObject({
      fromBar: 4,
      weight: 30,
      announce: 'E♭ major from 5',
    });
  });

  it('[LOST-7] a chord for so long that nobody knows its bar', () => {
    const long = [
      '| Dm7 | % | % | % |',
      '| % | % | % | % |',
      QUIET.replace('Dm7', 'Gm7'),
      '| Bb | A7 | Gm7 | C7 |',
    ];
    expect(only('longChord', chart('D minor', ...long))).toMatchObject({
      fromBar: 0,
      toBar: 7,
      weight: 40,
      announce: '8 bars of Dm7: Gm7 in 9',
    });
    const overTop = [...long.slice(0, 3), '| Bb | A7 | Dm7 | % |'];
    expect(kinds(chart('D minor', ...overTop))).not.toContain('longChord');
    expect(only('longChord', chart('D minor', long[0] ?? '', long[1] ?? '')).announce).toBe(
      '8 bars of Dm7: then the top',
    );
  });
});

describe('rank and time', () => {
  const text = chart('C blues', '| C7 | % | % | % |', '| F7 | % | C7 | A7 |', '| Dm7 | G7 | D7 | C7 |');

  it('[LOST-8] where the melody is played it tells', () => {
    expect(only('seam', text, 'Solos').weight).toBe(75);
    expect(only('seam', text, 'Head').weight).toBe(60);
    const withBreak = text.replace('D7 |', '"break" D7 |');
    expect(only('break', withBreak, 'Head').weight).toBe(only('break', withBreak, 'Solos').weight);
  });

  it('[LOST-8] the heaviest comes first', () => {
    for (const { text: demo } of DEMO_BAND.charts) {
      for (const { spots: found } of lostSpots(roadOf(demo))) {
        const weights = found.map(({ weight }) => weight);
        expect(weights).toEqual([...weights].sort((a, b) => b - a));
        for (const weight of weights) expect(weight).toBeGreaterThan(0);
        for (const weight of weights) expect(weight).toBeLessThanOrEqual(100);
      }
    }
  });

  it('[LOST-9] is said a phrase ahead', () => {
    expect(only('seam', text, 'Solos').announceFromBar).toBe(8);
    const early = chart('C', '| "break" C r r r | F | G | Dm7 |', QUIET);
    expect(only('break', early, 'Solos').announceFromBar).toBe(-4);
    expect(only('break', early, 'Head').announceFromBar).toBe(0);
    expect(only('break', chart('C', QUIET, '| C | "break" F | G | Dm7 |'), 'Solos').announceFromBar).toBe(0);
    expect(only('break', chart('C', QUIET, '| C | F | "break" G | Dm7 |'), 'Solos').announceFromBar).toBe(4);
  });

  it('[LOST-10] the band dismisses spots and adds its own', () => {
    const road = roadOf(text);
    const seam = only('seam', text);
    const bar = road.legs[1]?.bars[4]?.id ?? '';
    const added = [{ id: 'x1', from: bar, to: bar, words: 'drums play the melody here' }];
    const left = spots(text, 'Solos', { dismissed: [seam.id], added });
    expect(left.map(({ kind }) => kind)).toEqual(['added']);
    expect(left[0]).toMatchObject({ fromBar: 4, weight: 100, announce: 'drums play the melody here' });
    expect(spots(text, 'Head', { dismissed: [seam.id] })).toEqual([]);
    expect(spots(text, 'Solos', { dismissed: ['x1'], added }).map(({ kind }) => kind)).toEqual(['seam']);
  });

  it('[LOST-10] what was dismissed stays so through other chords and bars elsewhere, not where its bars are others', () => {
    const { chart } = readChart(text);
    const seamOf = (edited: Chart) =>
      lostSpots(unroll(edited).road)[1]?.spots.find(({ kind }) => kind === 'seam');
    const [section] = chart.sections;
    const bars = section?.bars ?? [];
    const edited = (edit: readonly Bar[]): Chart => ({
      ...chart,
      sections: chart.sections.map((one) => ({ ...one, bars: edit })),
    });
    const plain = { left: '', right: '', ending: '', lineEnd: false } as const;
    const before = seamOf(chart);
    const inAnotherKey = seamOf(
      edited(bars.map((bar) => (/C7/.test(bar.text) ? { ...bar, text: 'Eb7' } : bar))),
    );
    expect(inAnotherKey).toMatchObject({ id: before?.id, reason: '5 bars over the top: 1 + 4 of E♭7' });
    const longerElsewhere = seamOf(edited(bars.toSpliced(5, 0, { ...plain, id: 'new', text: 'G7' })));
    expect(longerElsewhere).toMatchObject({ id: before?.id, fromBar: 12 });
    const oneMore = seamOf(edited(bars.toSpliced(2, 0, { ...plain, id: 'new', text: 'C7' })));
    expect(oneMore?.reason).toBe('6 bars over the top: 1 + 5 of C7');
    expect(oneMore?.id).not.toBe(before?.id);
    const retyped = seamOf(edited(bars.map((bar, at) => (at === 11 ? { ...bar, id: 'new' } : bar))));
    expect(retyped?.id).not.toBe(before?.id);
  });

  it('[LOST-10] an added spot stands from its first bar to its last, alone where that does not follow', () => {
    const bars = roadOf(text).legs[1]?.bars ?? [];
    const idOf = (number: number) => bars[number - 1]?.id ?? 'gone';
    const added = (from: number, to: number) =>
      spots(text, 'Solos', { added: [{ id: 'x', from: idOf(from), to: idOf(to), words: 'w' }] })
        .filter(({ id }) => id === 'x')
        .map(({ fromBar, toBar }) => [fromBar + 1, toBar + 1]);
    expect(added(5, 8)).toEqual([[5, 8]]);
    expect(added(5, 99)).toEqual([[5, 5]]);
    expect(added(8, 5)).toEqual([[8, 8]]);
    expect(added(99, 5)).toEqual([]);
  });

  it('[LOST-11] in another key the spots are the same', () => {
    const nameless = (words: string): string => words.replace(/[A-G][♭♯]?[^ ,;:]*/g, '*');
    fc.assert(
      fc.property(
        fc.constantFrom(...DEMO_BAND.charts),
        fc.integer({ min: -11, max: 14 }),
        (demo, semitones) => {
          const road = roadOf(demo.text);
          const reading = readingFor(readKey(road.key), semitones);
          const shape = (options: LostSpotOptions) =>
            lostSpots(road, options).map(({ spots: found }) =>
              found.map((spot) => ({
                ...spot,
                reason: nameless(spot.reason),
                announce: nameless(spot.announce),
              })),
            );
          expect(shape({ reading })).toEqual(shape({}));
        },
      ),
      { numRuns: 40 },
    );
    const reading = readingFor(readKey('C blues'), 2);
    expect(spots(text, 'Solos', { reading })[0]?.reason).toBe('5 bars over the top: 1 + 4 of D7');
  });

  it('[LOST-9] whatever the chart is, spots lie in the pass and are said before they come', () => {
    const bar = fc.constantFrom(
      ...[
        'C7',
        '%',
        'N.C.',
        'r',
        'Hq7',
        'F G',
        'C / F /',
        '"break 2" F',
        '"3/4" G',
        '"key D" D',
        '"fill" C7',
        '',
      ],
      ...['"tacet 3"', '"hits 1 2&" C7', 'C7 :|', 'Dm7 ||', '"pick-up" G7'],
    );
    const line = fc.array(bar, { minLength: 1, maxLength: 6 }).map((bars) => `| ${bars.join(' | ')} |`);
    const times = fc.constantFrom('', 'x3', 'open', 'vamp', 'trade 4 open');
    const odd = fc
      .tuple(fc.array(line, { minLength: 1, maxLength: 5 }), times)
      .map(
        ([lines, often]) =>
          `key: C blues\n[A]\n${lines.join('\n')}\n\nroad:\n X: A ${often}\n Y: last 4 x3\n`,
      );
    fc.assert(
      fc.property(odd, (text) => {
        const road = roadOf(text);
        lostSpots(road).forEach(({ spots: found }, i) => {
          const { length } = road.legs[i]?.bars ?? [];
          for (const { fromBar, toBar, atBar, announceFromBar, reason, announce } of found) {
            expect(fromBar).toBeGreaterThanOrEqual(0);
            expect(Math.max(fromBar, toBar)).toBeLessThan(length ?? 0);
            expect(atBar).toBeLessThanOrEqual(length ?? 0);
            expect(announceFromBar).toBeLessThanOrEqual(atBar);
            expect(announceFromBar).toBeGreaterThanOrEqual(-(length ?? 0));
            expect(`${reason} ${announce}`).not.toMatch(/undefined|NaN/);
          }
        });
      }),
      { numRuns: 150 },
    );
  });

  it('a corrected chord counts at once, before the road is made anew', () => {
    const road = roadOf(text);
    const music = new Map(
      road.legs.flatMap(({ bars }) =>
        bars.map(({ id, content }, i) => [
          id,
          i === 11
            ? { ...content.music, cells: content.music.cells.map((cell) => ({ ...cell, symbol: 'G7' })) }
            : content.music,
        ]),
      ),
    );
    expect(spots(text, 'Solos', { music }).map(({ kind }) => kind)).not.toContain('seam');
  });
});
