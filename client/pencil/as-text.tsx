import { useMemo, useState } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import { printChart } from '../../common/chart/print-chart.ts';
import { readChart } from '../../common/chart/read-chart.ts';
import { applyChart } from '../../common/document/apply-chart.ts';
import { unroll } from '../../common/form/unroll.ts';
import type { ChartHandle } from '../state/board.ts';
import { makeId } from '../state/make-id.ts';

/**
 * The whole chart as text. What is applied are the differences to the text as it was opened, so that what others
 * change meanwhile stays.
 */
export const AsText = ({
  handle,
  chart,
  onClose,
}: {
  readonly handle: ChartHandle;
  readonly chart: Chart;
  readonly onClose: () => void;
}) => {
  const [base] = useState(chart);
  const [text, setText] = useState(() => printChart(chart));
  const problems = useMemo(() => {
    const read = readChart(text);
    return [...read.problems, ...unroll(read.chart).problems];
  }, [text]);
  const changed = text !== printChart(base);
  const apply = () => {
    applyChart(handle.doc, readChart(text, makeId).chart, makeId, handle.origin, base);
    onClose();
  };
  return (
    <div className="as-text">
      <label className="field as-text-field">
        <span>The whole chart as text, concert pitch. Enter it or paste it; nothing is lost.</span>
        <textarea
          value={text}
          readOnly={!handle.canEdit}
          spellCheck={false}
          autoCapitalize="off"
          onChange={(event) => setText(event.target.value)}
        />
      </label>
      <div className="as-text-side">
        <div className="button-row">
          {handle.canEdit && (
            <button type="button" className="button-primary" disabled={!changed} onClick={apply}>
              take it over
            </button>
          )}
          <button type="button" className="button" onClick={onClose}>
            {changed ? 'leave it as it was' : 'back to the bars'}
          </button>
        </div>
        <h2>{problems.length === 0 ? 'All of it is understood' : `${problems.length} to look at`}</h2>
        <ul className="list">
          {problems.map((problem) => (
            <li className="list-row" key={`${problem.line}:${problem.column}:${problem.kind}:${problem.id}`}>
              <span>
                {problem.line !== undefined && (
                  <small className="dim">
                    line {problem.line}, column {problem.column}:{' '}
                  </small>
                )}
                {problem.words}
                {problem.suggestion !== undefined && <b> {problem.suggestion}</b>}
              </span>
            </li>
          ))}
        </ul>
      </div>
    </div>
  );
};
