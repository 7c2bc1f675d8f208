import { type CSSProperties, useMemo, useRef, useState } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import { count } from '../../common/form/count.ts';
import type { RoadBar } from '../../common/form/road.ts';
import type { Help, PassHelp, PlacedHelp } from '../../common/help/help.ts';
import { pinName } from '../../common/help/shape-help.ts';
import type { StudyPass } from '../../common/help/study-pass.ts';
import { printNumeral } from '../../common/theory/harmony/numeral.ts';
import { Bar } from '../engraving/bar.tsx';
import { helpLine } from '../engraving/help-line.ts';
import type { Neck } from '../engraving/help-mark.tsx';
import { HelpRow, helpColumns } from '../engraving/help-row.tsx';
import { layBar } from '../engraving/lay-bar.ts';
import { barColumns, Line } from '../engraving/line.tsx';
import { useNoteNames } from '../engraving/note-names.ts';
import { SpelledText } from '../engraving/spelled-text.tsx';
import { chordsInMostBars, needsLine, PHONE_PX } from '../stand/help/chords-in-bars.ts';
import { foldLine } from '../stand/stand-lines.ts';
import { useBarsPerLine } from '../stand/use-bars-per-line.ts';
import { GuidePlot } from './guide-plot.tsx';
import { type Pinning, ShapeChoice } from './shape-choice.tsx';

/** Null until it is found. */
export type PassHelps = PassHelp | null;

export interface StudiedPassProps {
  readonly pass: StudyPass;
  readonly music: ReadonlyMap<string, BarMusic>;
  readonly read: (symbol: string, key: string) => string;
  readonly numerals: PassHelps;
  readonly guides: PassHelps;
  /** What the player has under the chords besides. */
  readonly own: PassHelps;
  /** Bars in which people lose the form. */
  readonly lost: ReadonlySet<string>;
  readonly neck: Neck;
  /** How shapes are pinned; null where none are shown. */
  readonly pinning: Pinning | null;
}

interface PlacedBar {
  readonly place: { readonly barIndex: number };
  readonly bar: RoadBar;
}

/** A chord, and words on what it does, need so much, px. */
const CHORD_PX = 104;

const linesOf = (bars: readonly RoadBar[], maxBars: number): PlacedBar[][] => {
  const lines: PlacedBar[][] = [[]];
  bars.forEach((bar, barIndex) => {
    lines.at(-1)?.push({ place: { barIndex }, bar });
    if (bar.content.lineEnd) lines.push([]);
  });
  const maxOf = (line: readonly PlacedBar[]): number =>
    line.some(({ bar }) => needsLine(bar, window.innerWidth)) ? 1 : maxBars;
  return lines.filter((line) => line.length > 0).flatMap((line) => foldLine(line, maxOf(line)));
};

