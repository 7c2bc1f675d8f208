import { useEffect, useRef } from 'react';
import { afterPress, noticePresses } from './after-press.ts';
import type { Draft, Editing } from './editing.ts';
import { focusBar } from './focus-bar.ts';

/** The text of a bar while it is typed. */
export const BarField = ({ number, draft, editing }: BarFieldProps) => {
  const field = useRef<HTMLInputElement>(null);
  const { bar, caret } = draft;
  useEffect(noticePresses, []);
  useEffect(() => {
    const input = field.current;
    if (input === null) return;
    input.focus();
    const { caret: before } = editing;
    if (before !== null) input.setSelectionRange(before.from, before.to);
    else if (caret === 'all') input.select();
    else if (caret === 'end') input.setSelectionRange(input.value.length, input.value.length);
    else input.setSelectionRange(...caret);
  }, [caret, editing]);
  return (
    <input
      ref={field}
      data-bar-field=""
      className="bar-field"
      value={draft.text}
      aria-label={`text of bar ${number}`}
      aria-describedby="understood"
      autoCapitalize="off"
      autoComplete="off"
      autoCorrect="off"
      spellCheck={false}
      enterKeyHint="done"
      onChange={(event) => editing.type(event.target.value)}
      onSelect={({ currentTarget: { selectionStart, selectionEnd } }) => {
        if (selectionStart !== null && selectionEnd !== null) editing.keepCaret(selectionStart, selectionEnd);
      }}
      onBlur={({ currentTarget }) =>
        afterPress(() => {
          // A field that is drawn anew elsewhere is not left.
          if (currentTarget.isConnected) editing.leave(bar);
        })
      }
      onPaste={(event) => {
        const pasted = event.clipboardData.getData('text');
        // An input would run the lines together.
        if (!/[\r\n]/.test(pasted.trim())) return;
        event.preventDefault();
        event.stopPropagation();
        const { selectionStart, selectionEnd, value } = event.currentTarget;
        const lines = pasted.trim().replace(/\s*[\r\n]+\s*/g, ' ');
        editing.type(value.slice(0, selectionStart ?? 0) + lines + value.slice(selectionEnd ?? value.length));
      }}
      onKeyDown={(event) => {
        if (event.nativeEvent.isComposing) return;
        if (event.key === 'Enter') {
          editing.write();
          focusBar(editing.get().bar);
        } else if (event.key === 'Escape') {
          editing.drop();
          focusBar(bar);
        } else if (event.key === 'Tab') {
          // At the ends of the chart the keyboard goes on to what is beside the music.
          if (!editing.write(event.shiftKey ? -1 : 1)) return;
        } else return;
        event.preventDefault();
        event.stopPropagation();
      }}
    />
  );
};

interface BarFieldProps {
  readonly number: number;
  readonly draft: Draft;
  readonly editing: Editing;
}
