/** The name of the program, between its repeat signs: a vamp, till the cue. */
export const Masthead = ({ words }: { readonly words: string }) => (
  <header className="masthead">
    <h1>
      <span className="sign" aria-hidden="true">
        𝄆
      </span>
      Tillcue
      <span className="sign" aria-hidden="true">
        𝄇
      </span>
    </h1>
    <p>{words}</p>
  </header>
);
