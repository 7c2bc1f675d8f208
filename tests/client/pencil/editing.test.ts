import { describe, expect, it } from 'vitest';
import { chosenIn } from '../../../client/pencil/editing.ts';
import { barAt } from '../../../client/pencil/neighbours.ts';
import { deleteBars, deleteSection, setBarText } from '../../../common/document/edit-chart.ts';
import { openChart } from './open-chart.ts';

const FERRY = '[A]\n| Eb7 | Ab7 | Bb7 | Eb7 |\n[B]\n| Fm7 | Bb7 |\n';

describe('typing into a bar', () => {
  it('is written when one goes on, and not before', async () => {
    const { ines } = await openChart(FERRY);
    ines.editing.open(ines.bar(0));
    ines.editing.type('Eb9');
    expect(ines.texts()[0]).toBe('Eb7 Ab7 Bb7 Eb7');
    ines.editing.write(1);
    expect(ines.texts()[0]).toBe('Eb9 Ab7 Bb7 Eb7');
    expect(ines.editing.get().draft).toMatchObject({ bar: ines.bar(1), text: 'Ab7' });
  });

  it('is forgotten when it is dropped, and writes nothing where nothing was typed', async () => {
    const { ines } = await openChart(FERRY);
    ines.editing.open(ines.bar(0));
    ines.editing.type('Eb9');
    ines.editing.drop();
    ines.editing.open(ines.bar(1));
    ines.editing.write();
    expect(ines.texts()[0]).toBe('Eb7 Ab7 Bb7 Eb7');
    expect(ines.handle.undoState.get().canUndo).toBe(false);
  });

  it('is written when another bar is opened, and when the page goes away', async () => {
    const { ines } = await openChart(FERRY);
    ines.editing.open(ines.bar(0));
    ines.editing.type('Eb9');
    ines.editing.open(ines.bar(4));
    ines.editing.type('Fm9');
    ines.stop();
    expect(ines.texts()).toEqual(['Eb9 Ab7 Bb7 Eb7', 'Fm9 Bb7']);
  });

  it('is one step for undo, whatever it becomes', async () => {
    const { ines } = await openChart(FERRY);
    ines.editing.open(ines.bar(1));
    ines.editing.type('Ab7 | A° | Eb7/Bb');
    ines.editing.write();
    expect(ines.texts()[0]).toBe('Eb7 Ab7 A° Eb7/Bb Bb7 Eb7');
    ines.handle.undo();
    expect(ines.texts()[0]).toBe('Eb7 Ab7 Bb7 Eb7');
  });

  it('goes on into a bar of its own at a bar line, and into an empty one that waits', async () => {
    const { ines } = await openChart('[A]\n| C7 | | F7 |\n');
    ines.editing.open(ines.bar(0));
    ines.editing.type('C9 | ');
    ines.editing.type('C9 | G');
    expect(ines.texts()[0]).toBe('C9 - F7');
    expect(ines.editing.get().draft).toMatchObject({ bar: ines.bar(1), text: 'G', caret: 'end' });
    ines.editing.type('G7 |');
    ines.editing.type('G7 |B');
    expect(ines.texts()[0]).toBe('C9 G7 - F7');
    expect(ines.editing.get().draft?.bar).toBe(ines.bar(2));
  });

  it('makes a bar at the end of the chart, in lines of four', async () => {
    const { ines } = await openChart('[A]\n| |\n');
    ines.editing.open(ines.bar(0));
    for (const chord of ['C7', 'F7', 'C7', 'G7', 'F7', 'F7', 'C7', 'G7', 'C7']) {
      ines.editing.type(chord);
      ines.editing.write(1);
    }
    // The last one stays empty: it was only waiting.
    ines.editing.write(1);
    expect(ines.music()).toBe('[A]\n| C7 | F7 | C7 | G7 |\n| F7 | F7 | C7 | G7 |\n| C7 |\n');
    expect(ines.editing.get().draft).toBeNull();
  });

  it('makes bars at the end of a section that is being written, but not where one only goes through', async () => {
    const { ines } = await openChart('[A]\n| C7 | |\n[B]\n| G7 |\n');
    ines.editing.open(ines.bar(1));
    ines.editing.type('F7');
    ines.editing.write(1);
    ines.editing.type('Bb7');
    ines.editing.write(1);
    ines.editing.drop();
    expect(ines.texts()).toEqual(['C7 F7 Bb7', 'G7']);
    expect(ines.editing.get().bar).toBe(ines.bar(2));
    ines.editing.open(ines.bar(2));
    ines.editing.type('Eb7');
    ines.editing.write(1);
    expect(ines.editing.get().draft?.bar).toBe(ines.bar(3));
    expect(ines.texts()).toEqual(['C7 F7 Eb7', 'G7']);
  });

  it('keeps the empty bar it has made where a tool is to work on it', async () => {
    const { ines } = await openChart('[A]\n| |\n');
    ines.editing.open(ines.bar(0));
    ines.editing.type('C7');
    ines.editing.write(1);
    ines.editing.settle();
    expect(ines.texts()).toEqual(['C7 -']);
    expect(ines.editing.get()).toMatchObject({ bar: ines.bar(1), draft: null });
  });

  it('keeps what closed the bar behind the bars that come of it', async () => {
    const { ines } = await openChart('[A]\n|: C7 | F7 :|x3\n| |\n');
    ines.editing.open(ines.bar(1));
    ines.editing.type('F7 | G7');
    ines.editing.write();
    expect(ines.music()).toBe('[A]\n|: C7 | F7 | G7 :|x3\n|    |\n');
  });

  it('begins a section at a name in brackets, or renames the one that begins there', async () => {
    const { ines } = await openChart(FERRY);
    ines.editing.open(ines.bar(2));
    ines.editing.type('[Bridge] Bb9 | Eb9');
    ines.editing.write();
    expect(ines.music()).toBe('[A]\n| Eb7 | Ab7 |\n[Bridge]\n| Bb9 | Eb9 | Eb7 |\n[B]\n| Fm7 | Bb7 |\n');
    ines.handle.undo();
    expect(ines.music()).toBe('[A]\n| Eb7 | Ab7 | Bb7 | Eb7 |\n[B]\n| Fm7 | Bb7 |\n');
    ines.editing.open(ines.bar(4));
    ines.editing.type('[C] Fm9');
    ines.editing.write();
    expect(ines.chart().sections.map(({ label }) => label)).toEqual(['A', 'C']);
    expect(ines.texts()[1]).toBe('Fm9 Bb7');
  });

  it('goes on over a bar line into a section that is begun there', async () => {
    const { ines } = await openChart('[A]\n| C7 |\n');
    ines.editing.open(ines.bar(0));
    ines.editing.type('C7 | ');
    ines.editing.type('C7 | [');
    ines.editing.type('[B] F7');
    ines.editing.write();
    expect(ines.music()).toBe('[A]\n| C7 |\n[B]\n| F7 |\n');
  });

  it('writes the signs that are typed', async () => {
    const { ines } = await openChart('[A]\n| C7 |\n');
    ines.editing.open(ines.bar(0));
    ines.editing.type('|: C7 |1. F7 :|2. G7 |]');
    ines.editing.write();
    expect(ines.music()).toBe('[A]\n|: C7 |1. F7 :|2. G7 |]\n');
  });
});

