import { useMemo, useRef, useState } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import { printChart } from '../../common/chart/print-chart.ts';
import type { Problem } from '../../common/chart/problem.ts';
import { readChart } from '../../common/chart/read-chart.ts';
import { applyChart } from '../../common/document/apply-chart.ts';
import { unroll } from '../../common/form/unroll.ts';
import { placeInText, withRoadLines } from '../book/place-in-text.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { makeId } from '../state/make-id.ts';
import { keepUnfinished, unfinishedText } from './unfinished-texts.ts';

/**
 * The whole chart as text. What is applied are the differences to the text as it was opened, so that what others
 * change meanwhile stays. A text that is left unfinished is there again when one comes back.
 */
export const AsText = ({ handle, chart, onClose }: AsTextProps) => {
  const [kept] = useState(() => unfinishedText(handle.id));
  const [base, setBase] = useState(kept?.base ?? chart);
  const [text, setText] = useState(() => kept?.text ?? printChart(chart));
  const field = useRef<HTMLTextAreaElement>(null);
  const problems = useMemo(() => {
    const read = readChart(text);
    const road = withRoadLines(text, read.chart, unroll(read.chart).problems);
    return [...read.problems, ...road];
  }, [text]);
  const opened = useMemo(() => printChart(base), [base]);
  const changed = text !== opened;
  const now = useMemo(() => printChart(chart), [chart]);
  const type = (next: string) => {
    setText(next);
    keepUnfinished(handle.id, next === opened ? null : { base, text: next });
  };
  const apply = () => {
    applyChart(handle.doc, readChart(text, makeId).chart, makeId, handle.origin, base);
    keepUnfinished(handle.id, null);
    onClose();
  };
  const leave = () => {
    keepUnfinished(handle.id, null);
    onClose();
  };
  const goTo = ({ line, column = 1 }: Problem) => {
    if (line === undefined) return;
    const at = placeInText(text, line, column);
    field.current?.focus();
    field.current?.setSelectionRange(at, at);
  };
  return (
    <div className="as-text">
      <label className="field as-text-field">
        <span>The whole chart as text, concert pitch. Write it or paste it; nothing is lost.</span>
        <textarea
          ref={field}
          value={text}
          readOnly={!handle.canEdit}
          spellCheck={false}
          autoCapitalize="off"
          onChange={(event) => type(event.target.value)}
        />
      </label>
      <div className="as-text-side">
        {kept !== null && changed && (
          <p className="strip" role="status">
            This is the text you left unfinished.
          </p>
        )}
        {!changed && now !== text && (
          <p className="strip" role="status">
            Somebody has changed the chart meanwhile.
            <button
              type="button"
              className="button"
              onClick={() => {
                setBase(chart);
                setText(now);
              }}
            >
              show it as it is now
            </button>
          </p>
        )}
        <div className="button-row">
          {handle.canEdit && (
            <button type="button" className="button-primary" disabled={!changed} onClick={apply}>
              take it over
            </button>
          )}
          <button type="button" className="button" onClick={leave}>
            {changed ? 'leave it as it was' : 'back to the bars'}
          </button>
        </div>
        <h2>{problems.length === 0 ? 'All of it is understood' : `${problems.length} to look at`}</h2>
        <ul className="list">
          {problems.map((problem) => (
            <li key={`${problem.line}:${problem.column}:${problem.kind}:${problem.id}`}>
              <button
                type="button"
                className="list-row as-text-problem"
                disabled={problem.line === undefined}
                onClick={() => goTo(problem)}
              >
                <span>
                  {problem.line !== undefined && (
                    <small className="dim">
                      line {problem.line}, column {problem.column}:{' '}
                    </small>
                  )}
                  {problem.words}
                  {problem.suggestion !== undefined && <b> {problem.suggestion}</b>}
                </span>
              </button>
            </li>
          ))}
        </ul>
      </div>
    </div>
  );
};

interface AsTextProps {
  readonly handle: ChartHandle;
  readonly chart: Chart;
  readonly onClose: () => void;
}
