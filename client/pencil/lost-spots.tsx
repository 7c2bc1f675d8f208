import { type FormEvent, useMemo, useRef, useState } from 'react';
import type { Chart } from '../../common/chart/chart.ts';
import { addSpot, bringBackSpot, deleteSpot, dismissSpot } from '../../common/document/edit-lost-spots.ts';
import { unroll } from '../../common/form/unroll.ts';
import { useNoteNames } from '../engraving/note-names.ts';
import { SpelledText } from '../engraving/spelled-text.tsx';
import type { ChartHandle, ChartState } from '../state/chart-handle.ts';
import { makeId } from '../state/make-id.ts';
import { barNumbers, countsOtherwise, type ListedSpot, lostList, sideBySide } from './lost-list.ts';

/** They are said while everybody plays. */
const MOST_LETTERS = 48;

export interface LostSpotsProps {
  readonly handle: ChartHandle;
  readonly state: ChartState;
  /** Bars that are chosen, in the order of the chart. */
  readonly chosen: readonly string[];
  /** Goes to bars that stand side by side. */
  readonly onShow: (bars: readonly string[]) => void;
}

/** Where players are likely to lose the form, the likeliest first; each can be dismissed, and others added. */
export const LostSpots = ({ handle, state, chosen, onShow }: LostSpotsProps) => {
  const { chart, said } = state;
  const { doc, origin, canEdit } = handle;
  const names = useNoteNames();
  const section = useRef<HTMLElement>(null);
  const { spots, unplayed, isOtherCount } = useMemo(() => {
    const list = lostList(unroll(chart).road, said, names);
    return { ...list, isOtherCount: list.spots.some(({ spot }) => countsOtherwise(chart, spot)) };
  }, [chart, said, names]);
  const open = spots.filter(({ isDismissed }) => !isDismissed);
  const dismissed = spots.filter(({ isDismissed }) => isDismissed);

  /** What was touched is gone from the page: the keyboard stays with the list. */
  const stay = () => requestAnimationFrame(() => section.current?.focus({ preventScroll: true }));
  const remove = ({ id, kind }: ListedSpot['spot']) => {
    if (kind === 'added') deleteSpot(doc, id, origin);
    else dismissSpot(doc, id, origin);
    stay();
  };
  const show = (bars: readonly string[]) => onShow(sideBySide(chart, bars));

  return (
    <section className="lost-spots" aria-label="lost spots" ref={section} tabIndex={-1}>
      <h2>Lost spots</h2>
      {open.length === 0 && (
        <p className="dim small">
          {dismissed.length > 0 ? 'All are dismissed.' : 'None are found in what is written.'}
        </p>
      )}
      {open.length > 0 && isOtherCount && (
        <p className="dim small">Bars in the words count from the top of a pass, as on the stand.</p>
      )}
      <ol className="lost-list">
        {open.map(({ spot, legs }, at) => (
          <li className="lost-spot" key={spot.id} data-lost-kind={spot.kind}>
            <Face spot={spot} legs={legs} rank={at + 1} chart={chart} onShow={show} />
            {canEdit && (
              <button
                type="button"
                className="button-quiet lost-key"
                aria-label={`${spot.kind === 'added' ? 'delete' : 'dismiss'}: ${spot.announce}`}
                onClick={() => remove(spot)}
              >
                {spot.kind === 'added' ? 'delete' : 'dismiss'}
              </button>
            )}
          </li>
        ))}
        {unplayed.map(({ id, words }) => (
          <li className="lost-spot" key={id} data-lost-kind="unplayed">
            <p className="lost-face">
              <b>{words}</b>
              <small className="dim">Its bars are in no leg any more: nobody is told.</small>
            </p>
            {canEdit && (
              <button
                type="button"
                className="button-quiet lost-key"
                aria-label={`delete: ${words}`}
                onClick={() => {
                  deleteSpot(doc, id, origin);
                  stay();
                }}
              >
                delete
              </button>
            )}
          </li>
        ))}
      </ol>
      {dismissed.length > 0 && (
        <details className="lost-dismissed">
          <summary>{dismissed.length} dismissed</summary>
          <ul className="lost-list">
            {dismissed.map(({ spot, legs }) => (
              <li className="lost-spot" key={spot.id}>
                <Face spot={spot} legs={legs} chart={chart} onShow={show} />
                {canEdit && (
                  <button
                    type="button"
                    className="button-quiet lost-key"
                    aria-label={`bring back: ${spot.announce}`}
                    onClick={() => {
                      bringBackSpot(doc, spot.id, origin);
                      stay();
                    }}
                  >
                    bring back
                  </button>
                )}
              </li>
            ))}
          </ul>
        </details>
      )}
      {canEdit && <AddOne handle={handle} chart={chart} chosen={chosen} />}
    </section>
  );
};

/** What it says and why; touched, it goes to its bars. */
const Face = ({ spot, legs, rank, chart, onShow }: FaceProps) => {
  const { announce, reason, bars } = spot;
  const where = `${barNumbers(chart, bars)}, ${legs.join(', ')}`;
  return (
    <button type="button" className="lost-face" onClick={() => onShow(bars)}>
      <b>
        {rank !== undefined && <span className="lost-rank">{rank}</span>}
        <SpelledText text={announce} />
      </b>
      <small className="dim">
        <SpelledText text={reason === announce ? where : `${reason} · ${where}`} />
      </small>
    </button>
  );
};

interface FaceProps extends Pick<ListedSpot, 'spot' | 'legs'> {
  readonly rank?: number;
  readonly chart: Chart;
  readonly onShow: (bars: readonly string[]) => void;
}

const AddOne = ({ handle, chart, chosen }: Pick<LostSpotsProps, 'handle' | 'chosen'> & { chart: Chart }) => {
  const [words, setWords] = useState('');
  const { doc, origin } = handle;
  const [from, to] = [chosen[0], chosen.at(-1)];
  if (from === undefined || to === undefined) {
    return <p className="dim small">Touch a bar, or choose several, to add one.</p>;
  }
  const add = (event: FormEvent) => {
    event.preventDefault();
    if (words.trim() === '') return;
    addSpot(doc, { from, to, words: words.trim() }, makeId, origin);
    setWords('');
  };
  return (
    <form className="note-form" onSubmit={add}>
      <label className="field">
        <span>One more, {barNumbers(chart, chosen)}: in few words</span>
        <input
          value={words}
          maxLength={MOST_LETTERS}
          placeholder="bass alone: count 4"
          enterKeyHint="done"
          onChange={(event) => setWords(event.target.value)}
        />
      </label>
      <button type="submit" className="button" disabled={words.trim() === ''}>
        add it
      </button>
    </form>
  );
};
