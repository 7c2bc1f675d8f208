import { appendCalled, readStage, writeTake } from '../common/document/stage-document.ts';
import { roadShape } from '../common/form/road-shape.ts';
import type { MakeId } from '../common/ids.ts';
import {
  type ConductContext,
  type Conducted,
  conduct,
  conductTakeBack,
  type Effect,
} from '../common/stage/conduct.ts';
import type { Called, Cue, Take } from '../common/stage/cue.ts';
import { roadAt } from '../common/stage/in-force.ts';
import type { Refused } from '../common/stage/judge.ts';
import { locate } from '../common/stage/locate.ts';
import { type Performance, perform } from '../common/stage/perform.ts';
import { followChart } from '../common/stage/taken-arrangement.ts';
import { semitonesAskedFor } from '../common/theory/asked-key.ts';
import { readKey } from '../common/theory/key.ts';
import type { FinishedTakes } from './finished-takes.ts';
import type { Log } from './log.ts';
import { relayClientId } from './relay-client-id.ts';
import type { Room } from './room.ts';
import type { Rooms } from './rooms.ts';
import type { SharedTime } from './shared-time.ts';
import { readTune, readWritten } from './tune.ts';

export type Reply =
  | { readonly ok: true; readonly called: Called }
  | { readonly ok: false; readonly why: string; readonly words: string };

/** The one writer of every stage: stamps what is called, checks it, keeps it, and answers when it is on the disk. */
export interface Conductor {
  readonly call: (
    band: string,
    call: { readonly id: string; readonly cue: Cue; readonly by?: string },
    reply: (reply: Reply) => void,
  ) => void;
  /** `cue` is the id of the cue to be taken back. */
  readonly takeBack: (
    band: string,
    call: { readonly id: string; readonly cue: string; readonly by?: string },
    reply: (reply: Reply) => void,
  ) => void;
  /** Some document of a band has changed. */
  readonly changed: (band: string, document: string) => void;
  /** Adopts edited charts where nobody plays: a few times a second. */
  readonly tick: () => void;
}

interface OnStage {
  readonly take: Take | null;
  readonly performance: Performance | null;
}

/** Never a place jumps because of an edit: while waiting or ended the new road is taken at once. */
const isAtRest = ({ performance }: OnStage, nowMs: number): boolean => {
  if (performance === null) return false;
  const { state } = locate(performance, nowMs);
  return state === 'waiting' || state === 'ended';
};

const isOwnAdopt = (called: Called | undefined): boolean =>
  called !== undefined && called.cue.kind === 'adopt' && called.by === undefined;

const unreadableKey = (written: string, asked: string): Refused => ({
  ok: false,
  why: 'unknownKey',
  words:
    readKey(asked) === null
      ? `“${asked}” is no key. Write it like E♭ or F minor.`
      : `The chart’s own key ${written === '' ? 'is not given' : `“${written}” cannot be read`}, so it cannot be moved to another.`,
});

const BROKEN: Reply = {
  ok: false,
  why: 'broken',
  words: 'The relay could not do that. Try again; if it stays so, call the tune anew.',
};

