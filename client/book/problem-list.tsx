import type { Problem } from '../../common/chart/problem.ts';

const placeOf = ({ line, column }: Problem): string =>
  line === undefined ? '' : column === undefined ? `line ${line}` : `line ${line}, column ${column}`;

/** What could not be taken as written, each with its place; touching one goes there. */
export const ProblemList = ({
  problems,
  onGo,
}: {
  readonly problems: readonly Problem[];
  readonly onGo: (problem: Problem) => void;
}) => (
  <ul className="problems">
    {problems.map((problem, index) => (
      // biome-ignore lint/suspicious/noArrayIndexKey: problems have no other name, and the list is read anew as a whole
      <li key={index}>
        <button
          type="button"
          className="problem"
          disabled={problem.line === undefined}
          onClick={() => onGo(problem)}
        >
          <span className="problem-place">{placeOf(problem)}</span>
          <span>
            {problem.words}
            {problem.suggestion !== undefined && (
              <>
                {' '}
                Perhaps <code>{problem.suggestion}</code>?
              </>
            )}
          </span>
        </button>
      </li>
    ))}
  </ul>
);
