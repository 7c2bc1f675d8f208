import { describe, expect, it } from 'vitest';
import { playedBars, unrollBuilt } from '../../common/form/build-chart.ts';
import published from './form-unroll.json' with { type: 'json' };

interface Row {
  readonly form?: string;
  readonly file?: string;
  readonly abcHeader?: string;
  readonly abc?: string;
  readonly order?: readonly number[] | string;
  readonly source: string;
}

/** The rows' shorthand (`S:2`, `3(To Coda)`, `Coda: 5 6`, `[1.`) as sections and one line of the road. */
const played = (form: string): string => {
  const [music = '', coda] = form.replace(/\(\w+ passes\)/, '').split(' Coda: ');
  let jump = '';
  const text = music
    .replace(/\((D\.[SC]\.[^)]*)\)/, (_, words: string) => {
      jump = words;
      return '';
    })
    .replace(/\[((?:\d+\.)+)/g, '|$1')
    .replace(/S:(\d+)/, '$1"segno"')
    .replace(/\(To Coda\)/, '"to coda"')
    .replace(/\(Fine\)/, '"fine"');
  const sections = coda === undefined ? { A: text } : { A: text, Coda: coda };
  const { legs, problems } = unrollBuilt(sections, [['Head', `A ${jump}`]]);
  expect(problems).toEqual([]);
  return playedBars(legs);
};

describe('the order in which written bars are played', () => {
  for (const row of published.rows as readonly Row[]) {
    if (row.form !== undefined) {
      const { form, order } = row;
      it(`[ROAD-1] ${form} (${row.source})`, () => {
        expect(played(form)).toBe((order as readonly number[]).join(' '));
      });
    }
  }

  const rowOf = (file: string) => {
    const row = (published.rows as readonly Row[]).find((found) => found.file === file);
    return ((row?.order ?? []) as readonly number[]).join(' ');
  };

  it('[ROAD-2] plays a repeat within a repeat (MusicXML test suite 45c, music21 9.9.2)', () => {
    expect(played('|: 1 |: 2 3 :|x5 4 :|x1 5 6 7 8')).toBe(rowOf('45c-SimpleRepeat-Nested.xml'));
  });

  it('[ROAD-3] goes back to the start where nothing else is marked (MusicXML test suite 45j, music21 9.9.2)', () => {
    expect(played('1 :| 2')).toBe(rowOf('45j-SimpleRepeat-Start.xml'));
  });

  it('[ROAD-12] plays a section three times for x3 (ABC standard 2.1, 3.1.9, P:A3)', () => {
    const { legs } = unrollBuilt({ A: 'A' }, [['Head', 'A', 'x3']]);
    expect(playedBars(legs).replaceAll(' ', '')).toBe('AAA');
  });

  it('[ROAD-12] plays lines one after the other, each as often as it says (ABC standard 2.1, 3.1.9)', () => {
    const once = [
      ['AB', 'A B', 'x3'],
      ['CD', 'C D', 'x3'],
    ] as const;
    const again = once.map(([name, sections, times]) => [`${name} again`, sections, times] as const);
    const { legs } = unrollBuilt({ A: 'A', B: 'B', C: 'C', D: 'D' }, [...once, ...again]);
    const row = (published.rows as readonly Row[]).find(({ abcHeader }) => abcHeader === 'P:((AB)3.(CD)3)2');
    expect(playedBars(legs).replaceAll(' ', '')).toBe(row?.order);
  });

  it('[ROAD-4] takes an ending on the times it names (ABC standard 2.1, 4.10)', () => {
    expect(played('|: 1 [1.3. 2 :| [2. 3 :| [4. 4')).toBe('1 2 1 3 1 2 1 4');
    expect(played('|: 1 [1.2.3. 2 :| [4. 3')).toBe('1 2 1 2 1 2 1 3');
  });
});
