import type { CSSProperties, ReactNode } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { PlacedHelp } from '../../common/help/help.ts';
import { type HelpLine, helpLine } from './help-line.ts';
import { HelpMark, type Neck } from './help-mark.tsx';
import { GAP_EM, type LaidBar, layBar } from './lay-bar.ts';
import { useNoteNames } from './note-names.ts';
import './help-row.css';

export interface HelpRowProps {
  readonly music: BarMusic;
  /** A chord symbol as this reader reads it: how wide it is says where the next one stands. */
  readonly read: (symbol: string) => string;
  readonly helps: readonly PlacedHelp[];
  readonly neck: Neck;
  /** What its line has in common; the bar alone where it is left out. */
  readonly line?: HelpLine;
  /** The index of the bar in the line. */
  readonly at?: number;
}

/** What stands under the chords of a bar: in their order, each under its own as far as all have room to be read. */
export const HelpRow = ({ music, read, helps, neck, line, at: bar = 0 }: HelpRowProps) => {
  const names = useNoteNames();
  const laid = layBar(music, read, names);
  const common = line ?? helpLine([{ music, helps }], read, names);
  const { places, columns, share } = helpColumns(music, laid, helps);
  return (
    <div className="help-row">
      <div
        className="help-columns"
        style={
          {
            '--w': (laid.widthEm * 1.01).toFixed(3),
            '--fit': common.widthIn(bar),
            '--share': share,
            gridTemplateColumns: columns,
          } as CSSProperties
        }
      >
        {helps.map(({ cell, help }, at) => {
          const isOfBar = help.kind === 'words' || help.kind === 'form';
          return (
            <HelpCell key={cell} kind={help.kind} column={isOfBar ? '1 / -1' : `${places[at]}`}>
              <HelpMark help={help} line={common} {...neck} />
            </HelpCell>
          );
        })}
      </div>
    </div>
  );
};

/** The columns of a bar's chords, and in which of them each that has help lies. */
export const helpColumns = (music: BarMusic, laid: LaidBar, helps: readonly PlacedHelp[]) => {
  const places = helps.map(({ cell }) => columnAt(laid, music, cell));
  return {
    places,
    columns: columnsOf(laid, places),
    share: `${(100 / Math.max(1, helps.length)).toFixed(2)}cqw`,
  };
};

/**
 * The columns of the bar's chords: each at least as wide as its chord (see `bar.tsx`), which is one em of `help-row.css`.
 * Where several chords share a bar, what stands under a short one needs more than its chord: each has its share of the bar,
 * up to what can be read, and begins near its chord.
 */
const columnsOf = ({ items }: LaidBar, helped: readonly number[]): string =>
  items
    .map(({ widthEm, lengthPulses }, at) => {
      const em = widthEm + (at < items.length - 1 ? GAP_EM : 0);
      const least = helped.length < 2 ? `${em.toFixed(3)}em` : helped.includes(at + 1) ? LEAST : '0px';
      return `minmax(${least}, ${lengthPulses}fr)`;
    })
    .join(' ');

const LEAST = 'min(var(--least), var(--share))';

/** In which column a cell of the music lies, from 1: rests that follow each other are one. */
const columnAt = ({ items }: LaidBar, { cells }: BarMusic, cell: number): number => {
  const atPulse = cells[cell]?.atPulse ?? 0;
  return Math.max(1, items.findLastIndex((item) => item.atPulse <= atPulse) + 1);
};

/** The place under one chord: what stands in it is as large as its height and width allow. */
const HelpCell = (props: {
  readonly kind: string;
  readonly column: string;
  readonly children: ReactNode;
}) => (
  <div className="help-cell" data-kind={props.kind} style={{ '--column': props.column } as CSSProperties}>
    {props.children}
  </div>
);
