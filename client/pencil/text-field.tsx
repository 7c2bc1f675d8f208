import { useEffect, useRef, useState } from 'react';

/** A field whose text is written when it is left or Enter is pressed; Escape takes back what was typed. */
export const TextField = ({
  label,
  value,
  disabled,
  problem,
  placeholder,
  bare = false,
  onWrite,
}: {
  readonly label: string;
  readonly value: string;
  readonly disabled: boolean;
  readonly problem?: string | undefined;
  readonly placeholder?: string;
  /** Only the input; the label is read aloud. */
  readonly bare?: boolean;
  readonly onWrite: (value: string) => void;
}) => {
  const [draft, setDraft] = useState(value);
  const input = useRef<HTMLInputElement>(null);
  // What somebody else writes shows here, unless somebody is typing.
  useEffect(() => {
    if (document.activeElement !== input.current) setDraft(value);
  }, [value]);
  const write = () => {
    if (draft !== value) onWrite(draft.trim());
  };
  return (
    <label className={bare ? 'field field-bare' : 'field'}>
      <span className={bare ? 'visually-hidden' : undefined}>{label}</span>
      <input
        ref={input}
        value={draft}
        disabled={disabled}
        placeholder={placeholder}
        aria-invalid={problem !== undefined}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={write}
        onKeyDown={(event) => {
          if (event.key === 'Enter') event.currentTarget.blur();
          else if (event.key === 'Escape') setDraft(value);
        }}
      />
      {problem !== undefined && <span className="field-problem">{problem}</span>}
    </label>
  );
};
