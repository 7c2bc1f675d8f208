import { useLayoutEffect, useRef, useState } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { RoadBar } from '../../common/form/road.ts';
import type { PassHelp } from '../../common/help/help.ts';
import type { GuideTone } from '../../common/theory/harmony/guide-tones.ts';
import { noteName } from '../../common/theory/note-name.ts';
import { useNoteNames } from '../engraving/note-names.ts';
import { type GuideRow, guideRows, plotBars } from './guide-rows.ts';

export interface GuidePlotProps {
  readonly bars: readonly RoadBar[];
  readonly musicOf: (bar: RoadBar) => BarMusic;
  readonly guides: PassHelp;
}

/** Heights and widths in the plot's own units: a bar is 100 wide, a semitone 11 high. */
const BAR = 100;
const SEMITONE = 11;
/** Room for the numbers of the bars above the names of the notes. */
const MARGIN = 40;
/** A short form is not blown up: a bar is no wider than this. */
const MOST_BAR_PX = 150;

/**
 * The two guide-tone lines drawn over the form: to the right the bars, upwards the pitch. Where a flat seventh falls a
 * semitone to the next third, the way there is heavy.
 */
export const GuidePlot = ({ bars, musicOf, guides }: GuidePlotProps) => {
  const figure = useRef<HTMLElement>(null);
  const [barsARow, setBarsARow] = useState(() => plotBars(window.innerWidth));
  useLayoutEffect(() => {
    const box = figure.current;
    if (box === null) return;
    const measure = () => setBarsARow(plotBars(box.clientWidth));
    const observer = new ResizeObserver(measure);
    observer.observe(box);
    measure();
    return () => observer.disconnect();
  }, []);
  return (
    <figure className="guide-plot" ref={figure}>
      <figcaption>
        Guide tones: thirds and sevenths, led with the least movement. Heavy: a flat seventh falls a semitone
        to the next third.
      </figcaption>
      {guideRows(bars, musicOf, guides, barsARow).map((row) => (
        <PlotRow key={row.firstBar} row={row} />
      ))}
    </figure>
  );
};

const PlotRow = ({ row }: { readonly row: GuideRow }) => {
  const { firstBar, bars, chords, low, high } = row;
  const width = row.widthBars * BAR;
  const height = (high - low) * SEMITONE + 2 * MARGIN;
  const y = (pitch: number): number => MARGIN + (high - pitch) * SEMITONE;
  return (
    <svg
      className="guide-row"
      viewBox={`0 0 ${width} ${height}`}
      style={{ maxWidth: `${row.widthBars * MOST_BAR_PX}px` }}
      role="img"
      aria-label={`guide tones, bars ${firstBar + 1} to ${firstBar + bars}`}
    >
      {Array.from({ length: bars + 1 }, (_, at) => (
        <line
          // biome-ignore lint/suspicious/noArrayIndexKey: a bar line is its place
          key={at}
          className="guide-bar-line"
          x1={at * BAR}
          x2={at * BAR}
          y1={0}
          y2={height}
        />
      ))}
      {Array.from({ length: bars }, (_, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a bar is its place
        <text key={at} className="guide-number" x={at * BAR + 5} y={14}>
          {firstBar + at + 1}
        </text>
      ))}
      {(['upper', 'lower'] as const).map((which) => (
        <GuideLine
          key={which}
          points={chords.map((chord) => ({
            tone: chord[which],
            fromX: chord.fromBars * BAR,
            toX: chord.toBars * BAR,
            y: y(chord[which].pitch),
          }))}
          below={which === 'lower'}
        />
      ))}
    </svg>
  );
};

interface Point {
  readonly tone: GuideTone;
  readonly fromX: number;
  readonly toX: number;
  readonly y: number;
}

/** Names stand above the upper line and below the lower one; a note that stays is named once. */
const GuideLine = ({ points, below }: { readonly points: readonly Point[]; readonly below: boolean }) => {
  const names = useNoteNames();
  return (
    <>
      {points.map(({ tone, fromX, toX, y }, at) => {
        const next = points[at + 1];
        const before = points[at - 1];
        const isSame = before?.tone.note === tone.note && before.tone.degree === tone.degree;
        return (
          <g key={fromX}>
            <line className="guide-note" x1={fromX + 4} x2={toX - 4} y1={y} y2={y} />
            {next && (
              <line
                className="guide-move"
                data-resolves={tone.resolves ? '' : undefined}
                x1={toX - 4}
                x2={next.fromX + 4}
                y1={y}
                y2={next.y}
              />
            )}
            {!isSame && (
              <text className="guide-name" x={fromX + 6} y={below ? y + 17 : y - 6}>
                {noteName(tone.note.replace(/-?\d+$/, ''), names)}
              </text>
            )}
          </g>
        );
      })}
    </>
  );
};
