import { useId } from 'react';
import { hasCounts, readRhythmFor } from '../../common/band/rhythm.ts';
import { RHYTHM_FEELS, RHYTHMS } from '../../common/band/rhythm-library.ts';
import type { Metre } from '../../common/chart/bar-music.ts';
import { useObservable } from '../state/observable.ts';
import { tabletPractice } from '../storage/tablet-practice.ts';
import { RhythmBoxes } from './rhythm-boxes.tsx';

/** What the boxes show before anything is chosen: nothing. */
const FIRST_BOXES = 'r';

/** The rhythm of the chords: from the library, typed the trade's way, or ticked in boxes. */
export const CompingField = ({ metre }: { readonly metre: Metre }) => {
  const { comping } = useObservable(tabletPractice);
  const problem = useId();
  const set = (text: string) => tabletPractice.change({ comping: text === FIRST_BOXES ? '' : text });
  const {
    rhythm,
    problems,
    metre: counted,
  } = readRhythmFor(comping.trim() === '' ? FIRST_BOXES : comping, metre);
  const known = RHYTHM_FEELS.some((feel) => RHYTHMS[feel].some(({ text }) => text === comping));
  return (
    <div className="comping-field">
      <div className="comping-words">
        <label className="field">
          <span>Rhythm of the chords</span>
          <select value={known ? comping : ''} onChange={({ target }) => set(target.value)}>
            <option value="">{comping === '' ? 'as the feel of the chart has it' : 'my own'}</option>
            {comping !== '' && <option value={FIRST_BOXES}>as the feel of the chart has it</option>}
            {RHYTHM_FEELS.map((feel) => (
              <optgroup key={feel} label={feel}>
                {RHYTHMS[feel].map(({ name, text }) => (
                  <option key={name} value={text}>
                    {name}
                  </option>
                ))}
              </optgroup>
            ))}
          </select>
        </label>
        <label className="field">
          <span>in counts</span>
          <input
            value={comping}
            placeholder="1 2& 4"
            autoCapitalize="none"
            autoCorrect="off"
            spellCheck={false}
            aria-describedby={problems.length > 0 ? problem : undefined}
            onChange={({ target }) => tabletPractice.change({ comping: target.value })}
          />
        </label>
      </div>
      {problems[0] !== undefined ? (
        <p className="field-problem" id={problem}>
          {problems[0].words}
        </p>
      ) : (
        <p className="field-note">
          {hasCounts(rhythm)
            ? 'Two bars have a bar line between them: 1 2& 4 | 2& 4&'
            : 'As the feel of the chart has it.'}
        </p>
      )}
      <RhythmBoxes rhythm={rhythm} metre={counted} onRhythm={set} />
    </div>
  );
};
