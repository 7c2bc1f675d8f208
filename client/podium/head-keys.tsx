import { TempoControl } from './tempo-control.tsx';

export type PodiumSheet = 'lead' | 'setUp' | 'pedals' | 'more';

export interface HeadKeysProps {
  readonly bpm: number;
  readonly away: boolean;
  readonly rolling: boolean;
  /** Who leads, as it stands on the key. */
  readonly leads: string;
  readonly onTempo: (bpm: number) => void;
  readonly onTunes: () => void;
  readonly onSheet: (sheet: PodiumSheet) => void;
}

/** The keys that are needed between tunes more than in them. */
export const HeadKeys = ({ bpm, away, rolling, leads, onTempo, onTunes, onSheet }: HeadKeysProps) => (
  <div className="head-keys">
    <TempoControl bpm={bpm} away={away} tapped={!rolling} onTempo={onTempo} />
    <button type="button" className="head-key" aria-haspopup="dialog" onClick={() => onSheet('lead')}>
      <small>leads</small> {leads}
    </button>
    <button type="button" className="head-key" onClick={onTunes}>
      tunes
    </button>
    <button type="button" className="head-key" aria-haspopup="dialog" onClick={() => onSheet('setUp')}>
      set up
    </button>
  </div>
);
