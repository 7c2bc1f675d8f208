import { afterEach, describe, expect, it } from 'vitest';
import { type OwnWords, openOwnWords } from '../../../client/pencil/own-words.ts';
import { makeId } from '../../../client/state/make-id.ts';
import { openOwnTexts } from '../../../client/storage/own-texts.ts';
import { memoryStore, type TextStore } from '../../../client/storage/stored-json.ts';
import {
  addRoadLine,
  deleteSection,
  moveSection,
  renameSection,
  setBarText,
  setHead,
  setRoadLine,
} from '../../../common/document/edit-chart.ts';
import { openChart, type Writer } from './open-chart.ts';

const FERRY = '[A]\n| Eb7 | Ab7 | Bb7 | Eb7 |\n[B]\n| Fm7 | Bb7 |\n';
const DAY_MS = 24 * 3_600_000;

const ends: (() => void)[] = [];
afterEach(() => {
  for (const end of ends.splice(0)) end();
});

const ownWords = (
  { handle }: Writer,
  store: TextStore = memoryStore(),
  nowMs: number | (() => number) = 0,
): OwnWords => {
  const now = typeof nowMs === 'number' ? () => nowMs : nowMs;
  const own = openOwnWords(handle, openOwnTexts(store, handle.id, 'c1', now), now);
  ends.push(own.watch());
  return own;
};

const place = ({ bar }: Writer, at: number): string => `bars.${bar(at)}.text`;

const write = ({ editing, bar }: Writer, at: number, text: string) => {
  editing.open(bar(at));
  editing.type(text);
  editing.write();
};

describe('what one typed and somebody else wrote over', () => {
  it('is told with who did it to the one who lost it, and to nobody else', async () => {
    const { ines, tomas } = await openChart(FERRY);
    const [of, others] = [ownWords(ines), ownWords(tomas)];
    write(ines, 1, 'Ab9');
    expect(of.get()).toEqual([]);
    write(tomas, 1, 'Ab13');
    expect(of.get()).toEqual([{ place: place(ines, 1), called: 'bar 2', text: 'Ab9', who: 'Tomas' }]);
    expect(others.get()).toEqual([]);
  });

  it('is not told where the other one, who was here all the time, wrote it long after', async () => {
    const { ines, tomas } = await openChart(FERRY);
    let nowMs = 0;
    const of = ownWords(ines, memoryStore(), () => nowMs);
    write(ines, 1, 'Ab9');
    nowMs = 61_000;
    write(tomas, 1, 'Ab13');
    expect(of.get()).toEqual([]);
    write(ines, 1, 'Ab7');
    nowMs += 59_000;
    write(tomas, 1, 'Ab13');
    expect(of.get()).toMatchObject([{ text: 'Ab7', who: 'Tomas' }]);
    nowMs += 120_000;
    write(tomas, 2, 'Bb9');
    expect(of.get()).toMatchObject([{ text: 'Ab7', who: 'Tomas' }]);
  });

  it('is told where both had the bar open and pressed Enter one after the other', async () => {
    const { ines, tomas } = await openChart(FERRY);
    const [of, others] = [ownWords(ines), ownWords(tomas)];
    for (const [writer, text] of [[ines, 'Eb9'] as const, [tomas, 'Eb13'] as const]) {
      writer.editing.open(writer.bar(0));
      writer.editing.type(text);
    }
    ines.editing.write();
    tomas.editing.write();
    expect(tomas.texts()[0]).toMatch(/^Eb13 /);
    expect(of.get()).toMatchObject([{ text: 'Eb9', who: 'Tomas' }]);
    of.putBack([place(ines, 0)]);
    expect(tomas.texts()[0]).toMatch(/^Eb9 /);
    expect(of.get()).toEqual([]);
    // Now it is the other one who is asked.
    expect(others.get()).toMatchObject([{ text: 'Eb13', who: 'Ines' }]);
    ines.handle.undo();
    expect(tomas.texts()[0]).toMatch(/^Eb13 /);
    expect(others.get()).toEqual([]);
  });

  it('is there until it is let go, or the bar is written again', async () => {
    const { ines, tomas } = await openChart(FERRY);
    const of = ownWords(ines);
    write(ines, 0, 'Eb9');
    write(ines, 4, 'Fm9');
    write(tomas, 0, 'Eb13');
    write(tomas, 4, 'Fm11');
    write(tomas, 5, 'Bb13');
    expect(of.get().map(({ called }) => called)).toEqual(['bar 1', 'bar 5']);
    of.letGo([place(ines, 0)]);
    expect(of.get().map(({ called }) => called)).toEqual(['bar 5']);
    write(ines, 4, 'Fm7 Bb7');
    expect(of.get()).toEqual([]);
    expect(tomas.texts()).toEqual(['Eb13 Ab7 Bb7 Eb7', 'Fm7 Bb7 Bb13']);
  });

  it('is gone by itself where the other one takes the step back', async () => {
    const { ines, tomas } = await openChart(FERRY);
    const of = ownWords(ines);
    write(ines, 2, 'Bb7sus');
    write(tomas, 2, 'E7');
    expect(of.get()).toHaveLength(1);
    tomas.handle.undo();
    expect(ines.texts()[0]).toBe('Eb7 Ab7 Bb7sus Eb7');
    expect(of.get()).toEqual([]);
  });

  it('is told of bars that typing made, and not of what one took back oneself', async () => {
    const { ines, tomas } = await openChart(FERRY);
    const of = ownWords(ines);
    write(ines, 5, 'Bb7 | Bb13');
    write(tomas, 6, 'E9');
    expect(of.get()).toMatchObject([{ called: 'bar 7', text: 'Bb13' }]);
    of.letGo([place(ines, 6)]);
    write(ines, 0, 'Eb9');
    ines.handle.undo();
    write(tomas, 0, 'Eb13');
    expect(of.get()).toEqual([]);
  });

  it('is found when the chart is opened again, a week later too, but not for ever', async () => {
    const { ines, tomas } = await openChart(FERRY);
    const store = memoryStore();
    ownWords(ines, store);
    write(ines, 0, 'Eb9');
    for (const end of ends.splice(0)) end();
    setBarText(tomas.handle.doc, tomas.bar(0), 'Eb13', tomas.handle.origin);
    expect(ownWords(ines, store, 7 * DAY_MS).get()).toMatchObject([{ called: 'bar 1', text: 'Eb9' }]);
    expect(ownWords(ines, store, 9 * DAY_MS).get()).toEqual([]);
  });
});

