import { useRef } from 'react';
import { useObservable } from '../state/observable.ts';
import { tabletDrills } from '../storage/tablet-drills.ts';
import { SILENT_DB } from './listen-microphone.ts';
import { type MicrophoneState, useMicrophone } from './use-microphone.ts';

const WORDS: Readonly<Record<MicrophoneState, string>> = {
  off: 'What it hears stays on this tablet: nothing is recorded and nothing is sent, only how loud it is counts. Hear the band in headphones.',
  asking: 'The browser asks whether it may.',
  on: 'Play and be silent: the line belongs between the two. Nothing is recorded and nothing is sent.',
  refused: 'The microphone was not allowed. A tap where the band is in again does the same.',
  missing: 'This browser gives no microphone here. A tap where the band is in again does the same.',
};

/** Whether a microphone hears that a player is silent in a break, and from which level on it hears playing. */
export const MicrophoneChoice = ({
  wanted,
  onWanted,
}: {
  readonly wanted: boolean;
  readonly onWanted: (wanted: boolean) => void;
}) => {
  const { playingDb } = useObservable(tabletDrills);
  const level = useRef<HTMLElement>(null);
  const state = useMicrophone(wanted, (db) => {
    level.current?.style.setProperty('--level', `${1 - db / SILENT_DB}`);
    level.current?.toggleAttribute('data-playing', db > playingDb);
  });
  const isOff = state === 'missing' || state === 'refused';
  return (
    <div className="drill-microphone">
      <label className="choice">
        <input
          type="checkbox"
          checked={wanted && !isOff}
          disabled={state === 'missing'}
          onChange={({ target }) => onWanted(target.checked)}
        />
        the microphone hears that I am silent in a break
      </label>
      <p className="small dim" role="status">
        {WORDS[state]}
      </p>
      {state === 'on' && (
        <label className="fader">
          <span>counts as playing</span>
          <span className="drill-level">
            <i ref={level} aria-hidden="true" />
            <input
              type="range"
              min={SILENT_DB}
              max={0}
              step={1}
              value={playingDb}
              onChange={({ target }) => tabletDrills.change({ playingDb: target.valueAsNumber })}
            />
          </span>
        </label>
      )}
    </div>
  );
};
