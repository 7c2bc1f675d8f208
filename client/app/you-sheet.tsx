import { useObservable } from '../state/observable.ts';
import { useServices } from './services.ts';
import { Sheet } from './sheet.tsx';
import { WhoFields } from './who-fields.tsx';

/** Who sits here and how this stand reads. Every change holds at once. */
export const YouSheet = ({ onClose }: { readonly onClose: () => void }) => {
  const { settings } = useServices();
  const { name, part, theme, concert } = useObservable(settings);
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
    </Sheet>
  );
};
