import type { CSSProperties, HTMLAttributes, ReactNode, Ref } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { NoteNames } from '../../common/theory/note-name.ts';
import { textWidthEm } from './chord-metrics.ts';
import { barShares, layBar } from './lay-bar.ts';
import './line.css';

/** A rehearsal letter in the margin, large and unboxed; a longer name is set smaller, and cut where there is no room. */
export const MarginLetter = ({ text }: { text: string }) => (
  <span className="line-letter" title={text} style={{ '--w': textWidthEm(text).toFixed(3) } as CSSProperties}>
    {text}
  </span>
);

/** Shares of the bars of a line as a grid's columns. */
export const barColumns = (
  bars: readonly BarMusic[],
  read: (symbol: string) => string,
  names: NoteNames,
): string =>
  barShares(bars.map((music) => layBar(music, read, names)))
    .map((share) => `minmax(0, ${share.toFixed(3)}fr)`)
    .join(' ');

export interface LineProps extends HTMLAttributes<HTMLDivElement> {
  ref?: Ref<HTMLDivElement>;
  letter?: string | undefined;
  /** From `barColumns`. */
  columns: string;
  children: ReactNode;
}

/** A line of music: the letter in the margin, then its bars, as long as the writer wrote it. */
export const Line = ({ letter, columns, children, className = '', ...rest }: LineProps) => (
  <div {...rest} className={`line ${className}`}>
    <div className="line-margin">{letter !== undefined && <MarginLetter text={letter} />}</div>
    <div className="line-bars" style={{ gridTemplateColumns: columns }}>
      {children}
    </div>
  </div>
);
