import { useCallback, useEffect, useId, useRef, useState } from 'react';
import { DRUMS } from '../../common/band/drum-kit.ts';
import type { NoteEvent } from '../../common/band/note-event.ts';
import { CLICK_EVERY_MS, type Lateness, lateness } from '../../common/rehearsal/lateness.ts';
import { sharedMs } from '../../common/units.ts';
import { useServices } from '../app/services.ts';
import { pressTime } from '../podium/press-time.ts';
import { TapKey } from '../podium/tap-key.tsx';
import type { BandSound } from '../state/band-sound.ts';
import { useObservable } from '../state/observable.ts';
import { LATEST_MS, SOONEST_MS } from '../storage/practice-settings.ts';
import { tabletPractice } from '../storage/tablet-practice.ts';
import { useTapKeys } from './use-tap-keys.ts';

const STEP_MS = 5;
const FIRST_CLICK_MS = 1_200;
const silent = { volume: 0, muted: true, solo: false };

/** For headphones and loudspeakers that are heard late without the browser knowing: by ear and hand. */
export const LateSound = ({ onListen }: { readonly onListen: () => void }) => {
  const { laterMs } = useObservable(tabletPractice);
  const [listens, setListens] = useState(false);
  const field = useId();
  const set = (wanted: number) => {
    if (Number.isFinite(wanted)) tabletPractice.change({ laterMs: keptMs(wanted) });
  };
  return (
    <section className="late-sound">
      <h2>Sound that comes late</h2>
      <p className="dim">
        Wireless headphones and loudspeakers are often heard a tenth of a second late. Tap along the click
        once, and the band plays that much earlier.
      </p>
      <div className="button-row">
        <label className="field" htmlFor={field}>
          <span>Heard late by, ms</span>
          <input
            id={field}
            type="number"
            inputMode="numeric"
            min={SOONEST_MS}
            max={LATEST_MS}
            step={STEP_MS}
            value={laterMs}
            onChange={({ target }) => set(target.valueAsNumber)}
          />
        </label>
        {!listens && (
          <button
            type="button"
            className="button"
            onClick={() => {
              onListen();
              setListens(true);
            }}
          >
            Tap along the click
          </button>
        )}
      </div>
      {listens && (
        <Listening
          onEnd={(ms) => {
            if (ms !== null) set(ms);
            setListens(false);
          }}
        />
      )}
    </section>
  );
};

/** @param onEnd gets how late the sound is, ms; null where nothing is to be changed */
const Listening = ({ onEnd }: { readonly onEnd: (laterMs: number | null) => void }) => {
  const { openSound } = useServices();
  const sound = useRef<BandSound | null>(null);
  const firstClick = useRef(0);
  const [taps, setTaps] = useState<readonly number[]>([]);
  const [failed, setFailed] = useState(false);
  const tap = useCallback((stampMs: number) => {
    const now = performance.now();
    const atMs = pressTime(stampMs, now, now);
    setTaps((before) => [...before, atMs]);
  }, []);
  useTapKeys(tap);
  useEffect(() => {
    let isOver = false;
    firstClick.current = performance.now() + FIRST_CLICK_MS;
    const { master, parts } = tabletPractice.get();
    const click = { volume: parts.click.volume, muted: false, solo: false };
    openSound({
      localNow: () => performance.now(),
      sharedAtLocal: (local) => sharedMs(local),
      eventsBetween: (fromMs, untilMs) => clicksBetween(firstClick.current, fromMs, untilMs),
      mix: { master, parts: { click, bass: silent, comping: silent, drums: silent } },
      laterMs: () => 0,
    }).then(
      (opened) => {
        if (isOver) void opened.close();
        else sound.current = opened;
      },
      (error: unknown) => {
        console.error('There is no sound.', error);
        setFailed(true);
      },
    );
    return () => {
      isOver = true;
      void sound.current?.close();
      sound.current = null;
    };
  }, [openSound]);
  const frame = useRef<HTMLDivElement>(null);
  useEffect(() => {
    frame.current?.scrollIntoView({ block: 'nearest' });
    frame.current?.querySelector<HTMLElement>('.tap-key')?.focus({ preventScroll: true });
  }, []);
  const found = lateness(taps, firstClick.current);
  return (
    <div className="late-sound-taps" ref={frame}>
      <p role="status">{failed ? 'This browser gives no sound.' : foundWords(found)}</p>
      <div className="button-row">
        {found.kind === 'late' && (
          <button type="button" className="button" onClick={() => onEnd(found.laterMs)}>
            Play {keptMs(found.laterMs)} ms earlier
          </button>
        )}
        {found.kind !== 'more' && (
          <button type="button" className="button" onClick={() => setTaps([])}>
            Tap anew
          </button>
        )}
        <button type="button" className="button" onClick={() => onEnd(null)}>
          Leave as it is
        </button>
      </div>
      <TapKey name="Tap" detail="on each click: here, or Space, a pedal" disabled={failed} onTap={tap} />
    </div>
  );
};

/** What is kept of it. */
const keptMs = (laterMs: number): number => Math.min(LATEST_MS, Math.max(SOONEST_MS, Math.round(laterMs)));

const foundWords = (found: Lateness): string => {
  if (found.kind === 'more') return found.left === 1 ? 'One tap more.' : `${found.left} taps more.`;
  const spread = Math.round(found.spreadMs);
  if (found.kind === 'uneven')
    return `Half of the taps lie more than ${spread} ms apart from the rest: tap once more, on each click.`;
  return (
    `Heard ${Math.round(found.laterMs)} ms late, give or take ${spread}. ` +
    'Hands come a little before a click; where the click still seems late, put the figure up.'
  );
};

const clicksBetween = (firstMs: number, fromMs: number, untilMs: number): NoteEvent[] => {
  const clicks: NoteEvent[] = [];
  let beat = Math.max(0, Math.ceil((fromMs - firstMs) / CLICK_EVERY_MS));
  for (; firstMs + beat * CLICK_EVERY_MS < untilMs; beat++) {
    const atMs = firstMs + beat * CLICK_EVERY_MS;
    clicks.push({ atMs, lengthMs: 40, voice: 'click', midi: DRUMS.lowBlock, velocity: 78 });
  }
  return clicks;
};
