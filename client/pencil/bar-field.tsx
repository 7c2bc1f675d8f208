import { useEffect, useRef } from 'react';
import type { Editing } from './use-editing.ts';

const focusBar = (bar: string | null): void => {
  const key = document.querySelector<HTMLElement>(`[data-bar-key="${CSS.escape(bar ?? '')}"]`);
  if (document.activeElement === document.body) key?.focus();
};

/** The text of a bar while it is typed. */
export const BarField = ({ number, draft, editing }: BarFieldProps) => {
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    field.current?.focus();
    field.current?.select();
  }, []);
  return (
    <input
      ref={field}
      data-bar-field=""
      className="bar-field"
      value={draft}
      aria-label={`text of bar ${number}`}
      autoCapitalize="off"
      autoComplete="off"
      autoCorrect="off"
      spellCheck={false}
      enterKeyHint="done"
      onChange={(event) => editing.type(event.target.value)}
      onBlur={() => editing.write()}
      onKeyDown={(event) => {
        const { bar } = editing;
        if (event.key === 'Enter') editing.write();
        else if (event.key === 'Escape') editing.drop();
        else if (event.key === 'Tab') editing.write(event.shiftKey ? -1 : 1);
        else return;
        event.preventDefault();
        event.stopPropagation();
        // The keyboard goes on where it was.
        if (event.key !== 'Tab') requestAnimationFrame(() => focusBar(bar));
      }}
    />
  );
};

interface BarFieldProps {
  readonly number: number;
  readonly draft: string;
  readonly editing: Editing;
}
