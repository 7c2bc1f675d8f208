import { count } from '../../common/form/count.ts';
import { column, face, type KeyMatter, type PodiumKey } from './podium-key.ts';

/** @example lastBars(2) // 'the last 2 bars' */
const lastBars = (n: number): string => (n === 1 ? 'the last bar' : `the last ${n} bars`);

/** The screen "Form": what is called most while a tune goes by. */
export const formKeys = ({ settings, stretch, legAfter }: KeyMatter): readonly PodiumKey[] => {
  const { breakBars, tagBars, tagTimes } = settings;
  const lasting = `hit on one, ${count(breakBars, 'bar')}`;
  return [
    ...column('form', 'now', {
      hold: [
        face('move', 'Release', 'go on', { kind: 'release' }),
        face('out', 'Hold', 'the chord that comes', { kind: 'hold' }),
      ],
      bringDown: [
        face('feel', 'Bring it down', 'until I say', { kind: 'dynamic', dynamic: 'down' }, 'decresc'),
      ],
      build: [face('feel', 'Build', 'until I say', { kind: 'dynamic', dynamic: 'build' }, 'cresc')],
      asWritten: [face('feel', 'As written', 'how loud', { kind: 'dynamic', dynamic: 'as written' })],
    }),
    ...column('form', 'phrase', {
      break: [face('out', 'Break', lasting, { kind: 'break', bars: breakBars, at: 'phrase' })],
      soloBreak: [
        face('out', 'Solo break', lastBars(breakBars), {
          kind: 'break',
          bars: breakBars,
          at: 'lastBars',
        }),
      ],
      stopTime: [
        face('out', 'Stop-time off', 'all play again', { kind: 'stopTimeOff' }),
        face('out', 'Stop-time', 'hit on one', { kind: 'stopTime' }),
      ],
      loop: [
        face('more', 'Loop off', 'and on from there', { kind: 'loopOff' }),
        face(
          'more',
          stretch === null ? 'Loop' : `Loop ${stretch.name}`,
          'till I call it off',
          stretch === null
            ? 'The tune has not begun: count in first.'
            : { kind: 'loop', leg: stretch.leg, from: stretch.from, to: stretch.to },
        ),
      ],
    }),
    ...column('form', 'chorus', {
      lastChorus: [
        face('move', 'Go on', legAfter === '' ? 'out of the vamp' : legAfter, { kind: 'goOn' }),
        face('close', 'Last chorus', legAfter === '' ? 'then the end' : `then ${legAfter}`, {
          kind: 'lastChorus',
        }),
      ],
      oneMore: [face('more', 'One more', 'once again', { kind: 'oneMore' })],
      tag: [
        face('more', `Tag ×${tagTimes}`, lastBars(tagBars), {
          kind: 'tag',
          bars: tagBars,
          times: tagTimes,
        }),
      ],
      breakAtTop: [
        face('out', 'Break at the top', count(breakBars, 'bar'), {
          kind: 'break',
          bars: breakBars,
          at: 'pass',
        }),
      ],
    }),
  ];
};
