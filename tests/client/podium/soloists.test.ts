import { describe, expect, it } from 'vitest';
import { inWords } from '../../../client/podium/solo-keys.ts';
import { pick, soloists, traders } from '../../../client/podium/soloists.ts';

describe('who solos', () => {
  it('is who is here, each once, and the drums whoever sits there', () => {
    const people = [
      { name: 'Ines', part: 'guitar' },
      { name: 'Odile', part: 'drums' },
      { name: 'Tomas', part: 'tenor-sax' },
      { name: 'Tomas', part: 'tenor-sax' },
      { name: '', part: 'trumpet' },
    ];
    expect(soloists(people)).toEqual(['Ines', 'Tomas', 'drums']);
  });

  it('is ordered by touch; a second touch leaves somebody out', () => {
    const order = ['Bea', 'Tomas', 'Ines'].reduce<readonly string[]>(pick, []);
    expect(order).toEqual(['Bea', 'Tomas', 'Ines']);
    expect(pick(order, 'Tomas')).toEqual(['Bea', 'Ines']);
  });

  it('trades with the drums where only one was picked or solos now', () => {
    expect(traders(['Bea', 'Tomas'], 'Ines')).toEqual(['Bea', 'Tomas']);
    expect(traders(['Bea'], 'Ines')).toEqual(['Bea', 'drums']);
    expect(traders([], 'Ines')).toEqual(['Ines', 'drums']);
    expect(traders(['drums'], null)).toEqual([]);
    expect(traders([], null)).toEqual([]);
  });

  it('is told in few words', () => {
    expect(inWords(['Bea', 'Tomas', 'drums'])).toBe('Bea, Tomas and drums');
  });
});
