import { useState } from 'react';
import type { RankedSpot } from '../../common/form/lost-spots/lost-spots.ts';
import type { Answer } from '../../common/rehearsal/drill-answer.ts';
import { LEVELS } from '../../common/rehearsal/drill-progress.ts';
import { type DrillScore, scoresOf } from '../../common/rehearsal/drill-scores.ts';
import { SpelledText } from '../engraving/spelled-text.tsx';
import { useObservable } from '../state/observable.ts';
import type { DrillName } from '../storage/drill-results.ts';
import { tabletDrills } from '../storage/tablet-drills.ts';
import { byName, meanOff } from './drill-days.ts';
import { DrillPlot } from './drill-plot.tsx';
import { beatsWords, cueWords, spotWords } from './drill-words.ts';
import { MicrophoneChoice } from './microphone-choice.tsx';

/** A round that is over. */
export interface DrillRound {
  readonly name: DrillName;
  readonly answers: readonly Answer[];
  /** Whether the tablet could keep it. */
  readonly kept: boolean;
}

const ALL_LEVELS = Array.from({ length: LEVELS }, (_, at) => at + 1);

export interface DrillChoiceProps {
  readonly chart: string;
  readonly title: string;
  readonly hasBars: boolean;
  readonly spots: ReadonlyMap<string, RankedSpot>;
  /** The round that has just ended. */
  readonly round: DrillRound | null;
  readonly onBegin: (name: DrillName, level: number, listens: boolean) => void;
}

const NAMES: readonly (readonly [DrillName, string])[] = [
  ['cues', 'Cues'],
  ['spots', 'Lost spots'],
];

const TASKS: Readonly<Record<DrillName, string>> = {
  cues: 'The tablet leads, as a leader would: cues come without warning, with less and less notice. Tap on the beat where each lands; after a break, where the band is in again.',
  spots:
    'The stand goes dark before a place where one gets lost. Keep the form, and tap on the bar that is named.',
};

/** Which drill, from which level; and what came of those before. */
export const DrillChoice = ({ chart, title, hasBars, spots, round, onBegin }: DrillChoiceProps) => {
  const { levels, days } = useObservable(tabletDrills);
  const [name, setName] = useState<DrillName>(round?.name ?? 'cues');
  const [listens, setListens] = useState(false);
  const wordsOf = (drill: DrillName) => (one: string) =>
    drill === 'cues' ? cueWords(one) : spotWords(one, spots);
  const shown = days.filter((score) => score.drill === name && (name === 'cues' || score.chart === chart));
  return (
    <main className="page shed-drill">
      <h1>Drill</h1>
      {round !== null && <RoundOver round={round} wordsOf={wordsOf(round.name)} />}
      <div className="button-row">
        {NAMES.map(([drill, words]) => (
          <button
            key={drill}
            type="button"
            className="button"
            aria-pressed={name === drill}
            onClick={() => setName(drill)}
          >
            {words}
          </button>
        ))}
      </div>
      <p>
        {TASKS[name]} It is played on {title}; touch “switch sound on” first to hear the band.
      </p>
      <label className="field drill-level-field">
        <span>Begin at level</span>
        <select
          value={levels[name]}
          onChange={({ target }) =>
            tabletDrills.change({ levels: { ...levels, [name]: Number(target.value) } })
          }
        >
          {ALL_LEVELS.map((level) => (
            <option key={level} value={level}>
              {level}
            </option>
          ))}
        </select>
      </label>
      {name === 'cues' && <MicrophoneChoice wanted={listens} onWanted={setListens} />}
      <div className="button-row">
        <button
          type="button"
          className="button-primary"
          disabled={!hasBars}
          onClick={() => onBegin(name, levels[name], name === 'cues' && listens)}
        >
          Begin
        </button>
        {!hasBars && <span className="dim">Write a bar first.</span>}
      </div>
      <p className="small dim">
        Three right in a row lead a level up, two misses a level down. Keep the sound moderate and rest your
        hands: pain means stop.
      </p>
      <section aria-label="over the days">
        <h2>Over the days</h2>
        {shown.length === 0 ? (
          <p className="dim">Nothing yet: it comes with the first round.</p>
        ) : (
          <DrillPlot
            caption={
              name === 'cues' ? 'Share that was right, by kind of cue' : 'How far off the taps were, by spot'
            }
            names={byName(shown, wordsOf(name))}
            of={name === 'cues' ? 'right' : 'off'}
          />
        )}
      </section>
    </main>
  );
};

const RoundOver = ({
  round,
  wordsOf,
}: {
  readonly round: DrillRound;
  readonly wordsOf: (name: string) => string;
}) => {
  const { answers, kept } = round;
  const right = answers.filter((answer) => answer.right).length;
  return (
    <section className="drill-over" aria-label="this round">
      <h2>{answers.length === 0 ? 'Nothing was asked' : `${right} of ${answers.length} right`}</h2>
      {!kept && <p role="alert">This tablet has no room to keep that; it is forgotten with this page.</p>}
      {answers.length > 0 && (
        <table className="drill-table">
          <thead>
            <tr>
              <th scope="col">{round.name === 'cues' ? 'Cue' : 'Spot'}</th>
              <th scope="col">Right</th>
              <th scope="col">Off</th>
            </tr>
          </thead>
          <tbody>
            {scoresOf(answers).map((score) => (
              <tr key={score.name} data-name={score.name}>
                <th scope="row">
                  <SpelledText text={wordsOf(score.name)} />
                </th>
                <td>
                  {score.right} of {score.asked}
                </td>
                <td>{offWords(score)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
};

const offWords = (score: DrillScore): string => {
  const off = meanOff(score);
  return off === null ? '–' : beatsWords(off);
};
