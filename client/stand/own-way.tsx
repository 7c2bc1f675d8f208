import { useMemo, useRef, useState } from 'react';
import { unroll } from '../../common/form/unroll.ts';
import type { Cue, Take } from '../../common/stage/cue.ts';
import { roadAt } from '../../common/stage/in-force.ts';
import { locate } from '../../common/stage/locate.ts';
import type { Performance } from '../../common/stage/perform.ts';
import { legAfter, legNow, letters } from '../podium/letters.ts';
import { useBoard } from '../state/board-context.tsx';
import { makeId } from '../state/make-id.ts';
import { useObservable } from '../state/observable.ts';
import { openChart } from '../state/open-chart.ts';
import { callAlone } from './call-alone.ts';
import { useChart } from './use-chart.ts';
import './own-way.css';

export interface OwnWayProps {
  take: Take | null;
  performance: Performance | null;
  /** The take as this stand goes on by itself. */
  onTake: (take: Take) => void;
}

/**
 * While the relay is away a player can move this stand, and this stand only: to the next leg, to a letter that is
 * now, to another tune. When the relay is back its place counts again.
 */
export const OwnWay = (props: OwnWayProps) => {
  const { take, performance, onTake } = props;
  const { sharedNow } = useBoard();
  const [unfolded, setUnfolded] = useState(false);
  const [open, setOpen] = useState<'here' | 'tune' | null>(null);
  const [words, setWords] = useState('');
  const go = (cue: Cue) => {
    const moved = callAlone({ take, performance }, cue, sharedNow(), makeId);
    if ('words' in moved) setWords(moved.words);
    else {
      setWords('');
      setOpen(null);
      onTake(moved.take);
    }
  };
  const nowMs = sharedNow();
  const where = performance === null ? null : locate(performance, nowMs);
  const road = performance === null ? null : roadAt(performance, nowMs);
  const legId = where !== null && 'place' in where ? where.place.leg : null;
  const leg = road === null ? undefined : legNow(road, legId);
  const next = road === null || legId === null ? undefined : legAfter(road, legId);
  const still = where?.state === 'waiting' || where?.state === 'ended';
  const toggle = (which: 'here' | 'tune') => setOpen((now) => (now === which ? null : which));
  if (!unfolded) {
    return (
      <button type="button" className="button" onClick={() => setUnfolded(true)}>
        move this stand …
      </button>
    );
  }
  return (
    <div className="own-way">
      <span className="button-row">
        {still && (
          <button type="button" className="button" onClick={() => go({ kind: 'start' })}>
            count in
          </button>
        )}
        {next !== undefined && (
          <button
            type="button"
            className="button"
            onClick={() => go({ kind: 'here', leg: next.id, barIndex: 0, pressedAtMs: sharedNow() })}
          >
            {next.name} now
          </button>
        )}
        {leg !== undefined && where?.state !== 'ended' && (
          <button
            type="button"
            className="button"
            aria-expanded={open === 'here'}
            onClick={() => toggle('here')}
          >
            here …
          </button>
        )}
        <button
          type="button"
          className="button"
          aria-expanded={open === 'tune'}
          onClick={() => toggle('tune')}
        >
          another tune …
        </button>
      </span>
      {open === 'here' && leg !== undefined && (
        <span className="button-row own-way-row">
          {letters(leg).map((spot) => (
            <button
              type="button"
              className="button"
              key={`${spot.barIndex} ${spot.name}`}
              onClick={() =>
                go({ kind: 'here', leg: spot.leg, barIndex: spot.barIndex, pressedAtMs: sharedNow() })
              }
            >
              {spot.name}
            </button>
          ))}
        </span>
      )}
      {open === 'tune' && (
        <TuneRow
          onTune={(chosen) => {
            setOpen(null);
            onTake(chosen);
          }}
        />
      )}
      {words !== '' && (
        <span role="alert" className="own-way-row">
          {words}
        </span>
      )}
    </div>
  );
};

/** The tunes of the book, as far as this tablet has them. */
const TuneRow = ({ onTune }: { onTune: (take: Take) => void }) => {
  const board = useBoard();
  const { charts } = useObservable(board.book);
  const [asked, setAsked] = useState<string | null>(null);
  const chart = useChart(board, asked, openChart)?.chart ?? null;
  const road = useMemo(() => (chart === null ? null : unroll(chart).road), [chart]);
  const taken = useRef<string | null>(null);
  const entry = charts.find(({ id }) => id === asked);
  const ready = entry !== undefined && road !== null && road.legs.length > 0;
  return (
    <span className="button-row own-way-row">
      <label className="visually-hidden" htmlFor="own-way-tune">
        Tune
      </label>
      <select
        id="own-way-tune"
        className="field"
        value={asked ?? ''}
        onChange={(event) => setAsked(event.target.value === '' ? null : event.target.value)}
      >
        <option value="">Which tune?</option>
        {charts
          .filter(({ deletedAtMs }) => deletedAtMs === undefined)
          .map(({ id, title }) => (
            <option key={id} value={id}>
              {title}
            </option>
          ))}
      </select>
      <button
        type="button"
        className="button"
        disabled={!ready}
        onClick={() => {
          if (!ready || taken.current === entry.id) return;
          taken.current = entry.id;
          onTune({ id: makeId(), chart: entry.id, title: entry.title, road, cues: [] });
        }}
      >
        show it
      </button>
      {asked !== null && !ready && <span>This tablet does not have it yet.</span>}
    </span>
  );
};
