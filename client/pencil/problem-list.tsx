import { useMemo } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import type { ChartHandle } from '../state/board.ts';
import { mendFor, problemsOf, writeMend } from './mend.ts';
import { barAt, numberOf } from './neighbours.ts';

/** What could not be taken as written; touching one goes there, and what would be right is written with one touch. */
export const ProblemList = ({ handle, chart, onShow }: ProblemListProps) => {
  const problems = useMemo(() => {
    const all = problemsOf(chart);
    return all.map((problem) => ({ problem, mend: mendFor(chart, problem, all) }));
  }, [chart]);
  if (problems.length === 0) return null;
  return (
    <section aria-label="to look at">
      <h2>{problems.length} to look at</h2>
      <ul className="list">
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
  readonly onShow: (bar: string) => void;
}
