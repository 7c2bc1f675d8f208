import { type ClipboardEvent, type KeyboardEvent, useEffect, useRef, useState } from 'react';
import { readBars } from '../../common/chart/read-bars.ts';
import { roadEntryOf } from '../../common/document/chart-entry.ts';
import { setChartEntry } from '../../common/document/edit-book.ts';
import { isNewerThanThisPage } from '../../common/document/schema-version.ts';
import { LockedStrip } from '../book/locked-strip.tsx';
import { useBarsPerLine } from '../stand/use-bars-per-line.ts';
import { useBoard } from '../state/board-context.tsx';
import type { ChartHandle, ChartState } from '../state/chart-handle.ts';
import { useObservable } from '../state/observable.ts';
import { AsText } from './as-text.tsx';
import { goOnFrom, pressBarKey } from './bar-keys.ts';
import { deleteChosen } from './bar-tools.ts';
import { copyText, pasteText } from './clipboard.ts';
import { chosenIn } from './editing.ts';
import { focusBar } from './focus-bar.ts';
import { Foot, type ToolGroup } from './foot.tsx';
import { HeadFields } from './head-fields.tsx';
import { LostDrafts } from './lost-drafts.tsx';
import { LostSpots } from './lost-spots.tsx';
import { Music } from './music.tsx';
import { barsInOrder, numberOf } from './neighbours.ts';
import { Notes } from './notes.tsx';
import { OutOfBook } from './out-of-book.tsx';
import { PencilHead } from './pencil-head.tsx';
import { ProblemList } from './problem-list.tsx';
import { RoadMap } from './road-map.tsx';
import type { Tool, Tray } from './tool.ts';
import { TrayOverFoot } from './trays.tsx';
import { unfinishedText } from './unfinished-texts.ts';
import { useEditing } from './use-editing.ts';
import { useHandle } from './use-handle.ts';
import { useKeptFocus } from './use-kept-focus.ts';
import { useOwnWords } from './use-own-words.ts';
import { useSteps } from './use-steps.ts';
import { WrittenOver } from './written-over.tsx';
import './pencil-head.css';
import './pencil-desk.css';
import './pencil-bars.css';
import './road-map.css';
import './to-look-at.css';
import './pencil-foot.css';
import './pencil-sizes.css';

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

const isField = (target: EventTarget): boolean =>
  target instanceof HTMLInputElement ||
  target instanceof HTMLTextAreaElement ||
  target instanceof HTMLSelectElement;

/** Ctrl+Z takes one's own last step back, with Shift (or Ctrl+Y) does it again; null where it was another key. */
const stepOfKey = ({
  ctrlKey,
  metaKey,
  shiftKey,
  key,
}: Pick<KeyboardEvent, 'ctrlKey' | 'metaKey' | 'shiftKey' | 'key'>): 'undo' | 'redo' | null => {
  const letter = key.toLowerCase();
  if (!(ctrlKey || metaKey) || (letter !== 'z' && letter !== 'y')) return null;
  return shiftKey || letter === 'y' ? 'redo' : 'undo';
};

