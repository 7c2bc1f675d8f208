import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { Leg, RoadBar } from '../../common/form/road.ts';
import { Bar } from '../engraving/bar.tsx';
import { barColumns, Line } from '../engraving/line.tsx';
import { useNoteNames } from '../engraving/note-names.ts';
import { foldLine } from '../stand/stand-lines.ts';
import type { Stretch } from './letters.ts';

interface LegBar {
  readonly bar: RoadBar;
  readonly place: { readonly barIndex: number };
}

const linesOf = (leg: Leg, perLine: number): LegBar[][] => {
  const lines: LegBar[][] = [[]];
  leg.bars.forEach((bar, barIndex) => {
    lines.at(-1)?.push({ bar, place: { barIndex } });
    if (bar.content.lineEnd) lines.push([]);
  });
  return lines.filter((line) => line.length > 0).flatMap((line) => foldLine(line, perLine));
};

/** All bars of a leg, each of them a key: to start from, to point at, to go to, to loop. */
export const BarChoice = ({ leg, musicOf, read, chosen, now, perLine, onTouch }: BarChoiceProps) => {
  const names = useNoteNames();
  return (
    <div className="bar-choice">
      {linesOf(leg, perLine).map((line) => {
        const musics = line.map(({ bar }) => musicOf(bar));
        return (
          <Line
            key={line[0]?.place.barIndex}
            letter={line[0]?.bar.content.letter}
            columns={barColumns(musics, (symbol) => read(symbol, musics[0]?.key ?? ''), names)}
          >
            {line.map(({ bar, place: { barIndex } }, k) => {
              const music = musics[k] ?? bar.content.music;
              const isChosen = chosen?.leg === leg.id && chosen.from <= barIndex && barIndex <= chosen.to;
              return (
                <Bar
                  key={barIndex}
                  music={music}
                  read={(symbol) => read(symbol, music.key)}
                  number={barIndex + 1}
                  data-pointed={isChosen ? '' : undefined}
                  data-now={now?.leg === leg.id && now.barIndex === barIndex ? '' : undefined}
                >
                  <button
                    type="button"
                    className="bar-choice-key"
                    aria-pressed={isChosen}
                    aria-label={`bar ${barIndex + 1}`}
                    onClick={() => onTouch(leg.id, barIndex, bar.id)}
                  />
                </Bar>
              );
            })}
          </Line>
        );
      })}
    </div>
  );
};

interface BarChoiceProps {
  readonly leg: Leg;
  readonly musicOf: (bar: RoadBar) => BarMusic;
  readonly read: (symbol: string, key: string) => string;
  readonly chosen: Stretch | null;
  /** The bar being played, null where none is. */
  readonly now: { readonly leg: string; readonly barIndex: number } | null;
  readonly perLine: number;
  readonly onTouch: (leg: string, barIndex: number, id: string) => void;
}
