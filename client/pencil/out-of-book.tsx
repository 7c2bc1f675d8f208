import { restoreChart } from '../../common/document/edit-book.ts';
import { useBoard } from '../state/board-context.tsx';
import type { ChartHandle } from '../state/chart-handle.ts';
import { useObservable } from '../state/observable.ts';

/** Said where somebody has deleted the chart that is open here: nothing of it is lost, and it can be put back. */
export const OutOfBook = ({ handle }: { readonly handle: ChartHandle }) => {
  const board = useBoard();
  const { charts } = useObservable(board.book);
  const entry = charts.find(({ id }) => id === handle.id);
  if (entry?.deletedAtMs === undefined) return null;
  return (
    <div className="strip" role="status">
      <p>This chart has been deleted: it is out of the book. What is written here is kept all the same.</p>
      {handle.canEdit && (
        <button type="button" className="button" onClick={() => restoreChart(board.bookDoc, handle.id)}>
          Put it back
        </button>
      )}
    </div>
  );
};
