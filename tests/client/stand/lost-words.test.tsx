import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { findLostSpots } from '../../../client/stand/find-lost-spots.ts';
import { follow } from '../../../client/stand/follower.ts';
import { Foot } from '../../../client/stand/foot.tsx';
import { LostWords } from '../../../client/stand/lost-words.tsx';
import { performanceSource } from '../../../client/stand/performance-source.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { SLOW_FERRY } from '../../../common/demo/slow-ferry.ts';
import type { LostSpotOptions } from '../../../common/form/lost-spots/lost-spots.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { perform } from '../../../common/stage/perform.ts';

const { chart } = readChart(SLOW_FERRY);
const { road } = unroll(chart);
const solos = road.legs.find(({ name }) => name === 'Solos')?.id ?? '';
const SEAM = 'same chord for 5: listen for the fill in 16';

/** Counted in at 0 at bar 13 of the first chorus of the solos. */
const performance = perform({
  id: 't',
  chart: 'ferry',
  title: 'Slow Ferry',
  road,
  cues: [{ id: 'c', cue: { kind: 'start', leg: solos, barIndex: 12, pass: 1 }, calledAtMs: 0 }],
});
const source = performanceSource(performance);
/** Shared time in the middle of the n-th bar that is played, from 0. */
const inBar = (n: number): number => (source.barsAround(0, 0, n + 1).bars[n]?.startMs ?? 0) + 1000;

const found = (options: LostSpotOptions = {}, semitones = 0) => findLostSpots({ road }, semitones, options);
const idOf = (kind: string) =>
  found()
    .ofLeg.get(solos)
    ?.find((spot) => spot.kind === kind)?.id ?? '';
const noLength = { dismissed: [idOf('formLength')] };

const wordsAt = (atMs: number, options: LostSpotOptions = noLength): string =>
  renderToStaticMarkup(<LostWords follower={follow(source, () => atMs)} found={found(options)} />);

describe('the words on the stand', () => {
  it('[LOST-13] stand there while their spot is to come, and are told to those who listen to the page', () => {
    for (const bar of [0, 1, 2, 3]) expect(wordsAt(inBar(bar))).toContain(SEAM);
    expect(wordsAt(inBar(0))).toContain('role="status"');
    expect(wordsAt(inBar(4))).not.toContain('same chord');
    expect(wordsAt(inBar(0), { dismissed: [...noLength.dismissed, idOf('seam')] })).not.toContain(
      'same chord',
    );
  });

  it('are silent while the band counts in', () => {
    expect(wordsAt(100)).not.toContain('same chord');
    expect(found(noLength).said(source, 100)).toBeNull();
  });

  it('name chords in the reader’s key, as the reader calls them', () => {
    const plain = SLOW_FERRY.replace('"fill" Eb7', 'Eb7').replace('"break" Fm7 r r r', 'Fm7');
    const other = unroll(readChart(plain).chart).road;
    const seam = (semitones: number, options: LostSpotOptions = {}): string =>
      [...findLostSpots({ road: other }, semitones, options).ofLeg.values()]
        .flat()
        .find(({ kind }) => kind === 'seam')?.announce ?? '';
    expect(seam(0)).toBe('same chord for 5: listen for B♭7 in 16');
    // The tenor saxophone sounds a ninth lower than it reads: tests/published/transposition.
    expect(seam(14)).toBe('same chord for 5: listen for C7 in 16');
    expect(seam(0, { names: 'german' })).toBe('same chord for 5: listen for B7 in 16');
    expect(seam(0, { names: 'solfege' })).toBe('same chord for 5: listen for Si♭7 in 16');
  });
});

describe('the ribbon', () => {
  const underlined = (options: LostSpotOptions | null): number[] => {
    const html = renderToStaticMarkup(
      <Foot follower={follow(source, () => inBar(1))} found={options === null ? null : found(options)} />,
    );
    return [...html.matchAll(/<i style[^>]*>/g)].flatMap(([bar], at) =>
      bar.includes('data-lost') ? [at + 1] : [],
    );
  };

  it('[LOST-12] underlines them, but for those that were dismissed, and waits until they are found', () => {
    expect(underlined({})).toEqual([1, 2, 3, 4, 13, 15, 16]);
    expect(underlined({ dismissed: [idOf('seam')] })).toEqual([13, 15]);
    expect(underlined(null)).toEqual([]);
  });
});

describe('a chart that is only read', () => {
  it('has the same bars underlined on its page as the road that is played', () => {
    expect(findLostSpots({ chart }, 0, {}).ids).toEqual(found().ids);
    expect(found().ids.size).toBe(7);
  });
});