describe('what somebody else does meanwhile', () => {
  it('shows in a bar that is open and untouched', async () => {
    const { ines, tomas } = await openChart(FERRY);
    ines.editing.open(ines.bar(0));
    setBarText(tomas.handle.doc, tomas.bar(0), 'Eb13', tomas.handle.origin);
    expect(ines.editing.get().draft?.text).toBe('Eb13');
    ines.editing.write();
    expect(tomas.texts()[0]).toBe('Eb13 Ab7 Bb7 Eb7');
  });

  it('does not touch what is being typed, and can be taken instead', async () => {
    const { ines, tomas } = await openChart(FERRY);
    ines.editing.open(ines.bar(0));
    ines.editing.type('Eb9');
    setBarText(tomas.handle.doc, tomas.bar(0), 'Eb13', tomas.handle.origin);
    expect(ines.editing.get().draft).toMatchObject({ base: 'Eb7', text: 'Eb9' });
    ines.editing.takeTheirs();
    ines.editing.write();
    expect(tomas.texts()[0]).toBe('Eb13 Ab7 Bb7 Eb7');
    ines.editing.open(ines.bar(1));
    ines.editing.type('Ab9');
    setBarText(tomas.handle.doc, tomas.bar(1), 'Ab13', tomas.handle.origin);
    ines.editing.write();
    expect(tomas.texts()[0]).toBe('Eb13 Ab9 Bb7 Eb7');
  });

  it('sets what was being typed into a deleted bar apart, with who deleted it, to be put back', async () => {
    const { ines, tomas } = await openChart(FERRY);
    const bar = ines.bar(2);
    ines.editing.open(bar);
    ines.editing.type('Bb7sus');
    deleteBars(tomas.handle.doc, [bar], tomas.handle.origin);
    expect(ines.texts()[0]).toBe('Eb7 Ab7 Eb7');
    expect(ines.editing.get()).toMatchObject({
      bar: null,
      draft: null,
      lost: [{ bar, text: 'Bb7sus', number: 3, who: 'Tomas' }],
    });
    ines.editing.typeLost(0, 'Bb7sus Bb7');
    ines.editing.putBack(0);
    expect(tomas.texts()[0]).toBe('Eb7 Ab7 Bb7sus Bb7 Eb7');
    expect(ines.editing.get().lost).toEqual([]);
    ines.handle.undo();
    expect(tomas.texts()[0]).toBe('Eb7 Ab7 Eb7');
  });

  it('keeps such a draft while one goes on elsewhere, and lets it go only when asked', async () => {
    const { ines, tomas } = await openChart(FERRY);
    ines.editing.open(ines.bar(2));
    ines.editing.type('Bb7sus');
    deleteBars(tomas.handle.doc, [tomas.bar(2)], tomas.handle.origin);
    ines.editing.open(ines.bar(0));
    ines.editing.type('Eb9');
    ines.editing.write(1);
    expect(ines.editing.get().lost).toHaveLength(1);
    ines.editing.letGo(0);
    expect(ines.editing.get().lost).toEqual([]);
  });

  it('keeps it also where the whole section is gone', async () => {
    const { ines, tomas } = await openChart(FERRY);
    ines.editing.open(ines.bar(5));
    ines.editing.type('Bb13');
    const section = tomas.chart().sections[1]?.id ?? '';
    deleteSection(tomas.handle.doc, section, tomas.handle.origin);
    ines.editing.putBack(0);
    expect(ines.texts()).toEqual(['Eb7 Ab7 Bb7 Eb7', 'Bb13']);
    expect(ines.chart().sections[1]?.label).toBe('recovered');
  });

  it('sets nothing apart where nothing was typed', async () => {
    const { ines, tomas } = await openChart(FERRY);
    ines.editing.open(ines.bar(2));
    deleteBars(tomas.handle.doc, [tomas.bar(2)], tomas.handle.origin);
    expect(ines.editing.get()).toMatchObject({ bar: null, draft: null, lost: [] });
  });

  it('brings what was typed back at the end where another program removed the bar for good', async () => {
    const { ines, tomas } = await openChart(FERRY);
    ines.editing.open(ines.bar(2));
    ines.editing.type('Bb7sus');
    tomas.handle.doc.getMap('bars').delete(tomas.bar(2));
    ines.editing.putBack(0);
    expect(ines.texts()).toEqual(['Eb7 Ab7 Eb7', 'Fm7 Bb7 Bb7sus']);
  });
});

