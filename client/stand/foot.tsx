import { type ReactNode, useLayoutEffect, useMemo, useRef } from 'react';
import { count } from '../../common/form/count.ts';
import type { ComingBar } from '../../common/stage/place.ts';
import { Ribbon, type RibbonBar } from '../engraving/ribbon.tsx';
import type { FoundSpots } from './find-lost-spots.ts';
import type { Follower, Moment } from './follower.ts';
import { afterWords, passPips } from './place-words.ts';
import { useFrames, useMoment } from './use-follower.ts';
import './foot.css';

/** Changes with the pass, and with whatever may change its bars: a cue that landed in it. */
const passKey = ({ where }: Moment): string =>
  'place' in where
    ? `${where.state} ${where.place.leg} ${where.place.pass} ${where.place.barIndex}`
    : where.state;

/** The bars of the pass that is on, from its own road; breaks only where they are known: in what is played or to come. */
const passBars = (
  follower: Follower,
  atMs: number,
  found: FoundSpots | null,
): { bars: RibbonBar[]; first: ComingBar | undefined } => {
  const { where } = follower.moment.get();
  const index = 'place' in where ? Math.max(0, where.place.barIndex) : 0;
  const around = follower.source.barsAround(atMs, 0, 1);
  const here = around.bars[Math.max(0, around.now)];
  if (here === undefined) return { bars: [], first: undefined };
  // No farther than this pass: an open leg goes on for as long as one asks.
  const { bars } = follower.source.barsAround(atMs, index + 1, Math.max(0, here.passBars - index));
  const known = new Map(
    bars
      .filter((bar) => bar.place.leg === here.place.leg && bar.place.pass === here.place.pass)
      .map((bar) => [bar.place.barIndex, bar]),
  );
  const written =
    here.leg.lastBars !== undefined &&
    known.get(here.passBars - 1)?.bar === here.leg.lastBars[here.passBars - 1]
      ? here.leg.lastBars
      : here.leg.bars;
  const contents = Array.from({ length: here.passBars }, (_, at) => known.get(at)?.bar ?? written[at]);
  const lost = found?.marked(here.place.leg, {
    bars: contents.map((content) => ({ id: content?.id ?? '' })),
    pass: here.place.pass,
    passes: here.passes,
  });
  const ribbon = contents.map((content, at) => {
    return {
      key: `${at}`,
      pulses: content?.pulses ?? 1,
      phraseEnd: content?.phraseEnd ?? false,
      out: known.get(at)?.out !== undefined,
      lost: lost?.has(at) === true,
    };
  });
  return { bars: ribbon, first: here };
};

interface FootProps {
  follower: Follower;
  /** Where people lose the form; null until that is known. */
  found: FoundSpots | null;
  /** At the right of the legend. */
  remark?: ReactNode;
}

/** The pass to scale, which bar of it, the passes as pips, and what comes after. */
export const Foot = ({ follower, found, remark }: FootProps) => {
  const { where, atMs } = useMoment(follower, passKey);
  const ribbon = useRef<HTMLDivElement>(null);
  const lit = useRef<Element | null>(null);
  const { bars, first } = useMemo(() => passBars(follower, atMs, found), [follower, atMs, found]);

  const light = () => {
    const at = follower.where();
    const index = at.state === 'playing' || at.state === 'held' ? Math.max(0, at.place.barIndex) : -1;
    const next = ribbon.current?.children[index < 0 ? -1 : index] ?? null;
    if (next === lit.current) return;
    lit.current?.removeAttribute('data-here');
    next?.setAttribute('data-here', '');
    ribbon.current?.toggleAttribute('data-started', next !== null);
    lit.current = next;
  };
  useFrames(follower, light);
  useLayoutEffect(light);

  if (first === undefined) return null;
  const road = follower.source.roadAt(atMs);
  const pips = passPips(first.place.pass, first.passes);
  const number = where.state === 'playing' || where.state === 'held' ? where.place.barIndex + 1 : null;
  return (
    <footer className="stand-foot">
      <Ribbon bars={bars} ref={ribbon} />
      <p className="stand-legend">
        {number === null ? (
          <span>{count(first.passBars, 'bar')}</span>
        ) : number < 1 ? (
          <span>pick-up</span>
        ) : (
          <span>
            bar <b>{number}</b> of {first.passBars}
          </span>
        )}
        {pips !== '' && (
          <span className="stand-pips" role="img" aria-label={`pass ${first.place.pass}`}>
            {[...pips].map((pip, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a pass is its place
              <i key={at} data-pip={pip} />
            ))}
          </span>
        )}
        <span className="stand-after">{afterWords(road, first.place.leg)}</span>
        {remark}
      </p>
    </footer>
  );
};
