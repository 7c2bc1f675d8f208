import { readBars } from '../../common/chart/read-bars.ts';
import { openChart } from '../state/open-chart.ts';
import { CompCounts } from './comp-counts.tsx';
import { EndedMoment } from './ended-moment.tsx';
import { HelpFinder } from './help/help-finder.tsx';
import { LostFinder } from './lost-finder.tsx';
import { LostWords } from './lost-words.tsx';
import { OwnWay } from './own-way.tsx';
import { Page } from './page.tsx';
import { SettingsPanel } from './settings-panel.tsx';
import { Spot } from './spot.tsx';
import { stayAwake } from './stay-awake.ts';

/**
 * What a stand can do without for the moment in which its first picture is drawn: the place and the chords of a
 * tune that is on come from the take.
 */
export const laterParts = {
  openChart,
  readBars,
  CompCounts,
  EndedMoment,
  HelpFinder,
  LostFinder,
  LostWords,
  OwnWay,
  Page,
  SettingsPanel,
  Spot,
  stayAwake,
};

export type LaterParts = typeof laterParts;
