/** The part of `chord-symbol` that is used; its package has no types for this entry. */
declare module 'chord-symbol/lib/chord-symbol.js' {
  interface Chord {
    normalized: { rootNote: string; notes: string[] };
  }
  const library: { chordParserFactory(): (symbol: string) => Chord | { error: unknown[] } };
  export default library;
}

/** The part of `teoria` that is used; the package has no types. */
declare module 'teoria' {
  interface Chord {
    notes(): { name(): string; accidental(): string; chroma(): number }[];
  }
  const library: { chord(symbol: string): Chord };
  export default library;
}
