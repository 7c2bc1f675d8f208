import { type MouseEvent, useId } from 'react';
import type { RoadLine } from '../../common/chart/chart.ts';
import { deleteRoadLine, moveRoadLine, setRoadLine } from '../../common/document/edit-chart.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { makeId } from '../state/make-id.ts';
import { keepFocus, leaveField } from './keep-focus.ts';
import { TextField } from './text-field.tsx';

const FIELDS: readonly (readonly [field: keyof Omit<RoadLine, 'id'>, label: string, example: string])[] = [
  ['name', 'name', 'Solos'],
  ['times', 'times', 'once, x2, open, vamp'],
  ['sections', 'sections', 'A B, last 4'],
  ['words', 'words', 'guitar, tenor'],
];

/** One leg of the road map: two lines to read; touched, its fields and what can be done with it. */
export const RoadLeg = ({ handle, road, line, length, problems, isOpen, onOpen }: RoadLegProps) => {
  const { doc, origin, canEdit } = handle;
  const { id, name, times, sections, words } = line;
  const fields = useId();
  const at = road.indexOf(line);
  const called = name === '' ? 'a leg without a name' : name;
  const moveBehind = (after: RoadLine | undefined) => (event: MouseEvent<HTMLElement>) => {
    moveRoadLine(doc, id, after?.id ?? null, makeId, origin);
    keepFocus(event.currentTarget);
  };
  const face = (
    <>
      <span>
        <b>{called}</b>
        {words !== '' && <small className="dim"> {words.replace(/^"/, '')}</small>}
      </span>
      <span className="dim">{times === '' ? 'once' : times.replace(/^x(?=\d)/i, '×')}</span>
      <small className="dim">{[sections, length].filter((part) => part !== '').join(' · ')}</small>
    </>
  );
  return (
    <li className="road-leg" data-open={isOpen ? '' : undefined}>
      {canEdit ? (
        <button
          type="button"
          className="road-face"
          aria-expanded={isOpen}
          aria-controls={fields}
          onClick={() => onOpen(isOpen ? null : id)}
        >
          {face}
        </button>
      ) : (
        <div className="road-face">{face}</div>
      )}
      {problems.map((problem) => (
        <p className="field-problem" key={problem}>
          {problem}
        </p>
      ))}
      {isOpen && canEdit && (
        <div className="road-fields" id={fields}>
          {FIELDS.map(([field, label, example]) => (
            <TextField
              key={field}
              label={
                <>
                  {label}
                  <span className="visually-hidden"> of {called}</span>
                </>
              }
              value={line[field]}
              placeholder={example}
              disabled={false}
              onWrite={(value) => setRoadLine(doc, id, { [field]: value }, origin)}
            />
          ))}
          <span className="road-tools">
            <button
              type="button"
              className="button-quiet"
              disabled={at === 0}
              aria-label={`${called} up`}
              onClick={moveBehind(road[at - 2])}
            >
              ↑
            </button>
            <button
              type="button"
              className="button-quiet"
              disabled={at === road.length - 1}
              aria-label={`${called} down`}
              onClick={moveBehind(road[at + 1])}
            >
              ↓
            </button>
            <button
              type="button"
              className="button-quiet"
              aria-label={`delete ${called}`}
              onClick={() => {
                leaveField();
                onOpen(null);
                deleteRoadLine(doc, id, origin);
              }}
            >
              delete
            </button>
            <button type="button" className="button-quiet" onClick={() => onOpen(null)}>
              done
            </button>
          </span>
        </div>
      )}
    </li>
  );
};

interface RoadLegProps {
  readonly handle: ChartHandle;
  readonly road: readonly RoadLine[];
  readonly line: RoadLine;
  /** "32 bars, 1:11". */
  readonly length: string;
  readonly problems: readonly string[];
  readonly isOpen: boolean;
  readonly onOpen: (leg: string | null) => void;
}
