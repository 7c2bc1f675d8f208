import { describe, expect, it } from 'vitest';
import type { Leg } from '../../../common/form/road.ts';
import { barsOf, playedBars, unrollBuilt } from './build-chart.ts';

const only = (legs: readonly Leg[]): Leg => {
  expect(legs).toHaveLength(1);
  return legs[0] as Leg;
};
const kindsOf = (problems: readonly { readonly kind: string }[]) => problems.map(({ kind }) => kind);
const leg = (sections: Readonly<Record<string, string>>, ...line: [text: string, times?: string]) => {
  const { legs, problems } = unrollBuilt(sections, [['Head', ...line]]);
  expect(problems).toEqual([]);
  return only(legs);
};

const AB = { A: 'a1 a2', B: 'b1 b2' };

describe('the lines of the road map', () => {
  it('[ROAD-10] match section names exactly, else without capitals', () => {
    const sections = { a: '1', A: '2', Bridge: '3' };
    expect(barsOf(leg(sections, 'A a bridge').bars)).toBe('2 1 3');
  });

  it('[ROAD-10] match the longest name first', () => {
    const sections = { Solo: '1', 'Solo Break': '2', Break: '3' };
    expect(barsOf(leg(sections, 'Solo Solo Break Break').bars)).toBe('1 2 3');
    expect(barsOf(leg(sections, 'solo  break').bars)).toBe('2');
  });

  it('[ROAD-11] take a name that is a road word from its brackets', () => {
    expect(leg({ Vamp: '1' }, '[Vamp]', 'vamp')).toMatchObject({ passes: 'vamp' });
    expect(barsOf(leg({ 'last 4': '1', A: '2' }, '[last 4] A').bars)).toBe('1 2');
    const { problems } = unrollBuilt({ Vamp: '1' }, [['Vamp', 'Vamp', '']]);
    expect(problems).toMatchObject([{ kind: 'no-section-named', suggestion: '[Vamp] Vamp' }]);
  });

  it('[ROAD-12] are played once, x times, open or till the leader calls go on', () => {
    expect(leg(AB, 'A').passes).toBe(1);
    expect(leg(AB, 'A', 'x3').passes).toBe(3);
    expect(leg(AB, 'A', 'x 3').passes).toBe(3);
    expect(leg(AB, 'A', 'open').passes).toBe('open');
    expect(leg(AB, 'A', 'vamp').passes).toBe('vamp');
  });

  it('[ROAD-12] may be traded', () => {
    expect(leg(AB, 'A B', 'open trade 4')).toMatchObject({ passes: 'open', trade: 4 });
    expect(leg(AB, 'A B', 'x2 trade 8')).toMatchObject({ passes: 2, trade: 8 });
    expect(leg(AB, 'A B', 'trade 4')).toMatchObject({ passes: 1, trade: 4 });
  });

  it('[ROAD-12] carry the words in quotes', () => {
    const { legs } = unrollBuilt(AB, [['Solos', 'A', 'open', 'guitar, tenor']]);
    expect(only(legs).words).toBe('guitar, tenor');
  });

  it('[ROAD-20] [ROAD-22] name their leg, and make none where nothing is played', () => {
    const { legs } = unrollBuilt({ ...AB, C: '' }, [
      ['Head', 'A'],
      ['Nothing', 'C'],
      ['Head out', 'B'],
    ]);
    expect(legs.map(({ id, name }) => [id, name])).toEqual([
      ['line Head', 'Head'],
      ['line Head out', 'Head out'],
    ]);
  });
});

