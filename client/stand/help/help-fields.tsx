import { useId } from 'react';
import { HELP_WORDS, type HelpKind, helpKindsFor, usualHelp } from '../../../common/help/help.ts';
import { FRET_INSTRUMENTS } from '../../../common/shapes/fretboard/fret-instrument.ts';
import { SHAPE_KINDS, type ShapeKind } from '../../../common/shapes/fretboard/fret-shape.ts';
import type { KeysStyle } from '../../../common/shapes/keyboard/keyboard-voicing.ts';
import { instrumentById } from '../../../common/theory/instruments.ts';
import { noteName } from '../../../common/theory/note-name.ts';
import { useNoteNames } from '../../engraving/note-names.ts';
import { SpelledText } from '../../engraving/spelled-text.tsx';
import { useObservable } from '../../state/observable.ts';
import { tabletHelp } from '../../storage/tablet-help.ts';
import { helpKindOf, stringsOf, tuningText, typedTuning, usualShapes } from './help-wish.ts';

const KEYS_WORDS: readonly (readonly [KeysStyle, string])[] = [
  ['rootless', 'left hand, without roots'],
  ['shells', 'left hand, shells'],
  ['pairs', 'left hand, two notes'],
  ['twoHands', 'two hands, spread'],
];

const SHAPE_WORDS: Readonly<Partial<Record<ShapeKind, string>>> = {
  shell: 'shells: root, third, seventh',
  triad: 'triads',
  full: 'full chords',
};

/** What stands under the chords of this player, and how. Every change holds at once. */
export const HelpFields = ({ part }: { readonly part: string }) => {
  const settings = useObservable(tabletHelp);
  const kind = helpKindOf(settings, part);
  const group = instrumentById(part)?.part ?? 'other';
  const usual = usualHelp(group);
  return (
    <>
      <label className="field">
        <span>Under the chords</span>
        <select
          value={kind}
          data-setting="help"
          onChange={({ target }) =>
            tabletHelp.change({ help: target.value === usual ? '' : (target.value as HelpKind) })
          }
        >
          {[...new Set([...helpKindsFor(group), kind])].map((one) => (
            <option key={one} value={one}>
              {HELP_WORDS[one]}
            </option>
          ))}
        </select>
      </label>
      {kind === 'shapes' && <ShapeFields part={part} />}
      {kind === 'voicings' && (
        <label className="field">
          <span>Voicings</span>
          <select
            value={settings.keys}
            data-setting="keys"
            onChange={({ target }) => tabletHelp.change({ keys: target.value as KeysStyle })}
          >
            {KEYS_WORDS.map(([style, words]) => (
              <option key={style} value={style}>
                {words}
              </option>
            ))}
          </select>
        </label>
      )}
    </>
  );
};

const ShapeFields = ({ part }: { readonly part: string }) => {
  const settings = useObservable(tabletHelp);
  const names = useNoteNames();
  const id = useId();
  const strings = stringsOf({ ...settings, tuning: '' }, part, names);
  const typed = typedTuning(settings, part, names);
  const shown = tuningText(settings, part, names);
  const usual = usualShapes(stringsOf(settings, part, names));
  const remark = typed?.ok && shown === settings.tuning ? typed.value.remark : null;
  const words = typed === null || typed.ok ? remark : typed.error.words;
  return (
    <>
      <label className="field">
        <span>Shapes</span>
        <select
          value={settings.shapes === 'usual' ? usual : settings.shapes}
          data-setting="shapes"
          onChange={({ target }) =>
            tabletHelp.change({
              shapes: target.value === usual ? 'usual' : (target.value as ShapeKind | ''),
            })
          }
        >
          <option value="">whatever moves least</option>
          {SHAPE_KINDS.map((one) => (
            <option key={one} value={one}>
              {SHAPE_WORDS[one] ?? one}
            </option>
          ))}
        </select>
      </label>
      <label className="field">
        <span>Strings</span>
        <select
          value={strings.id}
          data-setting="strings"
          onChange={({ target }) => tabletHelp.change({ strings: target.value, tuning: '' })}
        >
          {FRET_INSTRUMENTS.map((one) => (
            <option key={one.id} value={one.id}>
              {one.name}
            </option>
          ))}
        </select>
      </label>
      <label className="field">
        <span>Another tuning, from the lowest string up</span>
        <input
          value={shown}
          data-setting="tuning"
          placeholder={[...'DADGAD'].map((note) => noteName(note, names)).join(' ')}
          autoCapitalize="characters"
          autoCorrect="off"
          spellCheck={false}
          aria-describedby={words === null ? undefined : id}
          aria-invalid={typed !== null && !typed.ok}
          onChange={({ target }) => tabletHelp.change({ tuning: target.value, tuningNames: names })}
        />
        {words !== null && (
          <span className={typed?.ok ? 'dim' : 'field-problem'} id={id}>
            <SpelledText text={words} />
          </span>
        )}
      </label>
      <label className="choice">
        <input
          type="checkbox"
          checked={settings.leftHanded}
          data-setting="leftHanded"
          onChange={({ target }) => tabletHelp.change({ leftHanded: target.checked })}
        />
        left-handed
      </label>
    </>
  );
};
