import { SpelledText } from '../engraving/spelled-text.tsx';
import { TradeSign } from '../engraving/trade-sign.tsx';
import type { Follower } from './follower.ts';
import { minutesWords } from './place-words.ts';
import { playedLegs } from './played-legs.ts';

/** After the last bar: what was played. */
export const EndedMoment = ({ follower, title }: { follower: Follower; title: string }) => {
  const where = follower.where();
  const endMs = where.state === 'ended' ? where.atMs : follower.now();
  const { bars } = follower.source.barsAround(endMs - 1, 10_000, 0);
  const played = bars.filter((bar) => bar.startMs < endMs);
  const first = played[0];
  const legs = playedLegs(played);
  return (
    <section className="stand-ended" aria-label="what was played">
      <h2>
        <TradeSign name="finalBar" /> <SpelledText text={title} />
      </h2>
      <p className="ended-legs">
        {legs.map((leg, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a leg may be played twice, in this order
          <span key={at}>
            {leg.name}
            {leg.passes > 1 && <b> ×{leg.passes}</b>}
          </span>
        ))}
      </p>
      {first !== undefined && (
        <p className="ended-facts">
          {minutesWords(endMs - first.startMs)}, {played.length} {played.length === 1 ? 'bar' : 'bars'}
        </p>
      )}
      <p className="dim">The next tune comes up here when it is called.</p>
    </section>
  );
};
