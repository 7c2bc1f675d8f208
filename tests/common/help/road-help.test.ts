import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readChart } from '../../../common/chart/read-chart.ts';
import { DEMO_BAND } from '../../../common/demo/demo-band.ts';
import type { Road } from '../../../common/form/road.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { type Help, helpKindsFor, type PassHelp, usualHelp } from '../../../common/help/help.ts';
import { type HelpWish, roadHelp } from '../../../common/help/road-help.ts';
import { GUITAR } from '../../../common/shapes/fretboard/fret-instrument.ts';
import { printNumeral } from '../../../common/theory/harmony/numeral.ts';
import { INSTRUMENTS } from '../../../common/theory/instruments.ts';
import { readKey } from '../../../common/theory/key.ts';
import { pitchClassOf } from '../../../common/theory/pitch.ts';
import { CONCERT, readingFor } from '../../../common/theory/transpose.ts';

const roadOf = (text: string): Road => unroll(readChart(text).chart).road;

const WISHES: readonly HelpWish[] = [
  { kind: 'shapes', instrument: GUITAR, kinds: ['shell'] },
  { kind: 'voicings', style: 'rootless' },
  { kind: 'bass' },
  { kind: 'guides' },
  { kind: 'scales' },
  { kind: 'numerals' },
  { kind: 'numbers' },
];

/** What is said under the chords of the first leg, bar by bar. */
const said = (text: string, wish: HelpWish, print: (help: Help) => string, reading = CONCERT): string[] =>
  (roadHelp(roadOf(text), wish, reading)[0]?.pass ?? []).map((bar) =>
    bar.map(({ help }) => print(help)).join(' '),
  );

const numeral = (help: Help): string => (help.kind === 'numeral' ? printNumeral(help.numeral) : '?');
const bass = (help: Help): string =>
  help.kind === 'bass' ? `${help.root}>${help.approach ?? help.fifth}` : '?';