describe('a written tag', () => {
  const tagAfter = (line: readonly [string, string, string?], ...tag: [string, string?]) =>
    unrollBuilt({ A: '1 2 3 4 5 6', Coda: 'c1 c2', B: 'b1 |: b2 b3"to coda" :| b4' }, [
      line,
      ['Tag', ...tag],
    ]);

  it('[ROAD-13] is a leg of its own with the last bars twice more', () => {
    const { legs } = tagAfter(['Head', 'A'], 'last 4', 'x3');
    expect(legs[1]).toMatchObject({ id: 'line Tag', passes: 2, tag: { timesInAll: 3 } });
    expect(barsOf(legs[1]?.bars)).toBe('3 4 5 6');
    expect(playedBars(legs)).toBe('1 2 3 4 5 6 3 4 5 6 3 4 5 6');
  });

  it('[ROAD-13] repeats the bars really played: repeats, Coda and all', () => {
    const { legs } = tagAfter(['Head', 'B al Coda', 'x2'], 'last 3', 'x3');
    expect(barsOf(legs[0]?.lastBars)).toBe('b1 b2 b3 b2 b3 c1 c2');
    expect(barsOf(legs[1]?.bars)).toBe('b3 c1 c2');
  });

  it('[ROAD-13] is clamped to the leg before', () => {
    expect(barsOf(tagAfter(['Head', 'A'], 'last 8', 'x3').legs[1]?.bars)).toBe('1 2 3 4 5 6');
  });

  it('[ROAD-13] without a number is heard once more, and may be open', () => {
    expect(tagAfter(['Head', 'A'], 'last 4').legs[1]).toMatchObject({ passes: 1, tag: { timesInAll: 2 } });
    const open = tagAfter(['Head', 'A'], 'last 4', 'open').legs[1];
    expect(open?.passes).toBe('open');
    expect(open).not.toHaveProperty('tag');
  });

  it('[ROAD-13] [ROAD-23] heard once in all, or after nothing, is reported', () => {
    const once = tagAfter(['Head', 'A'], 'last 4', 'x1');
    expect(once.legs).toHaveLength(1);
    expect(once.problems).toMatchObject([{ kind: 'tag-once', id: 'line Tag', suggestion: 'last 4 x3' }]);
    const first = unrollBuilt(AB, [
      ['Tag', 'last 4', 'x3'],
      ['Head', 'A'],
    ]);
    expect(kindsOf(first.problems)).toEqual(['nothing-before']);
    expect(first.legs).toHaveLength(1);
  });

  it('[ROAD-13] never repeats the bars of another leg than the one before', () => {
    const { legs, problems } = unrollBuilt({ Intro: 'i1 i2' }, [
      ['Intro', 'Intro'],
      ['Head out', 'A'],
      ['Tag', 'last 4', 'x3'],
      ['Tag again', 'last 2', 'x3'],
    ]);
    expect(playedBars(legs)).toBe('i1 i2');
    expect(kindsOf(problems)).toEqual(['unknown-road-word', 'nothing-before', 'nothing-before']);
    expect(problems[1]?.words).toBe(
      'Tag repeats the last 4 bars of the leg before, but nothing of Head out is played.',
    );
  });

  it('[ROAD-13] [ROAD-19] keeps for its last time what was meant for the last pass', () => {
    const { legs } = unrollBuilt({ A: '1 2"last x: hold" 3"1st x: hold" 4"2nd x: hold"' }, [
      ['Head', 'A', 'x2'],
      ['Tag', 'last 4', 'x3'],
    ]);
    expect(legs[1]?.bars.map(({ marks }) => marks.map(({ pass }) => pass))).toEqual([
      [],
      ['last'],
      [],
      ['last'],
    ]);
  });
});

describe('the way to the Coda', () => {
  const sections = { A: 'a1 a2"to coda" a3', B: 'b1 b2', Coda: 'c1 c2' };

  it('[ROAD-14] leaves in the last pass, at the last sign, and plays the passes before to the end', () => {
    const head = leg(sections, 'A B A al Coda', 'x2');
    expect(barsOf(head.bars)).toBe('a1 a2 a3 b1 b2 a1 a2 a3');
    expect(barsOf(head.lastBars)).toBe('a1 a2 a3 b1 b2 a1 a2 c1 c2');
  });

  it('[ROAD-14] leaves from the last time through a repeat', () => {
    expect(barsOf(leg({ A: '|: 1 2"to coda" :| 3', Coda: 'c' }, 'A al Coda').lastBars)).toBe('1 2 1 2 c');
  });

  it('[ROAD-14] finds the Coda without capitals and plays its repeats', () => {
    expect(barsOf(leg({ A: '1"to coda" 2', CODA: '|: c :|' }, 'A al coda').lastBars)).toBe('1 c c');
  });

  it('[ROAD-23] is reported where a sign or the Coda is missing', () => {
    const noCoda = unrollBuilt({ A: '1"to coda" 2' }, [['Head', 'A al Coda']]);
    expect(kindsOf(noCoda.problems)).toEqual(['missing-coda']);
    expect(only(noCoda.legs)).not.toHaveProperty('lastBars');
    const noSign = unrollBuilt({ A: '1 2', Coda: 'c' }, [['Head', 'A al Coda']]);
    expect(kindsOf(noSign.problems)).toEqual(['missing-to-coda']);
    expect(barsOf(only(noSign.legs).lastBars)).toBe('1 2 c');
  });
});

