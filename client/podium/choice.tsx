import './set-keys.css';

/** One of a few values, each a large key. */
export const Choice = <Value extends string | number | boolean>({
  label,
  options,
  value,
  onChange,
}: {
  readonly label: string;
  readonly options: readonly (readonly [Value, string])[];
  readonly value: Value;
  readonly onChange: (value: Value) => void;
}) => (
  <fieldset className="choice-row">
    <legend>{label}</legend>
    {options.map(([option, words]) => (
      <button
        type="button"
        className="button"
        key={String(option)}
        aria-pressed={option === value}
        onClick={() => onChange(option)}
      >
        {words}
      </button>
    ))}
  </fieldset>
);
