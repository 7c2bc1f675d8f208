import { describe, expect, it } from 'vitest';
import { type Call, conduct, conductTakeBack, type Effect } from '../../../common/stage/conduct.ts';
import type { Take } from '../../../common/stage/cue.ts';
import { locate } from '../../../common/stage/locate.ts';
import { perform } from '../../../common/stage/perform.ts';
import { bars, leg, road, START, take } from './support-road.ts';

const tune = road([leg('Head', 1, bars('a', 2)), leg('Solos', 'open', bars('a', 2))], { countBars: 0 });
const chart = { id: 'ferry', title: 'Slow Ferry', road: tune };
const context = { newTakeId: 't2' };
const call = (taken: Take | null, cue: Call['cue'], atMs: number, more: object = {}) =>
  conduct({ take: taken }, { id: 'new', cue, by: 'ines' }, atMs, { ...context, ...more });
const effect = (conducted: ReturnType<typeof conduct>): Effect => {
  if (!conducted.ok) throw new Error(conducted.words);
  return conducted.effect;
};
const rolling = take(tune, [[1000, START]]);

describe('The conductor of the relay', () => {
  it('[STAGE-38] [STAGE-18] begins a waiting take when a tune is called', () => {
    const { kind, ...rest } = effect(
      call(null, { kind: 'callTune', chart: 'ferry', tempoBpm: 96 }, 500, {
        chart: { ...chart, semitones: -2 },
      }),
    );
    expect(kind).toBe('newTake');
    expect(rest).toMatchObject({
      take: { id: 't2', chart: 'ferry', title: 'Slow Ferry', semitones: -2, road: { tempoBpm: 96 } },
      called: { id: 'new', calledAtMs: 500, by: 'ines' },
    });
    if ('take' in rest) expect(locate(perform(rest.take), 9000)).toEqual({ state: 'waiting' });
  });

  it('[STAGE-38] refuses a tune while another is on, an unknown one, and cues without a tune', () => {
    expect(call(rolling, { kind: 'callTune', chart: 'ferry' }, 5000, { chart })).toMatchObject({
      why: 'rolling',
    });
    expect(call(null, { kind: 'callTune', chart: 'x' }, 5000)).toMatchObject({
      ok: false,
      why: 'noSuchChart',
    });
    expect(call(null, { kind: 'callTune', chart: 'ferry', tempoBpm: 9 }, 0, { chart })).toMatchObject({
      why: 'badTempo',
    });
    expect(call(null, START, 5000)).toMatchObject({ ok: false, why: 'noTune' });
  });

  it('[STAGE-38] appends what makes sense, stamped not before the last call', () => {
    expect(effect(call(rolling, { kind: 'stop' }, 900))).toEqual({
      kind: 'append',
      called: { id: 'new', cue: { kind: 'stop' }, calledAtMs: 1000, by: 'ines' },
    });
    expect(call(rolling, { kind: 'goOn' }, 2000)).toMatchObject({ ok: false, why: 'noVamp' });
  });

  it('[STAGE-38] begins another take of the chart when a start is called after the end, at the tempo asked for', () => {
    const other = road([leg('New', 1, bars('n', 2))], { countBars: 0 });
    const ended = take(tune, [
      [0, { kind: 'tempo', bpm: 90 }],
      [1000, START],
      [2000, { kind: 'stop' }],
      [4000, { kind: 'adopt', road: other }],
    ]);
    const again = effect(call(ended, { kind: 'start', barIndex: 1 }, 9000));
    expect(again).toMatchObject({
      kind: 'newTake',
      take: {
        id: 't2',
        chart: 'ferry',
        road: { tempoBpm: 90, legs: [{ id: 'New' }] },
        cues: [{ id: 'new' }],
      },
    });
    if (again.kind === 'newTake') {
      expect(locate(perform(again.take), 9600)).toMatchObject({ place: { leg: 'New', barIndex: 1 } });
    }
    // The same call again finds itself in the new take.
    if (again.kind === 'newTake') {
      expect(effect(call(again.take, { kind: 'start', barIndex: 1 }, 9100))).toMatchObject({
        kind: 'repeat',
      });
    }
  });

  it('[STAGE-38] [STAGE-7] answers a repeated id as it was', () => {
    const again = conduct({ take: rolling }, { id: 'c1', cue: { kind: 'stop' } }, 5000, context);
    expect(effect(again)).toEqual({ kind: 'repeat', called: rolling.cues[0] });
  });

  it('[STAGE-38] [STAGE-14] takes back what has not landed', () => {
    const called = take(tune, [
      [1000, START],
      [6000, { kind: 'lastChorus' }],
    ]);
    const back = (cue: string, atMs: number) =>
      conductTakeBack({ take: called, performance: perform(called) }, { id: 'b', cue, by: 'ines' }, atMs);
    expect(effect(back('c2', 7000))).toEqual({
      kind: 'append',
      called: { id: 'b', cue: { kind: 'takeBack', cue: 'c2' }, calledAtMs: 7000, by: 'ines' },
    });
    expect(back('c2', 20_000)).toMatchObject({ ok: false, why: 'landed' });
    expect(back('c1', 7000)).toMatchObject({ ok: false, why: 'landed' });
    expect(conductTakeBack({ take: null }, { id: 'b', cue: 'c1' }, 0)).toMatchObject({ why: 'noTune' });
  });
});
