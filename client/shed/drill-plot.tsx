import type { DayScore } from '../../common/rehearsal/drill-scores.ts';
import { daysApart, dayWords, meanOff, type PlottedName, shareRight } from './drill-days.ts';
import { beatsWords } from './drill-words.ts';

export interface DrillPlotProps {
  readonly caption: string;
  readonly names: readonly PlottedName[];
  /** What goes upwards: the share that was right, or how far off the taps were. */
  readonly of: 'right' | 'off';
}

/** Measures in the plot's own units. */
const WIDTH = 260;
const HEIGHT = 96;
const LEFT = 44;
const RIGHT = 10;
const TOP = 10;
const FOOT = 12;
/** Farther off is drawn there, beats. */
const MOST_BEATS = 4;

const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** Day by day, a small plot for each kind of cue or each spot, and all of it as a table for those who listen. */
export const DrillPlot = ({ caption, names, of }: DrillPlotProps) => {
  const days = [...new Set(names.flatMap(({ scores }) => scores.map(({ day }) => day)))].sort();
  const first = days[0];
  const last = days.at(-1);
  if (first === undefined || last === undefined) return null;
  const wordsOf = (score: DayScore): string => {
    const off = meanOff(score);
    const right = `${score.right} of ${score.asked} right`;
    return off === null ? right : `${right}, ${beatsWords(off)} off`;
  };
  return (
    <figure className="drill-plot">
      <figcaption className="dim small">{caption}</figcaption>
      <div className="drill-plots" aria-hidden="true">
        {names.map(({ name, words, scores }) => (
          <div key={name}>
            <h3>{words}</h3>
            <Curve scores={scores} first={first} last={last} of={of} />
            <p className="dim small">
              {dayWords(first)}
              {first !== last && <span>{dayWords(last)}</span>}
            </p>
          </div>
        ))}
      </div>
      <table className="visually-hidden">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">What</th>
            {days.map((day) => (
              <th key={day} scope="col">
                {dayWords(day)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {names.map(({ name, words, scores }) => (
            <tr key={name}>
              <th scope="row">{words}</th>
              {days.map((day) => {
                const score = scores.find((one) => one.day === day);
                return <td key={day}>{score === undefined ? 'not asked' : wordsOf(score)}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </figure>
  );
};

interface CurveProps extends Pick<DrillPlotProps, 'of'> {
  readonly scores: readonly DayScore[];
  readonly first: string;
  readonly last: string;
}

const Curve = ({ scores, first, last, of }: CurveProps) => {
  const span = daysApart(first, last);
  const x = (day: string): number =>
    span === 0
      ? (LEFT + WIDTH - RIGHT) / 2
      : LEFT + ((WIDTH - LEFT - RIGHT - 8) * daysApart(first, day)) / span + 4;
  const y = (share: number): number => TOP + (HEIGHT - TOP - FOOT) * (1 - share);
  const points = scores.flatMap((score) => {
    const off = meanOff(score);
    const share = of === 'right' ? shareRight(score) : off === null ? null : Math.min(1, off / MOST_BEATS);
    return share === null ? [] : [{ day: score.day, x: x(score.day), y: y(share) }];
  });
  const labels = of === 'right' ? [percent(1), percent(0)] : [`${MOST_BEATS} beats`, '0'];
  return (
    <svg className="drill-curve" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="presentation">
      {[1, 0].map((share, at) => (
        <g key={share}>
          <line className="drill-grid" x1={LEFT} x2={WIDTH} y1={y(share)} y2={y(share)} />
          <text className="drill-axis" x={LEFT - 6} y={y(share) + 5}>
            {labels[at]}
          </text>
        </g>
      ))}
      <polyline className="drill-line" points={points.map((point) => `${point.x},${point.y}`).join(' ')} />
      {points.map((point) => (
        <circle key={point.day} className="drill-dot" cx={point.x} cy={point.y} r={5} />
      ))}
    </svg>
  );
};
