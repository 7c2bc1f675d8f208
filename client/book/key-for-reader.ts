import { instrumentById } from '../../common/theory/instruments.ts';
import { readKey } from '../../common/theory/key.ts';
import { keyName, type NoteNames } from '../../common/theory/note-name.ts';
import { readingFor, transposeKey } from '../../common/theory/transpose.ts';

/**
 * A chart's key as this reader reads it: `F blues` for E♭ blues on a tenor sax.
 * A key that cannot be read stays as typed; '' where none is written.
 * @param part instrument id
 */
export const keyForReader = (
  keyText: string,
  part: string,
  concert: boolean,
  names: NoteNames = 'english',
): string => {
  const key = readKey(keyText);
  if (!key) return keyText;
  const semitones = concert ? 0 : (instrumentById(part)?.semitonesUp ?? 0);
  return keyName(transposeKey(key, readingFor(key, semitones)), names);
};