describe('help under the chords of a road', () => {
  it('[HELP-1] stands in the bar and the cell of its chord, and nowhere else', () => {
    const text = 'key: C\n[A]\n| Dm7 G7 | r r C | N.C. | C6 |\n';
    for (const wish of WISHES) {
      const [leg] = roadHelp(roadOf(text), wish, CONCERT);
      const cells = leg?.pass.map((bar) => bar.map(({ cell }) => cell));
      expect(cells, wish.kind).toEqual([[0, 1], [cells?.[1]?.[0]], [], [0]]);
    }
  });

  it('[HELP-1] is there for every chord of every leg of the demo band', () => {
    for (const { text } of DEMO_BAND.charts) {
      const road = roadOf(text);
      for (const wish of WISHES) {
        const legs = roadHelp(road, wish, CONCERT);
        expect(legs.map(({ leg }) => leg)).toEqual(road.legs.map(({ id }) => id));
        road.legs.forEach(({ bars, lastBars = [] }, index) => {
          const check = (written: Road['legs'][number]['bars'], helps: PassHelp = []) =>
            written.forEach(({ content }, at) => {
              const chords = content.music.cells.flatMap(({ kind }, cell) =>
                kind === 'chord' ? [cell] : [],
              );
              expect(helps[at]?.map(({ cell }) => cell)).toEqual(chords);
            });
          if (wish.kind === 'scales') return;
          check(bars, legs[index]?.pass);
          check(lastBars, legs[index]?.lastPass);
        });
      }
    }
  });

  it('[HELP-2] is in the key of the reader, with the same numerals', () => {
    const text = 'key: Eb\n[A]\n| Fm7 | Bb7 | Ebmaj7 | C7 |\n';
    const tenor = readingFor(readKey('Eb'), 14);
    const wish: HelpWish = { kind: 'numerals' };
    expect(said(text, wish, numeral, tenor)).toEqual(said(text, wish, numeral));
    const concert = said(text, { kind: 'bass' }, bass).map((line) => line.split('>').map(pitchClassOf));
    const read = said(text, { kind: 'bass' }, bass, tenor).map((line) => line.split('>').map(pitchClassOf));
    expect(read).toEqual(concert.map((notes) => notes.map((note) => (note + 2) % 12)));
  });

  it('[HELP-3] leads the last chord of a leg that goes round to its top, of one played once to the next', () => {
    const text = 'key: C\n[A]\n| Am7 | D7 |\n[B]\n| Fmaj7 | G7 |\n\nroad:\n Solos: A x3\n Out: B\n';
    const [solos, out] = roadHelp(roadOf(text), { kind: 'bass' }, CONCERT);
    const last = (helps: PassHelp | undefined): string =>
      helps
        ?.at(-1)
        ?.map(({ help }) => bass(help))
        .join() ?? '';
    expect(last(solos?.pass)).toBe('D>G#');
    expect(last(out?.pass)).toBe('G>D');
  });

  it('[HELP-4] gives the bass root and approach, or root and fifth where it stays (common practice, no source)', () => {
    const text = 'key: F\n[A]\n| Gm7 | C7 | F7 | F7 Bb7 |\n';
    expect(said(text, { kind: 'bass' }, bass)).toEqual(['G>B', 'C>E', 'F>C', 'F>A Bb>F#']);
  });

  it('[HELP-5] has a usual help for every instrument, and lets every player choose otherwise', () => {
    expect(usualHelp('guitar')).toBe('shapes');
    expect(usualHelp('keys')).toBe('voicings');
    expect(usualHelp('bass')).toBe('bass');
    expect(usualHelp('horn')).toBe('guides');
    expect(usualHelp('voice')).toBe('words');
    expect(usualHelp('drums')).toBe('form');
    for (const { part } of INSTRUMENTS) {
      expect(helpKindsFor(part)[0]).toBe(usualHelp(part));
      expect(helpKindsFor(part)).toContain('chords');
      expect(helpKindsFor(part)).toContain('numerals');
    }
  });

  /** The help of every chord of the first leg, without what only says where the line goes on. */
  const inOrder = (text: string, wish: HelpWish): unknown[] =>
    (roadHelp(roadOf(text), wish, CONCERT)[0]?.pass ?? []).flatMap((bar) =>
      bar.map(({ help }) =>
        help.kind === 'guide' ? [help.upper.note, help.lower.note] : JSON.parse(JSON.stringify(help)),
      ),
    );
  const PLAYED_ALIKE = WISHES.filter(({ kind }) => kind !== 'bass');

  it.each([
    ['as %', 'key: F\n[A]\n| Bm7b5 | % | E7b9 | % | Am7 |\n'],
    ['as %%', 'key: C\n[A]\n| Am7b5 | Am7b5 | %% | %% | D7 | Gm6 |\n'],
    ['as a slash', 'key: C\n[A]\n| Gm7b5 / / / | / / / / | / / C7 / | Fm6 |\n'],
    ['as an empty bar', 'key: Bb\n[A]\n| Em7b5 | | A7 | | Dm7 | Gm7 |\n'],
    ['written out', 'key: C\n[A]\n| C7 | C7 | F7 | F7 | Bb7 | Bb7 |\n'],
    ['within a bar', 'key: C\n[A]\n| C7 C7 | C7 F7 | F7 Fm7 | Fm7 |\n'],
    [
      'over a section',
      'key: Eb\n[A]\n| Gm7b5 | Gm7b5 |\n[B]\n| Gm7b5 | C7 | Fm7 |\n\nroad:\n Solos: A B x3\n',
    ],
    ['over the repeat', 'key: G\n[A]\n|: C#m7b5 | F#7 | F#7 :|\n| F#7 | Bm7 |\n'],
  ])('[HELP-6] a chord that is repeated has the help of the one it repeats: %s', (_, text) => {
    for (const wish of PLAYED_ALIKE) {
      const road = roadOf(text);
      const symbols = (road.legs[0]?.bars ?? []).flatMap(({ content }) =>
        content.music.cells.flatMap(({ kind, symbol }) => (kind === 'chord' ? [symbol] : [])),
      );
      const helps = inOrder(text, wish);
      expect(helps).toHaveLength(symbols.length);
      expect(symbols.some((symbol, i) => symbol === symbols[i - 1])).toBe(true);
      symbols.forEach((symbol, i) => {
        if (symbol === symbols[i - 1]) expect(helps[i], `${wish.kind} ${i}`).toEqual(helps[i - 1]);
      });
    }
  });

  it('[HELP-6] holds for any chords in any key, however often they come', () => {
    const chord = fc
      .tuple(
        fc.constantFrom('C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'),
        fc.constantFrom('maj7', '7', 'm7', 'm7b5', 'dim7', '6', 'm6', '', 'm', '7alt', '9', '+'),
      )
      .map((parts) => parts.join(''));
    const bars = fc.array(fc.tuple(chord, fc.constantFrom('', ' | %', ' | % | %', ' | / / / /')), {
      minLength: 1,
      maxLength: 6,
    });
    const keys = fc.constantFrom('C', 'Eb blues', 'F# minor', 'Db', 'A dorian');
    fc.assert(
      fc.property(bars, keys, fc.constantFrom('', ' x3'), (written, key, times) => {
        const music = written.map((parts) => parts.join('')).join(' | ');
        const text = `key: ${key}\n[A]\n| ${music} |\n\nroad:\n Solos: A${times}\n`;
        const symbols = written.flatMap(([symbol, again]) =>
          Array<string>(1 + (again.match(/\|/g) ?? []).length).fill(symbol),
        );
        for (const wish of PLAYED_ALIKE) {
          // A scale is not always found.
          const helps = inOrder(text, wish);
          if (helps.length !== symbols.length) continue;
          symbols.forEach((symbol, i) => {
            if (symbol === symbols[i - 1]) expect(helps[i], wish.kind).toEqual(helps[i - 1]);
          });
        }
      }),
      { numRuns: 60 },
    );
  });

  it('[HELP-6] a new key is something new: the same chord does there what it does', () => {
    const text = 'key: C\n[A]\n| Cmaj7 | "key G" Cmaj7 | D7 | Gmaj7 |\n';
    expect(said(text, { kind: 'numerals' }, numeral).slice(0, 2)).toEqual(['I△7', 'IV△7']);
  });
});
