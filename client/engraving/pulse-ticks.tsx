import type { Metre } from '../../common/chart/bar-music.ts';
import './pulse-ticks.css';

/** Pulses of a bar that begin a group: in 5/4 (3+2) the first and the fourth. */
const groupStarts = (metre: Metre): Set<number> => {
  const starts = new Set<number>();
  let at = 0;
  for (const length of metre.groups) {
    starts.add(at);
    at += length;
  }
  return starts;
};

/**
 * One tick a pulse under a bar. Whoever follows the music fills them: `data-filled` on those gone by, and the
 * transform of the `b` in the one that is going by.
 * @param numbered counts the band back in
 */
export const PulseTicks = ({
  metre,
  pulses,
  numbered = false,
}: {
  metre: Metre;
  pulses: number;
  numbered?: boolean;
}) => {
  const starts = groupStarts(metre);
  return (
    <span className="ticks" aria-hidden="true">
      {Array.from({ length: Math.max(1, Math.ceil(pulses - 1e-6)) }, (_, pulse) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a pulse is its place
        <i key={pulse} data-group={pulse > 0 && starts.has(pulse) ? '' : undefined}>
          {numbered && <u>{pulse + 1}</u>}
          <b />
        </i>
      ))}
    </span>
  );
};
