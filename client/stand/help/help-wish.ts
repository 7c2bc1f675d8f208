import { type HelpKind, usualHelp } from '../../../common/help/help.ts';
import type { HelpWish } from '../../../common/help/road-help.ts';
import {
  type FretInstrument,
  fretInstrumentById,
  GUITAR,
  isSmall,
} from '../../../common/shapes/fretboard/fret-instrument.ts';
import type { ShapeKind } from '../../../common/shapes/fretboard/fret-shape.ts';
import { openStringsText } from '../../../common/shapes/fretboard/string-names.ts';
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

const chosenStrings = ({ strings }: HelpSettings, part: string): FretInstrument =>
  fretInstrumentById(strings || (STRINGS_OF[part] ?? part)) ?? GUITAR;

/** The tuning as typed, by the names that notes had then; null where none is. */
export const typedTuning = (settings: HelpSettings, part: string, names: NoteNames) =>
  settings.tuning.trim() === ''
    ? null
    : readTuning(settings.tuning, chosenStrings(settings, part).openMidi, settings.tuningNames || names);

/** The typed tuning in the names that notes have now, with octaves where it was typed in others. */
export const tuningText = (settings: HelpSettings, part: string, names: NoteNames): string => {
  const typed = typedTuning(settings, part, names);
  return typed?.ok && (settings.tuningNames || names) !== names
    ? openStringsText(typed.value.openMidi, names)
    : settings.tuning;
};

/** The fretted instrument of a player, in the tuning that was chosen or typed. */
export const stringsOf = (settings: HelpSettings, part: string, names: NoteNames): FretInstrument => {
  const chosen = chosenStrings(settings, part);
  const typed = typedTuning(settings, part, names);
  return typed?.ok ? { ...chosen, openMidi: typed.value.openMidi } : chosen;
};

/** Three notes on large instruments, all the strings of small ones (common practice, no source). */
export const usualShapes = (instrument: FretInstrument): ShapeKind =>
  isSmall(instrument) ? 'full' : 'shell';

/** The kinds of shapes a player wants; none named is whatever moves least. */
const kindsOf = (shapes: HelpSettings['shapes'], instrument: FretInstrument): readonly ShapeKind[] =>
  shapes === '' ? [] : (WITH[shapes] ?? [shapes === 'usual' ? usualShapes(instrument) : shapes]);

/** Who plays open chords takes a barre where none lies well (common practice, no source). */
const WITH: Partial<Record<HelpSettings['shapes'], readonly ShapeKind[]>> = {
  'open chord': ['open chord', 'barre chord'],
};

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
