import type { Ref } from 'react';
import './ribbon.css';

export interface RibbonBar {
  readonly key: string;
  readonly pulses: number;
  /** A gap follows. */
  readonly phraseEnd: boolean;
  /** The band is out in it. */
  readonly out: boolean;
  /** A place where players are likely to lose the form. */
  readonly lost?: boolean;
}

/**
 * The whole pass to scale. Bars before the one with `data-here` are lit as played; whoever follows the music
 * moves that attribute, so that nothing is rendered anew for it.
 */
export const Ribbon = ({ bars, ref }: { bars: readonly RibbonBar[]; ref?: Ref<HTMLDivElement> }) => (
  <div className="ribbon" ref={ref} aria-hidden="true">
    {bars.map((bar) => (
      <i
        key={bar.key}
        style={{ flexGrow: bar.pulses }}
        data-phrase-end={bar.phraseEnd ? '' : undefined}
        data-out={bar.out ? '' : undefined}
        data-lost={bar.lost ? '' : undefined}
      />
    ))}
  </div>
);
