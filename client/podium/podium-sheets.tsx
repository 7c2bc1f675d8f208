import { Sheet } from '../app/sheet.tsx';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import { podiumSettings } from '../storage/tablet-podium.ts';
import { HeadKeys, type HeadKeysProps, type PodiumSheet } from './head-keys.tsx';
import { LeadSheet } from './lead-sheet.tsx';
import { PedalSheet } from './pedals/pedal-sheet.tsx';
import { SetUpSheet } from './set-up-sheet.tsx';
import type { useCalling } from './use-calling.ts';
import './podium-sheets.css';

/** The sheet that is open over the podium. */
export const PodiumSheets = ({
  sheet,
  calling,
  head,
  onSheet,
}: {
  readonly sheet: PodiumSheet;
  readonly calling: ReturnType<typeof useCalling>;
  readonly head: HeadKeysProps;
  readonly onSheet: (sheet: PodiumSheet | null) => void;
}) => {
  const board = useBoard();
  const people = useObservable(board.people);
  const leading = useObservable(board.leading);
  const link = useObservable(board.link);
  const settings = useObservable(podiumSettings);
  const close = () => onSheet(null);
  switch (sheet) {
    case 'lead':
      return (
        <LeadSheet
          people={people}
          me={{ role: board.role, member: board.member }}
          leading={leading}
          away={link.state !== 'on'}
          words={calling.words}
          onLead={(change) => void calling.lead(change)}
          onClose={close}
        />
      );
    case 'setUp':
      return (
        <SetUpSheet
          settings={settings}
          onSettings={podiumSettings.change}
          onPedals={() => onSheet('pedals')}
          onClose={close}
        />
      );
    case 'pedals':
      return (
        <PedalSheet
          bindings={settings.bindings}
          onBindings={(bindings) => podiumSettings.change({ bindings })}
          onClose={close}
        />
      );
    case 'more':
      return (
        <Sheet title="More" onClose={close}>
          <HeadKeys {...head} />
        </Sheet>
      );
  }
};
