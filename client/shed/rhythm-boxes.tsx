import { useState } from 'react';
import { printRhythm, type Rhythm } from '../../common/band/rhythm.ts';
import { divisionFor, gridOf, rhythmOfGrid, tick } from '../../common/band/rhythm-grid.ts';
import type { Metre } from '../../common/chart/bar-music.ts';

interface RhythmBoxesProps {
  readonly rhythm: Rhythm;
  readonly metre: Metre;
  readonly onRhythm: (text: string) => void;
}

/** A rhythm of one bar or two as boxes to tick, a row a bar; what is ticked is written as counts. */
export const RhythmBoxes = ({ rhythm, metre, onRhythm }: RhythmBoxesProps) => {
  const [isFine, setIsFine] = useState(false);
  const coarsest = divisionFor(rhythm);
  const grid = gridOf(rhythm, metre, isFine ? 'sixteenths' : coarsest);
  const [first = []] = rhythm.bars;
  const hasTwo = rhythm.bars.length > 1;
  return (
    <fieldset className="rhythm-boxes">
      <legend className="visually-hidden">the rhythm as boxes</legend>
      {grid.bars.map((row, bar) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a bar is its place
        <div key={bar} className="rhythm-bar">
          {grid.columns.map(({ pulse, part }, column) => (
            <button
              key={`${pulse}${part}`}
              type="button"
              aria-pressed={row[column] === true}
              aria-label={`bar ${bar + 1}, ${pulse + 1}${part === '' ? '' : ` ${part}`}`}
              onClick={() => onRhythm(printRhythm(rhythmOfGrid(tick(grid, bar, column))))}
            >
              {part === '' ? pulse + 1 : part}
            </button>
          ))}
        </div>
      ))}
      <div className="button-row">
        <label className="choice">
          <input
            type="checkbox"
            checked={hasTwo}
            onChange={({ target }) =>
              onRhythm(printRhythm({ ...rhythm, bars: target.checked ? [first, first] : [first] }))
            }
          />
          two bars
        </label>
        {!metre.compound && (
          <label className="choice">
            <input
              type="checkbox"
              checked={isFine || coarsest === 'sixteenths'}
              disabled={coarsest === 'sixteenths'}
              onChange={({ target }) => setIsFine(target.checked)}
            />
            sixteenths
          </label>
        )}
      </div>
    </fieldset>
  );
};