describe('choosing bars', () => {
  it('takes all from the first to the last, whichever is touched first', async () => {
    const { ines } = await openChart(FERRY);
    ines.editing.choose(ines.bar(4));
    ines.editing.choose(ines.bar(2), true);
    expect(chosenIn(ines.chart(), ines.editing.get())).toEqual([2, 3, 4].map(ines.bar));
    ines.editing.choose(ines.bar(5), true);
    expect(chosenIn(ines.chart(), ines.editing.get())).toEqual([4, 5].map(ines.bar));
  });

  it('goes on with the bars that are left', async () => {
    const { ines, tomas } = await openChart(FERRY);
    ines.editing.chooseAll([ines.bar(1), ines.bar(3)]);
    deleteBars(tomas.handle.doc, [tomas.bar(1)], tomas.handle.origin);
    const [only] = chosenIn(ines.chart(), ines.editing.get());
    expect(barAt(ines.chart(), only ?? '')?.bar.text).toBe('Eb7');
  });

  it('writes what is being typed first', async () => {
    const { ines } = await openChart(FERRY);
    ines.editing.open(ines.bar(0));
    ines.editing.type('Eb9');
    ines.editing.choose(ines.bar(3), true);
    expect(ines.texts()[0]).toBe('Eb9 Ab7 Bb7 Eb7');
    expect(chosenIn(ines.chart(), ines.editing.get())).toHaveLength(4);
  });
});

describe('putting chosen bars elsewhere', () => {
  const chooseSecondAndThird = async (mode: 'move' | 'copy') => {
    const { ines } = await openChart(FERRY);
    ines.editing.chooseAll([ines.bar(1), ines.bar(2)]);
    ines.editing.touchTo(mode);
    return ines;
  };

  it('moves them before or behind any bar, into other sections too', async () => {
    const ines = await chooseSecondAndThird('move');
    ines.editing.place(ines.bar(4), 'after');
    expect(ines.texts()).toEqual(['Eb7 Eb7', 'Fm7 Ab7 Bb7 Bb7']);
    expect(ines.editing.get().mode).toBe('edit');
    ines.editing.touchTo('move');
    ines.editing.place(ines.bar(0), 'before');
    expect(ines.texts()).toEqual(['Ab7 Bb7 Eb7 Eb7', 'Fm7 Bb7']);
  });

  it('moves nothing where they go beside themselves', async () => {
    const ines = await chooseSecondAndThird('move');
    ines.editing.place(ines.bar(3), 'before');
    expect(ines.texts()[0]).toBe('Eb7 Ab7 Bb7 Eb7');
    ines.editing.touchTo('move');
    ines.editing.place(ines.bar(1), 'after');
    expect(ines.texts()[0]).toBe('Eb7 Ab7 Bb7 Eb7');
  });

  it('copies them, and has the copies at hand', async () => {
    const ines = await chooseSecondAndThird('copy');
    ines.editing.place(ines.bar(5), 'before');
    expect(ines.texts()).toEqual(['Eb7 Ab7 Bb7 Eb7', 'Fm7 Ab7 Bb7 Bb7']);
    expect(chosenIn(ines.chart(), ines.editing.get())).toEqual([5, 6].map(ines.bar));
  });
});
