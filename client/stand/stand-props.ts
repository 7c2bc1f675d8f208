import type { ReactNode } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { Chart } from '../../common/chart/chart.ts';
import type { LostSpotsSaid } from '../../common/document/lost-spots-said.ts';
import type { Note } from '../../common/document/notes.ts';
import type { LinkState } from '../state/link-state.ts';
import type { Observable } from '../state/observable.ts';
import type { Standing } from './header.tsx';
import type { LaterParts } from './later-parts.ts';
import type { StandSettings } from './settings-panel.tsx';
import type { StandSource } from './stand-source.ts';
import type { Awake } from './stay-awake.ts';

interface Strip {
  readonly id: string;
  readonly words: string;
  readonly family?: string;
  readonly keys?: ReactNode;
}

export interface StandViewProps {
  /** '' where no tune is shown. */
  title: string;
  /** The chart as it stands now; null until it is here. */
  chart: Chart | null;
  chartId: string | null;
  /** Pinned to its bars. */
  notes: readonly Note[];
  /** What its bars hold, by bar id; null until they are read. */
  music: ReadonlyMap<string, BarMusic> | null;
  /** What is said of its lost spots; null until it is here. */
  said: LostSpotsSaid | null;
  link: Observable<LinkState>;
  /** The take; null for a chart that is only read, and where no tune was called. */
  source: StandSource | null;
  sharedNow: () => number;
  settings: StandSettings;
  onSettings: (fields: Partial<StandSettings>) => void;
  standing: Standing;
  /** Sentences above the music that nobody has to answer: "playing on by ourselves". */
  strips: readonly Strip[];
  /** The tune that is on, where something else is being read. */
  called: { readonly title: string; readonly words: string } | null;
  onFollow: () => void;
  pointed: string | null;
  /** Who leads: ''  where nobody does. */
  leads: string;
  /** How exact the clock is; null while it is being found. Only watched where it is read. */
  errorMs: Observable<number | null>;
  awake: Awake;
  later: LaterParts | null;
}
