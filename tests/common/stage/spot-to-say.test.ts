import { describe, expect, it } from 'vitest';
import { readChart } from '../../../common/chart/read-chart.ts';
import { LOW_WATER } from '../../../common/demo/low-water.ts';
import { SLOW_FERRY } from '../../../common/demo/slow-ferry.ts';
import { type LostSpotOptions, lostSpots } from '../../../common/form/lost-spots/lost-spots.ts';
import type { Road } from '../../../common/form/road.ts';
import { unroll } from '../../../common/form/unroll.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { type Performance, perform } from '../../../common/stage/perform.ts';
import { spotToSay } from '../../../common/stage/spot-to-say.ts';
import { allBars } from './support-read.ts';
import { take } from './support-road.ts';

const roadOf = (text: string) => unroll(readChart(text).chart).road;
const legOf = (road: Road, name: string): string => road.legs.find((leg) => leg.name === name)?.id ?? '';

/** Started in a bar, from 1, of a pass of a leg, with what is called then, by the bars played when it is called. */
const started = (road: Road, name: string, bar: number, pass: number, ...cues: readonly Cue[]): Performance =>
  perform(
    take(road, [
      [0, { kind: 'start', leg: legOf(road, name), barIndex: bar - 1, pass }],
      ...cues.map((cue, i) => [1 + i, cue] as const),
    ]),
  );

/** What is said bar by bar: "leg pass.bar words", where anything is. */
const said = (
  road: Road,
  performance: Performance,
  most: number,
  options: LostSpotOptions = {},
): string[] => {
  const found = lostSpots(road, options);
  const all = allBars(performance, most + 60);
  return all.slice(0, most).flatMap((bar, at) => {
    const spots = found.find(({ leg }) => leg === bar.place.leg)?.spots ?? [];
    const spot = spotToSay(spots, all.slice(at));
    return spot === null
      ? []
      : [`${bar.leg.name} ${bar.place.pass}.${bar.place.barIndex + 1} ${spot.announce}`];
  });
};

const ferry = roadOf(SLOW_FERRY);
const LENGTH = '16 bars: 13 is not the top';
const SEAM = 'same chord for 5: listen for the fill in 16';

describe('the lost spot that is said', () => {
  it('[LOST-13] is said a phrase ahead, one at a time, the likeliest first, and no more when it is over', () => {
    // A phrase is four bars. The length (80) weighs more than the seam (65): while both hold, it is said.
    expect(said(ferry, started(ferry, 'Solos', 1, 1), 32)).toEqual([
      ...[9, 10, 11, 12, 13].map((bar) => `Solos 1.${bar} ${LENGTH}`),
      ...[14, 15, 16].map((bar) => `Solos 1.${bar} ${SEAM}`),
      ...[9, 10, 11, 12, 13].map((bar) => `Solos 2.${bar} ${LENGTH}`),
      ...[14, 15, 16].map((bar) => `Solos 2.${bar} ${SEAM}`),
    ]);
  });

  it('[LOST-13] begins where the phrase begins once the heavier one is dismissed', () => {
    const [length] = lostSpots(ferry)[1]?.spots ?? [];
    expect(length?.kind).toBe('formLength');
    const dismissed = [length?.id ?? ''];
    expect(said(ferry, started(ferry, 'Solos', 1, 1), 20, { dismissed })).toEqual(
      [13, 14, 15, 16].map((bar) => `Solos 1.${bar} ${SEAM}`),
    );
  });

  it('[LOST-13] is not said before a last pass that goes on with other bars', () => {
    const text = SLOW_FERRY.replace('Head out: A B', 'Head out: B');
    const road = roadOf(text);
    const last: Cue = { kind: 'lastChorus' };
    const seams = (performance: Performance) =>
      said(road, performance, 16).filter((words) => words.endsWith(SEAM));
    expect(seams(started(road, 'Solos', 10, 1))).toHaveLength(3);
    expect(seams(started(road, 'Solos', 10, 1, last))).toEqual([]);
    // Where the head out begins with the same bars, the seam is there.
    const same = said(ferry, started(ferry, 'Solos', 10, 1, last), 7).filter((words) => words.endsWith(SEAM));
    expect(same).toHaveLength(3);
  });

  it('[LOST-13] is not said before a jump out of its bars, nor in a loop that never comes there', () => {
    const away: Cue = { kind: 'goTo', leg: legOf(ferry, 'Solos'), barIndex: 4 };
    // The jump lands at the end of the phrase, which is the end of the pass: bar 5 comes and not the top.
    const jumped = started(ferry, 'Solos', 14, 1, away);
    expect(said(ferry, jumped, 3).filter((words) => words.endsWith(SEAM))).toEqual([]);
    const loop: Cue = { kind: 'loop', leg: legOf(ferry, 'Solos'), from: 12, to: 14 };
    expect(said(ferry, started(ferry, 'Solos', 9, 1, loop), 20).join()).not.toContain('fill');
  });

  it('[LOST-13] leaves breaks, metres and keys to what is written', () => {
    const text = 'key: C\n\n[A]\n| Dm7 | G7 | Em7 | A7 |\n| C | "break" F r r r | "2/4" G | "4/4" Dm7 G7 |\n';
    const road = roadOf(text);
    const kinds = lostSpots(road)[1]?.spots.map(({ kind }) => kind) ?? [];
    expect(kinds).toEqual(expect.arrayContaining(['break', 'metre']));
    expect(said(road, started(road, 'Solos', 1, 1), 16)).toEqual([]);
  });

  it('[LOST-13] is said in the pass before, where its phrase is the first', () => {
    const sections = 'key: C\n\n[A]\n| Dm7 | G7 | Em7 | A7 |\n[B]\n| C | F | Dm7 | G7 |\n\nroad:\n';
    const road = roadOf(`${sections} Solos: A B open\n Out: A B\n`);
    const bar = road.legs[0]?.bars[1]?.id ?? '';
    const added = [{ id: 'x', from: bar, to: bar, words: 'bass out' }];
    expect(said(road, started(road, 'Solos', 1, 1), 12, { added })).toEqual([
      ...['Solos 1.1 bass out', 'Solos 1.2 bass out'],
      ...[5, 6, 7, 8].map((at) => `Solos 1.${at} bass out`),
      ...['Solos 2.1 bass out', 'Solos 2.2 bass out'],
    ]);
    // After the last chorus another leg comes: with the same bars, or with others.
    const last: Cue = { kind: 'lastChorus' };
    expect(said(road, started(road, 'Solos', 5, 1, last), 4, { added })).toHaveLength(4);
    const other = roadOf(`${sections} Solos: A B open\n Out: B\n`);
    expect(other.legs[0]?.bars[1]?.id).toBe(bar);
    expect(said(other, started(other, 'Solos', 5, 1, last), 4, { added })).toEqual([]);
  });

  it('[LOST-13] is said to whoever begins in the midst of it, and to nobody before the band plays', () => {
    expect(said(ferry, started(ferry, 'Solos', 11, 1), 1)).toEqual([`Solos 1.11 ${LENGTH}`]);
    expect(spotToSay(lostSpots(ferry)[1]?.spots ?? [], [])).toBeNull();
    const water = roadOf(LOW_WATER);
    expect(said(water, started(water, 'Solos', 20, 1), 3)).toEqual([
      'Solos 1.21 same chord for 16: count 8 + 8',
      'Solos 1.22 same chord for 16: count 8 + 8',
    ]);
  });
});
