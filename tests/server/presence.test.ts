import { describe, expect, it } from 'vitest';
import { stampState } from '../../server/awareness-state.ts';
import { presence } from '../../server/presence.ts';

const names = (entries: readonly { client: number; state: string }[]) =>
  entries.map(({ client, state }) => [client, state]);

describe('presence', () => {
  it('gives an id to the connection that speaks for it first, and hears nobody else about it', () => {
    const room = presence<string>(0);
    expect(room.speak('ines', 1, '{"name":"Ines"}').outcome).toBe('changed');
    room.speak('bea', 2, '{"name":"Bea"}');
    expect(room.speak('bea', 1, '{"name":"Mallory"}').outcome).toBe('ignored');
    expect(room.speak('bea', 1, '').outcome).toBe('ignored');
    expect(names(room.everybody())).toEqual([
      [1, '{"name":"Ines"}'],
      [2, '{"name":"Bea"}'],
    ]);
  });

  it('lets a connection speak for one id only, so that an echo of somebody who left brings nobody back', () => {
    const room = presence<string>(0);
    room.speak('ines', 1, '{"a":1}');
    room.speak('bea', 2, '{"a":2}');
    room.leave('bea');
    expect(room.speak('ines', 2, '{"a":2}').outcome).toBe('ignored');
    expect(names(room.due(false))).toContainEqual([2, 'null']);
  });

  it('shows somebody who comes back at once, with a clock above all before', () => {
    const room = presence<string>(0);
    room.speak('bea on the old socket', 2, '{"a":2}');
    const [before] = room.due(false);
    expect(room.speak('bea on the new socket', 2, '{"a":2}')).toEqual({
      outcome: 'contested',
      owner: 'bea on the old socket',
    });
    room.leave('bea on the old socket');
    const [after] = room.due(false);
    expect(after?.state).toBe('{"a":2}');
    expect(after?.clock).toBeGreaterThan(before?.clock ?? Number.POSITIVE_INFINITY);
    expect(room.clientOf('bea on the new socket')).toBe(2);
  });

  it('sends on what is only renewed when that is asked for, and each thing once', () => {
    const room = presence<string>(0);
    room.speak('ines', 1, '{"a":1}');
    expect(room.due(false)).toHaveLength(1);
    expect(room.speak('ines', 1, '{"a":1}').outcome).toBe('renewed');
    expect(room.due(false)).toEqual([]);
    expect(room.due(true)).toHaveLength(1);
    expect(room.due(true)).toEqual([]);
  });

  it('keeps nothing of ten thousand who came and went', () => {
    const room = presence<number>(0);
    for (let peer = 0; peer < 10_000; peer++) {
      room.speak(peer, peer, '{}');
      room.leave(peer);
      room.due(true);
    }
    expect(room.everybody()).toEqual([]);
    expect(room.due(true)).toEqual([]);
  });
});

describe('the state as it is passed on', () => {
  it('has the role of the key, whatever the tablet says', () => {
    const stamped = stampState('{"name":"Tomas","role":"leader"}', 'reader', false);
    expect(stamped.ok && JSON.parse(stamped.state)).toEqual({ name: 'Tomas', role: 'reader' });
  });

  it('has a pointer only where whoever leads points', () => {
    const state = '{"point":{"chart":"c1","bar":"b1"}}';
    const leader = stampState(state, 'leader', true);
    const player = stampState(state, 'player', false);
    expect(leader.ok && JSON.parse(leader.state).point).toEqual({ chart: 'c1', bar: 'b1' });
    expect(player.ok && JSON.parse(player.state).point).toBeNull();
  });

  it('has names of one line', () => {
    const stamped = stampState(
      JSON.stringify({ name: `a\n\u202eb${'c'.repeat(99)}`, part: 7 }),
      'player',
      false,
    );
    expect(stamped.ok && JSON.parse(stamped.state)).toEqual({
      name: `ab${'c'.repeat(58)}`,
      part: '',
      role: 'player',
    });
  });

  it.each([['{'], ['[]'], ['7'], ['"a"']])('is not taken from %s', (json) => {
    expect(stampState(json, 'player', false)).toEqual({ ok: false, why: 'unreadable' });
  });

  it('is not taken beyond 2 kB', () => {
    expect(stampState(JSON.stringify({ a: 'x'.repeat(2_100) }), 'player', false)).toEqual({
      ok: false,
      why: 'tooLarge',
    });
  });
});
