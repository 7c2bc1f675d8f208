import { NOTE_NAMES, noteName } from '../../common/theory/note-name.ts';
import { SpelledText } from '../engraving/spelled-text.tsx';
import { useObservable } from '../state/observable.ts';
import { useServices } from './services.ts';
import { Sheet } from './sheet.tsx';
import { WhoFields } from './who-fields.tsx';

/** Who sits here and how this stand reads. Every change holds at once. */
export const YouSheet = ({ onClose }: { readonly onClose: () => void }) => {
  const { settings } = useServices();
  const { name, part, theme, concert, noteNames } = useObservable(settings);
  return (
    <Sheet title="You and this stand" onClose={onClose}>
      <WhoFields
        name={name}
        part={part}
        onName={(next) => next.trim() !== '' && settings.change({ name: next })}
        onPart={(next) => next !== '' && settings.change({ part: next })}
      />
      <fieldset className="choices">
        <legend>Light</legend>
        <label className="choice">
          <input
            type="radio"
            name="theme"
            checked={theme === 'night'}
            onChange={() => settings.change({ theme: 'night' })}
          />
          Night
        </label>
        <label className="choice">
          <input
            type="radio"
            name="theme"
            checked={theme === 'paper'}
            onChange={() => settings.change({ theme: 'paper' })}
          />
          Paper
        </label>
      </fieldset>
      <fieldset className="choices">
        <legend>Pitch</legend>
        <label className="choice">
          <input
            type="radio"
            name="pitch"
            checked={!concert}
            onChange={() => settings.change({ concert: false })}
          />
          As my instrument reads
        </label>
        <label className="choice">
          <input
            type="radio"
            name="pitch"
            checked={concert}
            onChange={() => settings.change({ concert: true })}
          />
          Concert
        </label>
      </fieldset>
      <fieldset className="choices">
        <legend>Note names</legend>
        {NOTE_NAMES.map((names) => (
          <label className="choice" key={names}>
            <input
              type="radio"
              name="note-names"
              checked={noteNames === names}
              onChange={() => settings.change({ noteNames: names })}
            />
            <SpelledText text={['C', 'Bb', 'B'].map((note) => noteName(note, names)).join(' ')} />
          </label>
        ))}
      </fieldset>
    </Sheet>
  );
};
