import { useMemo } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import { problemsOf, toLookAt } from '../../common/form/to-look-at.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { mendFor, writeMend } from './mend.ts';
import { barAt, numberOf } from './neighbours.ts';

/** What could not be taken as written; touching one goes there, and what would be right is written with one touch. */
export const ProblemList = ({ handle, chart, writing, onShow }: ProblemListProps) => {
  const { problems, emptyBars, count } = useMemo(() => {
    const found = problemsOf(chart);
    const shown = toLookAt(found.filter(({ kind, id }) => kind !== 'empty-bar' || id !== writing));
    const mends = shown.problems.map((problem) => ({ problem, mend: mendFor(chart, problem, found) }));
    return { ...shown, problems: mends };
  }, [chart, writing]);
  const [firstEmpty] = emptyBars;
  if (count === 0) return null;
  return (
    <section aria-label="to look at">
      <h2>{count} to look at</h2>
      <ul className="list">
        {firstEmpty !== undefined && (
          <li className="problem">
            <button type="button" className="problem-key" onClick={() => onShow(firstEmpty)}>
              bar {numberOf(chart, firstEmpty)}
            </button>
            <p>
              Nothing stands in this bar and {emptyBars.length - 1} others. They count as bars, and the chord
              before goes on.
            </p>
          </li>
        )}
        {problems.map(({ problem, mend }, at) => {
          const { id, words, suggestion } = problem;
          const bar = id !== undefined && barAt(chart, id) !== null ? id : null;
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: one bar may have the same problem twice
            <li className="problem" key={at}>
              {bar !== null && (
                <button type="button" className="problem-key" onClick={() => onShow(bar)}>
                  bar {numberOf(chart, bar)}
                </button>
              )}
              <p>{words}</p>
              {handle.canEdit && mend !== null && (
                <button
                  type="button"
                  className="button"
                  aria-label={`write ${suggestion} instead`}
                  onClick={() => writeMend(handle, chart, mend)}
                >
                  {suggestion}
                </button>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
};

interface ProblemListProps {
  readonly handle: ChartHandle;
  readonly chart: Chart;
  /** The bar that is being typed into: it does not stay empty. */
  readonly writing: string | null;
  readonly onShow: (bar: string) => void;
}
