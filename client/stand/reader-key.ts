import { instrumentById } from '../../common/theory/instruments.ts';
import { type Key, readKey } from '../../common/theory/key.ts';
import { keyName, type NoteNames, noteName } from '../../common/theory/note-name.ts';
import { type Reading, readingFor, transposeKey, transposeSymbol } from '../../common/theory/transpose.ts';

/** How a person reads a chart: what instrument, and whether at concert pitch all the same. */
export interface Reader {
  /** Instrument id. */
  readonly part: string;
  readonly concert: boolean;
}

/** Semitones from the written chart to what this reader reads, without a modulation. */
export const semitonesFor = ({ part, concert }: Reader): number =>
  concert ? 0 : (instrumentById(part)?.semitonesUp ?? 0);

/**
 * A function that gives a chord as this reader reads it, in the key that stands over its bar.
 * @param chartKey key of the chart's head, for bars over which none stands
 * @param semitones of the whole: instrument and modulation
 */
export const symbolReader = (
  chartKey: string,
  semitones: number,
): ((symbol: string, key: string) => string) => {
  const readings = new Map<string, Reading>();
  return (symbol, key) => {
    if (semitones === 0) return symbol;
    const text = key === '' ? chartKey : key;
    let reading = readings.get(text);
    if (reading === undefined) {
      reading = readingFor(readKey(text), semitones);
      readings.set(text, reading);
    }
    return transposeSymbol(symbol, reading);
  };
};

/** Reads a chord in the key over its bar, `modulation` semitones higher than written. */
export type ReadChord = (symbol: string, key: string, modulation?: number) => string;

/**
 * Reads every bar in the key in which it will be played: a bar to come may be in another one already.
 * @param semitones of the reader's instrument
 */
export const modulatingReader = (chartKey: string, semitones: number): ReadChord => {
  const readers = new Map<number, ReturnType<typeof symbolReader>>();
  return (symbol, key, modulation = 0) => {
    let read = readers.get(modulation);
    if (read === undefined) {
      read = symbolReader(chartKey, semitones + modulation);
      readers.set(modulation, read);
    }
    return read(symbol, key);
  };
};

const keyAt = (key: Key, semitones: number): Key =>
  semitones === 0 ? key : transposeKey(key, readingFor(key, semitones));

export interface KeyWords {
  /** 'E♭ blues'. */
  readonly concert: string;
  /** 'tenor sax'; '' where the reader reads concert pitch. */
  readonly instrument: string;
  /** The reader's own key: 'F'. */
  readonly own: string;
}

/**
 * The key of a tune in words for this reader; null where no key is written or it is not read.
 * @param modulation semitones by which the tune is played higher than written
 */
export const keyWords = (
  chartKey: string,
  reader: Reader,
  modulation: number,
  names: NoteNames = 'english',
): KeyWords | null => {
  const written = readKey(chartKey);
  if (written === null) return null;
  const concert = keyAt(written, modulation);
  const semitones = semitonesFor(reader);
  const own = noteName(keyAt(written, modulation + semitones).tonic, names);
  const transposes = ((semitones % 12) + 12) % 12 !== 0;
  return {
    concert: keyName(concert, names),
    instrument: transposes ? (instrumentById(reader.part)?.name ?? '') : '',
    own,
  };
};
