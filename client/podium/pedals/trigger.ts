/**
 * What a pedal sends, as text that can be kept: 'key:PageDown' (a keyboard, and page-turner pedals, which are
 * keyboards), 'note:1:60' and 'control:1:64' (MIDI: channel from 1, then note or controller number).
 */
export type Trigger = string;

interface KeyPress {
  readonly code: string;
  readonly key: string;
  readonly repeat: boolean;
  readonly ctrlKey: boolean;
  readonly altKey: boolean;
  readonly metaKey: boolean;
}

/** Keys that the page or the tablet need for themselves. */
const KEPT = new Set(['Tab', 'Escape', 'Unidentified', 'Dead', 'Process', '']);
const MODIFIERS = /^(Shift|Control|Alt|Meta|OS|Fn)(Left|Right)?$|^(Caps|Num|Scroll|Fn)Lock$/;

/** The trigger of a key that went down; null for the repeats of one held down, and for keys that are not free. */
export const keyTrigger = ({ code, key, repeat, ctrlKey, altKey, metaKey }: KeyPress): Trigger | null => {
  if (repeat || ctrlKey || altKey || metaKey) return null;
  // Some pedals name the key but not where it is on a keyboard.
  const name = code === '' || code === 'Unidentified' ? key : code;
  return KEPT.has(name) || KEPT.has(key) || MODIFIERS.test(name) ? null : `key:${name}`;
};

const NOTE_ON = 0x90;
const CONTROL = 0xb0;
/** A controller is down from here on (MIDI 1.0: switches are off to 63, on from 64). */
const PEDAL_DOWN = 64;

/**
 * The trigger of a MIDI message (three bytes): a note that begins, a controller that goes down.
 * @param wasDown the controllers that were down before; those that are now are kept in it
 */
export const midiTrigger = (bytes: ArrayLike<number>, wasDown: Set<Trigger>): Trigger | null => {
  const [status, number, value] = [bytes[0] ?? 0, bytes[1], bytes[2] ?? 0];
  if (number === undefined) return null;
  const channel = (status & 0x0f) + 1;
  if ((status & 0xf0) === NOTE_ON) return value > 0 ? `note:${channel}:${number}` : null;
  if ((status & 0xf0) !== CONTROL) return null;
  const trigger = `control:${channel}:${number}`;
  if (value < PEDAL_DOWN) {
    wasDown.delete(trigger);
    return null;
  }
  if (wasDown.has(trigger)) return null;
  wasDown.add(trigger);
  return trigger;
};

const KEY_WORDS: Readonly<Record<string, string>> = {
  PageUp: 'Page up',
  PageDown: 'Page down',
  ArrowLeft: 'Left arrow',
  ArrowRight: 'Right arrow',
  ArrowUp: 'Up arrow',
  ArrowDown: 'Down arrow',
  Space: 'Space',
  ' ': 'Space',
};

const NOTES = ['C', 'C♯', 'D', 'E♭', 'E', 'F', 'F♯', 'G', 'A♭', 'A', 'B♭', 'B'];

/** @example triggerWords('key:PageDown') // 'Page down'; triggerWords('note:1:60') // 'MIDI note C4' */
export const triggerWords = (trigger: Trigger): string => {
  const [sort, first = '', second = ''] = trigger.split(':');
  if (sort === 'key')
    return KEY_WORDS[first] ?? first.replace(/^(Key|Digit)/, '').replace(/^Numpad/, 'Keypad ');
  const channel = first === '1' ? '' : `, channel ${first}`;
  const number = Number(second);
  return sort === 'note'
    ? `MIDI note ${NOTES[number % 12]}${Math.floor(number / 12) - 1}${channel}`
    : `MIDI pedal ${second}${channel}`;
};
