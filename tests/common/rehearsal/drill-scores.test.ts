import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { afterAnswer, beginAt, LEVELS } from '../../../common/rehearsal/drill-progress.ts';
import { scoresOf, withRound } from '../../../common/rehearsal/drill-scores.ts';

describe('the levels of a drill', () => {
  const levelAfter = (level: number, answers: string) =>
    [...answers].reduce((progress, one) => afterAnswer(progress, one === '+'), beginAt(level)).level;

  it('[DRILL-1] go up after three right in a row and down after two misses', () => {
    expect(levelAfter(3, '++')).toBe(3);
    expect(levelAfter(3, '+++')).toBe(4);
    expect(levelAfter(3, '++-++')).toBe(3);
    expect(levelAfter(3, '-')).toBe(3);
    expect(levelAfter(3, '--')).toBe(2);
    expect(levelAfter(3, '-+-')).toBe(3);
    expect(levelAfter(3, '+++++')).toBe(4);
    expect(levelAfter(3, '++++++')).toBe(5);
    expect(levelAfter(1, '----')).toBe(1);
    expect(levelAfter(LEVELS, '++++++')).toBe(LEVELS);
  });

  it('[DRILL-1] are whole and within the eight, whatever was kept', () => {
    fc.assert(
      fc.property(fc.double(), fc.array(fc.boolean()), (level, answers) => {
        const { level: end } = answers.reduce(afterAnswer, beginAt(level));
        expect(Number.isInteger(end) && end >= 1 && end <= 8).toBe(true);
      }),
    );
  });
});

describe('the scores of a drill', () => {
  const answers = [
    { name: 'tag', right: true, errorBeats: 0.25 },
    { name: 'hold', right: false, errorBeats: null },
    { name: 'tag', right: false, errorBeats: -1.5 },
  ];

  it('[DRILL-3] count by name', () => {
    expect(scoresOf(answers)).toEqual([
      { name: 'tag', asked: 2, right: 1, tapped: 2, offBeats: 1.75 },
      { name: 'hold', asked: 1, right: 0, tapped: 0, offBeats: 0 },
    ]);
  });

  it('[DRILL-4] are added up within a day and kept apart by day, drill, chart and name', () => {
    const day = { day: '2026-11-28', drill: 'cues', chart: '' } as const;
    const once = withRound([], day, scoresOf(answers));
    const twice = withRound(once, day, scoresOf(answers));
    expect(twice).toHaveLength(2);
    expect(twice[0]).toMatchObject({ name: 'tag', asked: 4, right: 2, tapped: 4, offBeats: 3.5 });
    const next = withRound(twice, { ...day, day: '2026-11-27' }, scoresOf(answers));
    expect(next.map((one) => one.day)).toEqual(['2026-11-27', '2026-11-27', '2026-11-28', '2026-11-28']);
    const spots = withRound(next, { ...day, drill: 'spots', chart: 'ferry' }, scoresOf(answers));
    expect(spots).toHaveLength(6);
    expect(
      withRound(spots, { ...day, day: '2026-11-29' }, scoresOf(answers), 3).map((one) => one.day),
    ).toEqual(['2026-11-28', '2026-11-29', '2026-11-29']);
  });

  it('[DRILL-4] lose nothing, however a day is split into rounds', () => {
    const someAnswer = fc.record({
      name: fc.constantFrom('tag', 'hold', 'break'),
      right: fc.boolean(),
      errorBeats: fc.constantFrom(null, 0, 0.25, -1),
    });
    fc.assert(
      fc.property(fc.array(fc.array(someAnswer)), (rounds) => {
        const day = { day: '2026-11-28', drill: 'cues', chart: '' } as const;
        const byRound = rounds.reduce(
          (days, round) => withRound(days, day, scoresOf(round)),
          withRound([], day, []),
        );
        expect(byRound).toEqual(withRound([], day, scoresOf(rounds.flat())));
      }),
    );
  });
});
