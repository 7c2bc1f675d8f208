import { type RefObject, useRef } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { Leg, Road, RoadBar } from '../../common/form/road.ts';
import type { Where } from '../../common/stage/place.ts';
import type { Follower } from '../stand/follower.ts';
import type { ReadChord } from '../stand/reader-key.ts';
import { Roll } from '../stand/roll.tsx';
import { barKey } from '../stand/stand-lines.ts';
import { useBarsPerLine } from '../stand/use-bars-per-line.ts';
import { BarChoice } from './bar-choice.tsx';
import { CountStrip } from './count-strip.tsx';
import type { Stretch } from './letters.ts';
import './chart-area.css';

/**
 * The music on the podium: the line being played and the next one, or, where bars are to be touched, all bars of
 * a leg.
 */
export const ChartArea = ({
  follower,
  where,
  road,
  leg,
  choosing,
  chosen,
  pointed,
  musicOf,
  read,
  modulation,
  onLeg,
  onTouch,
}: {
  readonly follower: Follower;
  readonly where: Where;
  readonly road: Road;
  /** The leg whose bars are shown for choosing. */
  readonly leg: Leg | undefined;
  readonly choosing: boolean;
  readonly chosen: Stretch | null;
  /** Id of the bar pointed at. */
  readonly pointed: string | null;
  readonly musicOf: (bar: RoadBar) => BarMusic;
  readonly read: ReadChord;
  /** Semitones by which the tune is played higher than written now. */
  readonly modulation: number;
  readonly onLeg: (leg: string) => void;
  readonly onTouch: (leg: string, barIndex: number, id: string) => void;
}) => {
  const box = useRef<HTMLElement>(null);
  const perLine = useBarsPerLine(box as RefObject<HTMLElement | null>);
  const touchInRoll = (target: EventTarget) => {
    const key = target instanceof Element ? target.closest('[data-key]')?.getAttribute('data-key') : null;
    const bar = follower.source
      .barsAround(follower.now(), 24, 48)
      .bars.find((coming) => barKey(coming) === key);
    if (bar) onTouch(bar.place.leg, Math.max(0, bar.place.barIndex), bar.bar.id);
  };
  return (
    <section
      className="podium-music"
      ref={box}
      data-choosing={choosing ? '' : undefined}
      aria-label="the chart"
    >
      {choosing && leg !== undefined ? (
        <>
          <nav className="leg-tabs" aria-label="legs of the road map">
            {road.legs.map(({ id, name }) => (
              <button
                type="button"
                className="button-quiet"
                key={id}
                aria-pressed={id === leg.id}
                onClick={() => onLeg(id)}
              >
                {name}
              </button>
            ))}
          </nav>
          <BarChoice
            leg={leg}
            musicOf={musicOf}
            read={(symbol, key) => read(symbol, key, modulation)}
            chosen={chosen}
            now={where.state === 'playing' || where.state === 'held' ? where.place : null}
            perLine={Math.max(perLine, 4)}
            onTouch={onTouch}
          />
        </>
      ) : (
        // Touching a bar is a short cut: on the screen "Spot" every bar is a key of its own.
        // biome-ignore lint/a11y/noStaticElementInteractions lint/a11y/useKeyWithClickEvents: see above
        <div className="podium-roll" onClick={(event) => touchInRoll(event.target)}>
          <Roll follower={follower} musicOf={musicOf} read={read} pointed={pointed}>
            {where.state === 'count' && <CountStrip where={where} />}
          </Roll>
        </div>
      )}
    </section>
  );
};
