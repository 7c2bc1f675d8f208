import { describe, expect, it } from 'vitest';
import { offbeatAt, swingRatio, swung } from '../../../common/band/swing.ts';
import published from './swing-ratios.json' with { type: 'json' };

// Sources: SOURCE.md beside this file.
describe('swing as published', () => {
  it.each(published.rows)('[BAND-21] $first : $second puts the off-beat at $offbeatAtBeatFraction', (row) => {
    expect(offbeatAt(row.first / row.second)).toBeCloseTo(row.offbeatAtBeatFraction, 12);
    expect(swung(3.5, row.ratio)).toBeCloseTo(3 + row.offbeatAtBeatFraction, 12);
    expect(480 * offbeatAt(row.ratio)).toBeCloseTo(row.ticksAtPpq480, 9);
  });

  it('[BAND-21] the ratio is 3.5 : 1 at slow tempos around 120 and 1 : 1 at fast ones', () => {
    expect(swingRatio(120)).toBe(3.5);
    expect(swingRatio(300)).toBe(1);
    expect(swingRatio(380)).toBe(1);
  });

  it('[BAND-21] the ratio falls linearly, and is 2 : 1 at one tempo only', () => {
    const ratios = Array.from({ length: 19 }, (_, i) => swingRatio(120 + 10 * i));
    const steps = ratios.slice(1).map((ratio, i) => ratio - (ratios[i] ?? 0));
    for (const step of steps) expect(step).toBeCloseTo(steps[0] ?? 0, 12);
    const tempos = Array.from({ length: 3600 }, (_, i) => 40 + i / 10);
    const nearTwo = tempos.filter((bpm) => Math.abs(swingRatio(bpm) - 2) < 0.01);
    expect(Math.max(...nearTwo) - Math.min(...nearTwo)).toBeLessThan(3);
  });

  it('[BAND-21] the short note lasts about 100 ms at medium to fast tempos', () => {
    for (let bpm = 140; bpm <= 300; bpm += 10) {
      const shortMs = (60_000 / bpm) * (1 - offbeatAt(swingRatio(bpm)));
      expect(shortMs).toBeGreaterThan(85);
      expect(shortMs).toBeLessThan(115);
    }
  });
});
