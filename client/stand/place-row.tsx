import type { Follower, Moment } from './follower.ts';
import { InForce } from './in-force.tsx';
import { passWords } from './place-words.ts';
import { useMoment } from './use-follower.ts';
import './place-row.css';

const legKey = ({ where }: Moment): string =>
  'place' in where ? `${where.state} ${where.place.leg} ${where.place.pass}` : where.state;

/** Where the band is, in words: the leg, and which time through it. */
export const PlaceRow = ({ follower }: { follower: Follower }) => {
  const { where, atMs } = useMoment(follower, legKey);
  if (where.state === 'waiting' || where.state === 'ended') return null;
  const { bars, now } = follower.source.barsAround(atMs, 0, 1);
  const bar = bars[Math.max(0, now)];
  if (bar === undefined) return null;
  const pass = passWords(bar.leg, bar.place.pass, bar.passes);
  return (
    <p className="place-row" data-leg-name={bar.leg.name}>
      <span className="place-leg">{bar.leg.name}</span>{' '}
      {pass !== '' && <span className="place-pass">{pass}</span>} <InForce follower={follower} />
      {bar.leg.words !== undefined && bar.leg.words !== '' && (
        <span className="place-words">{bar.leg.words}</span>
      )}
    </p>
  );
};
