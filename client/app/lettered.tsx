import type { ReactNode } from 'react';

/** A part of a page with its letter in the margin, as the sections of a chart have. */
export const Lettered = ({
  letter,
  title,
  children,
}: {
  readonly letter: string;
  readonly title: string;
  readonly children: ReactNode;
}) => (
  <section className="lettered">
    <span className="lettered-letter" aria-hidden="true">
      {letter}
    </span>
    <div className="lettered-body">
      <h2>{title}</h2>
      {children}
    </div>
  </section>
);
