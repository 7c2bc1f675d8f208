import { openChart } from '../../../client/state/open-chart.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { addChart } from '../../../common/document/edit-book.ts';
import { writeChartDocument } from '../../../common/document/write-chart-document.ts';
import type { Cue } from '../../../common/stage/cue.ts';
import { locate } from '../../../common/stage/locate.ts';
import { perform } from '../../../common/stage/perform.ts';
import { agreement, checkAgainst, type Look, lookAt } from './look.ts';
import { randomLeader } from './random-leader.ts';
import type { Tune } from './random-tune.ts';
import type { VirtualTablet } from './virtual-tablet.ts';

/** What a tune has shown. */
export interface Played {
  /** Bars in which all places were compared and were the same. */
  readonly bars: number;
  /** Comparisons that had to wait: for a cue that some stands did not know yet, or while a place was about to change. */
  readonly waits: { readonly late: number; readonly edge: number };
  readonly called: number;
  readonly refused: number;
  /** ms between the first and the last tablet to change to a bar. */
  readonly spreadMs: readonly number[];
  /** ms from a call to a tablet that knew of it, and the same of a bare message. */
  readonly cueMs: readonly number[];
  readonly bareMs: readonly number[];
}

const LOOK_EVERY_MS = 15;
/** So far from both its lines a bar is compared. */
const FROM_LINES_MS = 40;
/** Stands that differ must have come together after so long. */
const TOGETHER_MS = 5_000;
const PATIENCE_MS = 15_000;
const MOST_TRIES = 5;
/** A tune that would not end is stopped after so many bars, or so long. */
const MOST_BARS = 32;
const MOST_MS = 40_000;
const CALL_EVERY_MS = 700;
/** A held band waits so long for the release. */
const HELD_MS = 700;

const pause = (ms: number) => new Promise<void>((done) => setTimeout(done, ms));

const until = async (holds: () => boolean, what: string): Promise<void> => {
  const endMs = performance.now() + PATIENCE_MS;
  while (!holds()) {
    if (performance.now() > endMs) throw new Error(`${what}: not within ${PATIENCE_MS} ms`);
    await pause(LOOK_EVERY_MS);
  }
};

/** Writes a chart and its entry in the book, and waits until the relay has them. */
const putChart = async ({ board }: VirtualTablet, id: string, { text, tempoBpm }: Tune): Promise<void> => {
  const handle = openChart(board, id);
  await until(() => handle.chart.get() !== null, 'the empty chart');
  writeChartDocument(handle.doc, readChart(text).chart, handle.origin);
  addChart(board.bookDoc, { id, title: id, by: '', key: 'Eb', tempo: tempoBpm });
  await until(() => handle.saved.get() === 'saved', 'the chart is saved');
  handle.release();
};

const begin = async (tablets: readonly VirtualTablet[], leader: VirtualTablet, id: string, tune: Tune) => {
  const isCalled = ({ board }: VirtualTablet) => board.stage.get().take?.chart === id;
  const isStarted = ({ board }: VirtualTablet) =>
    board.stage.get().take?.cues.some(({ cue }) => cue.kind === 'start') ?? false;
  // A machine that is busy with something else may keep the relay's answer for longer than a leader waits for it; what is
  // called again is then refused, since it has landed.
  const callUntil = async (holds: (tablet: VirtualTablet) => boolean, cue: Cue) => {
    let refusal = '';
    for (let tries = 0; !holds(leader) && tries < MOST_TRIES; tries++) {
      const answer = await leader.board.call(cue);
      if (answer.ok) continue;
      refusal = answer.error.words;
      await pause(1_000);
    }
    await until(() => tablets.every(holds), `${cue.kind} on every stand (${refusal})`);
  };
  await putChart(leader, id, tune);
  await callUntil(isCalled, { kind: 'callTune', chart: id, tempoBpm: tune.tempoBpm });
  await callUntil(isStarted, { kind: 'start' });
};

/**
 * Plays one tune under random cues, called by the first tablet and, now and then, by a player who was passed the
 * baton. After every bar all places must agree, and in the end all that was seen must be what the whole take says.
 * @throws with what each tablet showed, where they don't
 */
