import type * as Y from 'yjs';
import type { Timers } from './board-parts.ts';
import type { Editor, HeldChart } from './chart-handle.ts';
import type { OpenDocument } from './open-document.ts';

/** An open chart, and how many look at it. */
export interface OnShelf {
  readonly file: OpenDocument;
  readonly chart: HeldChart;
  holders: number;
  readonly watches: readonly (() => void)[];
}

/** Where a board keeps its open charts, and what `openChart` needs to open one. */
export interface ChartShelf {
  readonly held: Map<string, OnShelf>;
  /** Opens the document; `watch` ends telling the board that it was closed for good. */
  readonly openFile: (id: string) => { readonly file: OpenDocument; readonly watch: () => void };
  readonly editor: () => Editor;
  readonly mayEdit: (id: string) => boolean;
  /** The book, where its index may be written. */
  readonly bookDoc: Y.Doc | null;
  readonly timers: Timers;
}
