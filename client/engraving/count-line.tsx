import type { CSSProperties } from 'react';
import { countAt, countedBar } from './count-in.ts';
import './count-line.css';

/**
 * The count-in, as large as a line: the bar that is being counted, in the trade's pattern, with the pulse that
 * is now as ink on paper.
 */
export const CountLine = ({
  pulsesToCome,
  countPulses,
  barPulses,
}: {
  pulsesToCome: number;
  countPulses: number;
  barPulses: number;
}) => {
  const { barsToCome, pulse, figure } = countAt(pulsesToCome, countPulses, barPulses);
  const waiting = pulsesToCome > countPulses;
  const figures = countedBar(barPulses, barsToCome === 1);
  // A pick-up takes the end of the last counted bar.
  const short = Math.round(countPulses) % Math.round(barPulses);
  const counted = barsToCome === 1 && short > 0 ? figures.slice(0, short) : figures;
  return (
    <div
      className="count-line"
      role="timer"
      aria-label="count-in"
      style={{ '--n': counted.length } as CSSProperties}
    >
      {counted.map((word, at) => (
        <span
          // biome-ignore lint/suspicious/noArrayIndexKey: a pulse is its place
          key={at}
          data-count-now={!waiting && at === pulse ? figure : undefined}
          data-silent={word === '' ? '' : undefined}
        >
          {word === '' ? '–' : word}
        </span>
      ))}
    </div>
  );
};
