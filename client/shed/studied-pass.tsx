import { useMemo, useRef, useState } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { RoadBar } from '../../common/form/road.ts';
import type { PassHelp, PlacedHelp } from '../../common/help/help.ts';
import { pinName } from '../../common/help/shape-help.ts';
import type { StudyPass } from '../../common/help/study-pass.ts';
import { Bar } from '../engraving/bar.tsx';
import type { Neck } from '../engraving/help-mark.tsx';
import { HelpRow } from '../engraving/help-row.tsx';
import { barColumns, Line } from '../engraving/line.tsx';
import { useNoteNames } from '../engraving/note-names.ts';
import { SpelledText } from '../engraving/spelled-text.tsx';
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

const linesOf = (bars: readonly RoadBar[], maxBars: number): PlacedBar[][] => {
  const lines: PlacedBar[][] = [[]];
  bars.forEach((bar, barIndex) => {
    lines.at(-1)?.push({ place: { barIndex }, bar });
    if (bar.content.lineEnd) lines.push([]);
  });
  return lines.filter((line) => line.length > 0).flatMap((line) => foldLine(line, maxBars));
};

/** One time through: the chords with what they do and what to play, then the guide-tone lines over the form. */
export const StudiedPass = (props: StudiedPassProps) => {
  const { pass, music, read, numerals, guides, own, lost, neck, pinning } = props;
  const names = useNoteNames();
  const root = useRef<HTMLElement>(null);
  const maxBars = useBarsPerLine(root);
  const lines = useMemo(() => linesOf(pass.bars, maxBars), [pass, maxBars]);
  const [chosen, setChosen] = useState<string | null>(null);
  const musicOf = (bar: RoadBar) => music.get(bar.id) ?? bar.content.music;
  const title = `${pass.legs.map(({ name }) => name).join(', ')}${pass.isLast ? ', last time' : ''}`;
  return (
    <section className="studied" ref={root} aria-label={title}>
      <h2>
        {title} <span className="dim">{pass.bars.length} bars</span>
      </h2>
      {lines.map((line) => {
        const musics = line.map(({ bar }) => musicOf(bar));
        const readAt = (at: number) => (symbol: string) => read(symbol, musics[at]?.key ?? '');
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
                    <Reasons helps={numerals?.[place.barIndex] ?? []} />
                    {own !== null && (
                      <div className="studied-own" data-kind={shapes[0]?.help.kind}>
                        <HelpRow music={held} read={readAt(at)} helps={shapes} neck={neck} />
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

/** Why each chord has its numeral. */
const Reasons = ({ helps }: { readonly helps: readonly PlacedHelp[] }) => (
  <div className="studied-reasons">
    {helps.map(({ cell, help }) =>
      help.kind === 'numeral' ? (
        <p key={cell}>
          <SpelledText text={help.reason} />
        </p>
      ) : null,
    )}
  </div>
);

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