/** One time through: the chords with what they do and what to play, then the guide-tone lines over the form. */
export const StudiedPass = (props: StudiedPassProps) => {
  const { pass, music, read, numerals, guides, own, lost, neck, pinning } = props;
  const names = useNoteNames();
  const root = useRef<HTMLElement>(null);
  const chords = chordsInMostBars(pass.bars);
  const maxBars = useBarsPerLine(root, chords > 1 ? CHORD_PX * chords : 0);
  const lines = useMemo(() => linesOf(pass.bars, maxBars), [pass, maxBars]);
  const [chosen, setChosen] = useState<string | null>(null);
  const musicOf = (bar: RoadBar) => music.get(bar.id) ?? bar.content.music;
  const title = `${pass.legs.map(({ name }) => name).join(', ')}${pass.isLast ? ', last time' : ''}`;
  return (
    <section className="studied" ref={root} aria-label={title}>
      <h2>
        {title} <span className="dim">{count(pass.bars.length, 'bar')}</span>
      </h2>
      {lines.map((line) => {
        const musics = line.map(({ bar }) => musicOf(bar));
        const readAt = (at: number) => (symbol: string) => read(symbol, musics[at]?.key ?? '');
        const helped = line.map(({ place, bar }, at) => ({
          music: musics[at] ?? bar.content.music,
          helps: own?.[place.barIndex] ?? [],
        }));
        const crowded = window.innerWidth < PHONE_PX ? 2 : undefined;
        const common = helpLine(helped, readAt(0), names, crowded);
        const open = line.find(({ place, bar }) =>
          own?.[place.barIndex]?.some(({ cell }) => pinName({ barId: bar.id, cell }) === chosen),
        );
        return (
          <div className="studied-line" key={line[0]?.place.barIndex}>
            <Line letter={line[0]?.bar.content.letter} columns={barColumns(musics, readAt(0), names)}>
              {line.map(({ place, bar }, at) => {
                const held = musics[at] ?? bar.content.music;
                const shapes = own?.[place.barIndex] ?? [];
                return (
                  <Bar
                    key={place.barIndex}
                    data-bar-id={bar.id}
                    data-lost={lost.has(bar.id) ? '' : undefined}
                    music={held}
                    read={readAt(at)}
                    number={place.barIndex + 1}
                  >
                    <HelpRow
                      music={held}
                      read={readAt(at)}
                      helps={numerals?.[place.barIndex] ?? []}
                      neck={neck}
                    />
                    <Reasons
                      music={held}
                      read={readAt(at)}
                      helps={numerals?.[place.barIndex] ?? []}
                      before={at === 0 ? undefined : numerals?.[place.barIndex - 1]?.at(-1)?.help}
                    />
                    {own !== null && (
                      <div className="studied-own" data-kind={shapes[0]?.help.kind}>
                        <HelpRow
                          music={held}
                          read={readAt(at)}
                          helps={shapes}
                          neck={neck}
                          line={common}
                          at={at}
                        />
                        {pinning !== null && (
                          <PinKeys
                            bar={bar}
                            music={held}
                            helps={shapes}
                            chosen={chosen}
                            pins={pinning.pins}
                            onChoose={(name) => setChosen(name === chosen ? null : name)}
                          />
                        )}
                      </div>
                    )}
                  </Bar>
                );
              })}
            </Line>
            {pinning !== null && open !== undefined && chosen !== null && (
              <ShapeChoice
                {...pinning}
                name={chosen}
                neck={neck}
                symbol={read(
                  musicOf(open.bar).cells[Number(chosen.split(' ').at(-1))]?.symbol ?? '',
                  musicOf(open.bar).key,
                )}
                onClose={() => setChosen(null)}
              />
            )}
          </div>
        );
      })}
      {guides !== null && <GuidePlot bars={pass.bars} musicOf={musicOf} guides={guides} />}
    </section>
  );
};

/** Why each chord has its numeral, under it; what was said of the chord before is not said again. */
const Reasons = ({ music, read, helps, before }: ReasonsProps) => {
  const { places, columns, share } = helpColumns(music, layBar(music, read, useNoteNames()), helps);
  return (
    <div className="studied-reasons" data-chords={helps.length}>
      <div
        className="studied-reason-columns"
        style={
          { '--share': share, gridTemplateColumns: helps.length > 1 ? columns : undefined } as CSSProperties
        }
      >
        {helps.map(({ cell, help }, at) => {
          if (help.kind !== 'numeral' || isSaid(help, at === 0 ? before : helps[at - 1]?.help)) return null;
          return (
            <p key={cell} style={{ gridColumn: helps.length > 1 ? `${places[at]}` : undefined }}>
              <SpelledText text={help.reason} />
            </p>
          );
        })}
      </div>
    </div>
  );
};

interface ReasonsProps {
  readonly music: BarMusic;
  readonly read: (symbol: string) => string;
  readonly helps: readonly PlacedHelp[];
  /** Of the chord before the bar, where that stands in the same line. */
  readonly before: Help | undefined;
}

const isSaid = (help: Extract<Help, { kind: 'numeral' }>, before: Help | undefined): boolean =>
  before?.kind === 'numeral' &&
  before.reason === help.reason &&
  printNumeral(before.numeral) === printNumeral(help.numeral);

interface PinKeysProps {
  readonly bar: RoadBar;
  readonly music: BarMusic;
  readonly helps: readonly PlacedHelp[];
  readonly chosen: string | null;
  readonly pins: Pinning['pins'];
  readonly onChoose: (name: string) => void;
}

/** Over each shape a key that offers the others. */
const PinKeys = ({ bar, music, helps, chosen, pins, onChoose }: PinKeysProps) => (
  <div
    className="pin-keys"
    style={{
      gridTemplateColumns: music.cells.map(({ lengthPulses }) => `minmax(0, ${lengthPulses}fr)`).join(' '),
    }}
  >
    {helps.map(({ cell, help }) => {
      const name = pinName({ barId: bar.id, cell });
      const isPinned = pins.has(name);
      return help.kind !== 'shape' ? null : (
        <button
          key={cell}
          type="button"
          className="pin-key"
          style={{ gridColumn: cell + 1 }}
          aria-label={`other shapes for bar ${bar.content.written}${isPinned ? ', pinned' : ''}`}
          aria-expanded={chosen === name}
          data-pinned={isPinned ? '' : undefined}
          onClick={() => onChoose(name)}
        >
          {isPinned && <span className="pin-mark">this one</span>}
        </button>
      );
    })}
  </div>
);
