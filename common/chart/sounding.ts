import type { Cell } from './bar-music.ts';

/** What sounds at a bar line, for what goes on from it. */
export interface Sounding {
  readonly kind: 'chord' | 'noChord' | 'unknown';
  readonly symbol: string;
  /** The band was resting: what goes on is struck anew. */
  readonly afterRest: boolean;
}

/** What sounds after a cell; a rest keeps the chord in mind. */
export const soundingAfter = (cell: Cell, before: Sounding | null): Sounding | null =>
  cell.kind === 'rest'
    ? before && { ...before, afterRest: true }
    : { kind: cell.kind, symbol: cell.symbol, afterRest: false };

const BASS = /\/[A-G](?:bb|##|[b#♭♯]|𝄫|𝄪)?$/u;

/** The symbol over another bass: 'C/E' over 'G' is 'C/G'. */
export const overBass = (symbol: string, bass: string): string => `${symbol.replace(BASS, '')}/${bass}`;
