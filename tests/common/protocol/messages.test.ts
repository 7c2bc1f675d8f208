import type * as v from 'valibot';
import { describe, expect, expectTypeOf, it } from 'vitest';
import type { Road } from '../../../common/form/road.ts';
import type { calledCueSchema, cueSchema } from '../../../common/protocol/cue-schema.ts';
import { type Lead, readRelayMessage, readTabletMessage } from '../../../common/protocol/messages.ts';
import type { roadSchema } from '../../../common/protocol/road-schema.ts';
import type { Called, Cue } from '../../../common/stage/cue.ts';
import type { LeadChange } from '../../../common/stage/leading.ts';

describe('the shapes on the wire and those of the core', () => {
  it('has the road as the form has it, both ways', () => {
    expectTypeOf<v.InferOutput<typeof roadSchema>>().toExtend<Road>();
    expectTypeOf<Road>().toExtend<v.InferOutput<typeof roadSchema>>();
  });

  it('has the cue as the stage has it, both ways', () => {
    expectTypeOf<v.InferOutput<typeof cueSchema>>().toExtend<Cue>();
    expectTypeOf<Cue>().toExtend<v.InferOutput<typeof cueSchema>>();
    expectTypeOf<Called['cue']>().toExtend<v.InferOutput<typeof calledCueSchema>>();
    expectTypeOf<v.InferOutput<typeof calledCueSchema>>().toExtend<Called['cue']>();
  });
});

it('has who leads as the stage has it, both ways', () => {
  expectTypeOf<Omit<Lead, 't' | 'id'>>().toExtend<LeadChange>();
  expectTypeOf<LeadChange>().toExtend<Omit<Lead, 't' | 'id'>>();
});

describe('reading a message', () => {
  it('takes a ping', () => {
    expect(readTabletMessage({ t: 'ping', n: 1, t0: 2.5 })).toEqual({ t: 'ping', n: 1, t0: 2.5 });
  });

  it('takes a change of who leads, of all or of nothing', () => {
    const all = { t: 'lead', id: 'a', baton: 'bea', taps: null, locked: true };
    expect(readTabletMessage(all)).toEqual(all);
    expect(readTabletMessage({ t: 'lead', id: 'a' })).toEqual({ t: 'lead', id: 'a' });
  });

  it('leaves out members it does not know', () => {
    expect(readTabletMessage({ t: 'call', id: 'a', cue: { kind: 'lastChorus', later: 1 } })).toEqual({
      t: 'call',
      id: 'a',
      cue: { kind: 'lastChorus' },
    });
  });

  it.each([
    ['nothing', null],
    ['a text', 'ping'],
    ['an unknown message', { t: 'sing' }],
    ['a baton for nobody', { t: 'lead', id: 'a', baton: '' }],
    ['a baton for a number', { t: 'lead', id: 'a', baton: 7 }],
    ['a lock that is neither on nor off', { t: 'lead', id: 'a', locked: null }],
    ['a change of who leads without an id', { t: 'lead', baton: null }],
    ['a call without an id', { t: 'call', cue: { kind: 'stop' } }],
    ['an unknown cue', { t: 'call', id: 'a', cue: { kind: 'sing' } }],
    ['a tempo no band plays', { t: 'call', id: 'a', cue: { kind: 'tempo', bpm: 4000 } }],
    ['a tempo that is no number', { t: 'call', id: 'a', cue: { kind: 'tempo', bpm: Number.NaN } }],
    ['a break of half a bar', { t: 'call', id: 'a', cue: { kind: 'break', bars: 0.5 } }],
    [
      'a road of empty legs',
      {
        t: 'call',
        id: 'a',
        cue: {
          kind: 'adopt',
          road: {
            legs: [{ id: 'l', name: 'Head', bars: [], passes: 1 }],
            tempoBpm: 120,
            countBars: 2,
            key: '',
          },
        },
      },
    ],
  ])('does not take %s', (_, json) => {
    expect(readTabletMessage(json)).toBeNull();
  });

  it('reads what the relay answers', () => {
    const called = { t: 'called', id: 'b', cue: { kind: 'takeBack', cue: 'a' }, calledAtMs: 5 };
    expect(readRelayMessage(called)).toEqual(called);
    const refused = { t: 'refused', id: 'b', why: 'unknown', words: 'No such cue.' };
    expect(readRelayMessage(refused)).toEqual(refused);
    expect(readRelayMessage({ t: 'done', id: 'b' })).toEqual({ t: 'done', id: 'b' });
    expect(readRelayMessage({ t: 'pong' })).toBeNull();
  });
});
