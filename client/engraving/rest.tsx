/** A rest as large as the chord it stands beside: one beat's, or the whole bar's. 0.23 em wide. */
export const Rest = ({ whole }: { whole: boolean }) => (
  <svg className="rest" viewBox="0 -80 32 94" aria-hidden="true">
    {whole ? (
      <path d="M0 -47 H32 V-43.5 H27 V-27 H5 V-43.5 H0 Z" />
    ) : (
      <path d="M9 -66 L24.5 -47 C18 -39 18 -32.5 27.5 -20.5 C18.5 -24.5 12 -20.5 17 -6.5 C5.5 -16 9 -27 21 -24.8 L7.5 -40.5 C15.5 -48.5 15 -56.5 9 -66 Z" />
    )}
  </svg>
);
