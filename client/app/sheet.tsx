import { type ReactNode, useEffect, useId, useRef } from 'react';

/** A sheet over the page, closed by its key, by Escape, or by a touch beside it. The browser keeps the focus in it. */
export const Sheet = ({
  title,
  onClose,
  children,
}: {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}) => {
  const dialog = useRef<HTMLDialogElement>(null);
  const heading = useId();
  useEffect(() => {
    const element = dialog.current;
    if (element && !element.open) element.showModal();
  }, []);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: Escape closes it too, by the dialog's own means
    <dialog
      ref={dialog}
      className="panel sheet"
      aria-labelledby={heading}
      onClose={onClose}
      onClick={(event) => {
        if (event.target === dialog.current) dialog.current.close();
      }}
    >
      <div className="sheet-body">
        <header className="sheet-head">
          <h2 id={heading}>{title}</h2>
          <button type="button" className="button-quiet" onClick={() => dialog.current?.close()}>
            Close
          </button>
        </header>
        {children}
      </div>
    </dialog>
  );
};
