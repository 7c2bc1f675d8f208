import { describe, expect, it, vi } from 'vitest';
import { keyMatter } from '../../../client/podium/key-matter.ts';
import { actionOf, bind, triggersOf, unbind } from '../../../client/podium/pedals/bindings.ts';
import { type MidiBrowser, midiInput } from '../../../client/podium/pedals/hear-midi.ts';
import { pressAction } from '../../../client/podium/pedals/pedal-actions.ts';
import { pedalHub } from '../../../client/podium/pedals/pedal-hub.ts';
import { keyTrigger, midiTrigger, triggerWords } from '../../../client/podium/pedals/trigger.ts';
import { openPodiumSettings } from '../../../client/storage/podium-settings.ts';
import { memoryStore } from '../../../client/storage/stored-json.ts';
import { play } from '../../common/stage/support-read.ts';
import { twelveBars } from '../../common/stage/support-road.ts';

const press = (code: string, more: Partial<Parameters<typeof keyTrigger>[0]> = {}) =>
  keyTrigger({ code, key: code, repeat: false, ctrlKey: false, altKey: false, metaKey: false, ...more });

describe('what a pedal sends', () => {
  it('is the key of a page turner, once for every time it goes down', () => {
    expect(press('PageDown')).toBe('key:PageDown');
    expect(press('PageDown', { repeat: true })).toBeNull();
    expect(press('', { key: 'ArrowRight' })).toBe('key:ArrowRight');
  });

  it('leaves to the page and the tablet what they need', () => {
    for (const code of ['Tab', 'Escape', 'ShiftLeft', 'ControlRight', 'MetaLeft', 'CapsLock']) {
      expect(press(code)).toBeNull();
    }
    expect(press('KeyR', { ctrlKey: true })).toBeNull();
    expect(press('KeyR', { metaKey: true })).toBeNull();
  });

  it('is a MIDI note that begins, or a controller that goes down and has come up before', () => {
    const down = new Set<string>();
    expect(midiTrigger([0x90, 60, 100], down)).toBe('note:1:60');
    expect(midiTrigger([0x90, 60, 0], down)).toBeNull();
    expect(midiTrigger([0x80, 60, 64], down)).toBeNull();
    expect(midiTrigger([0xb2, 64, 127], down)).toBe('control:3:64');
    expect(midiTrigger([0xb2, 64, 90], down)).toBeNull();
    expect(midiTrigger([0xb2, 64, 10], down)).toBeNull();
    expect(midiTrigger([0xb2, 64, 127], down)).toBe('control:3:64');
    expect(midiTrigger([0xf8], down)).toBeNull();
  });

  it('is named as people know it', () => {
    expect(triggerWords('key:PageDown')).toBe('Page down');
    expect(triggerWords('key:KeyB')).toBe('B');
    expect(triggerWords('note:1:60')).toBe('MIDI note C4');
    expect(triggerWords('control:3:64')).toBe('MIDI pedal 64, channel 3');
  });
});

describe('binding', () => {
  it('gives a trigger one thing to do; a cue may have several triggers', () => {
    const first = bind(bind([], 'key:PageDown', 'break'), 'control:1:64', 'break');
    expect(triggersOf(first, 'break')).toEqual(['key:PageDown', 'control:1:64']);
    const again = bind(first, 'key:PageDown', 'tap');
    expect(actionOf(again, 'key:PageDown')).toBe('tap');
    expect(triggersOf(again, 'break')).toEqual(['control:1:64']);
    expect(unbind(again, 'key:PageDown')).toEqual([{ trigger: 'control:1:64', action: 'break' }]);
  });

  it('is kept on the tablet, and nonsense that was kept is left out', () => {
    const store = memoryStore();
    openPodiumSettings(store).change({ bindings: [{ trigger: 'key:Space', action: 'tap' }], hand: 'left' });
    expect(openPodiumSettings(store).get()).toMatchObject({
      hand: 'left',
      bindings: [{ trigger: 'key:Space', action: 'tap' }],
    });
    store.setItem(
      'tillcue.podium',
      '{"bindings":[{"trigger":7},null,{"trigger":"a","action":"b"}],"breakBars":-2}',
    );
    expect(openPodiumSettings(store).get()).toMatchObject({
      bindings: [{ trigger: 'a', action: 'b' }],
      breakBars: 2,
    });
  });
});

