import { type ReactNode, useId, useLayoutEffect, useRef, useState } from 'react';

/**
 * A field whose text is written when it is left or Enter is pressed; Escape takes back what was typed. Until something is
 * typed it shows what others write. What is typed is also written where the field goes away before it is left.
 */
export const TextField = ({
  label,
  value,
  disabled,
  problem,
  placeholder,
  bare = false,
  className = '',
  fit,
  onWrite,
}: {
  readonly label: ReactNode;
  readonly value: string;
  readonly disabled: boolean;
  /** What is wrong with what was written. */
  readonly problem?: string | undefined;
  readonly placeholder?: string;
  /** Only the input; the label is read aloud. */
  readonly bare?: boolean;
  readonly className?: string;
  /** The field is as wide as its text, and at least so many letters. */
  readonly fit?: number;
  readonly onWrite: (value: string) => void;
}) => {
  const [draft, setDraft] = useState<string | null>(null);
  const problemId = useId();
  const shown = draft ?? value;
  const write = () => {
    const typed = draft?.trim();
    setDraft(null);
    if (typed !== undefined && typed !== value) onWrite(typed);
  };
  const leave = useRef(write);
  useLayoutEffect(() => {
    leave.current = write;
  });
  useLayoutEffect(() => () => leave.current(), []);
  return (
    <label className={`${bare ? 'field field-bare' : 'field'} ${className}`}>
      <span className={bare ? 'visually-hidden' : undefined}>{label}</span>
      <input
        value={shown}
        disabled={disabled}
        placeholder={placeholder}
        title={bare && value !== '' ? value : undefined}
        autoComplete="off"
        enterKeyHint="done"
        style={
          fit === undefined ? undefined : { width: `calc(${Math.max(fit, shown.length)} * 0.58em + 24px)` }
        }
        aria-invalid={problem !== undefined}
        aria-describedby={problem === undefined ? undefined : problemId}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={write}
        onKeyDown={(event) => {
          if (event.nativeEvent.isComposing) return;
          if (event.key === 'Enter') write();
          else if (event.key === 'Escape' && draft !== null) setDraft(null);
          else return;
          event.preventDefault();
        }}
      />
      {problem !== undefined && (
        <span className="field-problem" id={problemId}>
          {problem}
        </span>
      )}
    </label>
  );
};
