import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import { readChart } from '../../common/chart/read-chart.ts';
import { readLeading } from '../../common/document/leading-document.ts';
import { readStage } from '../../common/document/stage-document.ts';
import { writeChartDocument } from '../../common/document/write-chart-document.ts';
import { CLOSE_CODES } from '../../common/protocol/close-codes.ts';
import { sentenceOf } from '../../common/protocol/close-sentences.ts';
import type { LeadChange } from '../../common/stage/leading.ts';
import { awarenessFrame, updateFrame } from '../../server/sync-frame.ts';
import { childRelays } from './support/child-relay.ts';
import { liveSocket } from './support/live-socket.ts';
import { rawSocket, type SyncSocket, statesOf, syncSocket } from './support/raw-socket.ts';
import { makeBand, type TestBand, type TestRelay, testData, testRelay } from './support/test-relay.ts';
import { until } from './support/wait-until.ts';

const startRelay = childRelays();

const CHART =
  'title: Slow Ferry\nkey: Eb\ntempo: 120\n\n[A]\n| Eb7 | Ab7 | Eb7 | Bb7 |\n\nroad:\n  Head: A\n  Solos: A open\n';

/** A band whose tune waits on the stage. Ines leads. */
const band = async (relay: TestRelay) => {
  const made = await makeBand(relay.http);
  relay.rooms
    .open(made.band, 'chart.ferry')
    .write(77, (doc) => writeChartDocument(doc, readChart(CHART).chart));
  const join = (role: keyof TestBand['keys'], member: string, proof = '') =>
    liveSocket(relay.ws, made.band, made.keys[role], member, proof);
  const ines = await join('leader', 'ines');
  await ines.call({ kind: 'callTune', chart: 'ferry' });
  const document = async (name: string, role: keyof TestBand['keys'] = 'player') => {
    const socket = await syncSocket(`${relay.ws}/sync/${made.band}/${name}?key=${made.keys[role]}&acks=1`);
    socket.step1();
    await socket.hearsStep2();
    return socket;
  };
  return { ...made, join, ines, document };
};

const START = { kind: 'start' };

