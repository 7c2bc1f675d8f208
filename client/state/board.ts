import type * as Y from 'yjs';
import type { Chart } from '../../common/chart/chart.ts';
import type { Book } from '../../common/document/book-document.ts';
import type { LostSpotsSaid } from '../../common/document/lost-spots-said.ts';
import type { Role } from '../../common/protocol/roles.ts';
import type { Result } from '../../common/result.ts';
import type { Called, Cue, Take } from '../../common/stage/cue.ts';
import type { LeadChange, Leading } from '../../common/stage/leading.ts';
import type { Performance } from '../../common/stage/perform.ts';
import type { SharedMs } from '../../common/units.ts';
import type { Observable } from './observable.ts';

/** Everything the pages of one open band read and do. `app/wiring` makes it; the views get it by context. */
export interface Board {
  readonly band: string;
  readonly role: Role;
  /** Member id of this stand; two tabs are two stands with ids of their own. */
  readonly member: string;
  readonly book: Observable<Book>;
  readonly stage: Observable<StageState>;
  /** Who has the baton and the taps, and whether the book is locked for the gig. */
  readonly leading: Observable<Leading>;
  readonly people: Observable<readonly Person[]>;
  readonly link: Observable<LinkState>;
  /** Shared time now, slewed: never runs backwards. Cheap: may be asked every frame. */
  readonly sharedNow: () => SharedMs;
  /**
   * Calls back when shared time has jumped by more than two seconds (+ = forward), until the returned function is
   * called. It may do so while `sharedNow` is asked, in the midst of a frame.
   */
  readonly onReseek: (reseek: (byMs: number) => void) => () => void;
  readonly clock: Observable<ClockState>;
  /** Opens a chart's document; the same handle for the same id while anybody holds it. */
  readonly openChart: (id: string) => ChartHandle;
  readonly bookDoc: Y.Doc;
  readonly call: (cue: Cue) => Promise<Result<Called, Refusal>>;
  readonly takeBack: (cueId: string) => Promise<Result<null, Refusal>>;
  /** Passes the baton or the taps, takes them back, locks the book. Refused, in words, like a call. */
  readonly lead: (change: LeadChange) => Promise<Result<null, Refusal>>;
  /** The leader's pointer: shows this bar on every stand; null takes it away. */
  readonly point: (at: { chart: string; bar: string } | null) => void;
}

export interface StageState {
  readonly take: Take | null;
  readonly performance: Performance | null;
}

export interface Person {
  readonly member: string;
  readonly name: string;
  /** Instrument id. */
  readonly part: string;
  readonly role: Role;
  /** 0–7, an index into the presence colours. */
  readonly colour: number;
  readonly errorMs: number | null;
  readonly point: { readonly chart: string; readonly bar: string } | null;
  readonly isMe: boolean;
}

export type LinkState =
  | { readonly state: 'finding' }
  | { readonly state: 'on' }
  /** The relay does not answer; playing on by ourselves. */
  | { readonly state: 'away' }
  /** The relay turned us away for good: a sentence for the person. */
  | { readonly state: 'closed'; readonly words: string };

export interface ClockState {
  /** "finding the beat" until the estimate is good enough. */
  readonly ready: boolean;
  readonly errorMs: number | null;
  readonly roundTripMs: number | null;
}

export interface Refusal {
  readonly why: string;
  /** A sentence for the person. */
  readonly words: string;
}

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
  readonly undo: () => void;
  readonly redo: () => void;
  readonly undoState: Observable<{ readonly canUndo: boolean; readonly canRedo: boolean }>;
  /** Others editing: who stands in which bar. */
  readonly cursors: Observable<readonly Cursor[]>;
  readonly setCursor: (bar: string | null) => void;
  /** Bars changed by somebody else in the last 20 s: bar id → who. */
  readonly fresh: Observable<
    ReadonlyMap<string, { readonly name: string; readonly colour: number; readonly atMs: number }>
  >;
  readonly release: () => void;
}

export interface ChartState {
  readonly chart: Chart;
  /** What its writers say about lost spots. */
  readonly said: LostSpotsSaid;
}

export interface Cursor {
  readonly member: string;
  readonly name: string;
  readonly colour: number;
  readonly bar: string;
}
