import type { ReactNode } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { barNumbers, countsOtherwise, lostList, sideBySide } from '../../../client/pencil/lost-list.ts';
import { LostSpots } from '../../../client/pencil/lost-spots.tsx';
import type { ChartHandle } from '../../../client/state/chart-handle.ts';
import { SLOW_FERRY } from '../../../common/demo/slow-ferry.ts';
import { setBarText } from '../../../common/document/edit-chart.ts';
import { addSpot, bringBackSpot, dismissSpot } from '../../../common/document/edit-lost-spots.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { countingIds } from '../../../common/ids.ts';
import { openChart, type Writer } from './open-chart.ts';

const drawn = (node: ReactNode): string => renderToStaticMarkup(node);
const nothing = () => {};
const asReader = (handle: ChartHandle): ChartHandle => Object.create(handle, { canEdit: { value: false } });

const stateOf = ({ handle }: Writer) => {
  const state = handle.chart.get();
  if (state === null) throw new Error('the chart has not been loaded');
  return state;
};
const listOf = (writer: Writer) => {
  const { chart, said } = stateOf(writer);
  return lostList(unroll(chart).road, said);
};
const seamOf = (writer: Writer) => {
  const seam = listOf(writer).spots.find(({ spot }) => spot.kind === 'seam');
  if (!seam) throw new Error('there is a seam');
  return seam;
};
const list = (writer: Writer, chosen: readonly number[] = [], handle = writer.handle): string =>
  drawn(
    <LostSpots
      handle={handle}
      state={stateOf(writer)}
      chosen={chosen.map((at) => writer.bar(at))}
      onShow={nothing}
    />,
  );
/** The names of the keys, as they are said. */
const keys = (html: string): string[] =>
  [...html.matchAll(/<button[^>]*aria-label="([^"]+)"/g)].map(([, name = '']) => name);

describe('the list of lost spots', () => {
  it('has each spot once, the likeliest first, with its words, why, its bars and the legs in which it lies', async () => {
    const { ines } = await openChart(SLOW_FERRY);
    expect(listOf(ines).spots.map(({ spot, legs }) => [spot.kind, spot.weight, legs.join(', ')])).toEqual([
      ['formLength', 80, 'Head, Solos, Head out'],
      ['seam', 65, 'Head, Solos'],
      ['break', 50, 'Head, Solos, Head out, Tag'],
    ]);
    const html = list(ines);
    expect(html).toContain('same chord for 5: listen for the fill in 16');
    expect(html).toContain('5 bars over the top: 1 + 4 of ');
    expect(html).toContain('bars 16–4, Head, Solos');
    expect(html.indexOf('13 is not the top')).toBeLessThan(html.indexOf('same chord for 5'));
  });

  it('names its keys by what they act on, and has none where one may not edit', async () => {
    const { ines } = await openChart(SLOW_FERRY);
    dismissSpot(ines.handle.doc, seamOf(ines).spot.id);
    addSpot(ines.handle.doc, { from: ines.bar(4), to: ines.bar(5), words: 'bass alone' }, countingIds('n'));
    expect(keys(list(ines))).toEqual([
      'delete: bass alone',
      'dismiss: 16 bars: 13 is not the top',
      'dismiss: break in 15, in again at 16',
      'bring back: same chord for 5: listen for the fill in 16',
    ]);
    const reading = list(ines, [4], asReader(ines.handle));
    expect(keys(reading)).toEqual([]);
    expect(reading).not.toContain('<input');
    expect(reading).toContain('bass alone');
  });

  it('asks for words for the bars that are chosen', async () => {
    const { ines } = await openChart(SLOW_FERRY);
    expect(list(ines)).not.toContain('<input');
    expect(list(ines, [4, 5, 6])).toContain('One more, bars 5–7: in few words');
    expect(list(ines, [4])).toContain('One more, bar 5: in few words');
  });

  it('says where none are, and where the words count otherwise than the paper', async () => {
    const { ines } = await openChart('[A]\n| Dm7 | G7 | Em7 | A7 |\n');
    expect(list(ines)).toContain('None are found');
    const { ines: other } = await openChart(
      `${SLOW_FERRY.replace('[A]', '[In]\n| Eb7 | Eb7 |\n[A]').replace('  Head:', '  Intro: In\n  Head:')}`,
    );
    const seam = seamOf(other);
    expect(barNumbers(stateOf(other).chart, seam.spot.bars)).toBe('bars 18–6');
    expect(countsOtherwise(stateOf(other).chart, seam.spot)).toBe(true);
    expect(list(other)).toContain('count from the top of a pass');
    const { ines: plain } = await openChart(SLOW_FERRY);
    expect(list(plain)).not.toContain('count from the top of a pass');
  });

  it('keeps the words of an added spot whose bars are gone', async () => {
    const { ines } = await openChart('[A]\n| Dm7 | G7 | Em7 | A7 |\n');
    addSpot(ines.handle.doc, { from: 'gone', to: 'gone', words: 'bass alone' }, countingIds('n'));
    expect(list(ines)).toMatch(/bass alone.*in no leg any more/);
    expect(keys(list(ines))).toEqual(['delete: bass alone']);
  });
});

describe('touching a spot', () => {
  it('chooses the bars that stand side by side: of a seam those before the top', async () => {
    const { ines } = await openChart(SLOW_FERRY);
    const { chart } = stateOf(ines);
    expect(sideBySide(chart, seamOf(ines).spot.bars)).toEqual([ines.bar(15)]);
    expect(sideBySide(chart, [ines.bar(3), ines.bar(4), ines.bar(5)])).toHaveLength(3);
    expect(sideBySide(chart, ['gone', ines.bar(4)])).toEqual([ines.bar(4)]);
  });
});

describe('a dismissal', () => {
  it('is there for the other at once, stays through edits elsewhere, and is one’s own to undo', async () => {
    const { ines, tomas } = await openChart(SLOW_FERRY);
    dismissSpot(ines.handle.doc, seamOf(ines).spot.id, ines.handle.origin);
    expect(seamOf(tomas).isDismissed).toBe(true);
    setBarText(tomas.handle.doc, tomas.bar(8), 'Fm9', tomas.handle.origin);
    expect(seamOf(tomas).isDismissed).toBe(true);
    ines.handle.undo();
    expect(seamOf(tomas).isDismissed).toBe(false);
    expect(tomas.texts().join(' ')).toContain('Fm9');
    ines.handle.redo();
    expect(seamOf(tomas).isDismissed).toBe(true);
    bringBackSpot(tomas.handle.doc, seamOf(tomas).spot.id, tomas.handle.origin);
    expect(seamOf(ines).isDismissed).toBe(false);
  });

  it('[LOST-10] is no longer one where its bars are others', async () => {
    const { ines } = await openChart(SLOW_FERRY);
    dismissSpot(ines.handle.doc, seamOf(ines).spot.id);
    // Another chord in bar 4: the seam is a bar shorter.
    setBarText(ines.handle.doc, ines.bar(3), 'Bb7');
    expect(seamOf(ines).spot.reason).toContain('4 bars over the top: 1 + 3');
    expect(seamOf(ines).isDismissed).toBe(false);
    setBarText(ines.handle.doc, ines.bar(3), '%');
    expect(seamOf(ines).isDismissed).toBe(true);
  });
});