describe('what one wrote beside the bars and somebody else wrote over', () => {
  const TUNE = 'title: Ferry\ntempo: 100\n[A]\n| Eb7 | Ab7 |\nroad:\n  Head: A\n  Solos: A open\n';

  it('is told of the header, the names of sections and the road, and put back with one touch', async () => {
    const { ines, tomas } = await openChart(TUNE);
    const [of, others] = [ownWords(ines), ownWords(tomas)];
    const [section, solos] = [ines.chart().sections[0]?.id ?? '', ines.chart().road[1]?.id ?? ''];
    const both: readonly (readonly [Writer, string])[] = [
      [ines, '1'],
      [tomas, '2'],
    ];
    for (const [{ handle }, sign] of both) {
      setHead(handle.doc, 'tempo', `14${sign}`, handle.origin);
      renameSection(handle.doc, section, `A${sign}`, handle.origin);
      setRoadLine(handle.doc, solos, { times: `x${sign}` }, handle.origin);
    }
    expect(of.get().map(({ called, text, who }) => `${who}: ${called} ${text}`)).toEqual([
      'Tomas: tempo 141',
      'Tomas: name of section A2 A1',
      'Tomas: times of Solos x1',
    ]);
    expect(others.get()).toEqual([]);
    of.putBack(of.get().map(({ place: at }) => at));
    expect(of.get()).toEqual([]);
    const { head, sections, road } = tomas.chart();
    expect([head.tempo, sections[0]?.label, road[1]?.times]).toEqual(['141', 'A1', 'x1']);
    expect(others.get()).toHaveLength(3);
  });

  it('is not told of what nobody typed: a leg that was added, a section that was moved or deleted', async () => {
    const { ines, tomas } = await openChart(`${TUNE.replace('road:', '[B]\n| F7 |\nroad:')}`);
    const of = ownWords(ines);
    const { doc, origin } = ines.handle;
    const leg = addRoadLine(doc, { name: 'leg', sections: '', times: '', words: '' }, null, makeId, origin);
    setRoadLine(tomas.handle.doc, leg, { name: 'Vamp' }, tomas.handle.origin);
    const [a = '', b = ''] = ines.chart().sections.map(({ id }) => id);
    moveSection(doc, b, null, makeId, origin);
    renameSection(tomas.handle.doc, b, 'Bridge', tomas.handle.origin);
    renameSection(doc, a, 'Verse', origin);
    deleteSection(tomas.handle.doc, a, tomas.handle.origin);
    expect(of.get()).toEqual([]);
  });
});

describe('what was typed on this tablet', () => {
  it('is kept by member and chart; nonsense beside it is left out', () => {
    const store = memoryStore();
    const open = (member: string, chart: string) => openOwnTexts(store, member, chart, () => 5);
    open('ines', 'c1').set('b1', 'Eb9');
    open('ines', 'c2').set('b1', 'F7');
    open('tomas', 'c1').set('b1', 'G7');
    expect([...open('ines', 'c1').get()]).toEqual([['b1', { text: 'Eb9', atMs: 5 }]]);
    open('ines', 'c1').set('b1', null);
    expect([...open('ines', 'c1').get()]).toEqual([]);
    expect([...open('ines', 'c2').get()]).toEqual([['b1', { text: 'F7', atMs: 5 }]]);
    store.setItem('tillcue.typed.bea', '{"c1":{"b1":7,"b2":{"text":"A7","atMs":4},"b3":{"text":1}},"c2":[]}');
    expect([...open('bea', 'c1').get()]).toEqual([['b2', { text: 'A7', atMs: 4 }]]);
  });
});
