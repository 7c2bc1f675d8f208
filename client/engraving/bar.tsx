import type { CSSProperties, HTMLAttributes, Ref } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import { LeftSign, RepeatSign, RightSign } from './bar-signs.tsx';
import { BarWords } from './bar-words.tsx';
import { ChordSymbol } from './chord-symbol.tsx';
import { type BarItem, CARRIED, layBar, REST_EM } from './lay-bar.ts';
import { useNoteNames } from './note-names.ts';
import { PulseTicks } from './pulse-ticks.tsx';
import { Rest } from './rest.tsx';
import { TradeSign } from './trade-sign.tsx';
import { whileOut } from './while-out.ts';
import './bar.css';

export interface BarProps extends HTMLAttributes<HTMLDivElement> {
  ref?: Ref<HTMLDivElement>;
  music: BarMusic;
  /** A chord symbol as this reader reads it; left out: as typed. */
  read?: (symbol: string) => string;
  /** Number shown at the bar's head. */
  number?: number;
  /** Words at its head that are not the writer's: the name of a leg that begins here. */
  heading?: string;
  left?: string;
  right?: string;
  ending?: string;
  /** The band is out: 'hit' on beat one and then silent, 'out' throughout; and how many such bars still follow. */
  out?: 'hit' | 'out';
  outBarsLeft?: number;
  /** Stop-time: the band hits beat one and leaves the rest of the bar. */
  stopTime?: boolean;
  /** Draws the pulses under the bar. */
  ticks?: boolean;
  /** Draws `%` as the repeat sign, as it was written; else the chords are repeated. */
  asWritten?: boolean;
  /** Leaves out the words over the bar. */
  wordless?: boolean;
  /** Drops words that do not apply in this leg. */
  leg?: string;
  /** The last chord is held. */
  held?: boolean;
}

const asTyped = (symbol: string): string => symbol;

const Item = ({ item, held }: { item: BarItem; held: boolean }) => {
  if (item.kind === 'rest') {
    const count = Math.max(1, item.count);
    return (
      <span className="bar-rests" style={{ width: `${(count * REST_EM).toFixed(3)}em` }}>
        <span className="visually-hidden">
          {item.count === 0 ? 'rest' : count === 1 ? '1 beat rest' : `${count} beats rest`}
        </span>
        {Array.from({ length: count }, (_, n) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: rests are alike
          <Rest key={n} whole={item.count === 0} />
        ))}
      </span>
    );
  }
  return (
    <span className="bar-chord" data-carried={item.carried ? '' : undefined}>
      {item.pushed && (
        <svg className="bar-push" viewBox="0 0 26 60" role="img" aria-label="an eighth early">
          <path d="M22 8 L6 30 L22 52" />
        </svg>
      )}
      {item.carried && (
        <svg className="bar-slash" viewBox="0 0 34 76" role="img" aria-label="goes on:">
          <path d="M4 58 L24 12 H30 L10 58 Z" />
        </svg>
      )}
      {held && <TradeSign name="fermata" className="bar-fermata" />}
      <span className="bar-symbol" style={item.carried ? { fontSize: `${CARRIED}em` } : undefined}>
        <ChordSymbol symbol={item.symbol} />
      </span>
    </span>
  );
};

/**
 * One bar: its chords at their pulses, as large as its width and height allow, between its bar lines. Takes the
 * size of its box; `--chord-max` from the surroundings limits the chords.
 */
export const Bar = (props: BarProps) => {
  const {
    music,
    read = asTyped,
    number,
    heading,
    left = '',
    right = '',
    ending = '',
    out,
    outBarsLeft = 0,
    stopTime = false,
    ticks = false,
    asWritten = false,
    wordless = false,
    leg,
    held = false,
    className = '',
    children,
    ...rest
  } = props;
  const laid = whileOut(
    layBar(music, read, useNoteNames()),
    out ?? (stopTime ? 'hit' : undefined),
    music.pulses,
  );
  const repeated = asWritten && music.repeats !== undefined;
  const counted = ticks && out !== undefined && outBarsLeft === 0 && !asWritten;
  const holds = music.words.filter((word) => word.mark?.kind === 'hold' || word.mark?.kind === 'onCue');
  const heldAt = (item: BarItem) =>
    held
      ? item === laid.items.findLast(({ kind }) => kind !== 'rest')
      : holds.some((word) => word.atPulse === item.atPulse);
  const columns = laid.items.map((item) => `minmax(max-content, ${item.lengthPulses}fr)`).join(' ');
  return (
    <div
      {...rest}
      className={`bar ${className}`}
      data-left={left || undefined}
      data-right={right || undefined}
      data-out={out}
      data-counted={counted ? '' : undefined}
    >
      <div className="bar-head">
        {ending !== '' && (
          <span className="bar-ending">
            <span className="visually-hidden">ending </span>
            {ending}
          </span>
        )}
        {number !== undefined && <span className="bar-number">{number}</span>}
        {heading !== undefined && <span className="bar-heading">{heading}</span>}
        {!wordless && <BarWords words={music.words} read={read} leg={leg} quiet={out !== undefined} />}
        {stopTime && out === undefined && <span className="bar-stop-time">stop-time</span>}
        {out !== undefined && (
          <span className="bar-out">
            {out === 'hit'
              ? 'break'
              : asWritten
                ? 'out'
                : outBarsLeft > 0
                  ? `out, ${outBarsLeft} more`
                  : 'out, then in'}
          </span>
        )}
      </div>
      {left === '|:' && <LeftSign />}
      {right !== '' && <RightSign sign={right} />}
      <div className="bar-music">
        {repeated ? (
          <RepeatSign bars={music.repeats ?? 1} />
        ) : (
          <div
            className="bar-row"
            style={{ '--w': (laid.widthEm * 1.01).toFixed(3), gridTemplateColumns: columns } as CSSProperties}
          >
            {laid.items.map((item) => (
              <Item key={`${item.kind}${item.atPulse}`} item={item} held={heldAt(item)} />
            ))}
          </div>
        )}
      </div>
      {children}
      {ticks && <PulseTicks metre={music.metre} pulses={music.pulses} numbered={counted} />}
    </div>
  );
};
