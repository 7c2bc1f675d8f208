import { type FormEvent, type ReactNode, useEffect, useState } from 'react';
import { keyName, noteName } from '../../common/theory/note-name.ts';
import { useNoteNames } from '../engraving/note-names.ts';
import { SpelledText } from '../engraving/spelled-text.tsx';
import { moveChosen } from './bar-tools.ts';
import type { Editing } from './editing.ts';
import { numberOf } from './neighbours.ts';
import { repeatCount, setRepeatCount } from './repeat-count.ts';
import { addWords, toggleWords } from './sign-tools.ts';
import { type AtHand, chosenBars, type Tray } from './tool.ts';
import {
  DISTANCES,
  intervalWords,
  keyChoices,
  keyOf,
  readingBy,
  transposeDocument,
} from './transposition.ts';

export interface TrayProps {
  readonly at: AtHand;
  readonly editing: Editing;
  readonly onClose: () => void;
}

/** @example barsWords(chart, ['b5', 'b6']) // 'bars 5 to 6' */
const barsWords = ({ chart, chosen }: AtHand): string => {
  const [first = '', last = ''] = [chosen[0], chosen.at(-1)];
  const [from, to] = [numberOf(chart, first), numberOf(chart, last)];
  return from === to ? `bar ${from}` : `bars ${from} to ${to}`;
};

const UpTo = ({ at, onClose }: TrayProps) => (
  <>
    <p>From {barsWords(at)} to …: touch the last bar that is to come along.</p>
    <button type="button" className="button" onClick={onClose}>
      only this
    </button>
  </>
);

const Place = ({ at, editing, onClose }: TrayProps) => {
  const isCopy = editing.get().mode === 'copy';
  const step = (by: 1 | -1) => () => {
    const after = moveChosen(at, by);
    if (after !== null && 'choose' in after) editing.chooseAll(after.choose);
  };
  return (
    <>
      <p>
        {isCopy ? `A copy of ${barsWords(at)}` : `Moving ${barsWords(at)}`}: touch a bar line to put it there.
      </p>
      {!isCopy && (
        <>
          <button type="button" className="button" onClick={step(-1)}>
            one earlier
          </button>
          <button type="button" className="button" onClick={step(1)}>
            one later
          </button>
        </>
      )}
      <button type="button" className="button" onClick={onClose}>
        {isCopy ? 'never mind' : 'done'}
      </button>
    </>
  );
};

const COUNTS = [2, 3, 4, 5, 6, 7, 8];

const Times = ({ at, onClose }: TrayProps) => {
  const now = repeatCount(at.chart, at.chosen);
  return (
    <>
      <p>{now === null ? `Repeat ${barsWords(at)}, in all` : 'This repeat is played, in all,'}</p>
      <span className="tray-choices">
        {COUNTS.map((times) => (
          <button
            type="button"
            className="button"
            key={times}
            aria-pressed={times === now}
            onClick={() => setRepeatCount(at, times)}
          >
            ×{times}
          </button>
        ))}
      </span>
      <button type="button" className="button" onClick={onClose}>
        done
      </button>
    </>
  );
};

/** Words that act, but for those with tools of their own. */
const KNOWN = [
  'fill',
  'hits 1',
  'kicks 2& 4',
  'stop-time',
  'short',
  'let ring',
  'on cue',
  'pick-up',
  'segno',
  'to coda',
  'rit',
  'a tempo',
  'p',
  'mf',
  'f',
];

const Words = ({ at, onClose }: TrayProps) => {
  const [typed, setTyped] = useState('');
  const bars = chosenBars(at);
  const add = (event: FormEvent) => {
    event.preventDefault();
    addWords(at, typed);
    setTyped('');
  };
  return (
    <>
      <span className="tray-choices">
        {KNOWN.map((word) => (
          <button
            type="button"
            className="button"
            key={word}
            disabled={bars.length === 0}
            aria-pressed={bars.length > 0 && bars.every(({ text }) => text.includes(`"${word}"`))}
            onClick={() => toggleWords(at, word)}
          >
            {word}
          </button>
        ))}
      </span>
      <form className="tray-words" onSubmit={add}>
        <label className="field">
          <span className="visually-hidden">other words over the bar</span>
          <input
            value={typed}
            placeholder="other words"
            autoCapitalize="off"
            autoComplete="off"
            enterKeyHint="done"
            onChange={(event) => setTyped(event.target.value)}
          />
        </label>
        <button type="submit" className="button" disabled={typed.trim() === '' || bars.length === 0}>
          put over it
        </button>
      </form>
      <button type="button" className="button" onClick={onClose}>
        done
      </button>
    </>
  );
};

const Transpose = ({ at, onClose }: TrayProps) => {
  const { handle, chart } = at;
  const key = keyOf(chart);
  const names = useNoteNames();
  const [left, setLeft] = useState<readonly string[]>([]);
  const [distance, setDistance] = useState(DISTANCES[0] ?? 1);
  return (
    <>
      <p>{key === null ? 'The whole chart, which names no key that is known' : 'The whole chart into'}</p>
      {key !== null && (
        <span className="tray-choices">
          {keyChoices(key).map((choice) => (
            <button
              type="button"
              className="button"
              key={choice.name}
              aria-label={`into ${keyName(choice.key, names)}, ${intervalWords(choice.reading.semitones)}`}
              aria-pressed={choice.reading.fifths === 0}
              onClick={() => setLeft(transposeDocument(handle, chart, choice.reading))}
            >
              <span>
                <SpelledText text={noteName(choice.key.tonic, names)} />
              </span>
            </button>
          ))}
        </span>
      )}
      <span className="tray-choices">
        <label className="field">
          <span className="visually-hidden">how far</span>
          <select value={distance} onChange={(event) => setDistance(Number(event.target.value))}>
            {DISTANCES.map((semitones) => (
              <option key={semitones} value={semitones}>
                {intervalWords(semitones)}
              </option>
            ))}
          </select>
        </label>
        <button
          type="button"
          className="button"
          onClick={() => setLeft(transposeDocument(handle, chart, readingBy(chart, distance)))}
        >
          that far
        </button>
        <button type="button" className="button" onClick={onClose}>
          done
        </button>
      </span>
      {left.length > 0 && (
        <p className="field-problem" role="status">
          Not understood, so left as it stands: {left.join(', ')}
        </p>
      )}
    </>
  );
};

const TRAYS: Readonly<Record<Tray, (props: TrayProps) => ReactNode>> = {
  upTo: UpTo,
  move: Place,
  copy: Place,
  times: Times,
  words: Words,
  transpose: Transpose,
};

const NAMES: Readonly<Record<Tray, string>> = {
  upTo: 'up to which bar',
  move: 'move to where',
  copy: 'copy to where',
  times: 'how many times',
  words: 'words over the bars',
  transpose: 'into which key',
};

/** What a tool asks, over the foot. */
export const TrayOverFoot = ({ tray, ...props }: TrayProps & { readonly tray: Tray }) => {
  const Content = TRAYS[tray];
  useEffect(() => {
    // The tray must not stand over the bars it is about.
    document.querySelector('[data-chosen]')?.scrollIntoView({ block: 'nearest' });
  }, []);
  return (
    <section className="pencil-tray" data-tray={tray} aria-label={NAMES[tray]}>
      <Content {...props} />
    </section>
  );
};