export const createConductor = (
  rooms: Rooms,
  finished: FinishedTakes,
  afterCommit: (done: () => void) => void,
  time: SharedTime,
  makeId: MakeId,
  log: Log,
): Conductor => {
  const clientId = relayClientId(time.epoch);
  const stages = new WeakMap<Room, OnStage>();
  /** Bands in which the chart on stage was edited and the new road may not be in force yet; 'new': not looked at yet. */
  const edited = new Map<string, 'new' | 'waits'>();

  const stageOf = (room: Room): OnStage => {
    let stage = stages.get(room);
    if (!stage) {
      const take = room.read(readStage);
      stage = { take, performance: take === null ? null : perform(take) };
      stages.set(room, stage);
    }
    return stage;
  };
  const putOnStage = (room: Room, take: Take) => {
    stages.set(room, { take, performance: perform(take, stages.get(room)?.performance) });
  };
  const begin = (band: string, room: Room, take: Take) => {
    const { take: before, performance } = stageOf(room);
    if (before && performance && locate(performance, time.now()).state !== 'waiting') {
      finished.keep(band, before);
    }
    room.write(clientId, (doc) => writeTake(doc, take));
    putOnStage(room, take);
  };
  const carryOut = (band: string, room: Room, effect: Effect) => {
    const { take } = stageOf(room);
    if (effect.kind === 'newTake') begin(band, room, effect.take);
    else if (effect.kind === 'append' && take !== null) {
      room.write(clientId, (doc) => appendCalled(doc, effect.called));
      putOnStage(room, { ...take, cues: [...take.cues, effect.called] });
    }
  };
  const stateOf = ({ take, performance }: OnStage) =>
    performance === null ? { take } : { take, performance };

  const contextFor = (band: string, cue: Cue): ConductContext | Refused => {
    const newTakeId = makeId();
    const tune = cue.kind === 'callTune' ? readTune(rooms, band, cue.chart) : null;
    if (cue.kind !== 'callTune' || tune === null) return { newTakeId };
    const { id, title, road } = tune;
    const semitones = cue.key === undefined ? 0 : semitonesAskedFor(tune.key, cue.key);
    if (semitones === null) return unreadableKey(tune.key, cue.key ?? '');
    return { newTakeId, chart: { id, title, road, ...(semitones === 0 ? {} : { semitones }) } };
  };
  const answering = (reply: (reply: Reply) => void, act: () => Conducted) => {
    try {
      const conducted = act();
      const answer: Reply = conducted.ok
        ? { ok: true, called: conducted.effect.called }
        : { ok: false, why: conducted.why, words: conducted.words };
      // A refusal waits as well, so that answers come in the order of the calls.
      afterCommit(() => reply(answer));
    } catch (error) {
      log.error('a call failed', { error });
      reply(BROKEN);
    }
  };
  const followTaken = (band: string, room: Room, take: Take, performance: Performance, nowMs: number) => {
    edited.set(band, 'waits');
    const called = followChart(performance, readWritten(rooms, band, take.chart), makeId, nowMs);
    if (called.length === 0) return;
    room.write(clientId, (doc) => {
      for (const one of called) appendCalled(doc, one);
    });
    putOnStage(room, { ...take, cues: [...take.cues, ...called] });
  };
  const adoptEdits = (band: string) => {
    const room = rooms.open(band, 'stage');
    const stage = stageOf(room);
    const nowMs = time.now();
    if (stage.take === null || stage.performance === null) {
      edited.delete(band);
      return;
    }
    if (!isAtRest(stage, nowMs)) {
      if (edited.get(band) === 'new') followTaken(band, room, stage.take, stage.performance, nowMs);
      return;
    }
    edited.delete(band);
    const tune = readTune(rooms, band, stage.take.chart);
    if (tune === null || roadShape(tune.road) === roadShape(roadAt(stage.performance, nowMs))) return;
    // Typing in a chart adopts one road after the other; only the last of them is worth keeping.
    const { take } = stage;
    const base = isOwnAdopt(take.cues.at(-1)) ? { ...take, cues: take.cues.slice(0, -1) } : take;
    const conducted = conduct(
      { take: base },
      { id: makeId(), cue: { kind: 'adopt', road: tune.road } },
      nowMs,
      { newTakeId: makeId() },
    );
    if (!conducted.ok || conducted.effect.kind !== 'append') {
      log.warn('an edited chart was not adopted', { band, ...(conducted.ok ? {} : { why: conducted.why }) });
      return;
    }
    if (base === take) carryOut(band, room, conducted.effect);
    else {
      const next = { ...base, cues: [...base.cues, conducted.effect.called] };
      room.write(clientId, (doc) => writeTake(doc, next));
      putOnStage(room, next);
    }
  };
  return {
    call: (band, call, reply) =>
      answering(reply, () => {
        const room = rooms.open(band, 'stage');
        // What was edited a moment ago is played, too.
        if (call.cue.kind === 'start') adoptEdits(band);
        const context = contextFor(band, call.cue);
        if ('ok' in context) return context;
        const conducted = conduct(stateOf(stageOf(room)), call, time.now(), context);
        if (conducted.ok) carryOut(band, room, conducted.effect);
        // The chart may have changed between the look of who took it and the call.
        if (call.cue.kind === 'adopt' && edited.has(band)) edited.set(band, 'new');
        return conducted;
      }),
    takeBack: (band, call, reply) =>
      answering(reply, () => {
        const room = rooms.open(band, 'stage');
        const conducted = conductTakeBack(stateOf(stageOf(room)), call, time.now());
        if (conducted.ok) carryOut(band, room, conducted.effect);
        return conducted;
      }),
    changed: (band, document) => {
      if (document.startsWith('chart.')) edited.set(band, 'new');
    },
    tick: () => {
      for (const band of edited.keys()) {
        try {
          adoptEdits(band);
        } catch (error) {
          edited.delete(band);
          log.error('an edited chart could not be adopted', { band, error });
        }
      }
    },
  };
};