describe('the baton', () => {
  it('lets a player call who could not before, and is seen by everybody', async () => {
    const { join, ines, document } = await band(await testRelay());
    const bea = await join('player', 'bea');
    expect(await bea.call(START)).toMatchObject({ t: 'refused', why: 'notAllowed' });
    expect(await ines.lead({ baton: 'bea' }, 'pass')).toEqual({ t: 'done', id: 'pass' });
    expect(readLeading((await document('stage', 'reader')).doc)).toEqual({ baton: 'bea' });
    expect(await bea.call(START, 'go')).toMatchObject({ t: 'called', id: 'go' });
    expect(await bea.call({ kind: 'tag' }, 'tag')).toMatchObject({ t: 'called' });
    expect(await bea.takeBack('tag')).toMatchObject({ t: 'called' });
    expect(await (await join('player', 'tomas')).call({ kind: 'tag' })).toMatchObject({ t: 'refused' });
    expect(readStage((await document('stage')).doc)?.cues.find(({ id }) => id === 'go')?.by).toBe('bea');
  });

  it('is taken back, and then the player calls no more', async () => {
    const { join, ines, document } = await band(await testRelay());
    const bea = await join('player', 'bea');
    await ines.lead({ baton: 'bea' });
    expect((await ines.lead({ baton: null })).t).toBe('done');
    expect(await bea.call(START)).toMatchObject({ t: 'refused', why: 'notAllowed' });
    expect(readLeading((await document('stage')).doc)).toEqual({});
  });

  it('is passed to nobody who is not here, and to no reader: refused in words', async () => {
    const { join, ines, document } = await band(await testRelay());
    await join('reader', 'mara');
    const gone = await join('player', 'joon');
    gone.socket.close();
    await gone.closed;
    for (const [baton, why] of [
      ['mara', 'readsOnly'],
      ['joon', 'notHere'],
      ['nobody', 'notHere'],
    ] as const) {
      const answer = await ines.lead({ baton });
      expect(answer).toMatchObject({ t: 'refused', why });
      expect(answer.t === 'refused' && answer.words).toMatch(/^[A-Z].*\.$/);
    }
    expect(readLeading((await document('stage')).doc)).toEqual({});
  });

  it('stays with a player who leaves, and the way back is open', async () => {
    const { join, ines, document } = await band(await testRelay());
    const bea = await join('player', 'bea');
    await ines.lead({ baton: 'bea' });
    bea.socket.terminate();
    await bea.closed;
    expect(readLeading((await document('stage')).doc)).toEqual({ baton: 'bea' });
    expect((await (await join('player', 'bea')).call(START)).t).toBe('called');
    expect((await ines.lead({ baton: null })).t).toBe('done');
  });

  it('keeps no leader from leading: another leader’s link calls at once, and takes the baton back', async () => {
    const { join, ines } = await band(await testRelay());
    await join('player', 'bea');
    await ines.lead({ baton: 'bea' });
    ines.socket.terminate();
    const joon = await join('leader', 'joon');
    expect((await joon.call(START)).t).toBe('called');
    expect((await joon.lead({ baton: null })).t).toBe('done');
  });

  it('can be given back and its taps lent by who has it; passing it on and locking are for leaders', async () => {
    const { join, ines } = await band(await testRelay());
    const bea = await join('player', 'bea');
    const tomas = await join('player', 'tomas');
    expect(await bea.lead({ baton: 'bea' })).toMatchObject({ t: 'refused', why: 'notAllowed' });
    await ines.lead({ baton: 'bea' });
    for (const change of [{ baton: 'tomas' }, { locked: true }, { locked: false }] as LeadChange[]) {
      expect(await bea.lead(change)).toMatchObject({ t: 'refused', why: 'notAllowed' });
      expect(await tomas.lead(change)).toMatchObject({ t: 'refused', why: 'notAllowed' });
    }
    expect((await bea.lead({ taps: 'tomas' })).t).toBe('done');
    expect((await bea.lead({ baton: null })).t).toBe('done');
    expect((await bea.call(START)).t).toBe('refused');
  });

  it('passed twice with one id is passed once, whatever came between', async () => {
    const { join, ines, document } = await band(await testRelay());
    await join('player', 'bea');
    const joon = await join('leader', 'joon');
    await ines.lead({ baton: 'bea' }, 'pass');
    await joon.lead({ baton: null });
    expect(await ines.lead({ baton: 'bea' }, 'pass')).toEqual({ t: 'done', id: 'pass' });
    expect(readLeading((await document('stage')).doc)).toEqual({});
  });

  it('lets its holder point at bars', async () => {
    const relay = await testRelay();
    const { join, ines, band: id, keys } = await band(relay);
    await join('player', 'bea');
    const stage = await rawSocket(`${relay.ws}/sync/${id}/stage?key=${keys.player}&member=bea`);
    const watcher = await rawSocket(`${relay.ws}/sync/${id}/stage?key=${keys.reader}`);
    const point = (clock: number) => {
      const state = JSON.stringify({ name: 'Bea', point: { chart: 'ferry', bar: `b${clock}` } });
      stage.send(awarenessFrame([{ client: 5, clock, state }]));
    };
    const points = () => statesOf(watcher.heard, 5).map((state) => state?.['point']);
    point(1);
    await until(() => points().length === 1, 'seen');
    await ines.lead({ baton: 'bea' });
    point(2);
    await until(() => points().length === 2, 'seen pointing');
    expect(points()).toEqual([null, { chart: 'ferry', bar: 'b2' }]);
  });
});

