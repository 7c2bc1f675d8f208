import { type KeyboardEvent, useMemo, useRef, useState } from 'react';
import { checkChart } from '../../common/chart/check-chart.ts';
import { readBars } from '../../common/chart/read-bars.ts';
import { isNewerThanThisPage } from '../../common/document/schema-version.ts';
import { unroll } from '../../common/form/unroll.ts';
import { useBarsPerLine } from '../stand/use-bars-per-line.ts';
import type { ChartHandle, ChartState } from '../state/board.ts';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import { AsText } from './as-text.tsx';
import { Foot } from './foot.tsx';
import { HeadFields } from './head-fields.tsx';
import { Music } from './music.tsx';
import { barBeside, barsInOrder } from './neighbours.ts';
import { Notes } from './notes.tsx';
import { RoadMap } from './road-map.tsx';
import { TOOLS } from './tools.ts';
import { useEditing } from './use-editing.ts';
import { useHandle } from './use-handle.ts';
import './pencil.css';

/** The Pencil: the group edits a chart, each bar in its place. */
export const Pencil = ({ chart }: { readonly chart: string }) => {
  const board = useBoard();
  const handle = useHandle(board, chart);
  return handle === null ? <Opening /> : <Opened key={handle.id} handle={handle} />;
};

const Opening = () => (
  <main className="pencil">
    <p className="dim pencil-opening">One moment …</p>
  </main>
);

const Opened = ({ handle }: { readonly handle: ChartHandle }) => {
  const state = useObservable(handle.chart);
  return state === null ? <Opening /> : <Desk handle={handle} state={state} />;
};

const SAVED = { saved: 'saved', saving: 'saving …', kept: 'kept on this tablet for now' } as const;

const Desk = ({ handle, state }: { readonly handle: ChartHandle; readonly state: ChartState }) => {
  const board = useBoard();
  const { chart } = state;
  const problems = useMemo(() => [...checkChart(chart), ...unroll(chart).problems], [chart]);
  const editing = useEditing(handle, chart);
  const saved = useObservable(handle.saved);
  const { canUndo, canRedo } = useObservable(handle.undoState);
  const cursors = useObservable(handle.cursors);
  const book = useObservable(board.book);
  const [asText, setAsText] = useState(false);
  const [aside, setAside] = useState(false);
  const [extending, setExtending] = useState(false);
  const music = useRef<HTMLDivElement>(null);
  const perLine = useBarsPerLine(music);
  const bars = barsInOrder(chart);
  const number = bars.findIndex(({ bar }) => bar.id === editing.bar) + 1;
  const editors = [...new Map(cursors.map((cursor) => [cursor.member, cursor])).values()];

  const showBar = (id: string) => {
    editing.choose(id);
    document.querySelector(`[data-bar-id="${CSS.escape(id)}"]`)?.scrollIntoView({ block: 'center' });
  };
  const onKeys = (event: KeyboardEvent) => {
    const typing = event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement;
    if ((event.ctrlKey || event.metaKey) && event.key.toLowerCase() === 'z' && !typing) {
      event.preventDefault();
      if (event.shiftKey) handle.redo();
      else handle.undo();
    }
    if (typing || editing.bar === null || !(event.target instanceof HTMLElement)) return;
    if (event.target.dataset['barKey'] === undefined) return;
    const step = { ArrowRight: 1, ArrowLeft: -1, ArrowDown: perLine, ArrowUp: -perLine }[event.key];
    if (step !== undefined) {
      event.preventDefault();
      const next = barBeside(chart, editing.bar, step);
      if (next === null) return;
      editing.choose(next, event.shiftKey);
      document.querySelector<HTMLElement>(`[data-bar-key="${CSS.escape(next)}"]`)?.focus();
    } else if ((event.key === 'Delete' || event.key === 'Backspace') && handle.canEdit) {
      TOOLS.find(({ id }) => id === 'delete')?.use({ handle, chart, chosen: editing.chosen });
    }
  };

  return (
    <main className="pencil" data-aside={aside ? '' : undefined} onKeyDown={onKeys}>
      <header className="pencil-head">
        <h1>{chart.head.title || 'Without a title'}</h1>
        <p className="dim pencil-pitch">concert pitch</p>
        <p className="pencil-who">
          {editors.map(({ member, name, colour }) => (
            <b key={member} data-colour={colour}>
              {name}
            </b>
          ))}
        </p>
        <p className="pencil-saved" role="status" data-saved={saved}>
          {handle.canEdit ? SAVED[saved] : ''}
        </p>
        {handle.canEdit && (
          <span className="pencil-undo">
            <button type="button" className="button-quiet" disabled={!canUndo} onClick={handle.undo}>
              undo mine
            </button>
            <button type="button" className="button-quiet" disabled={!canRedo} onClick={handle.redo}>
              redo
            </button>
          </span>
        )}
        <button
          type="button"
          className="button-quiet pencil-aside-key"
          aria-pressed={aside}
          onClick={() => setAside(!aside)}
        >
          road and notes
        </button>
        {!asText && (
          <button type="button" className="button-quiet" onClick={() => setAsText(true)}>
            as text
          </button>
        )}
      </header>
      {!handle.canEdit && (
        <p className="strip" role="status">
          {isNewerThanThisPage(handle.doc)
            ? 'This chart was written by a newer Tillcue. You can read it here; load the page anew to edit it.'
            : 'You can read this chart. To edit it, ask the leader for a player’s link.'}
        </p>
      )}
      {asText && <AsText handle={handle} chart={chart} onClose={() => setAsText(false)} />}
      {/* Hidden, not taken away: it knows how wide it is. */}
      <div className="pencil-desk" hidden={asText}>
        <div className="pencil-sheet" ref={music}>
          <Music
            handle={handle}
            chart={chart}
            music={readBars(chart).music}
            editing={editing}
            perLine={perLine}
            extending={extending}
          />
          {bars.length === 0 && (
            <p className="dim pencil-opening">
              Nothing is written yet. Begin with “bar after”, or write the whole chart as text.
            </p>
          )}
        </div>
        <aside className="pencil-aside" aria-label="beside the music">
          <Notes
            handle={handle}
            bar={editing.bar}
            number={number}
            member={board.member}
            members={book.members}
          />
          {problems.length > 0 && (
            <section aria-label="to look at">
              <h2>{problems.length} to look at</h2>
              <ul className="list">
                {problems.map((problem, at) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: one bar may have the same problem twice
                  <li className="problem" key={at}>
                    {bars.some(({ bar }) => bar.id === problem.id) ? (
                      <button
                        type="button"
                        className="problem-key"
                        onClick={() => problem.id !== undefined && showBar(problem.id)}
                      >
                        {problem.words}
                      </button>
                    ) : (
                      problem.words
                    )}
                  </li>
                ))}
              </ul>
            </section>
          )}
          <RoadMap handle={handle} chart={chart} />
          <HeadFields handle={handle} chart={chart} />
        </aside>
      </div>
      {handle.canEdit && !asText && (
        <Foot handle={handle} editing={editing} extending={extending} onExtend={setExtending} />
      )}
    </main>
  );
};
