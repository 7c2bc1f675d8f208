import { useEffect, useRef } from 'react';
import { mayCall } from '../../../common/protocol/roles.ts';
import { useBoard } from '../../state/board-context.tsx';
import { useObservable } from '../../state/observable.ts';
import type { PodiumSettings } from '../../storage/podium-settings.ts';
import { podiumSettings } from '../../storage/tablet-podium.ts';
import { keyMatter } from '../key-matter.ts';
import { pressTime } from '../press-time.ts';
import { pickedSoloists } from '../soloists-picked.ts';
import { useCalling } from '../use-calling.ts';
import { useStageChart } from '../use-stage-chart.ts';
import { actionOf } from './bindings.ts';
import { hearKeys } from './hear-keys.ts';
import { midi } from './hear-midi.ts';
import { pressAction } from './pedal-actions.ts';
import { pedals } from './pedal-hub.ts';
import './pedals.css';

const hasMidi = ({ bindings }: PodiumSettings): boolean =>
  bindings.some(({ trigger }) => !trigger.startsWith('key:'));

/**
 * Pedals and keys of this tablet, on whatever view is shown: hears them and calls what they are bound to. Shows
 * nothing but why a call was not taken.
 */
export const Pedals = () => {
  const settings = useObservable(podiumSettings);
  useEffect(() => hearKeys(pedals, window), []);
  const wantsMidi = hasMidi(settings);
  useEffect(() => {
    if (wantsMidi) void midi.openAgain();
  }, [wantsMidi]);
  return settings.bindings.length === 0 ? null : <BoundPedals />;
};

const BoundPedals = () => {
  const board = useBoard();
  const settings = useObservable(podiumSettings);
  const leading = useObservable(board.leading);
  const { performance: played } = useObservable(board.stage);
  const { edited, chartKey } = useStageChart(board);
  const calling = useCalling(board);

  const press = (action: string, stampMs: number): void => {
    if (played === null) {
      calling.say('Call a tune first.');
      return;
    }
    const nowMs = board.sharedNow();
    const picked = pickedSoloists.get();
    const matter = keyMatter(played, nowMs, { settings, edited: edited?.road ?? null, chartKey, picked });
    const pressed = pressAction(action, played, matter, pressTime(stampMs, performance.now(), nowMs));
    if ('words' in pressed) calling.say(pressed.words);
    else if ('takeBack' in pressed) void calling.takeBack(pressed.takeBack);
    else if (mayCall(board.role, board.member, leading, pressed.call)) void calling.call(pressed.call);
    else calling.say('Only who leads can call that.');
  };
  const latest = useRef({ press, settings });
  latest.current = { press, settings };

  useEffect(
    () =>
      pedals.play(
        (trigger) => actionOf(latest.current.settings.bindings, trigger) !== null,
        (trigger, atMs) => {
          const action = actionOf(latest.current.settings.bindings, trigger);
          if (action !== null) latest.current.press(action, atMs);
        },
      ),
    [],
  );
  return calling.words === null ? null : (
    <p className="strip pedal-words" data-family="feel" role="alert">
      {calling.words}
    </p>
  );
};
