import { describe, expect, it } from 'vitest';
import { SCALE_NAMES, type ScaleName, scaleSemitones } from '../../../common/theory/scale.ts';
import published from './scales.json' with { type: 'json' };

/** Rows whose scale players call otherwise. */
const OURS: Readonly<Record<string, ScaleName>> = {
  minor: 'natural minor',
  'mixolydian b6': 'mixolydian ♭13',
  'locrian #2': 'locrian ♮2',
};
/** Names of rows for scales that are not offered over any chord, or are there under another name. */
const NOT_OFFERED = ['aeolian', 'dorian b2', 'chromatic'];

describe('scales (named in each row)', () => {
  const rows = published.rows.filter(({ scale }) => !NOT_OFFERED.includes(scale));

  it.each(rows)('$scale ($source)', ({ scale, semitones }) => {
    expect(scaleSemitones(OURS[scale] ?? (scale as ScaleName))).toEqual(semitones);
  });

  it('leaves out only what is named so', () => {
    const found = new Set(rows.map(({ scale }) => OURS[scale] ?? scale));
    // Only in tonal: no second source has them.
    const unchecked = SCALE_NAMES.filter((name) => !found.has(name));
    expect(unchecked).toEqual(['harmonic major', 'major blues']);
    expect(published.onlyInTonal).toEqual(expect.arrayContaining(unchecked));
  });
});
