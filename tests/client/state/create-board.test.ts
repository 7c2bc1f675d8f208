import { beforeEach, describe, expect, it } from 'vitest';
import { openChart } from '../../../client/state/open-chart.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { readBook } from '../../../common/document/book-document.ts';
import { readChartDocument } from '../../../common/document/chart-document.ts';
import { addChart } from '../../../common/document/edit-book.ts';
import { setBarText, setHead } from '../../../common/document/edit-chart.ts';
import { writeLeading } from '../../../common/document/leading-document.ts';
import { writeTake } from '../../../common/document/stage-document.ts';
import { writeChartDocument } from '../../../common/document/write-chart-document.ts';
import { type SmallBand, type Stand, settled, smallBand } from './small-band.ts';

const TEXT = 'title: Slow Ferry\nkey: Eb blues\ntempo: 108\n\n[A]\n| Eb7 | Ab7 | Eb7 | C7 |\n';

describe('the board of a band', () => {
  let band: SmallBand;
  let ines: Stand;
  let bea: Stand;

  beforeEach(async () => {
    band = smallBand();
    ines = band.join('Ines', 'leader');
    bea = band.join('Bea', 'player');
    await settled();
  });

  const putChart = () => {
    const { chart } = readChart(TEXT);
    const handle = openChart(ines.board, 'c1');
    writeChartDocument(handle.doc, chart, handle.origin);
    addChart(ines.board.bookDoc, { id: 'c1', title: 'Slow Ferry', by: '', key: 'Eb blues', tempo: 108 });
    return { handle, bar: chart.sections[0]?.bars[1]?.id ?? '' };
  };

  it('shows everybody who is here, and what the leader points at', () => {
    expect(bea.board.people.get().map(({ name, isMe }) => [name, isMe])).toEqual([
      ['Ines', false],
      ['Bea', true],
    ]);
    ines.board.point({ chart: 'c1', bar: 'b2' });
    expect(bea.board.people.get()[0]?.point).toEqual({ chart: 'c1', bar: 'b2' });
    bea.me.set({ name: 'Beatriz', part: 'piano' });
    expect(ines.board.people.get().find(({ member }) => member === 'm-Bea')).toMatchObject({
      name: 'Beatriz',
      part: 'piano',
    });
  });

  it('gives two people two colours', () => {
    const colours = ines.board.people.get().map(({ colour }) => colour);
    expect(new Set(colours).size).toBe(2);
  });

  it('writes its members into the book, but no reader', async () => {
    band.join('Sub', 'reader');
    await settled();
    expect(readBook(band.document('book')).members.map(({ name }) => name)).toEqual(['Bea', 'Ines']);
  });

  it('folds the take once for each change of the stage', async () => {
    expect(bea.board.stage.get()).toEqual({ take: null, performance: null });
    const road = { legs: [], tempoBpm: 120, countBars: 2, key: '' };
    writeTake(band.document('stage'), { id: 't1', chart: 'c1', title: 'Slow Ferry', road, cues: [] });
    const first = bea.board.stage.get();
    expect(first.take?.id).toBe('t1');
    expect(bea.board.stage.get()).toBe(first);
  });

  it('shows on one stand what was typed on the other, with who, for twenty seconds', async () => {
    const { bar, handle } = putChart();
    const seen = openChart(bea.board, 'c1');
    await settled();
    expect(seen.chart.get()?.chart.head.title).toBe('Slow Ferry');
    expect(seen.fresh.get().size).toBe(0);
    setBarText(handle.doc, bar, 'Bbm7', handle.origin);
    expect(seen.chart.get()?.chart.sections[0]?.bars[1]?.text).toBe('Bbm7');
    expect(seen.fresh.get().get(bar)?.name).toBe('Ines');
    expect(handle.fresh.get().size).toBe(0);
    band.advance(19_000);
    expect(seen.fresh.get().size).toBe(1);
    band.advance(2_000);
    expect(seen.fresh.get().size).toBe(0);
  });

  it('undoes one’s own edits only, and again', async () => {
    const { bar, handle } = putChart();
    const other = openChart(bea.board, 'c1');
    await settled();
    setBarText(handle.doc, bar, 'Bbm7', handle.origin);
    setHead(other.doc, 'feel', 'swing', other.origin);
    expect(other.undoState.get()).toEqual({ canUndo: true, canRedo: false });
    handle.undo();
    const chart = () => other.chart.get()?.chart;
    expect(chart()?.sections[0]?.bars[1]?.text).toBe('Ab7');
    expect(chart()?.head.feel).toBe('swing');
    handle.redo();
    expect(chart()?.sections[0]?.bars[1]?.text).toBe('Bbm7');
  });

  it('keeps the book in step with a chart’s head', async () => {
    const { handle } = putChart();
    setHead(handle.doc, 'title', 'Fast Ferry', handle.origin);
    setHead(handle.doc, 'tempo', '180', handle.origin);
    expect(bea.board.book.get().charts[0]).toMatchObject({ title: 'Fast Ferry', tempo: 180 });
    handle.undo();
    expect(bea.board.book.get().charts[0]).toMatchObject({ title: 'Fast Ferry', tempo: 108 });
  });

  it('shows in which bar the others are', async () => {
    const { bar, handle } = putChart();
    const seen = openChart(bea.board, 'c1');
    await settled();
    handle.setCursor(bar);
    expect(seen.cursors.get()).toMatchObject([{ name: 'Ines', bar }]);
    handle.setCursor(null);
    expect(seen.cursors.get()).toEqual([]);
  });

  it('says saved only when the relay has it on its disk, and kept while the relay is away', async () => {
    const { bar, handle } = putChart();
    await settled();
    expect(handle.saved.get()).toBe('saved');
    ines.acknowledges.set(false);
    setBarText(handle.doc, bar, 'Gm7', handle.origin);
    expect(handle.saved.get()).toBe('saving');
    expect([...ines.unsent]).toContain('chart.c1');
    ines.link.set({ state: 'away' });
    expect(handle.saved.get()).toBe('kept');
    ines.acknowledges.set(true);
    ines.link.set({ state: 'on' });
    expect(handle.saved.get()).toBe('saved');
    expect([...ines.unsent]).toEqual([]);
  });

  it('sends what was typed while the relay was away when it is back, also from a chart nobody looks at', async () => {
    const { bar, handle } = putChart();
    await settled();
    ines.link.set({ state: 'away' });
    setBarText(handle.doc, bar, 'Gm7', handle.origin);
    handle.release();
    band.advance(60_000);
    expect(readChartDocument(band.document('chart.c1')).sections[0]?.bars[1]?.text).toBe('Ab7');
    ines.link.set({ state: 'on' });
    expect(readChartDocument(band.document('chart.c1')).sections[0]?.bars[1]?.text).toBe('Gm7');
  });

  it('loads a chart once for all who hold it, and lets it go when the last has released it', async () => {
    const first = openChart(ines.board, 'c1');
    const second = openChart(ines.board, 'c1');
    expect(second.doc).toBe(first.doc);
    expect(ines.rooms.get('chart.c1')).toBe(1);
    first.release();
    first.release();
    band.advance(5_000);
    expect(openChart(ines.board, 'c1').doc).toBe(second.doc);
    second.release();
    band.advance(5_000);
    expect(ines.rooms.get('chart.c1')).toBe(1);
  });

  it('says nothing of a chart until something of it is here', async () => {
    ines.link.set({ state: 'away' });
    const handle = openChart(ines.board, 'c2');
    await settled();
    expect(handle.chart.get()).toBeNull();
    ines.link.set({ state: 'on' });
    expect(handle.chart.get()?.chart.sections).toEqual([]);
  });

  it('lets nobody edit with a reader’s link, or a document that is newer than the page', async () => {
    const sub = band.join('Sub', 'reader');
    expect(openChart(sub.board, 'c1').canEdit).toBe(false);
    expect(openChart(bea.board, 'c1').canEdit).toBe(true);
    band.document('chart.c1').getMap('meta').set('schema', 99);
    await settled();
    expect(openChart(bea.board, 'c1').canEdit).toBe(false);
  });

  it('shows everybody who has the baton, and changes only when that changes', () => {
    expect(bea.board.leading.get()).toEqual({});
    writeLeading(band.document('stage'), { baton: 'm-Bea' });
    const leading = ines.board.leading.get();
    expect([leading, bea.board.leading.get()]).toEqual([{ baton: 'm-Bea' }, { baton: 'm-Bea' }]);
    const road = { legs: [], tempoBpm: 120, countBars: 2, key: '' };
    writeTake(band.document('stage'), { id: 't1', chart: 'c1', title: 'Slow Ferry', road, cues: [] });
    expect(ines.board.leading.get()).toBe(leading);
  });

  it('lets nobody edit or undo while the book is locked, leaders included', async () => {
    const { bar, handle } = putChart();
    await settled();
    setBarText(handle.doc, bar, 'Gm7', handle.origin);
    band.lock(true);
    expect([ines, bea].map(({ board }) => openChart(board, 'c1').canEdit)).toEqual([false, false]);
    handle.undo();
    expect(handle.chart.get()?.chart.sections[0]?.bars[1]?.text).toBe('Gm7');
    band.lock(false);
    expect(handle.canEdit).toBe(true);
    handle.undo();
    expect(handle.chart.get()?.chart.sections[0]?.bars[1]?.text).toBe('Ab7');
  });

  it('keeps what was typed while away through the lock, and merges it when it ends', async () => {
    const { bar, handle } = putChart();
    await settled();
    ines.link.set({ state: 'away' });
    setBarText(handle.doc, bar, 'Gm7', handle.origin);
    band.lock(true);
    ines.link.set({ state: 'on' });
    expect(handle.saved.get()).toBe('kept');
    const onRelay = () => readChartDocument(band.document('chart.c1')).sections[0]?.bars[1]?.text;
    expect(onRelay()).toBe('Ab7');
    expect([...ines.unsent]).toContain('chart.c1');
    band.lock(false);
    expect(onRelay()).toBe('Gm7');
    expect(handle.saved.get()).toBe('saved');
    expect([...ines.unsent]).toEqual([]);
  });

  it('says in words when the relay turns a document away for good', () => {
    bea.closeRoom('stage', 'The leader has renewed this link.');
    expect(bea.board.trouble.get()).toBe('The leader has renewed this link.');
  });
});
