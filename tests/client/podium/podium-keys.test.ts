import { describe, expect, it } from 'vitest';
import { keyMatter } from '../../../client/podium/key-matter.ts';
import { keyState } from '../../../client/podium/key-state.ts';
import { PEDAL_ACTIONS } from '../../../client/podium/pedals/pedal-actions.ts';
import type { KeyMatter, PadPage } from '../../../client/podium/podium-key.ts';
import { podiumKeys } from '../../../client/podium/podium-keys.ts';
import { openPodiumSettings } from '../../../client/storage/podium-settings.ts';
import { memoryStore } from '../../../client/storage/stored-json.ts';
import { announced } from '../../../common/stage/announce.ts';
import { type Performance, perform } from '../../../common/stage/perform.ts';
import { play } from '../../common/stage/support-read.ts';
import { bars, leg, road, take, twelveBars } from '../../common/stage/support-road.ts';

const settings = openPodiumSettings(memoryStore()).get();

const matterAt = (performance: Performance, atMs: number, more: Partial<KeyMatter> = {}): KeyMatter => ({
  ...keyMatter(performance, atMs, { settings, edited: null, chartKey: 'Eb', picked: [] }),
  ...more,
});

const awayState = (performance: Performance, atMs: number, id: string) => {
  const key = podiumKeys(matterAt(performance, atMs)).find((one) => one.id === id);
  if (key === undefined) throw new Error(`no key ${id}`);
  return keyState(key, performance, announced(performance, atMs), atMs, true);
};

const stateOf = (performance: Performance, atMs: number, id: string, more: Partial<KeyMatter> = {}) => {
  const key = podiumKeys(matterAt(performance, atMs, more)).find((one) => one.id === id);
  if (key === undefined) throw new Error(`no key ${id}`);
  return keyState(key, performance, announced(performance, atMs), atMs);
};

const waiting = perform(take(twelveBars(), []));

// Bars last 2,000 ms: the Head from 4,600, the solos from 28,600.
const IN_SOLOS = 40_000;

describe('the keys of the podium', () => {
  const keys = podiumKeys(matterAt(play(twelveBars()), IN_SOLOS));

  it('are at most twelve on a screen, at most four in a column, and each is there once', () => {
    for (const page of ['form', 'feel', 'solos', 'spot'] satisfies PadPage[]) {
      const shown = keys.filter((key) => key.page === page);
      expect(shown.length).toBeLessThanOrEqual(12);
      for (const column of ['now', 'phrase', 'chorus']) {
        expect(shown.filter((key) => key.column === column).length).toBeLessThanOrEqual(4);
      }
    }
    expect(new Set(keys.map(({ id }) => id)).size).toBe(keys.length);
  });

  it('are out of use while the relay is away, and those that make no sense stay blank', () => {
    expect(awayState(play(twelveBars()), IN_SOLOS, 'lastChorus')).toMatchObject({
      state: 'away',
      face: { name: 'Last chorus' },
      words: 'The relay does not answer.',
    });
    expect(awayState(waiting, 0, 'break')).toMatchObject({ state: 'blank' });
  });

  it('keep their places, whatever goes on', () => {
    const before = podiumKeys(matterAt(waiting, 0));
    const other = podiumKeys(matterAt(play(twelveBars()), IN_SOLOS, { traders: ['Bea', 'drums'], bpm: 90 }));
    const places = (all: typeof keys) => all.map(({ id, page, column }) => `${id} ${page} ${column}`);
    expect(places(before)).toEqual(places(keys));
    expect(places(other)).toEqual(places(keys));
  });

  it('can each be bound to a pedal', () => {
    const actions = new Set(PEDAL_ACTIONS.map(({ id }) => id));
    expect(keys.map(({ id }) => id).filter((id) => !actions.has(id))).toEqual([]);
    expect(actions.size).toBe(PEDAL_ACTIONS.length);
  });

  it('say what follows: the leg after this one, the tempo to come, the key to come', () => {
    const detail = (id: string) => keys.find((key) => key.id === id)?.faces.at(-1)?.detail;
    expect(detail('lastChorus')).toBe('then Head out');
    expect(detail('rit')).toBe('to 102 over 4 bars');
    expect(detail('up')).toBe('E♭ to E');
    expect(detail('down')).toBe('E♭ to D');
  });
});

describe('a key', () => {
  it('is ready where its cue makes sense, and goes blank with the reason where it does not', () => {
    const playing = play(twelveBars());
    expect(stateOf(playing, IN_SOLOS, 'lastChorus').state).toBe('ready');
    // The Head is played once: it is the last chorus already.
    expect(stateOf(playing, 6_000, 'lastChorus')).toMatchObject({
      state: 'blank',
      words: expect.stringMatching(/\w+.*[.]$/),
    });
    expect(stateOf(waiting, 0, 'break')).toMatchObject({ state: 'blank' });
  });

  it('is called from the call to the landing', () => {
    const playing = play(twelveBars(), [IN_SOLOS, { kind: 'lastChorus' }]);
    expect(stateOf(playing, IN_SOLOS + 100, 'lastChorus')).toMatchObject({ state: 'called' });
    expect(stateOf(playing, 52_600, 'lastChorus').state).toBe('blank');
  });

  it('is told from another of its kind: a break at the phrase is not the one at the top', () => {
    const playing = play(twelveBars(), [IN_SOLOS, { kind: 'break', bars: 2, at: 'pass' }]);
    expect(stateOf(playing, IN_SOLOS + 100, 'breakAtTop').state).toBe('called');
    expect(stateOf(playing, IN_SOLOS + 100, 'break').state).toBe('ready');
  });

  it('shows the face that makes sense: in a vamp it goes on, held it releases', () => {
    const a = bars('a', 4);
    const vamp = play(road([leg('Vamp', 'vamp', a), leg('Head', 1, a)]));
    expect(stateOf(vamp, 20_000, 'lastChorus')).toMatchObject({
      state: 'ready',
      face: { name: 'Go on', detail: 'Head' },
    });
    const held = play(twelveBars(), [IN_SOLOS, { kind: 'hold' }]);
    expect(stateOf(held, IN_SOLOS - 1, 'hold')).toMatchObject({ face: { name: 'Hold' } });
    expect(stateOf(held, IN_SOLOS + 8_000, 'hold')).toMatchObject({
      state: 'ready',
      face: { name: 'Release' },
    });
  });

  it('has nothing to call where nothing is there to be taken, and says so', () => {
    const playing = play(twelveBars());
    expect(stateOf(playing, IN_SOLOS, 'adopt')).toMatchObject({
      state: 'blank',
      words: 'Nothing was changed.',
    });
    expect(stateOf(playing, IN_SOLOS, 'tradeFours')).toMatchObject({
      state: 'blank',
      words: 'Choose who trades first.',
    });
    const edited = road([leg('Head', 1, bars('a', 8)), leg('Solos', 'open', bars('a', 8))]);
    expect(stateOf(playing, IN_SOLOS, 'adopt', { edited })).toMatchObject({ state: 'ready' });
  });
});
