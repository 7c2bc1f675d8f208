import type { Road } from '../../common/form/road.ts';
import type { Cue } from '../../common/stage/cue.ts';
import type { Announcement } from '../../common/stage/place.ts';
import type { PodiumSettings } from '../storage/podium-settings.ts';

/** The three columns of the podium: a key stands where its cue lands. */
export type Column = 'now' | 'phrase' | 'chorus';

/** The screens of keys, each named by what it holds. */
export type PadPage = 'form' | 'feel' | 'solos' | 'spot';

/** One thing that a key can call. */
export interface Face {
  readonly name: string;
  /** What it does, in few words. */
  readonly detail: string;
  readonly family: Announcement['family'];
  /** null: there is nothing to call. */
  readonly cue: Cue | null;
}

/** A key in its place. Of several faces (hold, release) it shows the first that makes sense now. */
export interface PodiumKey {
  readonly id: string;
  readonly page: PadPage;
  readonly column: Column;
  readonly faces: readonly [Face, ...Face[]];
}

/** What the keys are about at this moment. */
export interface KeyMatter {
  readonly settings: PodiumSettings;
  /** The road of the chart as edited meanwhile, where it differs from the one being played. */
  readonly edited: Road | null;
  /** The tempo in force and the one that the chart asks for, pulses a minute. */
  readonly bpm: number;
  readonly writtenBpm: number;
  /** Who trades. */
  readonly traders: readonly string[];
  /** The stretch that is looped where nobody chose another: "A", its leg and bar indexes; null where there is none. */
  readonly stretch: {
    readonly name: string;
    readonly leg: string;
    readonly from: number;
    readonly to: number;
  } | null;
  /** "F to G♭", a half step up and down; '' where no key is known. */
  readonly upWords: string;
  readonly downWords: string;
  readonly legAfter: string;
}

const bars = (n: number): string => (n === 1 ? '1 bar' : `${n} bars`);

const within = (bpm: number): number => Math.min(400, Math.max(20, Math.round(bpm)));

/** @example inWords(['Bea', 'Tomas', 'drums']) // 'Bea, Tomas and drums' */
export const inWords = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? '') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

const face = (family: Face['family'], name: string, detail: string, cue: Cue | null): Face => ({
  name,
  detail,
  family,
  cue,
});

const key = (page: PadPage, column: Column, id: string, ...faces: [Face, ...Face[]]): PodiumKey => ({
  id,
  page,
  column,
  faces,
});

const formKeys = ({ settings, stretch, legAfter }: KeyMatter): readonly PodiumKey[] => {
  const { breakBars, tagBars, tagTimes } = settings;
  const hit = `hit on one, ${bars(breakBars)}`;
  return [
    key(
      'form',
      'now',
      'hold',
      face('move', 'Release', 'go on', { kind: 'release' }),
      face('out', 'Hold', 'the chord that comes', { kind: 'hold' }),
    ),
    key(
      'form',
      'now',
      'bringDown',
      face('feel', 'Bring it down', 'until I say', { kind: 'dynamic', dynamic: 'down' }),
    ),
    key('form', 'now', 'build', face('feel', 'Build', 'until I say', { kind: 'dynamic', dynamic: 'build' })),
    key(
      'form',
      'now',
      'asWritten',
      face('feel', 'As written', 'how loud', { kind: 'dynamic', dynamic: 'as written' }),
    ),
    key(
      'form',
      'phrase',
      'break',
      face('out', 'Break', hit, { kind: 'break', bars: breakBars, at: 'phrase' }),
    ),
    key(
      'form',
      'phrase',
      'soloBreak',
      face('out', 'Solo break', `the last ${bars(breakBars)}`, {
        kind: 'break',
        bars: breakBars,
        at: 'lastBars',
      }),
    ),
    key(
      'form',
      'phrase',
      'stopTime',
      face('out', 'Stop-time', 'hit on one', { kind: 'stopTime' }),
      face('out', 'Stop-time off', 'all play again', { kind: 'stopTimeOff' }),
    ),
    key(
      'form',
      'phrase',
      'loop',
      face('more', 'Loop off', 'and on from there', { kind: 'loopOff' }),
      face(
        'more',
        stretch === null ? 'Loop' : `Loop ${stretch.name}`,
        'till I call it off',
        stretch === null ? null : { kind: 'loop', leg: stretch.leg, from: stretch.from, to: stretch.to },
      ),
    ),
    key(
      'form',
      'chorus',
      'lastChorus',
      face('move', 'Go on', legAfter === '' ? 'out of the vamp' : legAfter, { kind: 'goOn' }),
      face('close', 'Last chorus', legAfter === '' ? 'then the end' : `then ${legAfter}`, {
        kind: 'lastChorus',
      }),
    ),
    key('form', 'chorus', 'oneMore', face('more', 'One more', 'once again', { kind: 'oneMore' })),
    key(
      'form',
      'chorus',
      'tag',
      face('more', `Tag ×${tagTimes}`, `the last ${bars(tagBars)}`, {
        kind: 'tag',
        bars: tagBars,
        times: tagTimes,
      }),
    ),
    key(
      'form',
      'chorus',
      'breakAtTop',
      face('out', 'Break at the top', hit, { kind: 'break', bars: breakBars, at: 'pass' }),
    ),
  ];
};

