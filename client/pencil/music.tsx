import { Fragment } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { Chart } from '../../common/chart/chart.ts';
import { Bar } from '../engraving/bar.tsx';
import { barColumns, Line } from '../engraving/line.tsx';
import { chartLines, type WrittenBar } from '../stand/chart-lines.ts';
import { foldLine } from '../stand/stand-lines.ts';
import type { ChartHandle } from '../state/board.ts';
import { useObservable } from '../state/observable.ts';
import { BarField } from './bar-field.tsx';
import { SectionHead } from './section-head.tsx';
import { splitBars } from './split-bars.ts';
import { type Understood, understand } from './understood.ts';
import { UnderstoodLine } from './understood-line.tsx';
import type { Editing } from './use-editing.ts';

const asTyped = (symbol: string): string => symbol;

export interface MusicProps {
  readonly handle: ChartHandle;
  readonly chart: Chart;
  readonly music: ReadonlyMap<string, BarMusic>;
  readonly editing: Editing;
  readonly perLine: number;
  /** The next touch takes the bars up to there as well. */
  readonly extending: boolean;
}

/** The chart as its writer wrote it, every bar a place to type. */
export const Music = ({ handle, chart, music, editing, perLine, extending }: MusicProps) => {
  const { bar, chosen, draft } = editing;
  const cursors = useObservable(handle.cursors);
  const fresh = useObservable(handle.fresh);
  const lines = chartLines(chart, music);
  const understood: Understood | null =
    bar === null || draft === null ? null : understand(chart, bar, splitBars(draft).at(-1) ?? '');

  const drawBar = ({ bar: written, number, music: held, out }: WrittenBar) => {
    const cursor = cursors.find((one) => one.bar === written.id);
    const changed = fresh.get(written.id);
    const isOpen = draft !== null && bar === written.id;
    const label = `bar ${number}: ${written.text === '' ? 'empty' : written.text}`;
    return (
      <Bar
        key={written.id}
        className="pencil-bar"
        data-bar-id={written.id}
        data-chosen={chosen.includes(written.id) ? '' : undefined}
        data-open={isOpen ? '' : undefined}
        music={held}
        read={asTyped}
        number={number}
        left={written.left}
        right={written.right}
        ending={written.ending}
        {...(out === undefined ? {} : { out })}
        asWritten
      >
        {isOpen ? (
          <BarField number={number} draft={draft} editing={editing} />
        ) : (
          <button
            type="button"
            className="pencil-bar-key"
            aria-label={label}
            aria-pressed={chosen.includes(written.id)}
            data-bar-key={written.id}
            onClick={(event) => {
              if (event.shiftKey || extending) editing.choose(written.id, true);
              else editing.open(written.id);
            }}
          />
        )}
        {cursor !== undefined && (
          <span className="bar-cursor" data-colour={cursor.colour}>
            <b>{cursor.name}</b>
          </span>
        )}
        {changed !== undefined && cursor === undefined && (
          <small className="bar-fresh" data-colour={changed.colour}>
            {changed.name}, just now
          </small>
        )}
      </Bar>
    );
  };

  return (
    <div className="pencil-music">
      {chart.sections.map((section) => (
        <section key={section.id} className="pencil-section" aria-label={`section ${section.label}`}>
          <SectionHead handle={handle} chart={chart} section={section} />
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
                  {row.map(drawBar)}
                </Line>
                {understood !== null && row.some((written) => written.bar.id === bar) && (
                  <UnderstoodLine
                    understood={understood}
                    onSuggestion={(text) =>
                      editing.type([...splitBars(draft ?? '').slice(0, -1), text].join(' | '))
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
