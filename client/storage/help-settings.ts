import { HELP_KINDS, type HelpKind } from '../../common/help/help.ts';
import { SHAPE_KINDS, type ShapeKind } from '../../common/shapes/fretboard/fret-shape.ts';
import type { KeysStyle } from '../../common/shapes/keyboard/keyboard-voicing.ts';
import { NOTE_NAMES, type NoteNames } from '../../common/theory/note-name.ts';
import { type KeptSettings, keptSettings } from './kept-settings.ts';
import type { TextStore } from './stored-json.ts';

/** What a player wants under the chords. */
export interface HelpSettings {
  /** '' is what is usual for the part. */
  readonly help: HelpKind | '';
  /** Id of a fretted instrument with its tuning; '' is the usual one of the part. */
  readonly strings: string;
  /** Open strings as typed, instead of the instrument's; '' where none are. */
  readonly tuning: string;
  /** How notes were called when the tuning was typed; '' is as they are called now. */
  readonly tuningNames: NoteNames | '';
  /** Kind of shapes; '' is whatever moves least, 'usual' what is usual on the instrument. */
  readonly shapes: ShapeKind | '' | 'usual';
  readonly keys: KeysStyle;
  /** The fretboard as a player sees it who frets with the right hand. */
  readonly leftHanded: boolean;
}

export type HelpSettingsStore = KeptSettings<HelpSettings>;

const NAME = 'tillcue.help';

const KEYS: readonly KeysStyle[] = ['rootless', 'shells', 'pairs', 'twoHands'];

const settingsFrom = (value: unknown): HelpSettings => {
  const kept = typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
  const text = (name: string): string => (typeof kept[name] === 'string' ? kept[name] : '');
  return {
    help: HELP_KINDS.find((kind) => kind === kept['help']) ?? '',
    strings: text('strings'),
    tuning: text('tuning'),
    tuningNames: NOTE_NAMES.find((names) => names === kept['tuningNames']) ?? '',
    shapes: kept['shapes'] === '' ? '' : (SHAPE_KINDS.find((kind) => kind === kept['shapes']) ?? 'usual'),
    keys: KEYS.find((style) => style === kept['keys']) ?? 'rootless',
    leftHanded: kept['leftHanded'] === true,
  };
};

/** The settings of this tab, begun with those chosen last on this tablet. */
export const openHelpSettings = (ofTablet: TextStore, ofTab: TextStore): HelpSettingsStore =>
  keptSettings(NAME, settingsFrom, ofTab, ofTablet);
