import type { KeySettings } from './podium-keys.ts';

const Choice = ({
  label,
  values,
  value,
  onChange,
}: {
  readonly label: string;
  readonly values: readonly number[];
  readonly value: number;
  readonly onChange: (value: number) => void;
}) => (
  <fieldset className="number-choice">
    <legend>{label}</legend>
    {values.map((option) => (
      <button
        type="button"
        className="button-quiet"
        key={option}
        aria-pressed={option === value}
        onClick={() => onChange(option)}
      >
        {option}
      </button>
    ))}
  </fieldset>
);

/** The numbers that some keys take: how long a break is, how much of the end a tag repeats and how often. */
export const NumberChoices = ({
  settings,
  onChange,
}: {
  readonly settings: KeySettings;
  readonly onChange: (settings: KeySettings) => void;
}) => (
  <>
    <Choice
      label="break, bars"
      values={[1, 2, 4]}
      value={settings.breakBars}
      onChange={(breakBars) => onChange({ ...settings, breakBars })}
    />
    <Choice
      label="tag, bars"
      values={[2, 4, 8]}
      value={settings.tagBars}
      onChange={(tagBars) => onChange({ ...settings, tagBars })}
    />
    <Choice
      label="times"
      values={[2, 3, 4]}
      value={settings.tagTimes}
      onChange={(tagTimes) => onChange({ ...settings, tagTimes })}
    />
  </>
);
