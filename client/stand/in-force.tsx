import type { ComingBar } from '../../common/stage/place.ts';
import type { Follower, Moment } from './follower.ts';
import { type Fact, factsOf } from './in-force-words.ts';
import { useMoment } from './use-follower.ts';
import './in-force.css';

/** The bar being played, or the first one while the band is counted in. */
const barAt = (follower: Follower, atMs: number): ComingBar | undefined => {
  const { bars, now } = follower.source.barsAround(atMs, 0, 1);
  return bars[Math.max(0, now)];
};

const factsAt = (follower: Follower, atMs: number): readonly Fact[] => {
  const { soloAt, dynamicAt } = follower.source;
  const bar = barAt(follower, atMs);
  return bar === undefined ? [] : factsOf(bar, soloAt(atMs)?.next ?? null, dynamicAt(atMs));
};

/** What was called and stays in force: who plays and who is next, the spot, stop-time, feel, dynamics. */
export const InForce = ({ follower }: { follower: Follower }) => {
  const keyOf = ({ atMs }: Moment): string =>
    factsAt(follower, atMs)
      .map(({ kind, words, after }) => `${kind} ${words} ${after}`)
      .join('|');
  const { atMs } = useMoment(follower, keyOf);
  const facts = factsAt(follower, atMs);
  return facts.map(({ kind, family, words, after }) => (
    <span key={kind} className="in-force" data-in-force={kind} data-family={family}>
      <b>{words}</b>
      {after !== '' && <span className="in-force-after"> {after}</span>}
    </span>
  ));
};
