import { describe, expect, it } from 'vitest';
import { momentKey } from '../../../client/stand/follower.ts';
import {
  afterWords,
  legWords,
  minutesWords,
  passPips,
  passWords,
} from '../../../client/stand/place-words.ts';
import { playedLegs } from '../../../client/stand/played-legs.ts';
import { leg, legBars, played } from './coming-bars.ts';

const bars = legBars(4, [3]);
const head = leg('l1', 'Head', 2, bars);
const solos = leg('l2', 'Solos', 'open', bars);
const vamp = leg('l3', 'Vamp', 'vamp', bars);
const tag = leg('l4', 'Tag', 2, bars, { tag: { timesInAll: 3 } });
const road = { legs: [head, solos, vamp, tag], tempoBpm: 120, countBars: 2, key: '' };

describe('the place in words', () => {
  it('counts choruses where the number is open, and says which one is the last', () => {
    expect(passWords(solos, 3, 'open')).toBe('chorus 3');
    expect(passWords(solos, 3, 3)).toBe('chorus 3, the last');
  });

  it('counts passes of a known number, and says nothing of a single one', () => {
    expect(passWords(head, 1, 2)).toBe('1 of 2');
    expect(passWords(leg('l', 'Head out', 1, bars), 1, 1)).toBe('');
  });

  it('counts a tag with the time before it', () => {
    expect(passWords(tag, 1, 2)).toBe('2 of 3');
    expect(passWords(tag, 2, 2)).toBe('3 of 3');
  });

  it('says that a vamp waits for a cue', () => {
    expect(passWords(vamp, 2, 'vamp')).toBe('time 2, till cue');
    expect(passWords(vamp, 2, 2)).toBe('time 2, the last');
  });

  it('says who trades how many bars', () => {
    const traded = (trade: number) => legWords(leg('t', 'Trades', 2, bars, { trade }));
    expect(passWords(leg('t', 'Fours', 2, bars, { trade: 4 }), 1, 2)).toBe('trading fours, chorus 1');
    expect([1, 2, 3].map(traded)).toEqual([
      'Trades ×2 trading ones',
      'Trades ×2 trading twos',
      'Trades ×2 trading 3 bars each',
    ]);
  });

  it('says what comes after a leg', () => {
    expect(legWords(head)).toBe('Head ×2');
    expect(afterWords(road, 'l2')).toBe('then Vamp till cue, Tag ×3');
    expect(afterWords(road, 'l4')).toBe('then the end');
    expect(afterWords(road, 'gone')).toBe('');
  });

  it('draws passes as pips, unless there are too many', () => {
    expect(passPips(3, 'open')).toBe('●●◉');
    expect(passPips(2, 4)).toBe('●◉○○');
    expect(passPips(1, 1)).toBe('');
    expect(passPips(13, 'open')).toBe('');
  });

  it('sums up what was played', () => {
    const all = played([
      { leg: head, pass: 1 },
      { leg: head, pass: 2 },
      { leg: solos, pass: 1, from: 2 },
      { leg: head, pass: 1 },
      { leg: tag, pass: 1 },
      { leg: tag, pass: 2 },
    ]);
    expect(playedLegs(all)).toEqual([
      { name: 'Head', passes: 2 },
      { name: 'Solos', passes: 1 },
      { name: 'Head', passes: 1 },
      { name: 'Tag', passes: 3 },
    ]);
    expect(minutesWords(221_400)).toBe('3:41');
  });
});

describe('a moment', () => {
  const at = (pulse: number, bpm = 120) =>
    momentKey({ state: 'playing', bar: 5, bpm, place: { leg: 'l1', pass: 1, barIndex: 5, pulse } });

  it('lasts a pulse: what is drawn anew is drawn anew no more often', () => {
    expect(at(1.01)).toBe(at(1.99));
    expect(at(1.99)).not.toBe(at(2));
  });

  it('changes with the tempo in whole beats a minute', () => {
    expect(at(1, 120)).not.toBe(at(1, 121));
    expect(at(1, 120)).toBe(at(1, 120.2));
  });
});
