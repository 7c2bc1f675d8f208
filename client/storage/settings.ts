import { NOTE_NAMES, type NoteNames } from '../../common/theory/note-name.ts';
import { type KeptSettings, keptSettings } from './kept-settings.ts';
import type { TextStore } from './stored-json.ts';

/** How this stand is set up. A new tab begins with what was chosen last on this tablet, then goes its own way. */
export interface Settings {
  /** '' until somebody has said who they are. */
  readonly name: string;
  /** Instrument id; '' until chosen. */
  readonly part: string;
  readonly theme: 'night' | 'paper';
  /** Read at concert pitch, whatever the instrument. */
  readonly concert: boolean;
  /** The stand's way of reading: one line that rolls, or the whole page. */
  readonly reading: 'roll' | 'page';
  /** How the notes are called. */
  readonly noteNames: NoteNames;
  /** Lost spots are said ahead in words; else they are only marked. */
  readonly lostWords: boolean;
  /** The band opened last; '' where there is none. */
  readonly lastBand: string;
}

export type TabletSettings = KeptSettings<Settings>;

const NAME = 'tillcue.settings';

const settingsFrom = (value: unknown): Settings => {
  const kept = typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
  const text = (name: string) => (typeof kept[name] === 'string' ? kept[name] : '');
  return {
    name: text('name'),
    part: text('part'),
    theme: kept['theme'] === 'paper' ? 'paper' : 'night',
    concert: kept['concert'] === true,
    noteNames: NOTE_NAMES.find((names) => names === kept['noteNames']) ?? 'english',
    reading: kept['reading'] === 'page' ? 'page' : 'roll',
    lostWords: kept['lostWords'] !== false,
    lastBand: text('lastBand'),
  };
};

/**
 * The settings of this tab. Two tabs of one browser are two stands, so each keeps its own in `ofTab`; the last
 * change on the tablet is what the next new tab starts from.
 */
export const openTabletSettings = (ofTablet: TextStore, ofTab: TextStore): TabletSettings =>
  keptSettings(NAME, settingsFrom, ofTab, ofTablet);