describe('going back', () => {
  it('[ROAD-15] to the segno or to the beginning, in every pass', () => {
    const sections = { A: 'a1 a2"segno"', B: 'b1 b2' };
    expect(barsOf(leg(sections, 'A B D.S.').bars)).toBe('a1 a2 b1 b2 a2 b1 b2');
    expect(barsOf(leg(sections, 'A B D.C.', 'x2').bars)).toBe('a1 a2 b1 b2 a1 a2 b1 b2');
  });

  it('[ROAD-15] then takes the first sign on the way, in the last pass', () => {
    const sections = { A: 'a1"segno" a2"to coda"', B: 'b1 b2', Coda: 'c' };
    const head = leg(sections, 'A B A D.S. al Coda', 'x2');
    expect(barsOf(head.bars)).toBe('a1 a2 b1 b2 a1 a2 a1 a2 b1 b2 a1 a2');
    expect(barsOf(head.lastBars)).toBe('a1 a2 b1 b2 a1 a2 a1 a2 c');
  });

  it('[ROAD-16] plays repeats once only, with the last ending', () => {
    const sections = { A: '1"segno" |: 2 |1. 3 :| |2. 4 || 5' };
    expect(barsOf(leg(sections, 'A D.S.').bars)).toBe('1 2 3 2 4 5 1 2 4 5');
    expect(barsOf(leg(sections, 'A D.S. with repeats').bars)).toBe('1 2 3 2 4 5 1 2 3 2 4 5');
  });

  it('[ROAD-17] on a line of its own, over the form of the line before that holds the signs', () => {
    const sections = { Intro: 'i', A: 'a1"segno" a2', B: 'b1 b2"to coda"', C: 'c1', Coda: 'd' };
    const { legs, problems } = unrollBuilt(sections, [
      ['Head', 'Intro A A B C'],
      ['Solos', 'A B', 'open'],
      ['Vamp', 'C', 'vamp'],
      ['Head out', 'D.S. al Coda'],
    ]);
    expect(problems).toEqual([]);
    expect(barsOf(legs[3]?.lastBars)).toBe('a1 a2 b1 b2 d');
  });

  it('[ROAD-17] over the sections as written where no line before has them', () => {
    const sections = { A: 'a1 a2"segno"', B: 'b1"fine" b2', Coda: 'c' };
    const { legs } = unrollBuilt(sections, [['Head', 'D.S. al Fine']]);
    expect(barsOf(only(legs).lastBars)).toBe('a2 b1');
  });

  it('[ROAD-18] ends with the bar of the Fine', () => {
    const sections = { A: 'a1 a2"Fine" a3', B: 'b1 b2' };
    expect(barsOf(leg(sections, 'A B D.C. al Fine').lastBars)).toBe('a1 a2 a3 b1 b2 a1 a2');
    expect(barsOf(leg(sections, 'A B A al Fine', 'x2').lastBars)).toBe('a1 a2 a3 b1 b2 a1 a2');
  });

  it('[ROAD-23] to a sign that is not there is reported', () => {
    expect(kindsOf(unrollBuilt(AB, [['Head', 'A B D.S.']]).problems)).toEqual(['missing-segno']);
    expect(kindsOf(unrollBuilt(AB, [['Head', 'A B D.C. al Fine']]).problems)).toEqual(['missing-fine']);
  });
});

