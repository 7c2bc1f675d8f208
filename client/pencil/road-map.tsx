import type { Chart, RoadLine } from '../../common/chart/chart.ts';
import { addRoadLine, deleteRoadLine, moveRoadLine, setRoadLine } from '../../common/document/edit-chart.ts';
import { roadLength } from '../../common/form/length.ts';
import { unroll } from '../../common/form/unroll.ts';
import { minutesWords } from '../stand/place-words.ts';
import type { ChartHandle } from '../state/board.ts';
import { makeId } from '../state/make-id.ts';
import { TextField } from './text-field.tsx';

const OPEN_PASSES = 4;

const FIELDS: readonly (readonly [keyof Omit<RoadLine, 'id'>, string, string])[] = [
  ['name', 'name', 'Head'],
  ['times', 'times', 'once'],
  ['sections', 'sections', 'A B'],
  ['words', 'words', 'words'],
];

/** The road map beside the music, with how long each leg lasts. */
export const RoadMap = ({ handle, chart }: { readonly handle: ChartHandle; readonly chart: Chart }) => {
  const { road, problems } = unroll(chart);
  const { legs, ms } = roadLength(road, { openPasses: OPEN_PASSES, vampPasses: OPEN_PASSES });
  const { doc, origin, canEdit } = handle;
  const lengthOf = (id: string): string => {
    const length = legs.find(({ leg }) => leg === id);
    if (length === undefined) return 'not played';
    const about = length.assumed
      ? `about ${minutesWords(length.ms)} for ${OPEN_PASSES} times`
      : minutesWords(length.ms);
    return `${length.bars} bars · ${about}`;
  };
  return (
    <section className="road-map" aria-label="road map">
      <h2>
        Road map{' '}
        <small className="dim">
          {road.legs.length > 0 &&
            `about ${minutesWords(ms)} in all, ${OPEN_PASSES} times through what is open`}
        </small>
      </h2>
      {chart.road.length === 0 && (
        <p className="dim small">
          None is written, so the usual one is played:{' '}
          {road.legs.map(({ name }) => name).join(', ') || 'nothing yet'}.
        </p>
      )}
      {chart.road.map((line, at) => (
        <div className="road-line" key={line.id}>
          {FIELDS.map(([field, label, placeholder]) => (
            <TextField
              bare
              key={field}
              label={`${label} of leg ${line.name}`}
              value={line[field]}
              placeholder={placeholder}
              disabled={!canEdit}
              onWrite={(value) => setRoadLine(doc, line.id, { [field]: value }, origin)}
            />
          ))}
          <small className="dim">{lengthOf(line.id)}</small>
          {canEdit && (
            <span className="road-tools">
              <button
                type="button"
                className="button-quiet"
                disabled={at === 0}
                aria-label={`${line.name} earlier`}
                onClick={() => moveRoadLine(doc, line.id, chart.road[at - 2]?.id ?? null, makeId, origin)}
              >
                ↑
              </button>
              <button
                type="button"
                className="button-quiet"
                aria-label={`delete ${line.name}`}
                onClick={() => deleteRoadLine(doc, line.id, origin)}
              >
                delete
              </button>
            </span>
          )}
          {problems
            .filter(({ id }) => id === line.id)
            .map(({ words }) => (
              <p className="field-problem" key={words}>
                {words}
              </p>
            ))}
        </div>
      ))}
      {canEdit && (
        <button
          type="button"
          className="button"
          onClick={() =>
            addRoadLine(
              doc,
              {
                name: chart.road.length === 0 ? 'Head' : 'Leg',
                sections: chart.sections.map(({ label }) => label).join(' '),
                times: '',
                words: '',
              },
              chart.road.at(-1)?.id ?? null,
              makeId,
              origin,
            )
          }
        >
          add a leg
        </button>
      )}
    </section>
  );
};
