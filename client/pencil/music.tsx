import { Fragment } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { Chart } from '../../common/chart/chart.ts';
import { barColumns, Line } from '../engraving/line.tsx';
import { chartLines } from '../stand/chart-lines.ts';
import { foldLine } from '../stand/stand-lines.ts';
import type { ChartHandle } from '../state/board.ts';
import { useObservable } from '../state/observable.ts';
import { chosenIn, type Editing, type EditingState } from './editing.ts';
import { barAt, barsInOrder } from './neighbours.ts';
import { PencilBar } from './pencil-bar.tsx';
import { SectionHead } from './section-head.tsx';
import { typedBars } from './typed-bars.ts';
import { understand } from './understood.ts';
import { UnderstoodLine } from './understood-line.tsx';
import { useSweep } from './use-sweep.ts';

const asTyped = (symbol: string): string => symbol;

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
  const { bar, draft } = state;
  const cursors = useObservable(handle.cursors);
  const fresh = useObservable(handle.fresh);
  const sweep = useSweep(editing);
  const chosen = chosenIn(chart, state);
  const stop = bar ?? barsInOrder(chart)[0]?.bar.id;
  const lines = chartLines(chart, music);
  const typed = draft === null ? [] : typedBars(draft.text);
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
                <Line
                  columns={barColumns(
                    row.map((written) => written.music),
                    asTyped,
                  )}
                >
                  {row.map((written) => (
                    <PencilBar
                      key={written.bar.id}
                      written={written}
                      editing={editing}
                      state={state}
                      isChosen={chosen.includes(written.bar.id)}
                      isStop={stop === written.bar.id}
                      cursor={cursors.find((cursor) => cursor.bar === written.bar.id)}
                      fresh={fresh.get(written.bar.id)}
                    />
                  ))}
                </Line>
                {draft !== null &&
                  understood !== null &&
                  row.some((written) => written.bar.id === draft.bar) && (
                    <UnderstoodLine
                      understood={understood}
                      theirs={
                        theirs === null ? null : { text: theirs, who: fresh.get(draft.bar)?.name ?? null }
                      }
                      editing={editing}
                      onSuggestion={(text) =>
                        editing.type([...typed.slice(0, -1).map((one) => one.text), text].join(' | '))
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
