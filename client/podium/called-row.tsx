import { useRef } from 'react';
import { Flag } from '../engraving/flag.tsx';
import { SpelledText } from '../engraving/spelled-text.tsx';
import type { Offer } from './offers.ts';
import { pendingCues } from './pending-cues.ts';
import type { PodiumMoment } from './podium-moment.ts';
import { useFocusOnward } from './use-focus-onward.ts';
import './called-row.css';

/** From so many on they stand in rows. */
const MANY = 3;

/**
 * What is offered just now, and what has been called and has not landed, each with its way back; the soonest
 * first.
 */
export const CalledRow = ({
  moment,
  offers,
  lost,
}: {
  readonly moment: PodiumMoment;
  readonly offers: readonly Offer[];
  /** The lost spot that comes next, in few words. */
  readonly lost: string | null;
}) => {
  const pending = pendingCues(moment.announced);
  const row = useRef<HTMLElement>(null);
  const focusOnward = useFocusOnward(
    row,
    pending.map(({ id }) => id),
  );
  return (
    <section
      ref={row}
      className="called-row"
      data-count={Math.min(offers.length + pending.length, MANY)}
      aria-label="called"
    >
      {offers.map(({ id, words, touch }) => (
        <div className="called-cue offer" key={id}>
          <p role={touch === null ? 'status' : undefined}>{words}</p>
          {touch !== null && (
            <button
              type="button"
              className="button"
              data-key-id={id}
              aria-disabled={moment.away}
              onClick={() => moment.call(touch.cue)}
            >
              {touch.key}
            </button>
          )}
        </div>
      ))}
      {pending.map((announcement) => (
        <div className="called-cue" key={announcement.id} data-family={announcement.family}>
          <Flag announcement={announcement} compact />
          <button
            type="button"
            className="button take-back"
            disabled={!announcement.canTakeBack}
            aria-disabled={moment.away}
            aria-label={`take back ${announcement.name}`}
            onClick={({ detail }) => {
              // Without a pointer: the keyboard is at work.
              if (detail === 0) focusOnward(announcement.id);
              moment.takeBack(announcement.id);
            }}
          >
            take back
          </button>
        </div>
      ))}
      {lost !== null ? (
        <p className="called-lost" role="status">
          <span>
            <SpelledText text={lost} />
          </span>
        </p>
      ) : (
        offers.length + pending.length === 0 && <p className="dim">Nothing called.</p>
      )}
    </section>
  );
};
