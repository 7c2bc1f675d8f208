import { readTuning } from './tuning.ts';

/** An instrument with frets, as its player holds it. */
export interface FretInstrument {
  readonly id: string;
  readonly name: string;
  /** Sounding pitches of the open strings in MIDI, in the order in which they lie, from the thickest or topmost one. */
  readonly openMidi: readonly number[];
  /** From nut to bridge. */
  readonly scaleLengthMm: number;
  /** The highest fret that a fretting hand reaches with ease: where the neck meets the body. */
  readonly highestFret: number;
}

const instrument = (
  id: string,
  name: string,
  strings: string,
  scaleLengthMm: number,
  highestFret: number,
): FretInstrument => {
  const tuning = readTuning(strings, []);
  if (!tuning.ok) throw new Error(`the tuning of ${id} cannot be read: ${tuning.error.words}`);
  return { id, name, openMidi: tuning.value.openMidi, scaleLengthMm, highestFret };
};

export const GUITAR: FretInstrument = instrument('guitar', 'guitar', 'E2 A2 D3 G3 B3 E4', 650, 15);

/**
 * Instruments and tunings, those met most often first. Guitar, four-string bass, ukulele and mandolin: see
 * `tests/published/fretboard`; the other tunings, scale lengths and highest frets are from memory.
 */
export const FRET_INSTRUMENTS: readonly FretInstrument[] = [
  GUITAR,
  instrument('guitar-drop-d', 'guitar, drop D', 'D2 A2 D3 G3 B3 E4', 650, 15),
  instrument('guitar-dadgad', 'guitar, DADGAD', 'D2 A2 D3 G3 A3 D4', 650, 15),
  instrument('guitar-open-g', 'guitar, open G', 'D2 G2 D3 G3 B3 D4', 650, 15),
  instrument('guitar-open-d', 'guitar, open D', 'D2 A2 D3 F#3 A3 D4', 650, 15),
  instrument('guitar-half-step-down', 'guitar, half a step down', 'Eb2 Ab2 Db3 Gb3 Bb3 Eb4', 650, 15),
  instrument('guitar-seven-string', 'seven-string guitar', 'B1 E2 A2 D3 G3 B3 E4', 650, 15),
  instrument('guitar-baritone', 'baritone guitar', 'B1 E2 A2 D3 F#3 B3', 686, 15),
  instrument('tenor-guitar', 'tenor guitar', 'C3 G3 D4 A4', 584, 15),
  instrument('bass', 'bass', 'E1 A1 D2 G2', 864, 15),
  instrument('bass-five-string', 'five-string bass', 'B0 E1 A1 D2 G2', 864, 15),
  instrument('ukulele', 'ukulele', 'G4 C4 E4 A4', 345, 15),
  instrument('ukulele-low-g', 'ukulele, low G', 'G3 C4 E4 A4', 345, 15),
  instrument('baritone-ukulele', 'baritone ukulele', 'D3 G3 B3 E4', 480, 14),
  instrument('mandolin', 'mandolin', 'G3 D4 A4 E5', 350, 14),
];

const BY_ID: ReadonlyMap<string, FretInstrument> = new Map(FRET_INSTRUMENTS.map((each) => [each.id, each]));

/** The instrument of that id, `undefined` for an id that is not (or no longer) known. */
export const fretInstrumentById = (id: string): FretInstrument | undefined => BY_ID.get(id);

const FEW_STRINGS = 4;
/** C3, the lowest string of a tenor guitar; those of a bass lie far below. */
const LOWEST_OF_SMALL_MIDI = 48;

/** An instrument of four strings or fewer that is no bass, such as a ukulele: all its strings are played, near the nut. */
export const isSmall = ({ openMidi }: FretInstrument): boolean =>
  openMidi.length <= FEW_STRINGS && Math.min(...openMidi) >= LOWEST_OF_SMALL_MIDI;
