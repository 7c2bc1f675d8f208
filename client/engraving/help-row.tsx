import type { CSSProperties, ReactNode } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { PlacedHelp } from '../../common/help/help.ts';
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
}

/** What stands under the chords of a bar, each under its own. */
export const HelpRow = ({ music, read, helps, neck }: HelpRowProps) => {
  const laid = layBar(music, read, useNoteNames());
  return (
    <div className="help-row">
      <div
        className="help-columns"
        style={
          { '--w': (laid.widthEm * 1.01).toFixed(3), gridTemplateColumns: columnsOf(laid) } as CSSProperties
        }
      >
        {helps.map(({ cell, help }) => {
          const column = columnAt(laid, music, cell);
          const isOfBar = help.kind === 'words' || help.kind === 'form';
          return (
            <HelpCell key={cell} column={isOfBar ? '1 / -1' : `${column}`}>
              <HelpMark help={help} {...neck} />
            </HelpCell>
          );
        })}
      </div>
    </div>
  );
};

/** The columns of the bar's chords: each at least as wide as its chord (see `bar.tsx`), which is one em of `help-row.css`. */
const columnsOf = ({ items }: LaidBar): string =>
  items
    .map(({ widthEm, lengthPulses }, at) => {
      const em = widthEm + (at < items.length - 1 ? GAP_EM : 0);
      return `minmax(${em.toFixed(3)}em, ${lengthPulses}fr)`;
    })
    .join(' ');

/** In which column a cell of the music lies, from 1: rests that follow each other are one. */
const columnAt = ({ items }: LaidBar, { cells }: BarMusic, cell: number): number => {
  const atPulse = cells[cell]?.atPulse ?? 0;
  return Math.max(1, items.findLastIndex((item) => item.atPulse <= atPulse) + 1);
};

/** The place under one chord: what stands in it is as large as its height and width allow. */
const HelpCell = ({ column, children }: { readonly column: string; readonly children: ReactNode }) => (
  <div className="help-cell" style={{ '--column': column } as CSSProperties}>
    {children}
  </div>
);
