import { describe, expect, it } from 'vitest';
import { keyWords, semitonesFor, symbolReader } from '../../../client/stand/reader-key.ts';

// common practice, no source: B flat instruments read a major second above concert, E flat ones a major sixth.
describe('the reader’s key', () => {
  it('is said beside the concert key for a transposing instrument', () => {
    expect(keyWords('Eb blues', { part: 'tenor-sax', concert: false }, 0)).toEqual({
      concert: 'E♭ blues',
      instrument: 'tenor sax',
      own: 'F',
    });
  });

  it('is the concert key for all who read it, also an octave away', () => {
    expect(keyWords('Eb blues', { part: 'guitar', concert: false }, 0)?.instrument).toBe('');
    expect(keyWords('Eb blues', { part: 'tenor-sax', concert: true }, 0)?.instrument).toBe('');
  });

  it('follows the tune up a half step, six accidentals as flats', () => {
    const words = keyWords('Eb blues', { part: 'tenor-sax', concert: false }, 1);
    expect([words?.concert, words?.own]).toEqual(['E blues', 'G♭']);
  });

  it('is said as the reader calls the notes', () => {
    const reader = { part: 'tenor-sax', concert: false };
    expect(keyWords('Bb blues', reader, 0, 'german')).toMatchObject({ concert: 'B blues', own: 'C' });
    expect(keyWords('A minor', reader, 0, 'german')).toMatchObject({ concert: 'A minor', own: 'H' });
    expect(keyWords('Eb blues', reader, 0, 'solfege')).toMatchObject({ concert: 'Mi♭ blues', own: 'Fa' });
  });

  it('is not said where none is written', () => {
    expect(keyWords('', { part: 'piano', concert: false }, 0)).toBeNull();
    expect(keyWords('somewhere in E', { part: 'piano', concert: false }, 0)).toBeNull();
  });

  it('gives every chord in it, and unknown symbols as typed', () => {
    const read = symbolReader('Eb blues', semitonesFor({ part: 'tenor-sax', concert: false }));
    expect(read('Eb7', '')).toBe('F7');
    expect(read('C7alt', '')).toBe('D7alt');
    expect(read('Fm7/Eb', '')).toBe('Gm7/F');
    expect(read('Xy7', '')).toBe('Xy7');
  });

  it('spells in the key that stands over the bar', () => {
    const read = symbolReader('C', 9);
    expect(read('C', '')).toBe('A');
    expect(read('Db', 'Db')).toBe('Bb');
  });
});
