import { useCallback, useEffect, useRef, useState } from 'react';
import type { AskedCue } from '../../common/rehearsal/cue-drill.ts';
import { pressTime } from '../podium/press-time.ts';
import { TapKey } from '../podium/tap-key.tsx';
import { Stand } from '../stand/stand.tsx';
import { useObservable } from '../state/observable.ts';
import { tabletDrills } from '../storage/tablet-drills.ts';
import type { AloneBoard } from './alone-board.ts';
import { answerWords, dueWords } from './drill-words.ts';
import type { DrillRun, DrillSeen } from './run-drill.ts';
import { useMicrophone } from './use-microphone.ts';
import { useTapKeys } from './use-tap-keys.ts';

export interface DrillRunningProps {
  readonly alone: AloneBoard;
  readonly run: DrillRun;
  readonly listens: boolean;
  readonly onStop: () => void;
}

/** While a drill runs: the stand as in a real band, and one large key. */
export const DrillRunning = ({ alone, run, listens, onStop }: DrillRunningProps) => {
  const seen = useObservable(run.seen);
  const { playingDb } = useObservable(tabletDrills);
  const tap = useCallback(
    (stampMs: number) => run.tap(pressTime(stampMs, performance.now(), alone.sharedNow())),
    [run, alone],
  );
  useTapKeys(tap);
  const microphone = useMicrophone(listens, (db) => {
    if (db > playingDb) run.heard(alone.sharedNow());
  });
  const { answers, progress } = seen.drill;
  const last = answers.at(-1);
  const isFresh = useFresh(answers.length);
  const frame = useRef<HTMLDivElement>(null);
  useEffect(() => {
    frame.current?.querySelector<HTMLElement>('.tap-key')?.focus();
  }, []);
  return (
    <div className="drill" ref={frame} data-drill={seen.name} data-dark={seen.dark ? '' : undefined}>
      <div className="drill-head">
        <p
          className="drill-words"
          role="status"
          data-answer={isFresh && last !== undefined ? (last.right ? 'right' : 'missed') : undefined}
        >
          {isFresh && last !== undefined ? answerWords(last) : taskWords(seen)}
          {seen.words !== '' && ` ${seen.words}`}
        </p>
        <p className="drill-count dim">
          <span>
            {answers.filter(({ right }) => right).length} of {answers.length} right
          </span>
          <span>level {progress.level}</span>
          {listens && <span>{microphone === 'on' ? 'microphone on' : 'no microphone'}</span>}
        </p>
        <button type="button" className="button" onClick={onStop}>
          Stop
        </button>
      </div>
      <div className="drill-stand">
        <Stand />
        {seen.dark && seen.name === 'spots' && seen.drill.dark !== null && (
          <p className="drill-dark">
            In the dark. Tap on <b>{dueWords(seen.drill.dark)}</b>.
          </p>
        )}
      </div>
      <div className="drill-foot">
        <TapKey name="Tap" detail="or Space, Enter, a pedal" disabled={false} onTap={tap} />
      </div>
    </div>
  );
};

/** So long the last answer is shown, ms. */
const SHOWN_MS = 3500;

/** True for a while after another answer has come. */
const useFresh = (count: number): boolean => {
  const [old, setOld] = useState(0);
  useEffect(() => {
    const timer = window.setTimeout(() => setOld(count), SHOWN_MS);
    return () => window.clearTimeout(timer);
  }, [count]);
  return count > old;
};

const inBreakWords = ({ silence }: AskedCue, listens: boolean): string => {
  if (silence === null) return 'A cue is called: tap on the beat where it lands.';
  return listens
    ? 'A break is called: hit beat one, then be silent until the band is in again.'
    : 'A break is called: nothing in it; tap on beat one where the band is in again.';
};

const taskWords = (seen: DrillSeen): string => {
  if (seen.name === 'cues') {
    const { asked, listens } = seen.drill;
    return asked === null ? 'Play on. A cue may come at any time.' : inBreakWords(asked, listens);
  }
  const { dark } = seen.drill;
  if (dark === null) return 'Play on.';
  if (seen.dark) return 'Keep the form.';
  return `Dark from bar ${dark.from.place.barIndex + 1}: tap on ${dueWords(dark)}.`;
};
