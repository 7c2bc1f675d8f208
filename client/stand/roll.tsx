import {
  memo,
  type ReactNode,
  startTransition,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import { flushSync } from 'react-dom';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import type { ComingBar, Where } from '../../common/stage/place.ts';
import { Bar } from '../engraving/bar.tsx';
import { barColumns, Line } from '../engraving/line.tsx';
import { useNoteNames } from '../engraving/note-names.ts';
import type { Follower } from './follower.ts';
import type { Help } from './help/help-on-stand.ts';
import { litBar } from './lit-bar.ts';
import type { ReadChord } from './reader-key.ts';
import { ROLL_PLACES, rollPlaces } from './roll-places.ts';
import {
  barKey,
  type RollLine,
  roleOf,
  rollLines,
  type StandLine,
  sameLine,
  standLines,
} from './stand-lines.ts';
import { useBarsPerLine } from './use-bars-per-line.ts';
import { useFrames } from './use-follower.ts';
import './roll.css';
import './roll-sizes.css';

/** Bars asked for beyond the pass so far: enough for the line before and for the lines ahead. */
const BEFORE = 17;
const AHEAD = 40;
/** When the lines have rolled, on a slow tablet as well, those still to come are drawn, ms. */
const AFTER_ROLL_MS = 700;

export interface RollProps {
  follower: Follower;
  /** What a bar holds now, from the chart as it stands. */
  musicOf: (bar: ComingBar['bar']) => BarMusic;
  /** A chord as this reader reads it in a bar of that key, at that time. */
  read: ReadChord;
  /** Id of the bar the leader points at. */
  pointed: string | null;
  /** What stands under the chords, and how much room it takes; null where nothing does. */
  help?: Help | null;
  /** What stands in the place of the line being played while there is none: the count, the tune that waits. */
  children?: ReactNode;
}

const linesAt = (
  follower: Follower,
  where: Where,
  tMs: number,
  maxBars: number,
  help: Help | null,
): RollLine[] => {
  const before = isOn(where) ? where.place.barIndex + BEFORE : 0;
  const { bars, now } = follower.source.barsAround(tMs, before, AHEAD);
  return rollLines(standLines(bars, maxBars, help?.needsLine), now < 0 ? null : (bars[now]?.index ?? null));
};

const isOn = (where: Where): where is Extract<Where, { state: 'playing' | 'held' }> =>
  where.state === 'playing' || where.state === 'held';

/** What the lines depend on: while it stays the same, nothing on the roll changes but the ticks. */
const rollKey = (where: Where): string =>
  isOn(where) ? `${where.bar} ${where.place.leg} ${where.place.pass} ${where.place.barIndex}` : where.state;

const placeKey = ({ place, index }: ComingBar): string =>
  `${index} ${place.leg} ${place.pass} ${place.barIndex}`;

/** Lines that roll up into the one being played, which always stands at the same height. */
export const Roll = ({ follower, musicOf, read, pointed, help = null, children }: RollProps) => {
  const root = useRef<HTMLDivElement>(null);
  const maxBars = useBarsPerLine(root, help?.leastBarPx);
  // A cue, a line folded anew: the lines are made afresh, in this render.
  const made = useMemo(
    () => ({ lines: linesAt(follower, follower.where(), follower.now(), maxBars, help) }),
    [follower, maxBars, help],
  );
  const [rolled, setRolled] = useState({ made, lines: made.lines });
  const lines = rolled.made === made ? rolled.lines : made.lines;
  const shown = useRef({ key: '', made, lines });
  const places = useRef(rollPlaces());
  const lit = useRef(litBar());
  const soon = useRef(0);

  /** Lights the bar being played if it is drawn, gives the lines their parts; false where it is not drawn. */
  const apply = (where: Where, next: readonly RollLine[], moving: boolean): boolean => {
    const stand = root.current;
    if (stand === null) return false;
    const nowLine = next.find((line) => line.distance === 0);
    const nowBar = isOn(where) ? nowLine?.bars.find((bar) => placeKey(bar) === rollKey(where)) : undefined;
    const element =
      nowBar === undefined
        ? null
        : stand.querySelector<HTMLElement>(`[data-key="${CSS.escape(barKey(nowBar))}"]`);
    if (isOn(where) && element === null) return false;
    const isLast = nowBar !== undefined && nowLine?.bars.at(-1) === nowBar && nowLine.bars.length > 1;
    places.current.to(stand, new Map(next.map((line) => [line.key, roleOf(line.distance)])), isLast, moving);
    lit.current.light(element, isOn(where) ? where.place : null);
    return true;
  };
  const fill = (where: Where): void => {
    if (isOn(where)) lit.current.fill(where.place.pulse, where.state === 'playing' ? where.bpm : null);
  };

  useFrames(follower, (where, tMs) => {
    places.current.step();
    const key = rollKey(where);
    if (shown.current.key !== key) {
      const next = linesAt(follower, where, tMs, maxBars, help);
      shown.current = { key, made, lines: next };
      window.clearTimeout(soon.current);
      const draw = () => setRolled({ made, lines: next });
      if (!apply(where, next, true)) {
        // A jump to something that is not drawn yet must stand in this very frame.
        flushSync(draw);
      } else if (next.length !== lines.length || next.some((line, at) => line.key !== lines[at]?.key)) {
        // All that is seen is drawn already; what comes after it can wait until nothing moves.
        soon.current = window.setTimeout(() => startTransition(draw), AFTER_ROLL_MS);
      }
    }
    fill(where);
  });
  useEffect(() => () => window.clearTimeout(soon.current), []);
  const room = help?.room;
  // biome-ignore lint/correctness/useExhaustiveDependencies: another room under the chords moves everything
  useLayoutEffect(() => {
    if (root.current !== null) places.current.fit(root.current, true);
  }, [room]);
  useEffect(() => {
    const stand = root.current;
    if (stand === null) return;
    const observer = new ResizeObserver(() => places.current.fit(stand, true));
    observer.observe(stand);
    return () => observer.disconnect();
  }, []);

  useLayoutEffect(() => {
    const where = follower.where();
    if (root.current !== null) places.current.fit(root.current, false);
    if (shown.current.made !== made) shown.current = { key: rollKey(where), made, lines };
    apply(where, shown.current.lines, false);
    fill(where);
  });

  const where = follower.where();
  const heldBar = where.state === 'held' ? where.bar : null;
  return (
    <div className="roll" ref={root} data-help={room}>
      {ROLL_PLACES.map((name) => (
        <i key={name} className="roll-place" data-place={name} aria-hidden="true" />
      ))}
      {children}
      {lines.map((line) => (
        <DrawnLine
          key={line.key}
          line={line}
          musicOf={musicOf}
          read={read}
          help={help}
          pointed={line.bars.some(({ bar }) => bar.id === pointed) ? pointed : null}
          heldBar={line.bars.some(({ index }) => index === heldBar) ? heldBar : null}
        />
      ))}
    </div>
  );
};

interface DrawnLineProps extends Pick<RollProps, 'musicOf' | 'read' | 'pointed'> {
  readonly help: Help | null;
  readonly line: StandLine;
  /** `ComingBar.index` of the bar whose last chord is held; null where it is none of this line. */
  readonly heldBar: number | null;
}

/** Most of what happens leaves a line as it is: it is drawn once. */
const DrawnLine = memo(
  ({ line, musicOf, read, pointed, help, heldBar }: DrawnLineProps) => {
    const names = useNoteNames();
    const musics = line.bars.map((bar) => musicOf(bar.bar));
    const readAt = (index: number) => (symbol: string) =>
      read(symbol, musics[index]?.key ?? '', line.bars[index]?.semitones);
    return (
      <Line
        data-line={line.key}
        letter={line.letter}
        columns={barColumns(musics, readAt(0), names)}
        data-new-leg={line.newLeg ? '' : undefined}
      >
        {line.bars.map((bar, index) => {
          const music = musics[index] ?? bar.bar.content.music;
          const heading = index === 0 ? line.heading : bar.bar.content.letter;
          return (
            <Bar
              key={barKey(bar)}
              data-key={barKey(bar)}
              data-bar-id={bar.bar.id}
              data-pointed={pointed === bar.bar.id ? '' : undefined}
              music={music}
              read={readAt(index)}
              number={bar.place.barIndex + 1}
              {...(heading === undefined || heading === '' ? {} : { heading })}
              {...(bar.out === undefined ? {} : { out: bar.out, outBarsLeft: bar.outBarsLeft ?? 0 })}
              stopTime={bar.stopTime === true}
              leg={bar.leg.name}
              held={bar.index === heldBar}
              ticks
            >
              {help?.under(line.bars, musics, index, readAt)}
            </Bar>
          );
        })}
      </Line>
    );
  },
  (a, b) =>
    sameLine(a.line, b.line) &&
    a.musicOf === b.musicOf &&
    a.read === b.read &&
    a.pointed === b.pointed &&
    a.help === b.help &&
    a.heldBar === b.heldBar,
);
