import { describe, expect, it } from 'vitest';
import { readChart } from '../../common/chart/read-chart.ts';
import { readChartDocument } from '../../common/document/chart-document.ts';
import { addBar, deleteBars } from '../../common/document/edit-chart.ts';
import { readStage } from '../../common/document/stage-document.ts';
import { writeChartDocument } from '../../common/document/write-chart-document.ts';
import { unroll } from '../../common/form/unroll.ts';
import { roadAt } from '../../common/stage/in-force.ts';
import { locate } from '../../common/stage/locate.ts';
import { perform } from '../../common/stage/perform.ts';
import { machineClock } from '../../server/machine-clock.ts';
import { liveSocket } from './support/live-socket.ts';
import { type SyncSocket, syncSocket } from './support/raw-socket.ts';
import { makeBand, type TestBand, type TestRelay, testData, testRelay } from './support/test-relay.ts';
import { until } from './support/wait-until.ts';

const SLOW_FERRY = `title: Slow Ferry
key: Eb blues
time: 4/4
tempo: 400
count: 1

[A]
| Eb7 | Ab7 | Eb7 | Bb7 |

road:
  Head: A
  Solos: A open
  Head out: A
`;

const putChart = (relay: TestRelay, band: string, id: string, text: string) =>
  relay.rooms.open(band, `chart.${id}`).write(77, (doc) => writeChartDocument(doc, readChart(text).chart));

const onStage = async (relay: TestRelay): Promise<TestBand & { stage: SyncSocket }> => {
  const { band, keys } = await makeBand(relay.http);
  putChart(relay, band, 'ferry', SLOW_FERRY);
  const stage = await syncSocket(`${relay.ws}/sync/${band}/stage?key=${keys.reader}`);
  stage.step1();
  await stage.hearsStep2();
  return { band, keys, stage };
};

describe('the clock', () => {
  it('answers a ping with its own two stamps, in order, and the epoch', async () => {
    const relay = await testRelay();
    const { band, keys } = await makeBand(relay.http);
    const live = await liveSocket(relay.ws, band, keys.reader);
    const [first, second] = [await live.ping(), await live.ping()];
    expect(first).toMatchObject({ t: 'pong', n: 1, t0: 12.5, epoch: machineClock().epoch });
    expect(first.t1).toBeLessThanOrEqual(first.t2);
    expect(first.t2).toBeLessThan(second.t1);
    expect(first.t2 - first.t1).toBeLessThan(5);
  });

  it('runs on where the machine was started anew, under another epoch', async () => {
    const data = testData();
    let monotonicMs = 5_000_000;
    let wallMs = 1_700_000_000_000;
    const clock = (epoch: string) => ({ epoch, monotonicMs: () => monotonicMs, wallMs: () => wallMs });
    const config = { port: 0, host: '127.0.0.1', data, origins: [] };
    const first = await testRelay({ config, clock: clock('one') });
    const { band, keys } = await makeBand(first.http);
    const before = await (await liveSocket(first.ws, band, keys.reader)).ping();
    await first.close();
    monotonicMs = 20_000;
    wallMs += 45_000;
    const second = await testRelay({ config, clock: clock('two') });
    const after = await (await liveSocket(second.ws, band, keys.reader)).ping();
    expect([before.epoch, after.epoch]).toEqual(['one', 'two']);
    expect(after.t1 - before.t1).toBe(45_000);
  });
});

describe('a message that is none', () => {
  it('is refused with words, under its id where it has one', async () => {
    const relay = await testRelay();
    const { band, keys } = await makeBand(relay.http);
    const live = await liveSocket(relay.ws, band, keys.leader);
    expect(await live.call({ kind: 'sing' })).toMatchObject({ t: 'refused', why: 'unreadable' });
    for (const text of ['', '{', 'null', '[]', '{"t":"ping"}', '"ping"']) live.send(text);
    expect((await live.ping()).t).toBe('pong');
    live.send(Uint8Array.of(1));
    expect((await live.closed).code).toBe(4400);
  });
});

