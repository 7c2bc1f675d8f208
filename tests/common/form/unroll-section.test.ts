import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MOST_BARS } from '../../../common/form/unroll-section.ts';
import { playedOnce, unrollBuilt } from './build-chart.ts';

describe('repeats', () => {
  it('[ROAD-2] are played twice, or as often as they say', () => {
    expect(playedOnce('1 |: 2 3 :| 4')).toBe('1 2 3 2 3 4');
    expect(playedOnce('|: 1 :|x4 2')).toBe('1 1 1 1 2');
    expect(playedOnce('|: 1 :|x1 2')).toBe('1 2');
  });

  it('[ROAD-2] within repeats are taken each time through the outer one', () => {
    expect(playedOnce('|: 1 |: 2 :| 3 :| 4')).toBe('1 2 2 3 1 2 2 3 4');
    expect(playedOnce('|: |: 1 :| 2 :|')).not.toBe('');
  });

  it('[ROAD-2] hold endings of their own within an outer repeat', () => {
    expect(playedOnce('|: 0 |: 1 |1. 2 :| |2. 3 || 4 :| 5')).toBe('0 1 2 1 3 4 0 1 2 1 3 4 5');
    expect(playedOnce('|: 0 |: 1 |1. 2 :| |2. 3 :| 4')).toBe('0 1 2 1 3 0 1 2 1 3 4');
  });

  it('[ROAD-3] without |: go back to the start or to the last :|', () => {
    expect(playedOnce('1 2 :| 3 4 :| 5')).toBe('1 2 1 2 3 4 3 4 5');
    expect(playedOnce('|: 1 :| 2 :|x3')).toBe('1 1 2 2 2');
    expect(playedOnce('1 |1. 2 :| |2. 3')).toBe('1 2 1 3');
  });

  it('[ROAD-3] never go over the end of a section', () => {
    const { legs } = unrollBuilt({ A: '1 |: 2', B: '3 :| 4' }, [['Head', 'A B']]);
    expect(legs[0]?.bars.map(({ id }) => id).join(' ')).toBe('1 2 3 3 4');
  });

  it('[ROAD-3] begin anew after the last :| even inside a second ending', () => {
    expect(playedOnce('|: 1 |1. 2 :| |2. 3 4 |1. 5 :| |2. 6')).toBe('1 2 1 3 4 5 3 4 6');
  });

  it('[ROAD-6] that nothing closes repeat nothing', () => {
    expect(playedOnce('1 |: 2 3')).toBe('1 2 3');
    expect(playedOnce('|: 1 |: 2 :| 3')).toBe('1 2 2 3');
  });

  it('[ROAD-6] with a slip of the finger fill no memory', () => {
    const { legs, problems } = unrollBuilt({ A: '|: 1 2 3 4 5 6 7 8 9 :|x99999' }, [['Head', 'A A']]);
    expect(legs[0]?.bars.length).toBe(MOST_BARS);
    expect(problems.map(({ kind }) => kind)).toEqual(['too-long']);
  });
});

describe('endings', () => {
  it('[ROAD-4] are played on the times they name', () => {
    expect(playedOnce('|: 1 2 |1. 3 4 :| |2. 5 6 || 7')).toBe('1 2 3 4 1 2 5 6 7');
    expect(playedOnce('|: 1 |1. 2 :| |2. 3 :| |3. 4')).toBe('1 2 1 3 1 4');
    expect(playedOnce('|: 1 |1.2.3. 2 :| |4. 3 | 4')).toBe('1 2 1 2 1 2 1 3 4');
  });

  it('[ROAD-4] may begin where the repeat begins', () => {
    expect(playedOnce('|: |1. 1 :| |2. 2 || 3')).toBe('1 2 3');
  });

  it('[ROAD-4] hold a repeat of their own', () => {
    expect(playedOnce('|: 1 |1. 2 |: 3 :| 4 :| |2. 5')).toBe('1 2 3 3 4 1 5');
  });

  it('[ROAD-4] are over where a new repeat begins', () => {
    expect(playedOnce('|: 1 |1. 2 :| |2. 3 |: 4 :| 5')).toBe('1 2 1 3 4 4 5');
    expect(playedOnce('|: 1 |1. 2 :| |2. 3 |: 4 |1. 5 :| |2. 6')).toBe('1 2 1 3 4 5 4 6');
    expect(playedOnce('|: 1 |1. 2 :| |2. 3 |: 4 :| 5 :| 6')).toBe('1 2 1 3 4 4 5 5 6');
  });

  it('[ROAD-4] that lack their :| still go back while a later time is to come', () => {
    expect(playedOnce('|: 1 |1. 2 |2. 3 :| 4')).toBe('1 2 1 3 4');
  });

  it('[ROAD-5] that are missing for a time are filled from below, the last time takes the highest', () => {
    expect(playedOnce('|: 1 |1. 2 :|x3 |2. 3')).toBe('1 2 1 2 1 3');
    expect(playedOnce('|: 1 |1. 2 :| |3. 3')).toBe('1 2 1 2 1 3');
  });

  it('[ROAD-5] that no second one follows are left out the last time', () => {
    expect(playedOnce('|: 1 |1. 2 :| 3')).toBe('1 2 1 3');
    expect(playedOnce('|: 1 |1.2. 2 :| 3')).toBe('1 2 1 2 1 3');
    expect(playedOnce('|: 1 |1. 2 |: 3 :| 4 :| 5')).toBe('1 2 3 3 4 1 5');
  });
});

describe('any signs at all', () => {
  const token = fc.constantFrom(
    '|:',
    ':|',
    ':|x3',
    ':|x0',
    '||',
    '|]',
    '|1.',
    '|2.',
    '|1.2.',
    '|3.',
    'a',
    'b',
    '$',
  );
  const music = fc.array(token, { maxLength: 24 }).map((tokens) => ['first', ...tokens, 'last'].join(' '));

  it('[ROAD-1] are played to an end, and to an end that is not endless', () => {
    fc.assert(
      fc.property(music, (text) => {
        const played = playedOnce(text).split(' ');
        expect(played.length).toBeGreaterThan(0);
        expect(played.length).toBeLessThanOrEqual(MOST_BARS);
      }),
      { numRuns: 500, seed: 7 },
    );
  });

  it('[ROAD-2] without endings: a bar is played as often as all the repeats around it say together', () => {
    interface Block {
      readonly text: string;
      readonly order: readonly string[];
    }
    let names = 0;
    const bar = fc.constant(null).map((): Block => {
      const name = `n${++names}`;
      return { text: name, order: [name] };
    });
    const block: fc.Arbitrary<Block> = fc.letrec<{ row: Block; repeat: Block; item: Block }>((tie) => ({
      item: fc.oneof({ depthSize: 'small' }, bar, tie('repeat')),
      row: fc.array(tie('item'), { minLength: 1, maxLength: 3 }).map((items) => ({
        text: items.map(({ text }) => text).join(' '),
        order: items.flatMap(({ order }) => order),
      })),
      repeat: fc
        .tuple(bar, tie('row'), bar, fc.integer({ min: 2, max: 3 }))
        .map(([first, row, last, times]) => ({
          text: `|: ${first.text} ${row.text} ${last.text} :|x${times}`,
          order: Array.from({ length: times }, () => [...first.order, ...row.order, ...last.order]).flat(),
        })),
    })).row;
    fc.assert(
      fc.property(block, ({ text, order }) => {
        fc.pre(order.length <= MOST_BARS);
        expect(playedOnce(text)).toBe(order.join(' '));
      }),
      { numRuns: 200, seed: 11 },
    );
  });
});
