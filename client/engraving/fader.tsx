import './fader.css';

/** A level between nothing and all, 0–1. */
export const Fader = ({
  words,
  value,
  onChange,
}: {
  readonly words: string;
  readonly value: number;
  readonly onChange: (value: number) => void;
}) => (
  <label className="fader">
    <span>{words}</span>
    <input
      type="range"
      min={0}
      max={1}
      step={0.01}
      value={value}
      aria-valuetext={`${Math.round(value * 100)} %`}
      onChange={({ target }) => onChange(target.valueAsNumber)}
    />
  </label>
);