export const playTune = async (
  tablets: readonly VirtualTablet[],
  id: string,
  tune: Tune,
  random: () => number,
): Promise<Played> => {
  const [leader] = tablets;
  if (leader === undefined) throw new Error('nobody plays');
  const leads = randomLeader(tablets, random);
  const seen: Look[] = [];
  const spreadMs: number[] = [];
  const waits = { late: 0, edge: 0 };
  let bars = 0;
  /** The bar that was compared last, and since when a comparison has been failing. */
  let compared = -1;
  let apartSinceMs = Number.POSITIVE_INFINITY;

  /** Compares the bar being played, once it is neither just begun nor about to end. */
  const compare = (bar: number) => {
    if (bar === compared) return;
    const looks = tablets.map(lookAt);
    const isInside = ({ sinceMs, toNextMs }: Look) => Math.min(sinceMs, toNextMs) > FROM_LINES_MS;
    const agrees = agreement(looks);
    if (agrees !== 'same') {
      waits[agrees] += 1;
      apartSinceMs = Math.min(apartSinceMs, performance.now());
      if (performance.now() - apartSinceMs > TOGETHER_MS) throw new Error('the stands do not come together');
      return;
    }
    apartSinceMs = Number.POSITIVE_INFINITY;
    if (!looks.every(isInside)) return;
    compared = bar;
    bars += 1;
    seen.push(...looks);
    const changes = looks.flatMap(({ changedAtMs }) => (changedAtMs === null ? [] : [changedAtMs]));
    if (changes.length === looks.length) spreadMs.push(Math.max(...changes) - Math.min(...changes));
  };

  await begin(tablets, leader, id, tune);
  const startedMs = performance.now();
  let nextCallMs = startedMs + 1_000;
  let heldSinceMs = Number.POSITIVE_INFINITY;
  /** One call at a time; the music does not wait for it. */
  let calling: Promise<void> | null = null;
  let failure: unknown;
  const call = (make: () => Promise<void>) => {
    calling ??= make()
      .catch((error: unknown) => {
        failure ??= error;
      })
      .finally(() => {
        calling = null;
      });
  };
  const whereNow = () => {
    const { performance: folded } = leader.board.stage.get();
    if (folded === null) throw new Error('the take is gone');
    return locate(folded, leader.board.sharedNow());
  };
  for (let where = whereNow(); where.state !== 'ended'; where = whereNow()) {
    if (failure !== undefined) throw failure;
    const nowMs = performance.now();
    if (where.state === 'playing' || where.state === 'held') compare(where.bar);
    heldSinceMs = where.state === 'held' ? Math.min(heldSinceMs, nowMs) : Number.POSITIVE_INFINITY;
    if (nowMs - heldSinceMs > HELD_MS) {
      heldSinceMs = nowMs;
      call(() => leads.call({ kind: 'release' }));
    } else if (nowMs > nextCallMs) {
      nextCallMs = nowMs - CALL_EVERY_MS * Math.log(1 - random());
      const isOver = bars > MOST_BARS || nowMs - startedMs > MOST_MS;
      call(isOver ? () => leads.call({ kind: 'stop' }) : leads.callSomething);
    }
    if (nowMs - startedMs > 2 * MOST_MS) throw new Error(`the tune does not end: ${JSON.stringify(where)}`);
    await pause(LOOK_EVERY_MS);
  }
  await calling;
  await leads.end();
  const cuesOf = ({ board }: VirtualTablet) => board.stage.get().take?.cues.length;
  await until(() => tablets.every((tablet) => cuesOf(tablet) === cuesOf(leader)), 'the same take everywhere');
  await until(() => whereNow().state === 'ended', 'the end');
  await until(leads.isHeard, 'everybody has heard of everything');

  const { take } = leader.board.stage.get();
  if (take !== null) checkAgainst(perform(take), seen);
  return { bars, waits, called: leads.called(), refused: leads.refused(), spreadMs, ...leads.latencies() };
};
