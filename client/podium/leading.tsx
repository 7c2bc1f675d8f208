import { useRef, useState } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { Road, RoadBar } from '../../common/form/road.ts';
import type { Performance } from '../../common/stage/perform.ts';
import type { Follower, Moment } from '../stand/follower.ts';
import { momentKey } from '../stand/follower.ts';
import { PlaceRow } from '../stand/place-row.tsx';
import { type Reader, semitonesFor, symbolReader } from '../stand/reader-key.ts';
import { Roll } from '../stand/roll.tsx';
import { barKey } from '../stand/stand-lines.ts';
import { useBarsPerLine } from '../stand/use-bars-per-line.ts';
import { useMoment } from '../stand/use-follower.ts';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import { BarActions } from './bar-actions.tsx';
import { BarChoice, type ChosenBar } from './bar-choice.tsx';
import { CalledRow } from './called-row.tsx';
import { CountStrip } from './count-strip.tsx';
import { type Landings, landingWords } from './landing-words.ts';
import { legNow } from './letters.ts';
import { NumberChoices } from './number-choices.tsx';
import { Pad } from './pad.tsx';
import { type KeySettings, keyState, podiumKeys } from './podium-keys.ts';
import { SpotRow } from './spot-row.tsx';
import { standsInTime } from './stands-in-time.ts';
import { TempoControl } from './tempo-control.tsx';
import type { useCalling } from './use-podium.ts';

const FIRST_SETTINGS: KeySettings = { breakBars: 1, tagBars: 4, tagTimes: 3 };
const NOWHERE: Landings = { phrase: '', chorus: '' };
const beatKey = ({ where }: Moment): string => momentKey(where);

export interface LeadingProps {
  readonly title: string;
  readonly performance: Performance;
  readonly follower: Follower;
  readonly music: ReadonlyMap<string, BarMusic> | null;
  /** The road as edited meanwhile, where it is another than the one being played. */
  readonly edited: Road | null;
  readonly chartKey: string;
  readonly reader: Reader;
  readonly calling: ReturnType<typeof useCalling>;
  readonly onTunes: () => void;
}

/** The podium while a tune is on: where we are, what is called, and the keys. Rendered once a beat. */
export const Leading = (props: LeadingProps) => {
  const { title, performance, follower, music, edited, chartKey, reader, calling, onTunes } = props;
  const board = useBoard();
  const people = useObservable(board.people);
  const link = useObservable(board.link);
  const { where, atMs } = useMoment(follower, beatKey);
  const [settings, setSettings] = useState(FIRST_SETTINGS);
  const [chosen, setChosen] = useState<ChosenBar | null>(null);
  const [allBars, setAllBars] = useState(false);
  const [chosenLeg, setChosenLeg] = useState<string | null>(null);
  const box = useRef<HTMLDivElement>(null);
  const perLine = useBarsPerLine(box);

  const road = follower.source.roadAt(atMs);
  const rolling = where.state === 'playing' || where.state === 'count' || where.state === 'held';
  const choosing = allBars || !rolling;
  const leg = legNow(
    road,
    choosing && chosenLeg !== null ? chosenLeg : 'place' in where ? where.place.leg : null,
  );
  const pending = follower.source.announced(atMs).filter(({ written, landed }) => !written && !landed);
  const { bars, now } = follower.source.barsAround(atMs, 0, 72);
  const away = link.state !== 'on';
  const semitones = semitonesFor(reader) + follower.source.semitonesAt(atMs);
  const read = symbolReader(chartKey, semitones);
  const musicOf = (bar: RoadBar): BarMusic => music?.get(bar.id) ?? bar.content.music;
  const keys = podiumKeys(settings, edited).map((key) => ({
    key,
    state: away
      ? ({ state: 'blank', words: 'The relay does not answer.' } as const)
      : keyState(key, performance, pending, board.sharedNow()),
  }));

  const choose = (bar: ChosenBar | null) => {
    setChosen(bar);
    board.point(bar === null ? null : { chart: performance.take.chart, bar: bar.id });
  };
  const chooseInRoll = (target: EventTarget) => {
    const key = target instanceof Element ? target.closest('[data-key]')?.getAttribute('data-key') : null;
    const around = follower.source.barsAround(follower.now(), 24, 48).bars;
    const bar = around.find((coming) => barKey(coming) === key);
    if (bar) choose({ leg: bar.place.leg, barIndex: Math.max(0, bar.place.barIndex), id: bar.bar.id });
  };
  const bpm = follower.source.tempoAt(atMs);
  return (
    <>
      <header className="podium-head">
        <h1>{title === '' ? 'Untitled' : title}</h1>
        <PlaceRow follower={follower} />
        {where.state === 'waiting' && <p className="dim">ready to count in</p>}
        {where.state === 'ended' && <p className="dim">ended</p>}
        <p className="podium-time" data-clock-note>
          {standsInTime(people)}
        </p>
        <TempoControl
          bpm={bpm}
          disabled={away}
          onTempo={(next) => void calling.call({ kind: 'tempo', bpm: next })}
        />
        <button type="button" className="button" onClick={onTunes}>
          tunes
        </button>
      </header>
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
                  onClick={() => setChosenLeg(id)}
                >
                  {name}
                </button>
              ))}
            </nav>
            <BarChoice
              leg={leg}
              musicOf={musicOf}
              read={read}
              chosen={chosen}
              perLine={Math.max(perLine, 4)}
              onChoose={choose}
            />
          </>
        ) : (
          // Touching a bar is a short cut: with "all bars" every bar is a key of its own.
          // biome-ignore lint/a11y/noStaticElementInteractions lint/a11y/useKeyWithClickEvents: see above
          <div className="podium-roll" onClick={(event) => chooseInRoll(event.target)}>
            <Roll follower={follower} musicOf={musicOf} read={read} pointed={chosen?.id ?? null}>
              {where.state === 'count' && <CountStrip where={where} />}
            </Roll>
          </div>
        )}
      </section>
      {chosen !== null ? (
        <BarActions
          chosen={chosen}
          road={road}
          performance={performance}
          nowMs={board.sharedNow()}
          away={away}
          onCall={(cue) => void calling.call(cue)}
          onDone={() => choose(null)}
        />
      ) : (
        <CalledRow pending={pending} onTakeBack={(id) => void calling.takeBack(id)} />
      )}
      <Pad
        keys={keys}
        landings={rolling ? landingWords(bars, now) : NOWHERE}
        onPress={({ cue }) => {
          if (cue !== null) void calling.call(cue);
        }}
      />
      <SpotRow
        road={road}
        leg={leg}
        rolling={rolling}
        performance={performance}
        nowMs={board.sharedNow()}
        away={away}
        onCall={(cue) => void calling.call(cue)}
      />
      <footer className="podium-foot">
        <NumberChoices settings={settings} onChange={setSettings} />
        {rolling && (
          <button
            type="button"
            className="button"
            aria-pressed={allBars}
            onClick={() => {
              setAllBars(!allBars);
              setChosenLeg(null);
            }}
          >
            all bars
          </button>
        )}
      </footer>
    </>
  );
};
