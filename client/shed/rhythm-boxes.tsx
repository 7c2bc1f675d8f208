import { printRhythm, type Rhythm } from '../../common/band/rhythm.ts';
import { gridOf, rhythmOfGrid, tick } from '../../common/band/rhythm-grid.ts';
import { COMMON_TIME } from '../../common/chart/read-metre.ts';

/** A rhythm as boxes to tick, a row a bar; what is ticked is written as counts. */
export const RhythmBoxes = ({
  rhythm,
  onRhythm,
}: {
  readonly rhythm: Rhythm;
  readonly onRhythm: (text: string) => void;
}) => {
  const grid = gridOf(rhythm, COMMON_TIME);
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
    </fieldset>
  );
};
