import type * as Y from 'yjs';
import type { Chart } from '../../common/chart/chart.ts';
import type { LostSpotsSaid } from '../../common/document/lost-spots-said.ts';
import type { Note } from '../../common/document/notes.ts';
import type { Observable } from './observable.ts';
import type { StepTaken } from './own-steps.ts';

export interface ChartHandle {
  readonly id: string;
  readonly doc: Y.Doc;
  /** null until the document has been loaded from the relay or from this tablet. */
  readonly chart: Observable<ChartState | null>;
  /** 'saving' until the relay says that everything typed here is on its disk; 'kept' = only on this tablet for now. */
  readonly saved: Observable<'saved' | 'saving' | 'kept'>;
  /** Its role allows it, the book is not locked, and the page is not older than the document. */
  readonly canEdit: boolean;
  /** Origin to pass to the edits of `common/document/edit-chart`, so that undo finds one's own. */
  readonly origin: object;
  /** Takes one's own last step back; null where there is none or the chart can not be edited. */
  readonly undo: () => StepTaken | null;
  readonly redo: () => StepTaken | null;
  readonly undoState: Observable<{ readonly canUndo: boolean; readonly canRedo: boolean }>;
  /** Others editing: who stands in which bar. */
  readonly cursors: Observable<readonly Cursor[]>;
  readonly setCursor: (bar: string | null) => void;
  /** Changed by somebody else in the last 20 s: bars by their ids, other places by name ('head.tempo') → who. */
  readonly fresh: Observable<
    ReadonlyMap<string, { readonly name: string; readonly colour: number; readonly atMs: number }>
  >;
  readonly release: () => void;
}

export interface ChartState {
  readonly chart: Chart;
  /** What its writers say about lost spots. */
  readonly said: LostSpotsSaid;
  /** Pinned to its bars, oldest first. */
  readonly notes: readonly Note[];
}

export interface Cursor {
  readonly member: string;
  readonly name: string;
  readonly colour: number;
  readonly bar: string;
}

export interface Editor {
  readonly member: string;
  readonly name: string;
  readonly colour: number;
}

export interface HeldChart extends Omit<ChartHandle, 'release'> {
  /** Who sits here, or their colour, has changed. */
  readonly introduce: (me: Editor) => void;
  readonly close: () => void;
}
