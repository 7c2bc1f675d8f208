import './trade-sign.css';

/** The trade's own signs, from the music font, by what they are called. */
const GLYPHS = {
  finalBar: '𝄂',
  doubleBar: '𝄁',
  repeatStart: '𝄆',
  repeatEnd: '𝄇',
  repeatBar: '𝄎',
  repeatTwo: '𝄏',
  coda: '𝄌',
  segno: '𝄋',
  fermata: '𝄐',
  quarterRest: '𝄽',
  eighthRest: '𝄾',
  wholeRest: '𝄻',
  breath: '𝄒',
  quarter: '♩',
  half: '𝅗𝅥',
  sharp: '♯',
  flat: '♭',
  forte: '𝆑',
  cresc: '𝆒',
  decresc: '𝆓',
  slash: '𝄍',
} as const;

export type TradeSignName = keyof typeof GLYPHS;

/** A sign for the eye; its meaning always stands beside it in words. */
export const TradeSign = ({ name, className = '' }: { name: TradeSignName; className?: string }) => (
  <span className={`sign trade-sign ${className}`} data-sign={name} aria-hidden="true">
    {GLYPHS[name]}
  </span>
);

const CUE_SIGNS: Readonly<Record<string, TradeSignName>> = {
  callTune: 'quarter',
  start: 'quarter',
  stop: 'finalBar',
  lastChorus: 'finalBar',
  oneMore: 'repeatEnd',
  goOn: 'coda',
  tag: 'repeatEnd',
  break: 'quarterRest',
  stopTime: 'eighthRest',
  stopTimeOff: 'quarter',
  goTo: 'segno',
  toCoda: 'coda',
  segno: 'segno',
  trade: 'coda',
  soloOrder: 'segno',
  nextSoloist: 'segno',
  up: 'sharp',
  down: 'flat',
  feel: 'quarter',
  dynamic: 'forte',
  tempo: 'quarter',
  hold: 'fermata',
  onCue: 'fermata',
  release: 'breath',
  loop: 'repeatEnd',
  loopOff: 'finalBar',
  here: 'segno',
  adopt: 'doubleBar',
  resume: 'repeatStart',
};

/** The sign of a family, where a cue or a written mark has none of its own. */
const FAMILY_SIGNS: Readonly<Record<string, TradeSignName>> = {
  out: 'quarterRest',
  close: 'finalBar',
  more: 'repeatEnd',
  move: 'segno',
  feel: 'quarter',
};

/** The sign that stands on a cue's flag and on its key. */
export const signOfCue = (kind: string, family: string): TradeSignName =>
  CUE_SIGNS[kind] ?? FAMILY_SIGNS[family] ?? 'quarter';
