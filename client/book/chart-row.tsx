import { useId, useState } from 'react';
import type { ChartEntry } from '../../common/document/book-document.ts';
import type { Cue } from '../../common/stage/cue.ts';
import { pencilHref, shedHref, standHref } from '../app/route.ts';
import { SpelledText } from '../engraving/spelled-text.tsx';
import { TempoMark } from '../engraving/tempo-mark.tsx';
import { useBoard } from '../state/board-context.tsx';
import { CallForm } from './call-form.tsx';
import { lengthTold, lengthWords } from './length-words.ts';
import { useChartLength } from './use-chart-length.ts';

/** Brings what is asked into view, too. */
const focus = (key: HTMLElement | null): void => key?.focus();

/** One chart of the book; touched, it offers what can be done with it. */
export const ChartRow = ({ band, entry, shownKey, isOn, isOpen, mayWrite, mayCall, ...does }: RowProps) => {
  const offers = useId();
  const length = useChartLength(useBoard(), entry);
  const [isAsking, setAsking] = useState(false);
  const asks = isAsking && isOn;
  return (
    <li className="chart-row" data-open={isOpen}>
      <button
        type="button"
        className="chart-row-head"
        aria-expanded={isOpen}
        aria-controls={offers}
        onClick={() => {
          setAsking(false);
          does.onOpen(!isOpen);
        }}
      >
        <span className="chart-title">
          <strong>{entry.title || 'Without a title'}</strong>
          {entry.by && <span className="dim">{entry.by}</span>}
          {length && <span className="dim">{lengthWords(length)}</span>}
          {isOn && <span className="chart-on">on the stands</span>}
        </span>
        <span className="chart-key">
          <SpelledText text={shownKey} />
        </span>
        <span className="chart-tempo dim">
          <TempoMark isCompound={entry.isCompound} />
          {Math.round(entry.tempo)}
        </span>
      </button>
      {isOpen && (
        <div id={offers} className="chart-offers">
          {length && <p className="dim">{lengthTold(length)}</p>}
          {mayCall && <CallForm entry={entry} onCall={does.onCall} />}
          <div className="button-row">
            <a className="button" href={standHref(band, entry.id)}>
              On my stand
            </a>
            <a className="button" href={shedHref(band, entry.id)}>
              Practise
            </a>
            <a className="button" href={pencilHref(band, entry.id)}>
              {mayWrite ? 'Edit' : 'Look at the bars'}
            </a>
            {mayWrite && (
              <>
                <button type="button" className="button" onClick={does.onCopy}>
                  Duplicate
                </button>
                <button
                  type="button"
                  className="button button-danger"
                  disabled={asks}
                  onClick={isOn ? () => setAsking(true) : does.onDelete}
                >
                  Delete
                </button>
              </>
            )}
          </div>
          {mayWrite && asks && (
            <p className="strip" role="alert">
              <span>The band has this tune on the stands. Delete it all the same?</span>
              <button type="button" className="button button-danger" onClick={does.onDelete}>
                Delete it
              </button>
              <button type="button" className="button" ref={focus} onClick={() => setAsking(false)}>
                Keep it
              </button>
            </p>
          )}
        </div>
      )}
    </li>
  );
};

interface RowProps {
  readonly band: string;
  readonly entry: ChartEntry;
  /** As this reader reads it. */
  readonly shownKey: string;
  /** It is the tune that is called. */
  readonly isOn: boolean;
  readonly isOpen: boolean;
  readonly mayWrite: boolean;
  readonly mayCall: boolean;
  readonly onOpen: (open: boolean) => void;
  readonly onCall: (cue: Cue) => void;
  readonly onCopy: () => void;
  readonly onDelete: () => void;
}
