/** The large key on which the beat is tapped. It acts when the finger comes down, not when it lifts. */
export const TapKey = ({
  name,
  detail,
  disabled,
  away = false,
  onTap,
}: {
  readonly name: string;
  readonly detail: string;
  readonly disabled: boolean;
  /** Out of use while the relay is away; a tap is told so. */
  readonly away?: boolean;
  /** @param stampMs when the finger came down, on the clock of `performance.now()` */
  readonly onTap: (stampMs: number) => void;
}) => (
  <button
    type="button"
    className="tap-key"
    disabled={disabled}
    aria-disabled={away}
    onPointerDown={({ timeStamp, button }) => {
      if (button === 0) onTap(timeStamp);
    }}
    onKeyDown={({ key, repeat, timeStamp }) => {
      if ((key === ' ' || key === 'Enter') && !repeat) onTap(timeStamp);
    }}
  >
    <b>{name}</b>
    <small>{detail}</small>
  </button>
);
