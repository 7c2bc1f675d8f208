import { type HelpKind, usualHelp } from '../../../common/help/help.ts';
import type { HelpWish } from '../../../common/help/road-help.ts';
import {
  type FretInstrument,
  fretInstrumentById,
  GUITAR,
  isSmall,
} from '../../../common/shapes/fretboard/fret-instrument.ts';
import type { ShapeKind } from '../../../common/shapes/fretboard/fret-shape.ts';
import { readTuning } from '../../../common/shapes/fretboard/tuning.ts';
import { instrumentById } from '../../../common/theory/instruments.ts';
import type { NoteNames } from '../../../common/theory/note-name.ts';
import type { HelpSettings } from '../../storage/help-settings.ts';
import type { ChartPins } from '../../storage/pinned-shapes.ts';

/** Instruments of the band whose strings go by another name. */
const STRINGS_OF: Readonly<Record<string, string>> = {
  'bass-guitar': 'bass',
  'double-bass': 'bass',
  banjo: 'tenor-guitar',
};

/** What stands under the chords of a player of this instrument. */
export const helpKindOf = (settings: HelpSettings, part: string): HelpKind =>
  settings.help === '' ? usualHelp(instrumentById(part)?.part ?? 'other') : settings.help;

/** The fretted instrument of a player, in the tuning that was chosen, or typed in the player's names of notes. */
export const stringsOf = (
  { strings, tuning }: HelpSettings,
  part: string,
  names: NoteNames,
): FretInstrument => {
  const chosen = fretInstrumentById(strings || (STRINGS_OF[part] ?? part)) ?? GUITAR;
  const typed = tuning.trim() === '' ? null : readTuning(tuning, chosen.openMidi, names);
  return typed?.ok ? { ...chosen, openMidi: typed.value.openMidi } : chosen;
};

/** Three notes on large instruments, all the strings of small ones (common practice, no source). */
export const usualShapes = (instrument: FretInstrument): ShapeKind =>
  isSmall(instrument) ? 'full' : 'shell';

/** The kinds of shapes a player wants; none named is whatever moves least. */
const kindsOf = (shapes: HelpSettings['shapes'], instrument: FretInstrument): readonly ShapeKind[] =>
  shapes === '' ? [] : [shapes === 'usual' ? usualShapes(instrument) : shapes];

/** The tuning as a name for what is kept for it. */
export const tuningName = ({ openMidi }: FretInstrument): string => openMidi.join('-');

/** What the player's choices ask for; null where nothing would stand under the chords. */
export const helpWish = (
  settings: HelpSettings,
  part: string,
  names: NoteNames,
  notes: ReadonlyMap<string, readonly string[]>,
  pins: ChartPins,
): HelpWish | null => {
  const kind = helpKindOf(settings, part);
  switch (kind) {
    case 'chords':
      return null;
    case 'words':
      // Room under chords where nothing is noted would only make them smaller.
      return notes.size === 0 ? null : { kind, notes };
    case 'shapes': {
      const instrument = stringsOf(settings, part, names);
      return { kind, instrument, kinds: kindsOf(settings.shapes, instrument), pins };
    }
    case 'voicings':
      return { kind, style: settings.keys };
    default:
      return { kind };
  }
};
