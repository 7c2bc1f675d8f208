import { useState } from 'react';
import type { Metre } from '../../common/chart/bar-music.ts';
import { instrumentById, type Part } from '../../common/theory/instruments.ts';
import { Fader } from '../engraving/fader.tsx';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import {
  COMPING_AS,
  type CompingAs,
  PRACTICE_PARTS,
  type PracticePart,
  type PracticePartName,
} from '../storage/practice-settings.ts';
import { tabletPractice } from '../storage/tablet-practice.ts';
import { tabletSettings } from '../storage/tablet-settings.ts';
import { CompingField } from './comping-field.tsx';
import { LateSound } from './late-sound.tsx';
import { saveMidi } from './save-midi.ts';
import type { PracticeBand } from './use-practice-band.ts';

const PART_WORDS: Readonly<Record<PracticePartName, string>> = {
  click: 'Click',
  bass: 'Bass',
  comping: 'Chords',
  drums: 'Drums',
};

const COMPING_WORDS: Readonly<Record<CompingAs, string>> = {
  '': 'as my part plays them',
  shapes: 'shapes on the guitar',
  shells: 'shells on keys',
  rootless: 'rootless on keys',
  twoHands: 'both hands on keys',
};

/** The voice that a player brings along. */
const OWN: Readonly<Partial<Record<Part, PracticePartName>>> = {
  guitar: 'comping',
  keys: 'comping',
  bass: 'bass',
  drums: 'drums',
};

/** The practice band: how loud each plays, and how. */
export const SoundPage = ({
  title,
  metre,
  band,
}: {
  readonly title: string;
  readonly metre: Metre;
  readonly band: PracticeBand;
}) => {
  const wishes = useObservable(tabletPractice);
  const { part } = useObservable(tabletSettings);
  const { take } = useObservable(useBoard().stage);
  const [unsaved, setUnsaved] = useState('');
  const own = OWN[instrumentById(part)?.part ?? 'other'];
  const setPart = (name: PracticePartName, fields: Partial<PracticePart>) =>
    tabletPractice.change({ parts: { ...wishes.parts, [name]: { ...wishes.parts[name], ...fields } } });
  return (
    <main className="page shed-band">
      <h1>The practice band</h1>
      <p className="dim">
        It plays {title} by its feel and its marks
        {band.state === 'off' ? ': touch “switch sound on”, then count in under Lead.' : '.'}
      </p>
      <div className="mixer">
        <Fader words="All" value={wishes.master} onChange={(master) => tabletPractice.change({ master })} />
        {PRACTICE_PARTS.map((name) => {
          const { volume, muted, solo } = wishes.parts[name];
          return (
            <div className="mixer-part" key={name}>
              <Fader
                words={PART_WORDS[name]}
                value={volume}
                onChange={(next) => setPart(name, { volume: next })}
              />
              <button
                type="button"
                className="button"
                aria-pressed={muted}
                aria-label={`${PART_WORDS[name]} silent`}
                onClick={() => setPart(name, { muted: !muted })}
              >
                silent
              </button>
              <button
                type="button"
                className="button"
                aria-pressed={solo}
                aria-label={`${PART_WORDS[name]} alone`}
                onClick={() => setPart(name, { solo: !solo })}
              >
                alone
              </button>
            </div>
          );
        })}
        {own !== undefined && (
          <label className="choice">
            <input
              type="checkbox"
              checked={wishes.parts[own].muted}
              onChange={({ target }) => setPart(own, { muted: target.checked })}
            />
            leave me out: I play the {PART_WORDS[own].toLowerCase()} myself
          </label>
        )}
      </div>
      <p className="small dim">
        Begin softly. Keep the level moderate and give your ears rests; where you play, the rules on noise go
        first. Ringing or dull hearing that stays belongs before a doctor or an audiologist. Pain in the hands
        means stop.
      </p>
      <h2>How it plays</h2>
      <div className="shed-choices">
        <label className="field">
          <span>Click</span>
          <select
            value={wishes.clickBeats}
            onChange={({ target }) =>
              tabletPractice.change({ clickBeats: target.value === 'all' ? 'all' : 'two and four' })
            }
          >
            <option value="all">on every beat</option>
            <option value="two and four">on two and four</option>
          </select>
        </label>
        <label className="field">
          <span>Clicks in a beat</span>
          <select
            value={wishes.clickParts}
            onChange={({ target }) => {
              const clickParts = ([1, 2, 3, 4] as const).find((count) => `${count}` === target.value) ?? 1;
              tabletPractice.change({ clickParts });
            }}
          >
            {[1, 2, 3, 4].map((count) => (
              <option key={count} value={count}>
                {count}
              </option>
            ))}
          </select>
        </label>
        <CompingField metre={metre} />
        <label className="field">
          <span>Notes of the chords</span>
          <select
            value={wishes.compingAs}
            onChange={({ target }) =>
              tabletPractice.change({ compingAs: COMPING_AS.find((one) => one === target.value) ?? '' })
            }
          >
            {COMPING_AS.map((as) => (
              <option key={as} value={as}>
                {COMPING_WORDS[as]}
              </option>
            ))}
          </select>
        </label>
        <label className="field">
          <span>Each chorus</span>
          <select
            value={wishes.cycleSemitones}
            onChange={({ target }) => {
              const wanted = ([0, 1, 5] as const).find((semitones) => `${semitones}` === target.value) ?? 0;
              tabletPractice.change({ cycleSemitones: wanted });
            }}
          >
            <option value={0}>in the same key</option>
            <option value={5}>a fourth up, round the cycle of fifths</option>
            <option value={1}>a half step up</option>
          </select>
        </label>
        <label className="field">
          <span>Swing</span>
          <select
            value={wishes.swing ?? ''}
            onChange={({ target }) =>
              tabletPractice.change({ swing: target.value === '' ? null : Number(target.value) })
            }
          >
            <option value="">as the feel and the tempo have it</option>
            {[1, 1.5, 2, 2.5, 3, 3.5].map((ratio) => (
              <option key={ratio} value={ratio}>
                {ratio === 1 ? 'straight' : `${ratio} : 1, long to short`}
              </option>
            ))}
          </select>
        </label>
      </div>
      <label className="choice">
        <input
          type="checkbox"
          checked={wishes.fills}
          onChange={({ target }) => tabletPractice.change({ fills: target.checked })}
        />
        drum fills before sections, and the top made obvious
      </label>
      <label className="choice">
        <input
          type="checkbox"
          checked={wishes.clickInBreaks}
          onChange={({ target }) => tabletPractice.change({ clickInBreaks: target.checked })}
        />
        the click goes on in breaks
      </label>
      <LateSound onListen={band.switchOff} />
      {take !== null && (
        <p>
          <button
            type="button"
            className="button"
            onClick={() =>
              setUnsaved(
                saveMidi(take, band.settings) ? '' : 'Its road map has no end, so there is no file of it.',
              )
            }
          >
            Save as a MIDI file
          </button>{' '}
          <span className="dim small">open legs once</span>
          {unsaved !== '' && (
            <span role="alert" className="field-problem">
              {unsaved}
            </span>
          )}
        </p>
      )}
    </main>
  );
};
