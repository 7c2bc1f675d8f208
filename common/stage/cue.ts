import type { Road } from '../form/road.ts';

/** What a leader can call. The table in RULES.md says where each lands. */
export type Cue =
  | { readonly kind: 'callTune'; readonly chart: string; readonly key?: string; readonly tempoBpm?: number }
  | { readonly kind: 'start'; readonly leg?: string; readonly barIndex?: number; readonly pass?: number }
  | { readonly kind: 'stop'; readonly at?: 'pass' }
  | { readonly kind: 'lastChorus' }
  | { readonly kind: 'oneMore' }
  | { readonly kind: 'goOn' }
  | { readonly kind: 'tag'; readonly bars?: number; readonly times?: number }
  | { readonly kind: 'break'; readonly bars: number; readonly at?: 'phrase' | 'pass' | 'lastBars' }
  | { readonly kind: 'goTo'; readonly leg: string; readonly barIndex: number; readonly pass?: number }
  | { readonly kind: 'tempo'; readonly bpm: number; readonly overBars?: number }
  | {
      readonly kind: 'here';
      readonly leg: string;
      readonly barIndex: number;
      readonly pass?: number;
      /** Pulse of the bar that is now; 0, its beat one, where nothing is said. */
      readonly pulse?: number;
      readonly pressedAtMs?: number;
    }
  | { readonly kind: 'adopt'; readonly road: Road }
  | { readonly kind: 'stopTime' | 'stopTimeOff' }
  /** Who plays is named as the stands show it: a player's name, or "drums". */
  | { readonly kind: 'trade'; readonly bars: number; readonly players: readonly string[] }
  | { readonly kind: 'soloOrder'; readonly players: readonly string[] }
  | { readonly kind: 'nextSoloist' }
  | { readonly kind: 'up' | 'down'; readonly semitones?: number }
  | { readonly kind: 'feel'; readonly feel: 'half' | 'double' | 'as written' }
  | { readonly kind: 'dynamic'; readonly dynamic: 'down' | 'build' | 'as written' }
  | { readonly kind: 'hold'; readonly leg?: string; readonly barIndex?: number }
  | { readonly kind: 'release'; readonly onTap?: boolean }
  | {
      readonly kind: 'loop';
      readonly leg: string;
      /** Bar indexes, both played. */
      readonly from: number;
      readonly to: number;
      /** Counted in before every round; else the rounds follow each other. */
      readonly countIn?: boolean;
      /** The tempo goes up by so many pulses a minute after every `everyRounds` rounds, up to `goalBpm`. */
      readonly stepBpm?: number;
      readonly everyRounds?: number;
      readonly goalBpm?: number;
    }
  | { readonly kind: 'loopOff' }
  /** A tap on a pulse, or on beat one where only downbeats are tapped. Shared time. */
  | { readonly kind: 'tap'; readonly tappedAtMs: number; readonly downbeat?: boolean }
  | { readonly kind: 'resume' }
  /** The band has done what this cue says, at the line that the cue just missed. */
  | { readonly kind: 'itHappened'; readonly cue: string };

export type CueKind = Cue['kind'];

/** A line of the take's log, as the relay stamped it. `calledAtMs` is shared time. */
export interface Called {
  readonly id: string;
  readonly cue: Cue | { readonly kind: 'takeBack'; readonly cue: string };
  readonly calledAtMs: number;
  /** Who called it: a member's id; absent for what the relay does by itself. */
  readonly by?: string;
}

/** One run of one tune: the road as it stood when the tune was called, plus the cues since, in order. */
export interface Take {
  readonly id: string;
  /** Id of the chart. */
  readonly chart: string;
  readonly title: string;
  readonly road: Road;
  /** Semitones by which the whole tune is read higher (−lower) than written, −11 to 11: another key was asked for. */
  readonly semitones?: number;
  readonly cues: readonly Called[];
}
