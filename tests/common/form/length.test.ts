import { describe, expect, it } from 'vitest';
import { roadLength } from '../../../common/form/length.ts';
import { unrollBuilt } from './build-chart.ts';

const TWELVE = '1 2 3 4 5 6 7 8 9 10 11 12';
const roadOf = (...built: Parameters<typeof unrollBuilt>) => ({
  legs: unrollBuilt(...built).legs,
  tempoBpm: 120,
  countBars: 2,
  key: '',
});

describe('the length of a road', () => {
  it('[ROAD-24] counts every pass: a bar of four at 120 lasts two seconds', () => {
    const road = roadOf({ A: TWELVE }, [
      ['Head', 'A', 'x2'],
      ['Tag', 'last 4', 'x3'],
    ]);
    expect(roadLength(road)).toEqual({
      legs: [
        { leg: 'line Head', bars: 24, pulses: 96, ms: 48_000, assumed: false },
        { leg: 'line Tag', bars: 8, pulses: 32, ms: 16_000, assumed: false },
      ],
      ms: 64_000,
      assumed: false,
    });
  });

  it('[ROAD-24] assumes how often open legs and vamps are played, and says so', () => {
    const road = roadOf({ A: TWELVE, B: '13' }, [
      ['Solos', 'A', 'open'],
      ['End', 'B', 'vamp'],
    ]);
    expect(roadLength(road)).toMatchObject({ ms: 4 * 24_000 + 2 * 2_000, assumed: true });
    expect(roadLength(road, { openPasses: 1 })).toMatchObject({ ms: 24_000 + 2 * 2_000 });
  });

  it('[ROAD-24] plays the last pass as it differs, and tempo words where they stand', () => {
    const coda = roadOf({ A: '1"to coda" 2', Coda: 'c d e' }, [['Head', 'A al Coda', 'x2']]);
    expect(roadLength(coda).legs[0]).toMatchObject({ bars: 6 });
    const slower = roadOf({ A: '1 2"last x: tempo 60"' }, [['Head', 'A', 'x2']]);
    expect(roadLength(slower).ms).toBe(3 * 2_000 + 4_000);
  });
});
