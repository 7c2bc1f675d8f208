import { type ReactNode, useEffect, useLayoutEffect, useRef, useState } from 'react';
import { flushSync } from 'react-dom';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { ComingBar, Where } from '../../common/stage/place.ts';
import { Bar } from '../engraving/bar.tsx';
import { barColumns, Line } from '../engraving/line.tsx';
import type { Follower } from './follower.ts';
import { litBar } from './lit-bar.ts';
import { rollTo } from './roll-motion.ts';
import { barKey, type RollLine, roleOf, rollLines, standLines } from './stand-lines.ts';
import { useBarsPerLine } from './use-bars-per-line.ts';
import { useFrames } from './use-follower.ts';
import './roll.css';

/** Bars asked for beyond the pass so far: enough for the line before and for the lines ahead. */
const BEFORE = 17;
const AHEAD = 40;

export interface RollProps {
  follower: Follower;
  /** What a bar holds now, from the chart as it stands. */
  musicOf: (bar: ComingBar['bar']) => BarMusic;
  /** A chord as this reader reads it in a bar of that key, at that time. */
  read: (symbol: string, key: string) => string;
  /** Id of the bar the leader points at. */
  pointed: string | null;
  /** What stands in the place of the line being played while there is none: the count, the tune that waits. */
  children?: ReactNode;
}

const linesAt = (follower: Follower, where: Where, tMs: number, maxBars: number): RollLine[] => {
  const before = where.state === 'playing' || where.state === 'held' ? where.place.barIndex + BEFORE : 0;
  const { bars, now } = follower.source.barsAround(tMs, before, AHEAD);
  return rollLines(standLines(bars, maxBars), now < 0 ? null : (bars[now]?.index ?? null));
};

/** What the lines depend on: while it stays the same, nothing on the roll changes but the ticks. */
const rollKey = (where: Where): string =>
  where.state === 'playing' || where.state === 'held'
    ? `${where.bar} ${where.place.leg} ${where.place.pass} ${where.place.barIndex}`
    : where.state;

const placeKey = ({ place, index }: ComingBar): string =>
  `${index} ${place.leg} ${place.pass} ${place.barIndex}`;

/** Lines that roll up into the one being played, which always stands at the same height. */
export const Roll = ({ follower, musicOf, read, pointed, children }: RollProps) => {
  const root = useRef<HTMLDivElement>(null);
  const maxBars = useBarsPerLine(root);
  const [lines, setLines] = useState(() => linesAt(follower, follower.where(), follower.now(), maxBars));
  const lit = useRef(litBar());
  const shown = useRef({ key: '', maxBars, follower, lines });

  /** Lights the bar being played if it is drawn, gives the lines their parts; false where it is not drawn. */
  const apply = (where: Where, next: readonly RollLine[], moving: boolean): boolean => {
    const stand = root.current;
    if (stand === null) return false;
    const playing = where.state === 'playing' || where.state === 'held';
    const nowLine = next.find((line) => line.distance === 0);
    const nowBar = playing ? nowLine?.bars.find((bar) => placeKey(bar) === rollKey(where)) : undefined;
    const element =
      nowBar === undefined
        ? null
        : stand.querySelector<HTMLElement>(`[data-key="${CSS.escape(barKey(nowBar))}"]`);
    if (playing && element === null) return false;
    const parts = new Map(next.map((line) => [line.key, roleOf(line.distance)]));
    rollTo(stand, parts, moving);
    lit.current.light(element, playing ? where.place : null);
    const last = nowLine !== undefined && nowBar !== undefined && nowLine.bars.at(-1) === nowBar;
    if (last && nowLine.bars.length > 1) stand.dataset['growing'] = '';
    else delete stand.dataset['growing'];
    return true;
  };

  useFrames(follower, (where, tMs) => {
    const key = rollKey(where);
    if (shown.current.key !== key) {
      const next = linesAt(follower, where, tMs, maxBars);
      shown.current = { key, maxBars, follower, lines: next };
      // A jump to something that is not drawn yet must stand in this very frame.
      if (apply(where, next, true)) setLines(next);
      else flushSync(() => setLines(next));
    }
    if (where.state === 'playing' || where.state === 'held') lit.current.fill(where.place.pulse);
  });

  // A cue that landed, a line folded anew, an edited chart: the lines are made afresh.
  useEffect(() => {
    const where = follower.where();
    const next = linesAt(follower, where, follower.now(), maxBars);
    shown.current = { key: rollKey(where), maxBars, follower, lines: next };
    setLines(next);
  }, [follower, maxBars]);

  useLayoutEffect(() => {
    const where = follower.where();
    apply(where, shown.current.lines.length > 0 ? shown.current.lines : lines, false);
    if (where.state === 'playing' || where.state === 'held') lit.current.fill(where.place.pulse);
  });

  const held = follower.where().state === 'held';
  return (
    <div className="roll" ref={root}>
      {children}
      {lines.map((line) => {
        const musics = line.bars.map((bar) => musicOf(bar.bar));
        const readAt = (index: number) => (symbol: string) => read(symbol, musics[index]?.key ?? '');
        return (
          <Line
            key={line.key}
            data-line={line.key}
            letter={line.letter}
            columns={barColumns(musics, readAt(0))}
            data-new-leg={line.newLeg ? '' : undefined}
          >
            {line.bars.map((bar, index) => {
              const music = musics[index] ?? bar.bar.content.music;
              const heading = index === 0 ? line.heading : bar.bar.content.letter;
              return (
                <Bar
                  key={barKey(bar)}
                  data-key={barKey(bar)}
                  data-bar-id={bar.bar.id}
                  data-pointed={pointed === bar.bar.id ? '' : undefined}
                  music={music}
                  read={readAt(index)}
                  number={bar.place.barIndex + 1}
                  {...(heading === undefined || heading === '' ? {} : { heading })}
                  {...(bar.out === undefined ? {} : { out: bar.out, outBarsLeft: bar.outBarsLeft ?? 0 })}
                  leg={bar.leg.name}
                  held={held && line.distance === 0 && bar.index === nowIndexOf(follower)}
                  ticks
                />
              );
            })}
          </Line>
        );
      })}
    </div>
  );
};

const nowIndexOf = (follower: Follower): number => {
  const where = follower.where();
  return where.state === 'held' || where.state === 'playing' ? where.bar : -1;
};
