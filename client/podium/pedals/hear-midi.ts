import { settable } from '../../state/observable.ts';
import { type PedalHub, pedals } from './pedal-hub.ts';
import { midiTrigger } from './trigger.ts';

/** How it stands with MIDI on this tablet. */
export type MidiState =
  /** The browser has none. */
  | { readonly state: 'missing' }
  /** Nobody has asked for it yet. */
  | { readonly state: 'closed' }
  /** Heard; what is connected, by name. */
  | { readonly state: 'open'; readonly names: readonly string[] }
  /** The person or the browser said no. */
  | { readonly state: 'refused' };

/** The part of the browser that is asked. */
export interface MidiBrowser {
  readonly requestMIDIAccess?: () => Promise<MIDIAccess>;
  readonly permissions?: { readonly query: (which: { name: PermissionName }) => Promise<{ state: string }> };
}

/** MIDI of one page: everything that comes in goes to the hub. Once open it stays open as long as the page. */
export const midiInput = (hub: PedalHub, browser: MidiBrowser) => {
  const state = settable<MidiState>({
    state: typeof browser.requestMIDIAccess === 'function' ? 'closed' : 'missing',
  });
  const listen = (access: MIDIAccess): void => {
    const down = new Set<string>();
    const connect = () => {
      const inputs = [...access.inputs.values()];
      for (const input of inputs) {
        input.onmidimessage = ({ data, timeStamp }) => {
          const trigger = data === null ? null : midiTrigger(data, down);
          if (trigger !== null) hub.hear(trigger, timeStamp);
        };
      }
      state.set({ state: 'open', names: inputs.map(({ name }) => name ?? 'a MIDI device') });
    };
    access.onstatechange = connect;
    connect();
  };
  /** Opens MIDI, which may make the browser ask the person. */
  const open = async (): Promise<void> => {
    const { requestMIDIAccess } = browser;
    if (requestMIDIAccess === undefined || state.get().state === 'open') return;
    try {
      listen(await requestMIDIAccess.call(browser));
    } catch (error) {
      console.warn('MIDI was not opened.', error);
      state.set({ state: 'refused' });
    }
  };
  /** Opens MIDI where the person has allowed it before, so that nobody is asked in the middle of a tune. */
  const openAgain = async (): Promise<void> => {
    if (state.get().state !== 'closed' || browser.permissions === undefined) return;
    try {
      const permission = await browser.permissions.query({ name: 'midi' as PermissionName });
      if (permission.state === 'granted') await open();
    } catch (error) {
      // A browser that does not say: MIDI is opened with the binding sheet.
      console.info('Whether MIDI is allowed is not known.', error);
    }
  };
  return { state, open, openAgain };
};

/** The MIDI input of this page. */
export const midi = midiInput(pedals, typeof navigator === 'undefined' ? {} : (navigator as MidiBrowser));
