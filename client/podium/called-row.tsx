import type { Announcement } from '../../common/stage/place.ts';
import { Flag } from '../engraving/flag.tsx';

/** What has been called and has not landed, each with its way back. */
export const CalledRow = ({
  pending,
  onTakeBack,
}: {
  readonly pending: readonly Announcement[];
  readonly onTakeBack: (id: string) => void;
}) => (
  <section className="called-row" aria-label="called" aria-live="polite">
    {pending.length === 0 && <p className="dim">Nothing called.</p>}
    {pending.map((announcement) => (
      <div className="called-cue" key={announcement.id}>
        <Flag announcement={announcement} compact />
        <button
          type="button"
          className="button take-back"
          disabled={!announcement.canTakeBack}
          aria-label={`take back ${announcement.name}`}
          onClick={() => onTakeBack(announcement.id)}
        >
          take back
        </button>
      </div>
    ))}
  </section>
);
