import { useState } from 'react';
import { withoutControls } from '../../common/chart/without-controls.ts';
import { INSTRUMENTS, type Instrument, instrumentById, type Part } from '../../common/theory/instruments.ts';
import { type NoteNames, noteName } from '../../common/theory/note-name.ts';
import { plainSigns } from '../../common/theory/plain-signs.ts';
import { useNoteNames } from '../engraving/note-names.ts';
import { SpelledText } from '../engraving/spelled-text.tsx';
import { HelpFields } from '../stand/help/help-fields.tsx';

const GROUPS: readonly (readonly [Part, string])[] = [
  ['voice', 'Voice'],
  ['horn', 'Winds'],
  ['guitar', 'Guitar and strings to pick'],
  ['keys', 'Keys and mallets'],
  ['bass', 'Bass'],
  ['drums', 'Drums'],
  ['other', 'Others'],
];

/** So many letters of a name are to be seen on the stands. */
const MOST_LETTERS = 40;

const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** "A concert C is read as D": how a part differs from what sounds. */
const readingOf = ({ part, semitonesUp, transposition }: Instrument, names: NoteNames): string => {
  if (part === 'drums') return 'Reads the form and the chords as they sound.';
  if (transposition !== 'C')
    return `Reads in ${noteName(plainSigns(transposition), names)}: the chords are written for you.`;
  return semitonesUp === 0 ? 'Reads what sounds.' : 'Reads what sounds, in another octave.';
};

/** Name and instrument of whoever sits at this stand. */
export const WhoFields = ({
  name,
  part,
  onName,
  onPart,
}: {
  readonly name: string;
  readonly part: string;
  readonly onName: (name: string) => void;
  readonly onPart: (part: string) => void;
}) => {
  const names = useNoteNames();
  const instrument = instrumentById(part);
  const [isCut, setCut] = useState(false);
  const type = (typed: string) => {
    const letters = [...withoutControls(typed)];
    setCut(letters.length > MOST_LETTERS);
    onName(letters.slice(0, MOST_LETTERS).join(''));
  };
  return (
    <>
      <label className="field">
        <span>Your name, as the band calls you</span>
        <input
          value={name}
          onChange={(event) => type(event.target.value)}
          autoComplete="nickname"
          autoCapitalize="words"
          enterKeyHint="next"
          required
        />
        {isCut && (
          <span className="field-note" role="alert">
            There is room for {MOST_LETTERS} letters: the rest was left out.
          </span>
        )}
      </label>
      <label className="field">
        <span>What you play</span>
        <select value={part} onChange={(event) => onPart(event.target.value)} required>
          <option value="">Choose …</option>
          {GROUPS.map(([group, title]) => (
            <optgroup key={group} label={title}>
              {INSTRUMENTS.filter((one) => one.part === group).map((one) => (
                <option key={one.id} value={one.id}>
                  {capital(one.name)}
                </option>
              ))}
            </optgroup>
          ))}
        </select>
        <span className="field-note">
          {instrument ? <SpelledText text={readingOf(instrument, names)} /> : ' '}
        </span>
      </label>
      {part !== '' && <HelpFields part={part} />}
    </>
  );
};
