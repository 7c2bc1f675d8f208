import './set-keys.css';

/** A number between two large keys. */
export const Stepper = ({
  label,
  words,
  value,
  least,
  most,
  step = 1,
  disabled = false,
  onChange,
}: {
  readonly label: string;
  /** The number as it is read: "+4 bpm". */
  readonly words: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly step?: number;
  readonly disabled?: boolean;
  readonly onChange: (value: number) => void;
}) => {
  const to = (next: number) => Math.min(most, Math.max(least, next));
  return (
    <fieldset className="stepper" disabled={disabled}>
      <legend>{label}</legend>
      <button
        type="button"
        className="button"
        aria-label={`${label}: less`}
        disabled={value <= least}
        onClick={() => onChange(to(value - step))}
      >
        −
      </button>
      <output>{words}</output>
      <button
        type="button"
        className="button"
        aria-label={`${label}: more`}
        disabled={value >= most}
        onClick={() => onChange(to(value + step))}
      >
        +
      </button>
    </fieldset>
  );
};
