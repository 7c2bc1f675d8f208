import { describe, expect, it } from 'vitest';
import { fretInstrumentById } from '../../../common/shapes/fretboard/fret-instrument.ts';
import { fretMm } from '../../../common/shapes/fretboard/hand.ts';
import tunings from './string-tunings.json' with { type: 'json' };

const OURS: Readonly<Record<string, string>> = {
  guitar: 'guitar',
  'bass guitar': 'bass',
  'ukulele (re-entrant)': 'ukulele',
  mandolin: 'mandolin',
};

describe('open strings (sources in each row)', () => {
  it.each(tunings.rows)('$instrument', ({ instrument, midi }) => {
    expect(fretInstrumentById(OURS[instrument] ?? '')?.openMidi).toEqual(midi);
  });
});

describe('where frets lie', () => {
  it('[SHAPE-5] is as makers measure: a 17.817th of what is left to the next fret, the twelfth in the middle', () => {
    const scaleLengthMm = 650;
    expect(fretMm(0, scaleLengthMm)).toBe(0);
    expect(fretMm(12, scaleLengthMm)).toBeCloseTo(325, 9);
    for (let fret = 0; fret < 24; fret++) {
      const left = scaleLengthMm - fretMm(fret, scaleLengthMm);
      expect(fretMm(fret + 1, scaleLengthMm) - fretMm(fret, scaleLengthMm)).toBeCloseTo(left / 17.817, 3);
    }
  });
});
