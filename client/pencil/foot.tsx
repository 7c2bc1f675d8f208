import { readChartDocument } from '../../common/document/chart-document.ts';
import { TradeSign } from '../engraving/trade-sign.tsx';
import type { ChartHandle } from '../state/board.ts';
import { TOOLS, type Tool } from './tools.ts';
import type { Editing } from './use-editing.ts';

/** The tools along the foot, the trade's signs. */
export const Foot = ({
  handle,
  editing,
  extending,
  onExtend,
}: {
  readonly handle: ChartHandle;
  readonly editing: Editing;
  readonly extending: boolean;
  readonly onExtend: (extending: boolean) => void;
}) => {
  const { chosen } = editing;
  const use = (tool: Tool) => {
    editing.write();
    // The draft is in the document now; the chart this was drawn from does not know it yet.
    const next = tool.use({ handle, chart: readChartDocument(handle.doc), chosen });
    if (next !== null) editing.open(next);
  };
  return (
    <footer className="pencil-foot">
      <button
        type="button"
        className="tool"
        aria-pressed={extending}
        disabled={editing.bar === null}
        onClick={() => onExtend(!extending)}
      >
        <span className="tool-letter" aria-hidden="true">
          ⇥
        </span>
        take more
      </button>
      {TOOLS.map((tool) => (
        <button
          type="button"
          className="tool"
          key={tool.id}
          disabled={tool.needsBars && chosen.length === 0}
          // A touch on a tool must not lose the bar that is being typed.
          onPointerDown={(event) => event.preventDefault()}
          onClick={() => use(tool)}
        >
          {tool.sign === null ? (
            <span className="tool-letter" aria-hidden="true">
              {tool.letter}
            </span>
          ) : (
            <TradeSign name={tool.sign} className="tool-sign" />
          )}
          {tool.name}
        </button>
      ))}
    </footer>
  );
};
