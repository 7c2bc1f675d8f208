import { SpelledText } from '../engraving/spelled-text.tsx';
import type { FoundSpots } from './find-lost-spots.ts';
import type { Follower, Moment } from './follower.ts';
import { useMoment } from './use-follower.ts';
import './lost-words.css';

const barKeyOf = ({ where }: Moment): string =>
  where.state === 'playing' || where.state === 'held' ? `${where.bar} ${where.place.barIndex}` : where.state;

/** The lost spot that comes next, in few words, a phrase ahead: over the line gone by, where nothing has to move for it. */
export const LostWords = ({ follower, found }: { follower: Follower; found: FoundSpots }) => {
  const { atMs } = useMoment(follower, barKeyOf);
  const spot = found.said(follower.source, atMs);
  return (
    <p className="lost-words" role="status" data-lost={spot?.kind}>
      {spot !== null && (
        <span>
          <SpelledText text={spot.announce} />
        </span>
      )}
    </p>
  );
};
