import { useEffect, useRef } from 'react';
import type { Editing, LostDraft } from './editing.ts';

/** What was being typed into bars that somebody else deleted: still there to be typed on, put back, or let go. */
export const LostDrafts = ({ lost, editing }: LostDraftsProps) => (
  <>
    {lost.map((draft, at) => (
      <Lost key={draft.bar} draft={draft} at={at} editing={editing} />
    ))}
  </>
);

const Lost = ({ draft, at, editing }: LostProps) => {
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    // Whoever was typing goes on typing here.
    const input = field.current;
    if (document.activeElement !== document.body || input === null) return;
    input.focus();
    input.setSelectionRange(input.value.length, input.value.length);
  }, []);
  return (
    <div className="lost-draft strip" data-family="feel" role="alert">
      <label className="field">
        <span>
          {draft.who ?? 'Somebody else'} deleted bar {draft.number} while you were typing into it:
        </span>
        <input
          ref={field}
          value={draft.text}
          autoCapitalize="off"
          autoComplete="off"
          autoCorrect="off"
          spellCheck={false}
          onChange={(event) => editing.typeLost(at, event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Enter' && !event.nativeEvent.isComposing) editing.putBack(at);
          }}
        />
      </label>
      <span className="button-row">
        <button type="button" className="button" onClick={() => editing.putBack(at)}>
          put it back
        </button>
        <button type="button" className="button" onClick={() => editing.letGo(at)}>
          let it go
        </button>
      </span>
    </div>
  );
};

interface LostProps {
  readonly draft: LostDraft;
  readonly at: number;
  readonly editing: Editing;
}

interface LostDraftsProps {
  readonly lost: readonly LostDraft[];
  readonly editing: Editing;
}
