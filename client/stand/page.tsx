import { useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { Chart } from '../../common/chart/chart.ts';
import type { Where } from '../../common/stage/place.ts';
import { Bar } from '../engraving/bar.tsx';
import { barColumns, Line } from '../engraving/line.tsx';
import { useNoteNames } from '../engraving/note-names.ts';
import { chartLines } from './chart-lines.ts';
import type { Follower } from './follower.ts';
import { litBar } from './lit-bar.ts';
import './page.css';

export interface PageProps {
  chart: Chart;
  music: ReadonlyMap<string, BarMusic>;
  read: (symbol: string, key: string) => string;
  pointed: string | null;
  /** Ids of bars in which people lose the form; null until they are known. */
  lost: ReadonlySet<string> | null;
  /** Lights the bar being played; null for a chart that is only read. */
  follower: Follower | null;
}

const barIdNow = (follower: Follower, where: Where, tMs: number): string | null => {
  if (where.state !== 'playing' && where.state !== 'held') return null;
  const { bars, now } = follower.source.barsAround(tMs, 0, 0);
  return bars[now]?.bar.id ?? null;
};

const showLine = (bar: HTMLElement): void => {
  const line = bar.closest('.line');
  const page = bar.closest('.page-view');
  if (line === null || page === null) return;
  const box = page.getBoundingClientRect();
  const { top, bottom } = line.getBoundingClientRect();
  // Eyes read ahead: the line being played never stands at the foot.
  if (top >= box.top && bottom <= box.top + box.height * 0.7) return;
  const still = window.matchMedia('(prefers-reduced-motion: reduce)').matches;
  page.scrollBy({ top: top - box.top - box.height * 0.2, behavior: still ? 'auto' : 'smooth' });
};

/** The whole chart as it was written; the same light moves over it. */
export const Page = ({ chart, music, read, pointed, lost, follower }: PageProps) => {
  const names = useNoteNames();
  const root = useRef<HTMLElement>(null);
  const lit = useRef(litBar());
  const lines = useMemo(() => chartLines(chart, music), [chart, music]);
  const last = useRef('');

  const light = useRef((_where: Where, _tMs: number): void => {});
  light.current = (where, tMs) => {
    if (follower === null) return;
    const id = barIdNow(follower, where, tMs);
    const bar =
      id === null
        ? null
        : (root.current?.querySelector<HTMLElement>(`[data-bar-id="${CSS.escape(id)}"]`) ?? null);
    lit.current.light(bar, 'place' in where ? where.place : null);
    if (bar !== null) showLine(bar);
  };

  useEffect(() => {
    if (follower === null) return;
    last.current = '';
    return follower.watch((where, tMs) => {
      const playing = where.state === 'playing' || where.state === 'held';
      const key = playing
        ? `${where.bar} ${where.place.leg} ${where.place.pass} ${where.place.barIndex}`
        : where.state;
      if (key !== last.current) {
        last.current = key;
        light.current(where, tMs);
      }
      if (playing) lit.current.fill(where.place.pulse, where.state === 'playing' ? where.bpm : null);
    });
  }, [follower]);

  useLayoutEffect(() => {
    if (follower !== null) light.current(follower.where(), follower.now());
  });

  return (
    // A page that scrolls must be reachable from a keyboard.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: see above
    <section className="page-view" ref={root} tabIndex={0} aria-label="the whole chart">
      {lines.map((line) => (
        <Line
          key={line.key}
          letter={line.letter}
          columns={barColumns(
            line.bars.map((bar) => bar.music),
            (symbol) => read(symbol, line.bars[0]?.music.key ?? ''),
            names,
          )}
          data-section-start={line.letter === undefined ? undefined : ''}
        >
          {line.bars.map(({ bar, number, music: held, out }) => (
            <Bar
              key={bar.id}
              data-bar-id={bar.id}
              data-pointed={pointed === bar.id ? '' : undefined}
              data-lost={lost?.has(bar.id) === true ? '' : undefined}
              music={held}
              read={(symbol) => read(symbol, held.key)}
              number={number}
              left={bar.left}
              right={bar.right}
              ending={bar.ending}
              {...(out === undefined ? {} : { out })}
              asWritten
              ticks
            />
          ))}
        </Line>
      ))}
    </section>
  );
};
