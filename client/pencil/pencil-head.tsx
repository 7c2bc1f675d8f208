import type { Chart } from '../../common/chart/chart.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { useObservable } from '../state/observable.ts';
import { HeadField } from './head-fields.tsx';

const SAVED = { saved: 'saved', saving: 'saving …', kept: 'kept here for now' } as const;

/** The row at the top: the title, who else is writing, whether all is saved, undo, and the ways to look at the chart. */
export const PencilHead = ({ handle, chart, aside, asText, onAside, onAsText, onStep }: PencilHeadProps) => {
  const saved = useObservable(handle.saved);
  const { canUndo, canRedo } = useObservable(handle.undoState);
  const cursors = useObservable(handle.cursors);
  const editors = [...new Map(cursors.map((cursor) => [cursor.member, cursor])).values()];
  return (
    <header className="pencil-head">
      <h1 className="visually-hidden">{chart.head.title || 'Without a title'}</h1>
      <HeadField handle={handle} chart={chart} word="title" />
      {editors.length > 0 && (
        <p className="pencil-who">
          <span className="visually-hidden">also writing: </span>
          {editors.map(({ member, name, colour }) => (
            <b key={member} data-colour={colour}>
              {name}
            </b>
          ))}
        </p>
      )}
      {/* What was typed before the book was locked is still on this tablet only. */}
      {(handle.canEdit || saved !== 'saved') && (
        <p className="pencil-saved" role="status" data-saved={saved}>
          {SAVED[saved]}
        </p>
      )}
      {handle.canEdit && (
        <span className="pencil-undo">
          <button
            type="button"
            className="button-quiet"
            disabled={!canUndo}
            // What is being typed is written first, not left: so the step before it can be taken back.
            onPointerDown={(event) => event.preventDefault()}
            onClick={() => onStep('undo')}
          >
            <span aria-hidden="true">↶</span>
            <span className="pencil-word">undo mine</span>
          </button>
          <button
            type="button"
            className="button-quiet"
            disabled={!canRedo}
            onPointerDown={(event) => event.preventDefault()}
            onClick={() => onStep('redo')}
          >
            <span aria-hidden="true">↷</span>
            <span className="pencil-word">redo</span>
          </button>
        </span>
      )}
      <button
        type="button"
        className="button-quiet pencil-aside-key"
        aria-pressed={aside}
        disabled={asText}
        onClick={onAside}
      >
        road and notes
      </button>
      <button type="button" className="button-quiet" aria-pressed={asText} onClick={onAsText}>
        as text
      </button>
    </header>
  );
};

interface PencilHeadProps {
  readonly handle: ChartHandle;
  readonly chart: Chart;
  /** On a narrow screen: what stands beside the music is shown instead of it. */
  readonly aside: boolean;
  readonly asText: boolean;
  readonly onAside: () => void;
  readonly onAsText: () => void;
  readonly onStep: (which: 'undo' | 'redo') => void;
}
