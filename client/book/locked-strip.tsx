import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';

/** Says so while the book is locked for the gig; nothing else. */
export const LockedStrip = () =>
  useObservable(useBoard().leading).locked ? (
    <p className="strip" role="status" data-strip="locked">
      The book is locked for the gig.
    </p>
  ) : null;
