import { useMemo } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import type { Problem } from '../../common/chart/problem.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { mendFor, problemsOf, writeMend } from './mend.ts';
import { barAt, numberOf } from './neighbours.ts';

/** So many empty bars are a chart that is being written, and one thing to look at. */
const MANY = 3;

/** What could not be taken as written; touching one goes there, and what would be right is written with one touch. */
export const ProblemList = ({ handle, chart, writing, onShow }: ProblemListProps) => {
  const { problems, emptyBars } = useMemo(() => {
    const found = problemsOf(chart);
    const all = found.filter(({ kind, id }) => kind !== 'empty-bar' || id !== writing);
    const isEmpty = ({ kind }: Problem) => kind === 'empty-bar';
    const empty = all.filter(isEmpty);
    const shown = empty.length < MANY ? all : all.filter((problem) => !isEmpty(problem));
    return {
      problems: shown.map((problem) => ({ problem, mend: mendFor(chart, problem, found) })),
      emptyBars: empty.length < MANY ? [] : empty.map(({ id = '' }) => id),
    };
  }, [chart, writing]);
  const [firstEmpty] = emptyBars;
  if (problems.length === 0 && firstEmpty === undefined) return null;
  return (
    <section aria-label="to look at">
      <h2>{problems.length + (firstEmpty === undefined ? 0 : 1)} to look at</h2>
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
