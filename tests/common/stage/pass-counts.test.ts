import { describe, expect, it } from 'vitest';
import type { Cue } from '../../../common/stage/cue.ts';
import { judge } from '../../../common/stage/judge.ts';
import { at, play, told } from './support-read.ts';
import { bar, bars, leg, mark, road } from './support-road.ts';

// 4/4 at 120: a bar lasts 2,000 ms; without a count-in the downbeat is at 600.
const LAST: Cue = { kind: 'lastChorus' };
const MORE: Cue = { kind: 'oneMore' };
const GO_ON: Cue = { kind: 'goOn' };

const two = bars('a', 2);
const short = road([leg('Head', 2, two), leg('Solos', 'open', two), leg('Out', 1, two)], { countBars: 0 });
const vamp = road([leg('Vamp', 'vamp', two), leg('Out', 1, two)], { countBars: 0 });

describe('Last chorus, one more and go on', () => {
  it('[STAGE-21] makes a pass of a numbered leg the last', () => {
    expect(told(play(short, [1000, LAST]), 3)).toEqual(['Head 1.1', 'Head 1.2', 'Solos 1.1']);
  });

  it('[STAGE-21] is refused where it is the last already, called or by number', () => {
    expect(judge(play(short), LAST, 5000)).toMatchObject({ ok: false, why: 'lastAlready' });
    expect(judge(play(short, [9000, LAST]), LAST, 9100)).toMatchObject({ ok: false, why: 'lastAlready' });
  });

  it('[STAGE-21] means go on in a vamp', () => {
    expect(told(play(vamp, [5000, LAST]))).toEqual([
      ...['Vamp 1.1', 'Vamp 1.2', 'Vamp 2.1', 'Vamp 2.2'],
      ...['Out 1.1', 'Out 1.2', 'end'],
    ]);
  });

  it('[STAGE-22] adds one to a number, in any pass of it', () => {
    expect(told(play(short, [1000, MORE]), 7).at(-1)).toBe('Solos 1.1');
    expect(told(play(short, [5000, MORE]), 7).at(-2)).toBe('Head 3.2');
  });

  it('[STAGE-22] adds one to what last chorus set, and last chorus may take it away again', () => {
    expect(told(play(short, [9000, LAST], [9100, MORE]), 9).slice(4)).toEqual([
      ...['Solos 1.1', 'Solos 1.2', 'Solos 2.1', 'Solos 2.2'],
      'Out 1.1',
    ]);
    expect(told(play(short, [9000, LAST], [9100, MORE], [9200, LAST]), 7).at(-1)).toBe('Out 1.1');
  });

  it('[STAGE-22] is refused where nothing would end', () => {
    expect(judge(play(short), MORE, 9000)).toMatchObject({ ok: false, why: 'nothingEnds' });
    expect(judge(play(vamp), MORE, 1000)).toMatchObject({ ok: false, why: 'nothingEnds' });
  });

  it('[STAGE-23] leaves a vamp at the end of the pass, and is refused elsewhere', () => {
    expect(judge(play(vamp), GO_ON, 1000)).toMatchObject({ ok: true, landsMs: 4600, barsToGo: 2 });
    expect(told(play(vamp, [1000, GO_ON]))).toEqual(['Vamp 1.1', 'Vamp 1.2', 'Out 1.1', 'Out 1.2', 'end']);
    expect(judge(play(short), GO_ON, 9000)).toMatchObject({ ok: false, why: 'noVamp' });
    expect(judge(play(vamp, [1000, GO_ON]), GO_ON, 1100)).toMatchObject({ ok: false, why: 'lastAlready' });
  });

  it('[STAGE-12] is refused if the leg changes before notice is over', () => {
    expect(judge(play(short), LAST, 8300)).toMatchObject({ ok: false, why: 'legChanges' });
    // One pulse before the line exactly, it still lands on that line; the last pass of the Head is the last.
    expect(judge(play(short), MORE, 8100)).toMatchObject({ ok: true, landsMs: 8600 });
    expect(judge(play(short), MORE, 8101)).toMatchObject({ ok: false, why: 'legChanges' });
    expect(judge(play(vamp, [1000, GO_ON]), LAST, 4400)).toMatchObject({ ok: false, why: 'legChanges' });
  });

  it('[STAGE-12] is refused where the tune ends before notice is over', () => {
    const once = road([leg('Head', 1, two)], { countBars: 0 });
    expect(judge(play(once), MORE, 4300)).toMatchObject({ ok: false, why: 'over' });
    expect(judge(play(once), MORE, 4000)).toMatchObject({ ok: true, landsMs: 4600 });
  });
});

describe('A last pass with other bars, as in al Coda', () => {
  const plain = bars('a', 4);
  const coda = [...plain.slice(0, 2), bar('c1', { letter: 'Coda' }), bar('c2', { phraseEnd: true })];
  const alCoda = (passes: 'open' | number) =>
    road([leg('Solos', passes, plain, { lastBars: coda }), leg('Out', 1, two)], { countBars: 0 });
  const ids = (performance: ReturnType<typeof play>, n: number) => told(performance, n);

  it('[STAGE-32] lands last chorus at the bar where the passes part', () => {
    expect(judge(play(alCoda('open')), LAST, 1000)).toMatchObject({ ok: true, landsMs: 4600, barsToGo: 2 });
    const performance = play(alCoda('open'), [1000, LAST]);
    expect(ids(performance, 5).at(-1)).toBe('Out 1.1');
    expect(at(performance, 4600)).toBe('Solos 1.3+0');
  });

  it('[STAGE-32] acts on the next pass once the pass is beyond that bar', () => {
    expect(judge(play(alCoda('open')), LAST, 4700)).toMatchObject({ ok: true, landsMs: 8600 });
    expect(ids(play(alCoda('open'), [4700, LAST]), 9).slice(4)).toEqual([
      ...['Solos 2.1', 'Solos 2.2', 'Solos 2.3', 'Solos 2.4'],
      'Out 1.1',
    ]);
  });

  it('[STAGE-32] lands one more in the last pass before it takes the coda', () => {
    const performance = play(alCoda(1), [1000, MORE]);
    expect(ids(performance, 9).at(-1)).toBe('Out 1.1');
    expect(judge(play(alCoda(1)), MORE, 4700)).toMatchObject({ ok: true, landsMs: 8600 });
  });

  it('[STAGE-32] plays the bars of the last pass in the last pass only', () => {
    const played = (passes: number) => {
      const performance = play(alCoda(passes));
      return Array.from({ length: passes * 4 }, (_, i) => 600 + i * 2000).map((t) => at(performance, t));
    };
    expect(played(2).at(-1)).toBe('Solos 2.4+0');
  });

  it('[STAGE-32] [STAGE-34] parts where the last pass has a tempo of its own', () => {
    const slow = bars('a', 4, { 2: { marks: [mark({ kind: 'tempo', bpm: 60 }, 0, 'last')] } });
    const on = road([leg('Solos', 'open', slow), leg('Out', 1, two)], { countBars: 0 });
    expect(judge(play(on), LAST, 1000)).toMatchObject({ ok: true, landsMs: 4600 });
    const performance = play(on, [1000, LAST]);
    expect(at(performance, 4600 + 4000)).toBe('Solos 1.4+0');
    expect(at(play(on), 4600 + 4000)).toBe('Solos 2.1+0');
  });
});
