import { Fragment } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { Chart } from '../../common/chart/chart.ts';
import type { NoteNames } from '../../common/theory/note-name.ts';
import { barColumns, Line } from '../engraving/line.tsx';
import { useNoteNames } from '../engraving/note-names.ts';
import { chartLines, type WrittenBar } from '../stand/chart-lines.ts';
import { foldLine } from '../stand/stand-lines.ts';
import type { ChartHandle } from '../state/chart-handle.ts';
import { useObservable } from '../state/observable.ts';
import { chosenIn, type Editing, type EditingState } from './editing.ts';
import { barAt, barsInOrder } from './neighbours.ts';
import { PencilBar } from './pencil-bar.tsx';
import { SectionHead } from './section-head.tsx';
import { splitName, typedBars } from './typed-bars.ts';
import { understand } from './understood.ts';
import { UnderstoodLine } from './understood-line.tsx';
import { useSweep } from './use-sweep.ts';

const asTyped = (symbol: string): string => symbol;

/** What is being typed with its last bar, which is understood as `was`, in other words. */
const withLast = (typed: string, was: string, text: string): string => {
  const at = typed.lastIndexOf(was);
  return was === '' || at === -1
    ? `${typed.trimEnd()} ${text}`.trim()
    : typed.slice(0, at) + text + typed.slice(at + was.length);
};

/** A row that has not its full number of bars leaves room for them, so that bars keep their width while one writes. */
const rowColumns = (row: readonly WrittenBar[], perLine: number, names: NoteNames): string => {
  const music = row.map((written) => written.music);
  const columns = barColumns(music, asTyped, names);
  return row.length < perLine ? `${columns} minmax(0, ${perLine - row.length}fr)` : columns;
};

export interface MusicProps {
  readonly handle: ChartHandle;
  readonly chart: Chart;
  readonly music: ReadonlyMap<string, BarMusic>;
  readonly editing: Editing;
  readonly state: EditingState;
  readonly perLine: number;
}

/** The chart as its writer wrote it, every bar a place to type. */
export const Music = ({ handle, chart, music, editing, state, perLine }: MusicProps) => {
  const names = useNoteNames();
  const { bar, draft } = state;
  const cursors = useObservable(handle.cursors);
  const fresh = useObservable(handle.fresh);
  const sweep = useSweep(editing);
  const chosen = chosenIn(chart, state);
  const stop = bar ?? barsInOrder(chart)[0]?.bar.id;
  const lines = chartLines(chart, music);
  const typed = draft === null ? [] : typedBars(splitName(draft.text).rest);
  const understood = draft === null ? null : understand(chart, draft.bar, typed.at(-1)?.text ?? '');
  const now = draft === null ? undefined : barAt(chart, draft.bar)?.bar.text;
  const theirs = draft !== null && now !== draft.base && now !== draft.text ? (now ?? null) : null;

  return (
    <div className="pencil-music" data-mode={state.mode} {...sweep}>
      {chart.sections.map((section) => (
        <section key={section.id} className="pencil-section" aria-label={`section ${section.label}`}>
          <SectionHead handle={handle} chart={chart} section={section} editing={editing} />
          {lines
            .filter(({ bars }) => section.bars.some(({ id }) => id === bars[0]?.bar.id))
            .flatMap((line) =>
              foldLine(
                line.bars.map((written) => ({ ...written, place: { barIndex: written.number - 1 } })),
                perLine,
              ),
            )
            .map((row) => (
              <Fragment key={row[0]?.bar.id}>
                <Line columns={rowColumns(row, perLine, names)}>
                  {row.map((written) => (
                    <PencilBar
                      key={written.bar.id}
                      written={written}
                      editing={editing}
                      state={state}
                      isChosen={chosen.includes(written.bar.id)}
                      isStop={stop === written.bar.id}
                      cursors={cursors.filter((cursor) => cursor.bar === written.bar.id)}
                      fresh={fresh.get(written.bar.id)}
                    />
                  ))}
                </Line>
                {draft !== null &&
                  understood !== null &&
                  row.some((written) => written.bar.id === draft.bar) && (
                    <UnderstoodLine
                      key={draft.bar}
                      understood={understood}
                      theirs={
                        theirs === null ? null : { text: theirs, who: fresh.get(draft.bar)?.name ?? null }
                      }
                      editing={editing}
                      onSuggestion={(text) =>
                        editing.type(withLast(draft.text, typed.at(-1)?.text ?? '', text))
                      }
                    />
                  )}
              </Fragment>
            ))}
        </section>
      ))}
    </div>
  );
};
