import type { Cue } from './cue.ts';
import type { CueRule } from './cue-rule.ts';
import { adopt } from './cues/adopt.ts';
import { breakOut } from './cues/break.ts';
import { dynamic } from './cues/dynamic.ts';
import { feel } from './cues/feel.ts';
import { here } from './cues/here.ts';
import { hold, release } from './cues/hold.ts';
import { loop, loopOff } from './cues/loop.ts';
import { modulation } from './cues/modulation.ts';
import { goTo, start } from './cues/moves.ts';
import { goOn, lastChorus, oneMore } from './cues/pass-counts.ts';
import { itHappened, resume } from './cues/retold.ts';
import { nextSoloist, soloOrder } from './cues/solos.ts';
import { stop } from './cues/stop.ts';
import { stopTime, stopTimeOff } from './cues/stop-time.ts';
import { tag } from './cues/tag.ts';
import { tap } from './cues/tap.ts';
import { tempo } from './cues/tempo.ts';
import { trade } from './cues/trade.ts';

type Table = { readonly [Kind in Cue['kind']]: CueRule<Extract<Cue, { kind: Kind }>> };

/** Every cue that can be called, with where it lands, when it makes sense, what it does and how it is told. */
const CUES: Table = {
  callTune: {
    family: 'move',
    while: ['waiting', 'ended'],
    boundary: () => 'atOnce',
    // Carried out by `conduct`: it begins another take. In a take's log it only says who called the tune.
    tell: () => ({ name: 'Tune', detail: '' }),
  },
  start,
  stop,
  lastChorus,
  oneMore,
  goOn,
  tag,
  break: breakOut,
  goTo,
  tempo,
  here,
  adopt,
  hold,
  release,
  resume,
  itHappened,
  stopTime,
  stopTimeOff,
  trade,
  soloOrder,
  nextSoloist,
  up: modulation,
  down: modulation,
  feel,
  dynamic,
  loop,
  loopOff,
  tap,
};

/** The row of a cue; undefined for a kind that this version does not know. */
export const ruleOf = (cue: Cue): CueRule | undefined =>
  Object.hasOwn(CUES, cue.kind) ? (CUES[cue.kind] as unknown as CueRule) : undefined;
