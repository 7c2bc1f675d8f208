import { useEffect, useState } from 'react';
import { Sheet } from '../../app/sheet.tsx';
import { useObservable } from '../../state/observable.ts';
import type { Binding } from '../../storage/podium-settings.ts';
import { actionOf, bind, triggersOf, unbind } from './bindings.ts';
import { type MidiState, midi } from './hear-midi.ts';
import { actionName, PEDAL_ACTIONS } from './pedal-actions.ts';
import { pedals } from './pedal-hub.ts';
import { type Trigger, triggerWords } from './trigger.ts';

const midiWords = (state: MidiState): string => {
  switch (state.state) {
    case 'missing':
      return 'This browser hears no MIDI; pedals that turn pages work all the same.';
    case 'refused':
      return 'MIDI was not allowed; pedals that turn pages work all the same.';
    case 'closed':
      return 'Asking for MIDI …';
    case 'open':
      return state.names.length === 0 ? 'No MIDI device is connected.' : `MIDI: ${state.names.join(', ')}`;
  }
};

/** The binding sheet: every cue, what calls it, and a key that learns the next pedal pressed. */
export const PedalSheet = ({
  bindings,
  onBindings,
  onClose,
}: {
  readonly bindings: readonly Binding[];
  readonly onBindings: (bindings: readonly Binding[]) => void;
  readonly onClose: () => void;
}) => {
  const [learning, setLearning] = useState<string | null>(null);
  /** A pedal that does something else already: it waits for a word. */
  const [doubled, setDoubled] = useState<{ readonly trigger: Trigger; readonly action: string } | null>(null);
  const midiState = useObservable(midi.state);
  useEffect(() => {
    void midi.open();
  }, []);
  useEffect(() => {
    if (learning === null) return;
    return pedals.learn((trigger) => {
      setLearning(null);
      const taken = actionOf(bindings, trigger);
      if (taken === null || taken === learning) onBindings(bind(bindings, trigger, learning));
      else setDoubled({ trigger, action: learning });
    });
  }, [learning, bindings, onBindings]);

  return (
    <Sheet title="Pedals and keys" onClose={onClose}>
      <p className="dim">
        Kept on this tablet. While somebody types, no key calls anything. {midiWords(midiState)}
      </p>
      <ul className="list">
        {PEDAL_ACTIONS.map(({ id, name }) => (
          <li className="list-row pedal-row" key={id} data-action={id}>
            <b className="pedal-name">{name}</b>
            <span className="pedal-bound">
              {triggersOf(bindings, id).map((trigger) => (
                <button
                  type="button"
                  className="button"
                  key={trigger}
                  aria-label={`unbind ${triggerWords(trigger)} from ${name}`}
                  onClick={() => onBindings(unbind(bindings, trigger))}
                >
                  {triggerWords(trigger)} ×
                </button>
              ))}
            </span>
            <button
              type="button"
              className="button pedal-learn"
              aria-pressed={learning === id}
              aria-label={learning === id ? 'press the pedal now' : `bind ${name}`}
              onClick={() => {
                setDoubled(null);
                setLearning(learning === id ? null : id);
              }}
            >
              {learning === id ? 'press the pedal now' : 'bind'}
            </button>
            {doubled?.action === id && (
              <Doubled
                words={`${triggerWords(doubled.trigger)} does “${actionName(actionOf(bindings, doubled.trigger) ?? '')}” already.`}
                onBind={() => {
                  onBindings(bind(bindings, doubled.trigger, id));
                  setDoubled(null);
                }}
                onLeave={() => setDoubled(null)}
              />
            )}
          </li>
        ))}
      </ul>
    </Sheet>
  );
};

/** Asks before a pedal is taken from what it does already. */
const Doubled = ({
  words,
  onBind,
  onLeave,
}: {
  readonly words: string;
  readonly onBind: () => void;
  readonly onLeave: () => void;
}) => (
  <div className="strip pedal-doubled" data-family="feel" role="alert">
    <span>{words}</span>
    <div className="button-row">
      <button type="button" className="button" onClick={onBind}>
        bind it here instead
      </button>
      <button type="button" className="button" onClick={onLeave}>
        leave it
      </button>
    </div>
  </div>
);
