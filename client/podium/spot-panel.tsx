import type { Cue } from '../../common/stage/cue.ts';
import type { PodiumSettings } from '../storage/podium-settings.ts';
import { barsWords, type Stretch } from './letters.ts';
import { loopCue, tempoPlan } from './spot-choice.ts';
import { Stepper } from './stepper.tsx';
import './spot-panel.css';

/** Rehearsing a spot: how the bars that were touched are looped, and from which tempo to which. */
export const SpotPanel = ({
  chosen,
  legName,
  settings,
  bpm,
  goalBpm,
  rolling,
  looping,
  isFree,
  away = false,
  onSettings,
  onGoal,
  onCall,
}: {
  readonly chosen: Stretch | null;
  readonly legName: string;
  readonly settings: PodiumSettings;
  /** The tempo now. */
  readonly bpm: number;
  readonly goalBpm: number;
  readonly rolling: boolean;
  /** A spot is looped, or will be. */
  readonly looping: boolean;
  readonly isFree: (cue: Cue) => boolean;
  /** The relay does not answer. */
  readonly away?: boolean;
  readonly onSettings: (fields: Partial<PodiumSettings>) => void;
  readonly onGoal: (bpm: number) => void;
  readonly onCall: (...cues: readonly Cue[]) => void;
}) => {
  const { loopCountIn, loopStepBpm, loopRounds } = settings;
  const loop = chosen === null ? [] : [loopCue(chosen, settings, bpm, goalBpm)];
  const start =
    chosen === null || rolling ? [] : [{ kind: 'start', leg: chosen.leg, barIndex: chosen.from } as const];
  // Called in the count-in, the loop begins with the downbeat.
  const cues: readonly Cue[] = [...start, ...loop];
  return (
    <section className="spot-panel" aria-label="rehearse a spot">
      <h2>
        <b>{chosen === null ? 'Touch the first and the last bar' : `${legName}, ${barsWords(chosen)}`}</b>
        {chosen !== null && ` · ${tempoPlan(bpm, loopStepBpm, loopRounds, goalBpm)}`}
      </h2>
      <div className="spot-set">
        <fieldset className="two-ways">
          <legend>each time</legend>
          <button
            type="button"
            className="button"
            aria-pressed={loopCountIn}
            onClick={() => onSettings({ loopCountIn: true })}
          >
            count in
          </button>
          <button
            type="button"
            className="button"
            aria-pressed={!loopCountIn}
            onClick={() => onSettings({ loopCountIn: false })}
          >
            seamless
          </button>
        </fieldset>
        <Stepper
          label="faster by"
          words={loopStepBpm === 0 ? 'no' : `${loopStepBpm} bpm`}
          value={loopStepBpm}
          least={0}
          most={20}
          onChange={(next) => onSettings({ loopStepBpm: next })}
        />
        <Stepper
          label="after every"
          words={loopRounds === 1 ? 'time' : `${loopRounds} times`}
          value={loopRounds}
          least={1}
          most={16}
          disabled={loopStepBpm === 0}
          onChange={(next) => onSettings({ loopRounds: next })}
        />
        <Stepper
          label="up to"
          words={`${goalBpm}`}
          value={goalBpm}
          least={Math.round(bpm)}
          most={400}
          step={4}
          disabled={loopStepBpm === 0}
          onChange={onGoal}
        />
      </div>
      <div className="spot-keys">
        <button
          type="button"
          className="button-primary"
          data-key-id="loopSpot"
          disabled={!cues.slice(0, 1).some(isFree)}
          aria-disabled={away}
          onClick={() => onCall(...cues)}
        >
          {rolling ? 'loop it' : 'count in and loop it'}
        </button>
        {looping && (
          <button
            type="button"
            className="button"
            data-key-id="loopOff"
            disabled={!isFree({ kind: 'loopOff' })}
            aria-disabled={away}
            onClick={() => onCall({ kind: 'loopOff' })}
          >
            loop off
          </button>
        )}
      </div>
    </section>
  );
};
