import { announced } from '../../../common/stage/announce.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { locate } from '../../../common/stage/locate.ts';
import type { Performance } from '../../../common/stage/perform.ts';
import { keyState } from '../key-state.ts';
import { lastCalled } from '../pending-cues.ts';
import type { KeyMatter } from '../podium-key.ts';
import { podiumKeys } from '../podium-keys.ts';
import { type SlipLength, slipAt } from '../slip.ts';

/** What a pedal or a key can do, by the id that is kept, in the order in which it is offered. */
export const PEDAL_ACTIONS: readonly { readonly id: string; readonly name: string }[] = [
  { id: 'tap', name: 'Tap the beat' },
  { id: 'startStop', name: 'Count in, or stop' },
  { id: 'start', name: 'Count in' },
  { id: 'stop', name: 'Stop' },
  { id: 'takeBack', name: 'Take back the last call' },
  { id: 'top', name: 'The top, now' },
  { id: 'late', name: 'A beat late' },
  { id: 'early', name: 'A beat early' },
  { id: 'halfLate', name: 'Half a bar late' },
  { id: 'halfEarly', name: 'Half a bar early' },
  { id: 'resume', name: 'Resume after a stop' },
  { id: 'hold', name: 'Hold, then release' },
  { id: 'bringDown', name: 'Bring it down' },
  { id: 'build', name: 'Build' },
  { id: 'asWritten', name: 'As written' },
  { id: 'break', name: 'Break' },
  { id: 'soloBreak', name: 'Solo break' },
  { id: 'breakAtTop', name: 'Break at the top' },
  { id: 'stopTime', name: 'Stop-time, on and off' },
  { id: 'loop', name: 'Loop, on and off' },
  { id: 'lastChorus', name: 'Last chorus, or go on' },
  { id: 'oneMore', name: 'One more' },
  { id: 'tag', name: 'Tag' },
  { id: 'rit', name: 'Rit.' },
  { id: 'accel', name: 'Accel.' },
  { id: 'aTempo', name: 'A tempo' },
  { id: 'halfTime', name: 'Half-time feel' },
  { id: 'doubleTime', name: 'Double-time feel' },
  { id: 'feelAsWritten', name: 'Feel as written' },
  { id: 'up', name: 'Up a half step' },
  { id: 'down', name: 'Down a half step' },
  { id: 'stopAtEnd', name: 'Stop at the end of the chorus' },
  { id: 'nextSoloist', name: 'Next soloist' },
  { id: 'tradeTwos', name: 'Trade twos' },
  { id: 'tradeFours', name: 'Trade fours' },
  { id: 'tradeEights', name: 'Trade eights' },
  { id: 'adopt', name: 'Take the new arrangement' },
];

export const actionName = (id: string): string => PEDAL_ACTIONS.find((one) => one.id === id)?.name ?? id;

/** What a press leads to. */
export type Pressed =
  | { readonly call: Cue }
  | { readonly takeBack: string }
  /** Nothing, and why. */
  | { readonly words: string };

const SLIPS: Readonly<Record<string, { readonly sign: 1 | -1; readonly length: SlipLength }>> = {
  late: { sign: -1, length: 'beat' },
  early: { sign: 1, length: 'beat' },
  halfLate: { sign: -1, length: 'half bar' },
  halfEarly: { sign: 1, length: 'half bar' },
};

/** What the press of a bound pedal or key does at shared time `pressedAtMs`. */
export const pressAction = (
  id: string,
  performance: Performance,
  matter: KeyMatter,
  pressedAtMs: number,
): Pressed => {
  const where = locate(performance, pressedAtMs);
  const isOn = where.state !== 'waiting' && where.state !== 'ended';
  const told = announced(performance, pressedAtMs);
  const slip = SLIPS[id];
  if (slip !== undefined) {
    const cue = slipAt(performance, slip.sign, slip.length, pressedAtMs);
    return cue === null ? { words: 'The band does not play.' } : { call: cue };
  }
  switch (id) {
    case 'tap':
      return {
        call: {
          kind: 'tap',
          tappedAtMs: pressedAtMs,
          ...(matter.settings.tapping === 'downbeats' ? { downbeat: true } : {}),
        },
      };
    case 'start':
      return { call: { kind: 'start' } };
    case 'stop':
      return { call: { kind: 'stop' } };
    case 'startStop':
      return { call: { kind: isOn ? 'stop' : 'start' } };
    case 'resume':
      return { call: { kind: 'resume' } };
    case 'top': {
      if (!('place' in where)) return { words: 'The band does not play.' };
      return { call: { kind: 'here', leg: where.place.leg, barIndex: 0, pressedAtMs } };
    }
    case 'takeBack': {
      const last = lastCalled(performance, told);
      return last === undefined ? { words: 'There is nothing to take back.' } : { takeBack: last.id };
    }
  }
  const key = podiumKeys(matter).find((one) => one.id === id);
  if (key === undefined) return { words: 'This pedal is bound to a key that is no more.' };
  const state = keyState(key, performance, told, pressedAtMs);
  if (state.state === 'ready') return { call: state.face.cue };
  return { words: state.state === 'called' ? `${state.face.name} is called already.` : state.words };
};
