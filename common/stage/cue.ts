import type { Road } from '../form/road.ts';

/**
 * What a leader can call. The table in RULES.md says where each lands. Kinds still to come: stopTime, trade,
 * soloOrder, nextSoloist, up, down, feel, dynamic, hold, release, loop, tap, resume.
 */
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
      readonly pressedAtMs?: number;
    }
  | { readonly kind: 'adopt'; readonly road: Road };

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
  /** Semitones by which the whole tune is read higher (−lower) than written, −6 to 6: another key was asked for. */
  readonly semitones?: number;
  readonly cues: readonly Called[];
}
