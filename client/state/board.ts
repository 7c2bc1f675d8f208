import type * as Y from 'yjs';
import type { Book } from '../../common/document/book-document.ts';
import type { Role } from '../../common/protocol/roles.ts';
import type { Result } from '../../common/result.ts';
import type { Called, Cue, Take } from '../../common/stage/cue.ts';
import type { LeadChange, Leading } from '../../common/stage/leading.ts';
import type { Performance } from '../../common/stage/perform.ts';
import type { SharedMs } from '../../common/units.ts';
import type { ChartShelf } from './chart-shelf.ts';
import type { ClockState, LinkState, Refusal } from './link-state.ts';
import type { Observable } from './observable.ts';
import type { Person } from './person.ts';

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
  /** The charts that are open; `openChart` opens one. */
  readonly shelf: ChartShelf;
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