describe('calling', () => {
  it('is for the leader', async () => {
    const relay = await testRelay();
    const { band, keys, stage } = await onStage(relay);
    for (const role of ['player', 'reader'] as const) {
      const live = await liveSocket(relay.ws, band, keys[role]);
      const answer = await live.call({ kind: 'callTune', chart: 'ferry' });
      expect(answer).toMatchObject({ t: 'refused', why: 'notAllowed' });
      expect(await live.takeBack('x')).toMatchObject({ t: 'refused', why: 'notAllowed' });
    }
    expect(readStage(stage.doc)).toBeNull();
  });

  it('puts a tune on every stand, stamped with shared time and by whom', async () => {
    const relay = await testRelay();
    const { band, keys, stage } = await onStage(relay);
    const live = await liveSocket(relay.ws, band, keys.leader);
    const before = await live.ping();
    expect((await live.call({ kind: 'callTune', chart: 'ferry', key: 'C' })).t).toBe('called');
    const started = await live.call({ kind: 'start' }, 'go');
    const after = await live.ping();
    if (started.t !== 'called') throw new Error(started.words);
    expect(started.cue).toEqual({ kind: 'start' });
    expect(started.calledAtMs).toBeGreaterThan(before.t2);
    expect(started.calledAtMs).toBeLessThan(after.t1);
    await until(
      () => readStage(stage.doc)?.cues.some(({ id }) => id === 'go') ?? false,
      'the start on the stand',
    );
    const take = readStage(stage.doc);
    expect(take).toMatchObject({ chart: 'ferry', title: 'Slow Ferry', semitones: -3 });
    expect(take?.road.legs.map(({ name }) => name)).toEqual(['Head', 'Solos', 'Head out']);
    expect(take?.cues.at(-1)).toEqual({
      id: 'go',
      cue: { kind: 'start' },
      calledAtMs: started.calledAtMs,
      by: 'ines',
    });
  });

  it('of a chart that is not there, or in a key that is none, is refused with words', async () => {
    const relay = await testRelay();
    const { band, keys } = await onStage(relay);
    const live = await liveSocket(relay.ws, band, keys.leader);
    for (const cue of [
      { kind: 'callTune', chart: 'nowhere' },
      { kind: 'callTune', chart: 'ferry', key: 'H sharp' },
      { kind: 'start' },
      { kind: 'lastChorus' },
    ]) {
      const answer = await live.call(cue);
      expect(answer.t).toBe('refused');
      expect(answer.t === 'refused' && answer.words).toMatch(/^\S.*[.?!]$/);
    }
  });

  it('twice with one id acts once and says when it was', async () => {
    const relay = await testRelay();
    const { band, keys, stage } = await onStage(relay);
    const live = await liveSocket(relay.ws, band, keys.leader);
    await live.call({ kind: 'callTune', chart: 'ferry' });
    const first = await live.call({ kind: 'start' }, 'go');
    const again = await (await liveSocket(relay.ws, band, keys.leader)).call({ kind: 'start' }, 'go');
    expect(again).toEqual(first);
    await until(() => readStage(stage.doc)?.cues.some(({ id }) => id === 'go') ?? false, 'started');
    expect(readStage(stage.doc)?.cues.filter(({ id }) => id === 'go')).toHaveLength(1);
  });

  it('can be taken back until it lands', async () => {
    const relay = await testRelay();
    const { band, keys, stage } = await onStage(relay);
    const live = await liveSocket(relay.ws, band, keys.leader);
    await live.call({ kind: 'callTune', chart: 'ferry' });
    await live.call({ kind: 'start' });
    expect((await live.call({ kind: 'tag' }, 'tag')).t).toBe('called');
    const back = await live.takeBack('tag', 'no tag');
    expect(back).toMatchObject({ t: 'called', id: 'no tag', cue: { kind: 'takeBack', cue: 'tag' } });
    expect((await live.takeBack('tag')).t).toBe('refused');
    expect((await live.takeBack('nothing')).t).toBe('refused');
    await until(() => readStage(stage.doc)?.cues.at(-1)?.id === 'no tag', 'taken back on the stand');
  });
});

