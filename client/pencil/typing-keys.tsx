import type { Editing } from './editing.ts';

/** What chords are made of and soft keyboards hide; typed where the caret is. */
const KEYS = ['b', '#', 'm', '7', '%', '/', '|', 'r', 'maj7', 'm7b5'] as const;

const SHOWN: Readonly<Record<string, string>> = { b: '♭', '#': '♯' };

/** The field must not be left: the soft keyboard would go away. */
const stayInField = (event: { preventDefault: () => void }) => event.preventDefault();

const typeInField = (editing: Editing, text: string): void => {
  const field = document.querySelector<HTMLInputElement>('[data-bar-field]');
  if (field === null) return;
  const from = field.selectionStart ?? field.value.length;
  editing.type(field.value.slice(0, from) + text + field.value.slice(field.selectionEnd ?? from));
  requestAnimationFrame(() => field.setSelectionRange(from + text.length, from + text.length));
};

/** Keys beside the soft keyboard of a tablet or phone, and the way to the next bar. */
export const TypingKeys = ({ editing }: { readonly editing: Editing }) => (
  <fieldset className="typing-keys" aria-label="type into the bar">
    {KEYS.map((key) => (
      <button
        type="button"
        className="typing-key"
        key={key}
        onPointerDown={stayInField}
        onClick={() => typeInField(editing, key)}
      >
        {SHOWN[key] ?? key}
      </button>
    ))}
    <button
      type="button"
      className="typing-key typing-next"
      onPointerDown={stayInField}
      onClick={() => editing.write(1)}
    >
      next
    </button>
  </fieldset>
);
