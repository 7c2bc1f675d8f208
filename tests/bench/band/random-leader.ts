import type { Cue } from '../../../common/stage/cue.ts';
import { randomCue } from './random-cue.ts';
import type { VirtualTablet } from './virtual-tablet.ts';

/** Calls at random for one tune, from the leader's tablet or that of a player with the baton. */
export interface RandomLeader {
  /** A call from the leader's own tablet. */
  readonly call: (cue: Cue) => Promise<void>;
  /** Something: as a rule a cue, now and then a take back, or the baton to a player or back. */
  readonly callSomething: () => Promise<void>;
  /** The baton is with the leader again. */
  readonly end: () => Promise<void>;
  readonly called: () => number;
  readonly refused: () => number;
  /** Everybody knows of every call, and has every bare message. */
  readonly isHeard: () => boolean;
  /** ms from each call to each tablet that knew of it, and of the bare message that followed it. */
  readonly latencies: () => { readonly cueMs: readonly number[]; readonly bareMs: readonly number[] };
}

/** A bare message follows its cue after so long, when that is through. */
const BARE_AFTER_MS = 40;
const PLAYERS_WITH_BATON = 4;
const NAMED_SOLOISTS = 5;

interface Sent {
  readonly id: string;
  readonly atMs: number;
}

export const randomLeader = (tablets: readonly VirtualTablet[], random: () => number): RandomLeader => {
  const [leader, ...players] = tablets;
  if (leader === undefined) throw new Error('nobody plays');
  const names = tablets.slice(0, NAMED_SOLOISTS).map(({ member }) => member);
  const cues: Sent[] = [];
  const bares: Sent[] = [];
  let refused = 0;
  let conducts = leader;

  const callBy = async (by: VirtualTablet, cue: Cue): Promise<void> => {
    const atMs = performance.now();
    const answer = await by.board.call(cue);
    if (!answer.ok) {
      refused += 1;
      return;
    }
    cues.push({ id: answer.value.id, atMs });
    await new Promise((done) => setTimeout(done, BARE_AFTER_MS));
    bares.push({ id: answer.value.id, atMs: performance.now() });
    by.sendBare(answer.value.id);
  };
  const pass = async (to: VirtualTablet): Promise<void> => {
    const answer = await leader.board.lead({ baton: to === leader ? null : to.member });
    if (answer.ok) conducts = to;
    else refused += 1;
  };
  const isHeard = (sent: readonly Sent[], heard: (tablet: VirtualTablet) => ReadonlyMap<string, number>) =>
    tablets.every((tablet) => sent.every(({ id }) => heard(tablet).has(id)));
  const sinceOf = (sent: readonly Sent[], heard: (tablet: VirtualTablet) => ReadonlyMap<string, number>) =>
    sent.flatMap(({ id, atMs }) =>
      tablets.map((tablet) => {
        const heardAtMs = heard(tablet).get(id);
        if (heardAtMs === undefined) throw new Error(`${tablet.member} never heard of ${id}`);
        return heardAtMs - atMs;
      }),
    );
  const knew = ({ knewAtMs }: VirtualTablet) => knewAtMs;
  const heardBare = ({ bareAtMs }: VirtualTablet) => bareAtMs;
  return {
    call: (cue) => callBy(leader, cue),
    callSomething: async () => {
      const { take, performance: folded } = leader.board.stage.get();
      if (take === null || folded === null) return;
      const dice = random();
      const last = take.cues.at(-1);
      const player = players[Math.floor(random() * Math.min(players.length, PLAYERS_WITH_BATON))];
      if (dice < 0.06 && player !== undefined) await pass(conducts === leader ? player : leader);
      else if (dice < 0.14 && last !== undefined) await conducts.board.takeBack(last.id);
      else {
        const cue = randomCue(folded, Number(conducts.board.sharedNow()), names, random);
        if (cue !== null) await callBy(conducts, cue);
      }
    },
    end: async () => {
      if (conducts !== leader) await pass(leader);
    },
    called: () => cues.length,
    refused: () => refused,
    isHeard: () => isHeard(cues, knew) && isHeard(bares, heardBare),
    latencies: () => ({ cueMs: sinceOf(cues, knew), bareMs: sinceOf(bares, heardBare) }),
  };
};
