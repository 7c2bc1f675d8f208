import type { Bar, Chart } from '../../common/chart/chart.ts';
import type { TradeSignName } from '../engraving/trade-sign.tsx';
import type { ChartHandle } from '../state/chart-handle.ts';
import type { Draft } from './editing.ts';
import { barsInOrder } from './neighbours.ts';

/** What the tools work on. */
export interface AtHand {
  readonly handle: ChartHandle;
  readonly chart: Chart;
  /** Chosen bars in the order of the chart; a tool that needs some is off without any. */
  readonly chosen: readonly string[];
}

/** What is at hand after a tool was used: a bar that is open, bars that are chosen, or what it was before. */
export type AfterTool =
  | { readonly open: string; readonly draft?: Pick<Draft, 'text' | 'caret'> }
  | { readonly choose: readonly string[] }
  | null;

/** Questions that a tool asks before it does something, in a tray over the foot. */
export type Tray = 'upTo' | 'move' | 'copy' | 'times' | 'words' | 'transpose';

interface ToolFace {
  readonly id: string;
  readonly name: string;
  /** The trade's sign for it, or plain type where the trade has none. */
  readonly sign: TradeSignName | { readonly letter: string };
  /** Works on bars that are chosen. */
  readonly needsBars: boolean;
  /** The chosen bars have it already: using it again takes it away. */
  readonly isOn?: (bars: readonly Bar[]) => boolean;
}

export type Tool = ToolFace & ({ readonly use: (at: AtHand) => AfterTool } | { readonly tray: Tray });

export const chosenBars = ({ chart, chosen }: Pick<AtHand, 'chart' | 'chosen'>): readonly Bar[] =>
  barsInOrder(chart).flatMap(({ bar }) => (chosen.includes(bar.id) ? [bar] : []));
