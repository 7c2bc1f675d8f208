import { type ReactNode, useRef } from 'react';

/**
 * A key that knows when the finger came down. It acts when the finger lifts, so that a row of them can be pushed
 * along, and says when it was pressed.
 */
export const PressKey = ({
  className = 'button here-key',
  id,
  title,
  disabled = false,
  away = false,
  onPress,
  children,
}: {
  readonly className?: string;
  readonly id?: string;
  readonly title?: string;
  readonly disabled?: boolean;
  /** Out of use while the relay is away; a press is told so. */
  readonly away?: boolean;
  /** @param stampMs on the clock of `performance.now()` */
  readonly onPress: (stampMs: number) => void;
  readonly children: ReactNode;
}) => {
  const downMs = useRef<number | null>(null);
  return (
    <button
      type="button"
      className={className}
      data-key-id={id}
      title={title}
      disabled={disabled}
      aria-disabled={away}
      onPointerDown={({ timeStamp }) => {
        downMs.current = timeStamp;
      }}
      onClick={({ timeStamp, detail }) => {
        // Without a pointer (Enter) the click is all there is.
        onPress(detail === 0 ? timeStamp : (downMs.current ?? timeStamp));
        downMs.current = null;
      }}
    >
      {children}
    </button>
  );
};
