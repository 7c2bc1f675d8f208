import { Sheet } from '../app/sheet.tsx';
import type { PodiumSettings } from '../storage/podium-settings.ts';
import { Choice } from './choice.tsx';

const numbers = (...values: readonly number[]) => values.map((value) => [value, `${value}`] as const);

/** How the podium of this tablet is set up: the numbers that keys take, the hand, what is tapped, and the pedals. */
export const SetUpSheet = ({
  settings,
  onSettings,
  onPedals,
  onClose,
}: {
  readonly settings: PodiumSettings;
  readonly onSettings: (fields: Partial<PodiumSettings>) => void;
  readonly onPedals: () => void;
  readonly onClose: () => void;
}) => (
  <Sheet title="Set up the podium" onClose={onClose}>
    <Choice
      label="A break lasts, bars"
      options={numbers(1, 2, 4)}
      value={settings.breakBars}
      onChange={(breakBars) => onSettings({ breakBars })}
    />
    <Choice
      label="A tag repeats, bars"
      options={numbers(2, 4, 8)}
      value={settings.tagBars}
      onChange={(tagBars) => onSettings({ tagBars })}
    />
    <Choice
      label="and is heard, times"
      options={numbers(2, 3, 4)}
      value={settings.tagTimes}
      onChange={(tagTimes) => onSettings({ tagTimes })}
    />
    <Choice
      label="Rit. and accel. last, bars"
      options={numbers(1, 2, 4, 8)}
      value={settings.rampBars}
      onChange={(rampBars) => onSettings({ rampBars })}
    />
    <Choice
      label="and change the tempo by, %"
      options={numbers(5, 10, 15, 30)}
      value={settings.rampPercent}
      onChange={(rampPercent) => onSettings({ rampPercent })}
    />
    <Choice
      label="I tap"
      options={[
        ['beats', 'every beat'],
        ['downbeats', 'the one'],
      ]}
      value={settings.tapping}
      onChange={(tapping) => onSettings({ tapping })}
    />
    <Choice
      label="My free hand"
      options={[
        ['left', 'left'],
        ['right', 'right'],
      ]}
      value={settings.hand}
      onChange={(hand) => onSettings({ hand })}
    />
    <Choice
      label="A tick in the hand at each touch"
      options={[
        [true, 'yes'],
        [false, 'no'],
      ]}
      value={settings.haptic}
      onChange={(haptic) => onSettings({ haptic })}
    />
    <button type="button" className="button" onClick={onPedals}>
      pedals and keys …
    </button>
  </Sheet>
);