describe('the stage', () => {
  it('outlives the relay: the same take, the same place', async () => {
    const data = testData();
    const config = { port: 0, host: '127.0.0.1', data, origins: [] };
    const first = await testRelay({ config });
    const { band, keys, stage } = await onStage(first);
    const live = await liveSocket(first.ws, band, keys.leader);
    await live.call({ kind: 'callTune', chart: 'ferry' });
    await live.call({ kind: 'start' }, 'go');
    await until(() => readStage(stage.doc)?.cues.some(({ id }) => id === 'go') ?? false, 'started');
    const take = readStage(stage.doc);
    await first.close();
    const second = await testRelay({ config });
    const again = await syncSocket(`${second.ws}/sync/${band}/stage?key=${keys.reader}`);
    again.step1();
    await again.hearsStep2();
    expect(readStage(again.doc)).toEqual(take);
    const leader = await liveSocket(second.ws, band, keys.leader);
    expect((await leader.call({ kind: 'stop' })).t).toBe('called');
  });

  it('adopts an edited chart by itself while the band waits, and keeps only the last of such roads', async () => {
    const relay = await testRelay();
    const { band, keys, stage } = await onStage(relay);
    const live = await liveSocket(relay.ws, band, keys.leader);
    await live.call({ kind: 'callTune', chart: 'ferry' });
    const barsNow = () => {
      const take = readStage(stage.doc);
      return take === null
        ? 0
        : (roadAt(perform(take), take.cues.at(-1)?.calledAtMs ?? 0).legs[0]?.bars.length ?? 0);
    };
    for (const bars of [5, 6, 7]) {
      const music = Array.from({ length: bars }, () => 'Eb7').join(' | ');
      putChart(relay, band, 'ferry', SLOW_FERRY.replace('| Eb7 | Ab7 | Eb7 | Bb7 |', `| ${music} |`));
      await until(() => barsNow() === bars, `a road of ${bars} bars`);
    }
    expect(readStage(stage.doc)?.cues.filter(({ cue }) => cue.kind === 'adopt')).toHaveLength(1);
  });

  it('keeps its road while the band plays, until the new one is adopted or the take is over', async () => {
    const relay = await testRelay();
    const { band, keys, stage } = await onStage(relay);
    const live = await liveSocket(relay.ws, band, keys.leader);
    await live.call({ kind: 'callTune', chart: 'ferry' });
    await live.call({ kind: 'start' });
    putChart(relay, band, 'ferry', SLOW_FERRY.replace('| Eb7 | Ab7', '| Eb7 | Eb7 | Ab7'));
    await new Promise((done) => setTimeout(done, 700));
    expect(readStage(stage.doc)?.cues.some(({ cue }) => cue.kind === 'adopt')).toBe(false);
    await live.call({ kind: 'stop' });
    await until(
      () =>
        readStage(stage.doc)?.cues.some(({ cue, by }) => cue.kind === 'adopt' && by === undefined) ?? false,
      'adopted once it is over',
    );
  });

  it('[STAGE-83] follows the chart with an arrangement that was taken, and takes it back where the chart is as before', async () => {
    const relay = await testRelay();
    const { band, keys, stage } = await onStage(relay);
    const live = await liveSocket(relay.ws, band, keys.leader);
    const chart = relay.rooms.open(band, 'chart.ferry');
    const [section] = chart.read(readChartDocument).sections;
    let made = 0;
    const makeId = () => {
      made += 1;
      return `n${made}`;
    };
    const addOne = () => chart.write(77, (doc) => addBar(doc, section?.id ?? '', null, 'Eb7', makeId));
    const log = () =>
      (readStage(stage.doc)?.cues ?? []).slice(2).map(({ cue, by }) => {
        const bars = cue.kind === 'adopt' ? ` ${cue.road.legs[0]?.bars.length}` : '';
        return `${cue.kind}${bars}${by === undefined ? '' : ' by somebody'}`;
      });
    await live.call({ kind: 'callTune', chart: 'ferry' });
    await live.call({ kind: 'start' });
    addOne();
    const { road } = unroll(chart.read(readChartDocument));
    expect((await live.call({ kind: 'adopt', road })).t).toBe('called');
    addOne();
    await until(() => log().length === 3, 'taken anew');
    const added = chart.read(readChartDocument).sections[0]?.bars.slice(0, 2) ?? [];
    chart.write(77, (doc) =>
      deleteBars(
        doc,
        added.map(({ id }) => id),
      ),
    );
    await until(() => log().length === 4, 'taken back');
    const adopts = log().map((line) => line.replace(' by somebody', ''));
    expect(adopts).toEqual(['adopt 5', 'takeBack', 'adopt 6', 'takeBack']);
    expect(log().filter((line) => line.startsWith('takeBack'))).toEqual(['takeBack', 'takeBack']);
  });

  it('plays what was edited a moment before it starts again', async () => {
    const relay = await testRelay();
    const { band, keys, stage } = await onStage(relay);
    const live = await liveSocket(relay.ws, band, keys.leader);
    await live.call({ kind: 'callTune', chart: 'ferry' });
    await live.call({ kind: 'start' });
    await live.call({ kind: 'stop' });
    const first = readStage(stage.doc)?.id;
    await new Promise((done) => setTimeout(done, 1_100));
    putChart(relay, band, 'ferry', SLOW_FERRY.replace('| Eb7 | Ab7', '| Eb7 | Eb7 | Ab7'));
    expect((await live.call({ kind: 'start' }, 'again')).t).toBe('called');
    await until(() => readStage(stage.doc)?.cues.some(({ id }) => id === 'again') ?? false, 'started again');
    const take = readStage(stage.doc);
    expect(take?.id).not.toBe(first);
    expect(take?.road.legs[0]?.bars).toHaveLength(5);
  });

  it('keeps a finished take in a row of its own when the next begins, and does not grow', async () => {
    const relay = await testRelay();
    const { band, keys, stage } = await onStage(relay);
    const live = await liveSocket(relay.ws, band, keys.leader);
    const sizes: number[] = [];
    for (let nth = 0; nth < 3; nth++) {
      await live.call({ kind: 'callTune', chart: 'ferry' });
      await live.call({ kind: 'start' });
      expect((await live.call({ kind: 'stop' })).t).toBe('called');
      await until(() => {
        const take = readStage(stage.doc);
        return (
          take !== null &&
          locate(perform(take), (take.cues.at(-1)?.calledAtMs ?? 0) + 2_000).state === 'ended'
        );
      }, 'ended');
      await new Promise((done) => setTimeout(done, 1_100));
      sizes.push(relay.rooms.open(band, 'stage').read((doc) => JSON.stringify(doc.toJSON()).length));
    }
    await live.call({ kind: 'callTune', chart: 'ferry' });
    expect(relay.takes.of(band)).toHaveLength(3);
    expect(relay.takes.of(band)[0]?.cues.some(({ cue }) => cue.kind === 'stop')).toBe(true);
    expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThan(50);
  }, 30_000);
});