describe('where pedals are heard', () => {
  it('a bound one acts, another is left to the page; one that is learnt calls nothing', () => {
    const hub = pedalHub();
    const heard: string[] = [];
    const stop = hub.play(
      (trigger) => trigger === 'key:Space',
      (trigger, atMs) => heard.push(`${trigger} ${atMs}`),
    );
    expect(hub.hear('key:Space', 5)).toBe(true);
    expect(hub.hear('key:KeyQ', 6)).toBe(false);
    const learnt: string[] = [];
    const done = hub.learn((trigger) => learnt.push(trigger));
    expect(hub.hear('key:Space', 7)).toBe(true);
    done();
    hub.hear('key:Space', 8);
    stop();
    expect(hub.hear('key:Space', 9)).toBe(false);
    expect(heard).toEqual(['key:Space 5', 'key:Space 8']);
    expect(learnt).toEqual(['key:Space']);
  });

  it('the last who plays hears, and the one before again afterwards, in whatever order they end', () => {
    const hub = pedalHub();
    const heard: string[] = [];
    const play = (name: string) =>
      hub.play(
        () => true,
        () => heard.push(name),
      );
    const stopPodium = play('podium');
    const stopDrill = play('drill');
    hub.hear('key:Space', 1);
    stopDrill();
    hub.hear('key:Space', 2);
    const stopAgain = play('drill');
    stopPodium();
    hub.hear('key:Space', 3);
    stopAgain();
    expect(hub.hear('key:Space', 4)).toBe(false);
    expect(heard).toEqual(['drill', 'podium', 'drill']);
  });

  const input = (name: string) => ({ name, onmidimessage: null as null | ((event: unknown) => void) });
  const browserWith = (...inputs: ReturnType<typeof input>[]): MidiBrowser => ({
    requestMIDIAccess: async () =>
      ({
        inputs: new Map(inputs.map((one) => [one.name, one])),
        onstatechange: null,
      }) as unknown as MIDIAccess,
    permissions: { query: async () => ({ state: 'prompt' }) },
  });

  it('MIDI is opened when it is asked for, and not before unless it was allowed before', async () => {
    const pedal = input('Foot switch');
    const hub = pedalHub();
    const browser = browserWith(pedal);
    const midi = midiInput(hub, browser);
    await midi.openAgain();
    expect(midi.state.get()).toEqual({ state: 'closed' });
    await midi.open();
    expect(midi.state.get()).toEqual({ state: 'open', names: ['Foot switch'] });
    const heard: string[] = [];
    hub.learn((trigger, atMs) => heard.push(`${trigger} ${atMs}`));
    pedal.onmidimessage?.({ data: new Uint8Array([0xb0, 64, 127]), timeStamp: 42 });
    expect(heard).toEqual(['control:1:64 42']);
    const allowed = midiInput(hub, {
      ...browser,
      permissions: { query: async () => ({ state: 'granted' }) },
    });
    await allowed.openAgain();
    expect(allowed.state.get().state).toBe('open');
  });

  it('says so where there is no MIDI, or it was not allowed', async () => {
    expect(midiInput(pedalHub(), {}).state.get()).toEqual({ state: 'missing' });
    const warn = vi.spyOn(console, 'warn').mockImplementation(() => {});
    const refused = midiInput(pedalHub(), {
      requestMIDIAccess: () => Promise.reject(new Error('NotAllowed')),
    });
    await refused.open();
    expect(refused.state.get()).toEqual({ state: 'refused' });
    expect(warn).toHaveBeenCalledOnce();
    warn.mockRestore();
  });
});

describe('a bound pedal', () => {
  const settings = openPodiumSettings(memoryStore()).get();
  const playing = play(twelveBars(), [40_000, { kind: 'lastChorus' }]);
  const pressAt = (id: string, atMs: number, tapping: 'beats' | 'downbeats' = 'beats') =>
    pressAction(
      id,
      playing,
      keyMatter(playing, atMs, {
        settings: { ...settings, tapping },
        edited: null,
        chartKey: '',
        picked: [],
      }),
      atMs,
    );

  it('calls what the key of the podium would call', () => {
    expect(pressAt('break', 39_000)).toEqual({ call: { kind: 'break', bars: 2, at: 'phrase' } });
    expect(pressAt('tap', 39_000)).toEqual({ call: { kind: 'tap', tappedAtMs: 39_000 } });
    expect(pressAt('tap', 39_000, 'downbeats')).toEqual({
      call: { kind: 'tap', tappedAtMs: 39_000, downbeat: true },
    });
    expect(pressAt('top', 39_000)).toEqual({
      call: { kind: 'here', leg: 'Solos', barIndex: 0, pressedAtMs: 39_000 },
    });
    expect(pressAt('late', 40_100)).toMatchObject({ call: { kind: 'here', leg: 'Solos', barIndex: 5 } });
  });

  it('counts in where nothing is on, and stops what is on', () => {
    expect(pressAt('startStop', -5)).toEqual({ call: { kind: 'start' } });
    expect(pressAt('startStop', 39_000)).toEqual({ call: { kind: 'stop' } });
  });

  it('takes back the last call, and says so where there is none', () => {
    expect(pressAt('takeBack', 40_100)).toEqual({ takeBack: 'c2' });
    expect(pressAt('takeBack', 53_000)).toEqual({ words: 'There is nothing to take back.' });
  });

  it('says why it calls nothing', () => {
    expect(pressAt('lastChorus', 40_100)).toEqual({ words: 'Last chorus is called already.' });
    expect(pressAt('top', -5)).toEqual({ words: 'The band does not play.' });
    expect(pressAt('goneKey', 39_000)).toEqual({ words: 'This pedal is bound to a key that is no more.' });
  });
});