const Desk = ({ handle, state }: { readonly handle: ChartHandle; readonly state: ChartState }) => {
  const board = useBoard();
  const { chart } = state;
  const editing = useEditing(handle);
  const typing = useObservable(editing);
  const own = useOwnWords(handle, board.member);
  const book = useObservable(board.book);
  const locked = useObservable(board.leading).locked === true;
  const [asText, setAsText] = useState(() => unfinishedText(handle.id) !== null);
  const [aside, setAside] = useState(false);
  const [group, setGroup] = useState<ToolGroup>('bars');
  const [asked, setAsked] = useState<Tray | null>(null);
  const sheet = useRef<HTMLDivElement>(null);
  const perLine = useBarsPerLine(sheet);
  const at = { handle, chart, chosen: chosenIn(chart, typing) };
  const tray = typing.mode === 'edit' ? asked : typing.mode;
  const keptFocus = useKeptFocus(chart, editing);
  const { words, take } = useSteps(handle);

  useEffect(() => {
    // Whoever came by the keyboard can begin to write.
    const first = handle.chart.get()?.chart.sections.find(({ bars }) => bars.length > 0)?.bars[0];
    if (document.activeElement === document.body && first !== undefined) focusBar(first.id);
  }, [handle]);

  useEffect(() => {
    if (!locked) return;
    // What was typed a moment before is kept on this tablet, and goes to the others when the book is unlocked.
    editing.write();
    editing.drop();
  }, [editing, locked]);

  useEffect(() => {
    // The book shows how long the chart is and by what pulse it goes; who changes it says so there.
    if (!handle.canEdit) return;
    setChartEntry(board.bookDoc, handle.id, roadEntryOf(chart));
  }, [board, handle, chart]);

  useEffect(() => {
    // Also while nothing has the keyboard.
    const stepBack = (event: globalThis.KeyboardEvent) => {
      const step = event.target === document.body ? stepOfKey(event) : null;
      if (step === null) return;
      event.preventDefault();
      take(step);
    };
    window.addEventListener('keydown', stepBack);
    return () => window.removeEventListener('keydown', stepBack);
  }, [take]);

  const use = (tool: Tool) => {
    editing.settle();
    if ('tray' in tool) return openTray(tool.tray === tray ? null : tool.tray);
    // The draft is in the document now; the chart this was drawn from does not know it yet.
    goOnFrom(editing, tool.use({ ...at, chart: handle.chart.get()?.chart ?? chart }));
  };
  const openTray = (next: Tray | null) => {
    const isTouch = next === 'upTo' || next === 'move' || next === 'copy';
    editing.touchTo(isTouch ? next : 'edit');
    setAsked(isTouch ? null : next);
  };
  const onKeys = (event: KeyboardEvent) => {
    if (isField(event.target)) return;
    const step = stepOfKey(event);
    if (step !== null) take(step);
    else if (event.key === 'Escape' && tray !== null) openTray(null);
    else if (!pressBarKey(event, { handle, chart, editing, perLine })) return;
    event.preventDefault();
  };
  const onCopy = (event: ClipboardEvent, cut: boolean) => {
    if (isField(event.target) || at.chosen.length === 0 || !document.getSelection()?.isCollapsed) return;
    event.preventDefault();
    event.clipboardData.setData('text/plain', copyText(chart, at.chosen));
    if (!cut || !handle.canEdit) return;
    goOnFrom(editing, deleteChosen(at));
    focusBar(editing.get().bar);
  };
  const onPaste = (event: ClipboardEvent) => {
    if (isField(event.target) || asText || !handle.canEdit) return;
    const bars = pasteText(handle, chart, at.chosen.at(-1) ?? null, event.clipboardData.getData('text'));
    if (bars.length === 0) return;
    event.preventDefault();
    editing.chooseAll(bars);
    focusBar(bars.at(-1) ?? null);
  };
  const showBars = (ids: readonly string[]) => {
    setAside(false);
    editing.chooseAll(ids);
    focusBar(ids[0] ?? null);
  };

  return (
    <main
      className="pencil"
      data-aside={aside ? '' : undefined}
      onKeyDown={onKeys}
      {...keptFocus}
      onCopy={(event) => onCopy(event, false)}
      onCut={(event) => onCopy(event, true)}
      onPaste={onPaste}
    >
      <PencilHead
        handle={handle}
        chart={chart}
        aside={aside}
        asText={asText}
        onAside={() => setAside(!aside)}
        onAsText={() => {
          editing.settle();
          setAsText(!asText);
        }}
        onStep={(which) => {
          // What is being typed is the last step.
          editing.settle();
          take(which);
        }}
      />
      <LockedStrip />
      <OutOfBook handle={handle} />
      {!handle.canEdit && !locked && (
        <p className="strip" role="status">
          {isNewerThanThisPage(handle.doc)
            ? 'This chart was written by a newer Tillcue. You can read it here; load the page anew to edit it.'
            : 'You can read this chart. To edit it, ask the leader for a player’s link.'}
        </p>
      )}
      <LostDrafts lost={typing.lost} editing={editing} />
      <WrittenOver
        own={own}
        canEdit={handle.canEdit}
        writing={typing.draft === null ? null : `bars.${typing.draft.bar}.text`}
      />
      {asText && <AsText handle={handle} chart={chart} onClose={() => setAsText(false)} />}
      {/* Hidden, not taken away: it knows how wide it is. */}
      <div className="pencil-desk" hidden={asText}>
        <div className="pencil-sheet" ref={sheet}>
          <HeadFields handle={handle} chart={chart} />
          <Music
            handle={handle}
            chart={chart}
            music={readBars(chart).music}
            editing={editing}
            state={typing}
            perLine={perLine}
          />
          {barsInOrder(chart).length === 0 && (
            <p className="dim pencil-opening">
              Nothing is written yet. Begin with “bar after”, or write the whole chart as text.
            </p>
          )}
        </div>
        <aside className="pencil-aside" aria-label="beside the music">
          <ProblemList
            handle={handle}
            chart={chart}
            writing={typing.draft?.bar ?? null}
            onShow={(id) => showBars([id])}
          />
          <RoadMap handle={handle} chart={chart} />
          <LostSpots handle={handle} state={state} chosen={at.chosen} onShow={showBars} />
          <Notes
            handle={handle}
            bar={typing.bar}
            number={typing.bar === null ? 0 : numberOf(chart, typing.bar)}
            member={board.member}
            members={book.members}
          />
        </aside>
      </div>
      <p className="pencil-step" role="status">
        {words !== null && <span>{words}</span>}
      </p>
      {handle.canEdit && !asText && (
        <>
          {tray !== null && (
            <TrayOverFoot key={tray} tray={tray} at={at} editing={editing} onClose={() => openTray(null)} />
          )}
          <Foot at={at} tray={tray} group={group} onGroup={setGroup} onUse={use} />
        </>
      )}
    </main>
  );
};