describe('bars on the road', () => {
  it('[ROAD-7] end a phrase at a line, a double bar, a repeat and the section', () => {
    const { bars } = leg({ A: '1 2 $ 3 || 4 5 :| 6 7' }, 'A');
    const ends = bars.filter(({ phraseEnd }) => phraseEnd).map(({ id }) => id);
    expect(ends).toEqual(['2', '3', '5', '2', '3', '5', '7']);
  });

  it('[ROAD-8] leave the pick-up before bar 1 of a leg that begins with it', () => {
    const sections = { A: 'p"pick-up" a1 a2', B: 'q"pick-up" b1' };
    const { legs } = unrollBuilt(sections, [
      ['Head', 'A B'],
      ['Out', 'B'],
    ]);
    expect(legs.map(({ pickUp, bars }) => [pickUp?.id, barsOf(bars)])).toEqual([
      ['p', 'a1 a2 b1'],
      ['q', 'b1'],
    ]);
    expect(legs[0]?.pickUp).toMatchObject({ pulses: 1, phraseEnd: false, content: { written: 0 } });
    expect(legs[0]?.bars.map(({ content }) => [content.letter, content.written])).toEqual([
      ['A', 1],
      [undefined, 2],
      ['B', 3],
    ]);
  });

  it('[ROAD-9] are eight for one cell that says tacet 8', () => {
    const { bars } = leg({ A: '1 2"tacet 8" $ 3' }, 'A');
    expect(barsOf(bars)).toBe('1 2 2 2 2 2 2 2 2 3');
    expect(bars.map(({ content }) => content.written)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    expect(bars.map(({ phraseEnd }) => phraseEnd).indexOf(true)).toBe(8);
    expect(bars.filter(({ marks }) => marks.length > 0)).toHaveLength(1);
  });

  it('[ROAD-19] settle which time through a repeat a word is meant for', () => {
    const { bars } = leg({ A: '|: 1"1st x: hold" 2"2nd x only: hold" 3"last x: hold" :|x3' }, 'A');
    const held = bars.flatMap((bar, index) => (bar.marks.length > 0 ? [index] : []));
    expect(held).toEqual([0, 4, 8]);
    expect(bars.flatMap(({ marks }) => marks.filter(({ pass }) => pass !== undefined))).toEqual([]);
  });

  it('[ROAD-19] limit a word outside repeats to passes of the leg, and one with a name to its leg', () => {
    const { legs } = unrollBuilt({ A: '1"2nd x: hold" 2"last x: hold" 3"head: break 2"' }, [
      ['Head', 'A', 'x2'],
      ['Head out', 'A'],
    ]);
    expect(legs[0]?.bars.map(({ marks }) => marks[0]?.pass)).toEqual([2, 'last', undefined]);
    expect(legs.map(({ bars }) => bars[2]?.marks.length)).toEqual([1, 0]);
  });
});

describe('without a road map', () => {
  it('[ROAD-21] [ROAD-22] plays head, open solos and head out between Intro and Outro, always with the same ids', () => {
    const { legs } = unrollBuilt({ Intro: 'i', A: 'a', B: 'b', Outro: 'o', Tag: 't' });
    expect(legs.map(({ id, name, passes, bars }) => [id, name, passes, barsOf(bars)])).toEqual([
      ['intro', 'Intro', 1, 'i'],
      ['head', 'Head', 1, 'a b'],
      ['solos', 'Solos', 'open', 'a b'],
      ['headOut', 'Head out', 1, 'a b'],
      ['outro', 'Outro', 1, 'o'],
      ['tag', 'Tag', 1, 't'],
    ]);
  });

  it('[ROAD-21] gives a Vamp before or after the form a leg of its own', () => {
    const { legs } = unrollBuilt({ vamp: 'v', A: 'a', Vamp: 'w' });
    expect(legs.map(({ id, passes }) => [id, passes])).toEqual([
      ['vamp', 'vamp'],
      ['head', 1],
      ['solos', 'open'],
      ['headOut', 1],
      ['vamp2', 'vamp'],
    ]);
  });

  it('[ROAD-21] leaves the head out for the Coda where "to coda" is written', () => {
    const { legs } = unrollBuilt({ A: 'a1"to coda" a2', Coda: 'c' });
    expect(legs.map(({ id }) => id)).toEqual(['head', 'solos', 'headOut']);
    expect(barsOf(legs[2]?.lastBars)).toBe('a1 c');
  });

  it('[ROAD-21] plays music before any section, and nothing where there is none', () => {
    expect(playedBars(unrollBuilt({ '': '1 2' }).legs.slice(0, 1))).toBe('1 2');
    expect(unrollBuilt({}).legs).toEqual([]);
  });

  it('[ROAD-21] [ROAD-23] takes over where nothing of the road map can be played', () => {
    const { legs, problems } = unrollBuilt(AB, [['Head', 'Q']]);
    expect(legs.map(({ id }) => id)).toEqual(['head', 'solos', 'headOut']);
    expect(kindsOf(problems)).toEqual(['unknown-road-word']);
  });
});

describe('what is not understood', () => {
  const problemsOf = (text: string, times = '') =>
    unrollBuilt({ A: 'a', B: 'b', Bridge: 'c' }, [['Head', text, times]]).problems;

  it('[ROAD-23] is skipped, with what was probably meant', () => {
    const { legs, problems } = unrollBuilt({ A: 'a', Bridge: 'c' }, [['Head', 'A Brigde A']]);
    expect(barsOf(only(legs).bars)).toBe('a a');
    expect(problems).toMatchObject([{ kind: 'unknown-road-word', id: 'line Head', suggestion: 'Bridge' }]);
  });

  it('[ROAD-23] is a name in brackets that no section has', () => {
    expect(problemsOf('A [Q]')).toMatchObject([{ kind: 'unknown-section' }]);
  });

  it('[ROAD-23] is a form without blanks, a number in the middle, a number twice', () => {
    expect(problemsOf('AABA')).toMatchObject([{ kind: 'sections-run-together', suggestion: 'A A B A' }]);
    expect(problemsOf('A x2 B')).toMatchObject([{ kind: 'times-in-the-middle', suggestion: 'A A' }]);
    expect(problemsOf('A', 'x2 open')).toMatchObject([{ kind: 'two-times' }]);
    expect(problemsOf('A', 'x0')).toMatchObject([{ kind: 'times-out-of-range' }]);
  });

  it('[ROAD-23] is what stands after a jump, and a tag among sections', () => {
    expect(kindsOf(problemsOf('A D.C. B'))).toEqual(['after-the-jump']);
    expect(kindsOf(problemsOf('A last 4', 'x3'))).toEqual(['last-with-sections']);
  });
});
