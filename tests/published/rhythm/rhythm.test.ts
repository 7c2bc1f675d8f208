import { describe, expect, it } from 'vitest';
import { DRUMS } from '../../../common/band/drum-kit.ts';
import { printRhythm, readRhythm } from '../../../common/band/rhythm.ts';
import { gridOf, rhythmOfGrid } from '../../../common/band/rhythm-grid.ts';
import { COMMON_TIME } from '../../../common/chart/read-metre.ts';
import { chart, eventsOfBar, placesOf, played } from '../../common/band/support-band.ts';
import published from './timelines.json' with { type: 'json' };

// Sources: SOURCE.md beside this file.
describe('timelines as published', () => {
  it.each(published.rows)('[BAND-17] the stick of a $feel plays the $name clave', ({ feel, eighths }) => {
    const one = played(chart('| C7 | C7 |'), { feel, fills: false });
    const found = [0, 1].flatMap((index) => {
      const sticks = eventsOfBar(one, index).filter(({ midi }) => midi === DRUMS.sideStick);
      return placesOf(sticks, 'drums', 2600).map((place) => place * 2);
    });
    expect(found).toEqual(eighths);
  });

  it.each(published.rows)(
    '[BAND-24] the $name clave as boxes is the rhythm as it is counted',
    ({ eighths }) => {
      const empty = gridOf(readRhythm('r | r', COMMON_TIME).rhythm, COMMON_TIME, 'eighths');
      const bars = empty.bars.map((row, bar) => row.map((_, i) => eighths.includes(bar * 8 + i)));
      const text = printRhythm(rhythmOfGrid({ ...empty, bars }));
      expect(text).toBe(eighths.at(-1) === 12 ? '1 2& 4 | 2 3' : '1 2& 4 | 2 3&');
    },
  );
});
