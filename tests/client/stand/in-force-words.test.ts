import { expect, it } from 'vitest';
import { factsOf } from '../../../client/stand/in-force-words.ts';
import type { ComingBar } from '../../../common/stage/place.ts';
import { leg, legBars } from './coming-bars.ts';

const bars = legBars(10, [3, 7]);
const solos = leg('solos', 'Solos', 'open', bars);
const bar = (more: Partial<ComingBar>): ComingBar => ({
  index: 0,
  startMs: 0,
  place: { leg: 'solos', pass: 1, barIndex: 0, pulse: 0 },
  bar: bars[0] as ComingBar['bar'],
  leg: solos,
  passes: 'open',
  passBars: 10,
  lands: [],
  ...more,
});
const words = (facts: ReturnType<typeof factsOf>) =>
  facts.map(({ words, after }) => `${words} ${after}`.trim());

it('a bar as written has no facts', () => {
  expect(factsOf(bar({}), null, null)).toEqual([]);
});

it('tells who plays now and who is next, and when', () => {
  expect(words(factsOf(bar({ turn: { now: 'Tomas', next: 'drums', barsLeft: 3 } }), 'Bea', null))).toEqual([
    'Tomas drums in 4 bars',
  ]);
  expect(words(factsOf(bar({ turn: { now: 'drums', next: 'Bea', barsLeft: 0 } }), null, null))).toEqual([
    'drums Bea next bar',
  ]);
  expect(words(factsOf(bar({ soloist: 'Tomas' }), 'Bea', null))).toEqual(['Tomas solos Bea next']);
  expect(words(factsOf(bar({ soloist: 'Bea' }), null, null))).toEqual(['Bea solos']);
});

it('tells the spot by its bars as people count them, and no more than two things at once', () => {
  const all = bar({ loop: { from: 4, to: 7, round: 3 }, stopTime: true, feel: 'half-time', soloist: 'Bea' });
  expect(words(factsOf(all, null, 'mf'))).toEqual(['bars 5–8 round 3', 'stop-time']);
  expect(words(factsOf(bar({ feel: 'half-time' }), null, 'mf'))).toEqual(['half-time', 'mf']);
});
