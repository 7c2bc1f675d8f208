import { describe, expect, it } from 'vitest';
import { type FindHelp, type HelpNeeded, helpFinder } from '../../../../client/stand/help/find-help.ts';
import type { HelpQuestion } from '../../../../client/stand/help/help-worker.ts';
import { readChart } from '../../../../common/chart/read-chart.ts';
import { unroll } from '../../../../common/form/unroll.ts';
import type { LegHelp } from '../../../../common/help/help.ts';
import { roadHelp } from '../../../../common/help/road-help.ts';

const road = unroll(
  readChart('key: Eb\n[A]\n| Fm7 | Bb7 |\n[B]\n| Ebmaj7 | C7 |\n\nroad:\n Head: A B x2\n Out: B\n').chart,
).road;

const needed: HelpNeeded = { road, music: null, wish: { kind: 'bass' }, chartKey: 'Eb', semitones: 0 };

/** A worker that answers when it is told to. */
const worker = () => {
  const asked: { question: Omit<HelpQuestion, 'id'>; done: (legs: readonly LegHelp[]) => void }[] = [];
  let letGoCount = 0;
  return {
    asked,
    letGo: () => letGoCount,
    ask: (question: Omit<HelpQuestion, 'id'>, done: (legs: readonly LegHelp[]) => void) => {
      asked.push({ question, done });
      return () => {
        letGoCount += 1;
      };
    },
    answer: () => {
      for (const { question, done } of asked.splice(0)) {
        done(roadHelp(question.road, question.wish, question.reading, question.music));
      }
    },
  };
};

const rootAt = (find: FindHelp, leg: number, barIndex: number, semitones?: number): string | null => {
  const { id, bars } = road.legs[leg] as (typeof road.legs)[number];
  const bar = bars[barIndex] as (typeof bars)[number];
  const found = find({
    leg: { id },
    place: { barIndex },
    bar,
    ...(semitones === undefined ? {} : { semitones }),
  });
  const [first] = found ?? [];
  return first?.help.kind === 'bass' ? first.help.root : null;
};

describe('finding help for a bar', () => {
  it('asks once, has none until the answer is here, then that of its place', () => {
    const { ask, answer, asked } = worker();
    let changes = 0;
    const { find } = helpFinder(needed, ask, () => {
      changes += 1;
    });
    expect([rootAt(find, 0, 0), rootAt(find, 0, 1)]).toEqual([null, null]);
    expect(asked).toHaveLength(1);
    answer();
    expect(changes).toBe(1);
    expect([0, 1, 2, 3].map((bar) => rootAt(find, 0, bar))).toEqual(['F', 'Bb', 'Eb', 'C']);
    expect(rootAt(find, 1, 1)).toBe('C');
    expect(asked).toHaveLength(0);
  });

  it('asks for each key that the evening brings', () => {
    const { ask, answer, asked } = worker();
    const { find } = helpFinder(needed, ask, () => {});
    rootAt(find, 0, 0);
    rootAt(find, 0, 0, 1);
    expect(asked).toHaveLength(2);
    answer();
    expect([rootAt(find, 0, 0), rootAt(find, 0, 0, 1)]).toEqual(['F', 'F#']);
  });

  it('knows a bar that a cue has put into a leg of its own, as a tag does', () => {
    const { ask, answer } = worker();
    const { find } = helpFinder(needed, ask, () => {});
    rootAt(find, 0, 0);
    answer();
    const [, , , last] = road.legs[0]?.bars ?? [];
    const found = last && find({ leg: { id: 'tag' }, place: { barIndex: 0 }, bar: last });
    expect(found?.[0]?.help).toMatchObject({ kind: 'bass', root: 'C' });
  });

  it('lets go what it still waits for when it is closed, and asks anew when it is used again', () => {
    const { ask, asked, letGo } = worker();
    const { find, close } = helpFinder(needed, ask, () => {});
    rootAt(find, 0, 0);
    close();
    expect(letGo()).toBe(1);
    rootAt(find, 0, 0);
    expect(asked).toHaveLength(2);
  });
});
