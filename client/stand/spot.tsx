import { useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { RoadBar } from '../../common/form/road.ts';
import type { Where } from '../../common/stage/place.ts';
import { Bar } from '../engraving/bar.tsx';
import { barColumns, Line } from '../engraving/line.tsx';
import { useNoteNames } from '../engraving/note-names.ts';
import type { Follower, Moment } from './follower.ts';
import type { Help } from './help/help-on-stand.ts';
import { litBar } from './lit-bar.ts';
import type { ReadChord } from './reader-key.ts';
import { spotAt, spotLines } from './spot-at.ts';
import { useBarsPerLine } from './use-bars-per-line.ts';
import { useMoment } from './use-follower.ts';
import './spot.css';

export interface SpotProps {
  follower: Follower;
  musicOf: (bar: RoadBar) => BarMusic;
  read: ReadChord;
  /** What stands under the chords; null where nothing does. */
  help: Help | null;
}

const barKeyOf = ({ where }: Moment): string =>
  where.state === 'playing' || where.state === 'held' ? `${where.state} ${where.bar}` : where.state;

/** A spot that is rehearsed again and again: its bars stand large and still, and the light goes round. */
export const Spot = ({ follower, musicOf, read, help }: SpotProps) => {
  const names = useNoteNames();
  const root = useRef<HTMLElement>(null);
  const maxBars = useBarsPerLine(root);
  const lit = useRef(litBar());
  const { where, atMs } = useMoment(follower, barKeyOf);
  // It is drawn because it is short enough, however it is folded.
  const bar = spotAt(follower, atMs, Number.POSITIVE_INFINITY)?.bar;
  const leg = bar?.leg;
  const { from = 0, to = 0 } = bar?.loop ?? {};
  const lines = useMemo(
    () => (leg === undefined ? [] : spotLines(leg, from, to, maxBars)),
    [leg, from, to, maxBars],
  );
  const round = useMemo(() => {
    const { bars } = follower.source.barsAround(atMs, to - from, to - from + 1);
    return new Map(
      bars.filter((b) => b.loop?.round === bar?.loop?.round).map((b) => [b.place.barIndex, b] as const),
    );
  }, [follower, atMs, bar, from, to]);

  const light = useRef((_where: Where): void => {});
  light.current = (now) => {
    const on = now.state === 'playing' || now.state === 'held';
    const at = on
      ? root.current?.querySelector<HTMLElement>(`[data-spot-bar="${now.place.barIndex}"]`)
      : null;
    lit.current.light(at ?? null, on ? now.place : null);
    if (on) lit.current.fill(now.place.pulse, now.state === 'playing' ? now.bpm : null);
  };
  useEffect(() => {
    let last = '';
    return follower.watch((now) => {
      const key = barKeyOf({ where: now, atMs: 0 });
      if (key !== last) light.current(now);
      else if (now.state === 'playing') lit.current.fill(now.place.pulse, now.bpm);
      last = key;
    });
  }, [follower]);
  useLayoutEffect(() => light.current(follower.where()));

  return (
    <section className="spot" ref={root} data-help={help?.room} aria-label="the spot that is rehearsed">
      {lines.map((line) => {
        const musics = line.map((one) => musicOf(one.bar));
        const modulation = bar?.semitones;
        const readAt = (at: number) => (symbol: string) => read(symbol, musics[at]?.key ?? '', modulation);
        return (
          <Line key={line[0]?.place.barIndex} columns={barColumns(musics, readAt(0), names)}>
            {line.map(({ place, bar: written }, at) => {
              const coming = round.get(place.barIndex);
              const out = coming?.out;
              return (
                <Bar
                  key={place.barIndex}
                  data-spot-bar={place.barIndex}
                  data-bar-id={written.id}
                  music={musics[at] ?? written.content.music}
                  read={readAt(at)}
                  number={place.barIndex + 1}
                  {...(out === undefined ? {} : { out, outBarsLeft: coming?.outBarsLeft ?? 0 })}
                  stopTime={coming?.stopTime === true}
                  held={where.state === 'held' && where.place.barIndex === place.barIndex}
                  ticks
                >
                  {leg &&
                    help?.under(
                      line.map((one) => ({ leg, ...one, semitones: modulation ?? 0 })),
                      musics,
                      at,
                      readAt,
                    )}
                </Bar>
              );
            })}
          </Line>
        );
      })}
    </section>
  );
};