const feelKeys = ({
  settings,
  bpm,
  writtenBpm,
  edited,
  upWords,
  downWords,
}: KeyMatter): readonly PodiumKey[] => {
  const { rampBars, rampPercent } = settings;
  const slower = within(bpm * (1 - rampPercent / 100));
  const faster = within(bpm * (1 + rampPercent / 100));
  const ramp = (to: number): Cue => ({ kind: 'tempo', bpm: to, overBars: rampBars });
  const isWritten = Math.round(bpm) === Math.round(writtenBpm);
  return [
    key('feel', 'now', 'rit', face('feel', 'Rit.', `to ${slower} over ${bars(rampBars)}`, ramp(slower))),
    key('feel', 'now', 'accel', face('feel', 'Accel.', `to ${faster} over ${bars(rampBars)}`, ramp(faster))),
    key(
      'feel',
      'now',
      'aTempo',
      face(
        'feel',
        'A tempo',
        `${Math.round(writtenBpm)}`,
        isWritten ? null : { kind: 'tempo', bpm: writtenBpm },
      ),
    ),
    key(
      'feel',
      'phrase',
      'halfTime',
      face('feel', 'Half-time feel', 'changes stay put', { kind: 'feel', feel: 'half' }),
    ),
    key(
      'feel',
      'phrase',
      'doubleTime',
      face('feel', 'Double-time feel', 'changes stay put', { kind: 'feel', feel: 'double' }),
    ),
    key(
      'feel',
      'phrase',
      'feelAsWritten',
      face('feel', 'Feel as written', 'as it was', { kind: 'feel', feel: 'as written' }),
    ),
    key('feel', 'chorus', 'up', face('more', 'Up a half step', upWords, { kind: 'up' })),
    key('feel', 'chorus', 'down', face('more', 'Down a half step', downWords, { kind: 'down' })),
    key(
      'feel',
      'chorus',
      'stopAtEnd',
      face('out', 'Stop at the end', 'of this chorus', { kind: 'stop', at: 'pass' }),
    ),
    key(
      'feel',
      'chorus',
      'adopt',
      face(
        'move',
        'New arrangement',
        'is ready: take it',
        edited === null ? null : { kind: 'adopt', road: edited },
      ),
    ),
  ];
};

const TURNS: readonly { readonly id: string; readonly name: string; readonly bars: number }[] = [
  { id: 'tradeTwos', name: 'Trade twos', bars: 2 },
  { id: 'tradeFours', name: 'Trade fours', bars: 4 },
  { id: 'tradeEights', name: 'Trade eights', bars: 8 },
];

const soloKeys = ({ traders }: KeyMatter): readonly PodiumKey[] => [
  key('solos', 'chorus', 'nextSoloist', face('move', 'Next soloist', 'at the top', { kind: 'nextSoloist' })),
  ...TURNS.map(({ id, name, bars: each }) =>
    key(
      'solos',
      'chorus',
      id,
      face(
        'move',
        name,
        traders.length < 2 ? 'choose two or more' : inWords(traders),
        traders.length < 2 ? null : { kind: 'trade', bars: each, players: traders },
      ),
    ),
  ),
];

/** The keys in their places. Their order never changes, so that a hand learns where they are. */
export const podiumKeys = (matter: KeyMatter): readonly PodiumKey[] => [
  ...formKeys(matter),
  ...feelKeys(matter),
  ...soloKeys(matter),
];

/** The two keys that share the corner under the thumb. */
export const countInKey: PodiumKey = key(
  'form',
  'now',
  'start',
  face('more', 'Count in', 'from the top', { kind: 'start' }),
);
export const stopKey: PodiumKey = key(
  'form',
  'now',
  'stop',
  face('out', 'Stop', 'everyone out', { kind: 'stop' }),
);
