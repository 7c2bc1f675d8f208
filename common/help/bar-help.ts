import type { BarMusic } from '../chart/bar-music.ts';
import type { RoadBar } from '../form/road.ts';
import type { Help, PassHelp } from './help.ts';

/** The form for drums: which bar of its phrase each bar is, and what is pushed in it. */
export const formHelp = (bars: readonly RoadBar[], musicOf: (bar: RoadBar) => BarMusic): PassHelp => {
  let from = 0;
  return bars.map((bar, index) => {
    const to = bars.findIndex(({ phraseEnd }, at) => at >= index && phraseEnd);
    const last = to < 0 ? bars.length - 1 : to;
    const help: Help = {
      kind: 'form',
      bar: index - from + 1,
      of: last - from + 1,
      pushes: pushesOf(musicOf(bar), bars[index + 1] && musicOf(bars[index + 1] as RoadBar)),
    };
    if (last === index) from = index + 1;
    return [{ cell: 0, help }];
  });
};

/** A chord pushed onto a bar's first beat is struck at the end of the bar before. */
const pushesOf = ({ cells, pulses }: BarMusic, next: BarMusic | undefined): string[] => [
  ...cells
    .filter(({ pushed, atPulse }) => pushed && atPulse > 0)
    .map(({ atPulse }) => `${Math.floor(atPulse)}&`),
  ...(next?.cells.some(({ pushed, atPulse }) => pushed && atPulse === 0) ? [`${Math.floor(pulses)}&`] : []),
];

/** The notes that are pinned to each bar, for who sings. */
export const wordsHelp = (
  bars: readonly RoadBar[],
  notes: ReadonlyMap<string, readonly string[]>,
): PassHelp =>
  bars.map(({ id }) => {
    const text = notes.get(id)?.join(' · ') ?? '';
    return text === '' ? [] : [{ cell: 0, help: { kind: 'words', text } }];
  });
