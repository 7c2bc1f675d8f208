import { describe, expect, it } from 'vitest';
import { stepWords } from '../../../client/pencil/step-words.ts';
import { markedAt } from '../../../client/state/chart-places.ts';
import { makeId } from '../../../client/state/make-id.ts';
import {
  addBars,
  addRoadLine,
  deleteBars,
  setBarText,
  setHead,
} from '../../../common/document/edit-chart.ts';
import { openChart, type Writer } from './open-chart.ts';

const FERRY = 'tempo: 100\n[A]\n| F7 | Ab7 | Bb7 | Eb7 |\n';

const write = ({ handle: { doc, origin }, bar }: Writer, at: number, text: string) =>
  setBarText(doc, bar(at), text, origin);

/** Takes a step back, or does one again; what is said of it. */
const step = ({ handle, chart }: Writer, which: 'undo' | 'redo' = 'undo'): string | null => {
  const taken = handle[which]();
  return taken && stepWords(chart(), taken, which, (place) => handle.fresh.get().get(markedAt(place))?.name);
};

describe('a step of one’s own, taken back', () => {
  it('is told by what the place holds then; done again likewise', async () => {
    const { ines } = await openChart(FERRY);
    write(ines, 1, 'Ab9');
    setHead(ines.handle.doc, 'tempo', '140', ines.handle.origin);
    expect(step(ines)).toBe('Taken back: tempo is “100” again.');
    expect(step(ines)).toBe('Taken back: bar 2 is “Ab7” again.');
    expect(step(ines)).toBeNull();
    expect(step(ines, 'redo')).toBe('Done again: bar 2 is “Ab9”.');
  });

  it('of several bars, new ones or deleted ones, is told by which or how many', async () => {
    const { ines } = await openChart(FERRY);
    const { doc, origin } = ines.handle;
    const section = ines.chart().sections[0]?.id ?? '';
    addBars(doc, section, null, [{ text: 'C7' }, { text: 'F7' }], makeId, origin);
    deleteBars(doc, [ines.bar(2), ines.bar(3), ines.bar(4), ines.bar(5)], origin);
    expect(step(ines)).toBe('Taken back: 4 bars.');
    expect(step(ines)).toBe('Taken back: 2 bars.');
    expect(step(ines, 'redo')).toBe('Done again: bar 1, bar 2.');
  });

  it('does nothing where another has written over it, says so, and is over', async () => {
    const { ines, tomas } = await openChart(FERRY);
    write(tomas, 1, 'Ab13');
    write(ines, 0, 'Fmaj7');
    write(tomas, 0, 'F9 Bb9');
    write(ines, 0, 'Fmaj7');
    expect(step(tomas)).toBe('Ines has changed bar 1 since: nothing of yours is left to take back there.');
    expect(tomas.texts()).toEqual(['Fmaj7 Ab13 Bb7 Eb7']);
    expect(step(tomas)).toBe('Taken back: bar 2 is “Ab7” again.');
    // What comes back with the step of one is said, whoever wrote it.
    expect(step(ines)).toBe('Taken back: bar 1 is “F9 Bb9” again.');
    expect(step(ines)).toBe('Tomas has changed bar 1 since: nothing of yours is left to take back there.');
    expect(ines.texts()).toEqual(['F9 Bb9 Ab7 Bb7 Eb7']);
  });

  it('is told of the header and the road likewise', async () => {
    const { ines, tomas } = await openChart(FERRY);
    setHead(ines.handle.doc, 'tempo', '140', ines.handle.origin);
    setHead(tomas.handle.doc, 'tempo', '150', tomas.handle.origin);
    expect(step(ines)).toBe('Tomas has changed tempo since: nothing of yours is left to take back there.');
    expect(step(tomas)).toBe('Taken back: tempo is “140” again.');
    const line = { name: 'Head', sections: 'A', times: '', words: '' };
    addRoadLine(ines.handle.doc, line, null, makeId, ines.handle.origin);
    expect(step(ines)).toBe('Taken back: 1 leg.');
    expect(step(ines, 'redo')).toBe('Done again: leg Head.');
  });

  it('goes back to what stood there before, where the other one has taken the step over it back', async () => {
    const { ines, tomas } = await openChart(FERRY);
    write(ines, 0, 'Fmaj7');
    write(tomas, 0, 'F9');
    expect(step(tomas)).toBe('Taken back: bar 1 is “Fmaj7” again.');
    expect(step(ines)).toBe('Taken back: bar 1 is “F7” again.');
    expect(tomas.texts()).toEqual(['F7 Ab7 Bb7 Eb7']);
  });

  it('leaves what another has changed of it since, and says which', async () => {
    const { ines, tomas } = await openChart(FERRY);
    const { doc, origin } = ines.handle;
    doc.transact(() => {
      for (const at of [0, 1, 2]) write(ines, at, 'C7');
    }, origin);
    write(tomas, 1, 'D7');
    expect(step(ines)).toBe('Taken back: bar 1, bar 3. Tomas has changed bar 2 since: that stays.');
    expect(ines.texts()).toEqual(['F7 D7 Bb7 Eb7']);
  });

  it('never brings back a bar that another has deleted, nor takes one away that another has written into', async () => {
    const { ines, tomas } = await openChart(FERRY);
    const { doc, origin } = ines.handle;
    write(ines, 3, 'Eb9');
    deleteBars(tomas.handle.doc, [tomas.bar(3)], tomas.handle.origin);
    expect(step(ines)).toBe('Tomas has deleted that since: nothing of yours is left to take back there.');
    expect(ines.texts()).toEqual(['F7 Ab7 Bb7']);
    addBars(doc, ines.chart().sections[0]?.id ?? '', ines.bar(2), [{ text: '' }], makeId, origin);
    write(tomas, 3, 'C7');
    expect(step(ines)).toBe('Tomas has changed bar 4 since: nothing of yours is left to take back there.');
    expect(tomas.texts()).toEqual(['F7 Ab7 Bb7 C7']);
  });
});
