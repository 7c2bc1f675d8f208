import { bassNotes } from '../theory/harmony/bass-notes.ts';
import type { Help } from './help.ts';
import type { PassChords } from './pass-chords.ts';

/** Root, fifth and the note that leads to the next bass, chord by chord. */
export const bassHelp = ({ chords, after }: PassChords): Help[] =>
  chords.map(({ symbol, analysis }, index) => {
    const next = chords[index + 1] ?? after;
    const { root, fifth, approaches } = bassNotes(
      symbol,
      next?.symbol ?? null,
      next?.analysis.key ?? analysis.key,
    );
    return { kind: 'bass', root, fifth, approach: approaches[0]?.note ?? null };
  });