describe('a member’s id', () => {
  it('is theirs who named it first: another tablet with it, and the same key, has no baton', async () => {
    const { join, ines } = await band(await testRelay());
    const bea = await join('player', 'bea', 'secret-of-bea');
    await ines.lead({ baton: 'bea' });
    for (const proof of ['', 'guess']) {
      const mallory = await join('player', 'bea', proof);
      expect(await mallory.call(START)).toMatchObject({ t: 'refused', why: 'notAllowed' });
      expect(await mallory.lead({ baton: null })).toMatchObject({ t: 'refused', why: 'notAllowed' });
    }
    bea.socket.terminate();
    await bea.closed;
    expect((await (await join('player', 'bea', 'guess')).call(START)).t).toBe('refused');
    // The tablet itself is let in at once, though its old connection may still be open.
    const [again, more] = [
      await join('player', 'bea', 'secret-of-bea'),
      await join('player', 'bea', 'secret-of-bea'),
    ];
    expect((await again.call(START)).t).toBe('called');
    expect((await more.call({ kind: 'tag' })).t).toBe('called');
  });

  it('is free again when its owner has left with nothing in their hands', async () => {
    const { join, ines } = await band(await testRelay());
    const bea = await join('player', 'bea', 'secret-of-bea');
    await ines.lead({ baton: 'bea' });
    await ines.lead({ baton: null });
    bea.socket.close();
    await bea.closed;
    await join('player', 'bea', 'another tablet');
    await ines.lead({ baton: 'bea' });
    expect((await (await join('player', 'bea', 'another tablet')).call(START)).t).toBe('called');
  });

  it('does not make a reader a player', async () => {
    const { join, ines } = await band(await testRelay());
    await join('player', 'bea', 's');
    await ines.lead({ baton: 'bea', taps: 'bea' });
    const reader = await join('reader', 'bea', 's');
    expect((await reader.call(START)).t).toBe('refused');
    expect((await reader.call({ kind: 'tap', tappedAtMs: 0 })).t).toBe('refused');
    expect(await reader.lead({ baton: null })).toMatchObject({ t: 'refused', why: 'notAllowed' });
  });
});

describe('the taps', () => {
  it('lent to a player let them tap and nothing else, until they are taken or given back', async () => {
    const { join, ines } = await band(await testRelay());
    const drums = await join('player', 'drums');
    const tap = async () => {
      const answer = await drums.call({ kind: 'tap', tappedAtMs: (await drums.ping()).t2 });
      return answer.t === 'refused' ? answer.why : answer.t;
    };
    expect(await tap()).toBe('notAllowed');
    await ines.lead({ taps: 'drums' });
    await ines.call(START);
    expect(await tap()).not.toBe('notAllowed');
    expect(await drums.call({ kind: 'tag' })).toMatchObject({ why: 'notAllowed' });
    expect(await drums.takeBack('c')).toMatchObject({ why: 'notAllowed' });
    expect((await drums.lead({ taps: null })).t).toBe('done');
    expect(await tap()).toBe('notAllowed');
  });
});

