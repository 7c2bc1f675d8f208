import type { CSSProperties, ReactNode } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { PlacedHelp } from '../../common/help/help.ts';
import { HelpMark } from './help-mark.tsx';
import './help-row.css';

export interface HelpRowProps {
  readonly music: BarMusic;
  readonly helps: readonly PlacedHelp[];
  /** The fretboard is drawn for a left hand that strums. */
  readonly leftHanded?: boolean;
}

/** What stands under the chords of a bar, each under its own. */
export const HelpRow = ({ music, helps, leftHanded = false }: HelpRowProps) => (
  <div
    className="help-row"
    style={{
      gridTemplateColumns: music.cells.map(({ lengthPulses }) => `minmax(0, ${lengthPulses}fr)`).join(' '),
    }}
  >
    {helps.map(({ cell, help }) => (
      <HelpCell key={cell} column={help.kind === 'words' || help.kind === 'form' ? '1 / -1' : `${cell + 1}`}>
        <HelpMark help={help} leftHanded={leftHanded} />
      </HelpCell>
    ))}
  </div>
);

/** The place under one chord: what stands in it is as large as its height and width allow. */
const HelpCell = ({ column, children }: { readonly column: string; readonly children: ReactNode }) => (
  <div className="help-cell" style={{ '--column': column } as CSSProperties}>
    {children}
  </div>
);
