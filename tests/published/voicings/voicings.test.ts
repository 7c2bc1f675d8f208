import { Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { isClear } from '../../../common/shapes/keyboard/hands.ts';
import { keyboardVoicings } from '../../../common/shapes/keyboard/keyboard-voicings.ts';
import { readChordSymbol } from '../../../common/theory/chord-symbol.ts';
import limits from './low-interval-limits.json';
import rootless from './rootless.json';

const midi = (note: string): number => Note.midi(note) ?? Number.NaN;
const key = (pitch: number) => ({ pitch, hand: 'left' as const, degree: '1', note: 'C' });

describe('low interval limits (Sweetwater, inSync glossary)', () => {
  it.each(limits.rows)('[KEYS-12] a $interval is clear from $lowest upwards', ({ semitones, lowest }) => {
    const low = midi(lowest);
    expect(isClear([key(low), key(low + semitones)])).toBe(true);
    expect(isClear([key(low - 1), key(low - 1 + semitones)])).toBe(false);
  });
});

describe('rootless forms (piano.org; Blau 2002)', () => {
  it.each(rootless.rows)('[KEYS-7] plays $symbol as $notes', ({ symbol, notes }) => {
    const read = readChordSymbol(symbol);
    if (read === null) throw new Error(`${symbol} is not read`);
    const played = keyboardVoicings(read, 'rootless').map(({ keys }) => keys.map(({ note }) => note));
    expect(played).toContainEqual(notes);
  });
});