describe('the gig lock', () => {
  const typed = (socket: SyncSocket, text: string) => socket.write((doc) => doc.getText('t').insert(0, text));

  it.each(['book', 'chart.ferry'])(
    'keeps %s from being written by anybody: 4423, nothing spread or kept',
    async (name) => {
      const relay = await testRelay();
      const { ines, document, band: id } = await band(relay);
      const watcher = await document(name, 'reader');
      const before = [await document(name, 'player'), await document(name, 'leader')];
      expect((await ines.lead({ locked: true })).t).toBe('done');
      for (const writer of [...before, await document(name, 'player'), await document(name, 'leader')]) {
        typed(writer, 'x');
        expect(await writer.closed).toEqual({ code: CLOSE_CODES.locked, reason: sentenceOf('locked') });
      }
      const step2 = await document(name);
      step2.doc.getText('t').insert(0, 'y');
      step2.step2();
      expect((await step2.closed).code).toBe(CLOSE_CODES.locked);
      expect(watcher.doc.getText('t').toString()).toBe('');
      expect(relay.rooms.open(id, name).read((doc) => doc.getText('t').length)).toBe(0);
    },
  );

  it('leaves the stage as it is: cues are called and pointers move', async () => {
    const { ines, document } = await band(await testRelay());
    await ines.lead({ locked: true });
    expect((await ines.call(START, 'go')).t).toBe('called');
    const stage = await document('stage', 'reader');
    await until(() => readStage(stage.doc)?.cues.some(({ id }) => id === 'go') ?? false, 'started');
    expect(readLeading(stage.doc)).toEqual({ locked: true });
  });

  it('asks tablets for what they wrote meanwhile when it ends, and merges it', async () => {
    const { ines, document } = await band(await testRelay());
    await ines.lead({ locked: true });
    const tablet = await document('chart.ferry');
    tablet.doc.getText('t').insert(0, 'kept');
    const other = await document('chart.ferry');
    await ines.lead({ locked: false });
    // What every y-websocket does when it is asked: all it has and the relay lacks.
    await tablet.hears((frame) => frame[0] === 0 && frame[1] === 0);
    tablet.step2();
    await tablet.acknowledged(1);
    await until(() => other.doc.getText('t').toString() === 'kept', 'merged');
    typed(other, 'and ');
    await other.acknowledged(1);
  });

  it('refuses a new name for the band, too', async () => {
    const relay = await testRelay();
    const { ines, band: id, keys } = await band(relay);
    await ines.lead({ locked: true });
    const rename = () =>
      fetch(`${relay.http}/api/bands/${id}`, {
        method: 'PUT',
        headers: { authorization: `Bearer ${keys.leader}` },
        body: JSON.stringify({ name: 'Quay Road Six' }),
      });
    const refused = await rename();
    expect([refused.status, ((await refused.json()) as { words: string }).words]).toEqual([
      423,
      expect.stringMatching(/^The book is locked/),
    ]);
    await ines.lead({ locked: false });
    expect((await rename()).status).toBe(200);
  });

  it('holds for one band only', async () => {
    const relay = await testRelay();
    const { ines } = await band(relay);
    const others = await band(relay);
    await ines.lead({ locked: true });
    const writer = await others.document('book');
    typed(writer, 'x');
    await writer.acknowledged(1);
  });
});

describe('who leads and the lock', () => {
  it('outlive a relay that is killed, from the moment the answer was there', async () => {
    const data = testData();
    const first = await startRelay(data);
    const { band: id, keys } = await makeBand(first.http);
    const join = (ws: string, key: string, member: string) =>
      liveSocket(ws, id, key, member, `proof of ${member}`);
    const ines = await join(first.ws, keys.leader, 'ines');
    await join(first.ws, keys.player, 'bea');
    await join(first.ws, keys.player, 'drums');
    await ines.lead({ taps: 'drums', locked: true });
    await ines.lead({ baton: 'bea' });
    await first.end('SIGKILL');

    const second = await startRelay(data);
    const stage = await syncSocket(`${second.ws}/sync/${id}/stage?key=${keys.reader}`);
    stage.step1();
    await stage.hearsStep2();
    expect(readLeading(stage.doc)).toEqual({ baton: 'bea', taps: 'drums', locked: true });
    const writer = await rawSocket(`${second.ws}/sync/${id}/book?key=${keys.leader}`);
    const doc = new Y.Doc();
    doc.getText('t').insert(0, 'x');
    writer.send(updateFrame(Y.encodeStateAsUpdate(doc)));
    expect((await writer.closed).code).toBe(CLOSE_CODES.locked);
    const why = async (member: string, proof: string) => {
      const answer = await (await liveSocket(second.ws, id, keys.player, member, proof)).call(START);
      return answer.t === 'refused' && answer.why;
    };
    expect(await why('bea', 'guess')).toBe('notAllowed');
    // No tune was called, so whoever leads is told that.
    expect(await why('bea', 'proof of bea')).toBe('noTune');
  });
});
