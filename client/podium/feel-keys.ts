import { count } from '../../common/form/count.ts';
import type { Cue } from '../../common/stage/cue.ts';
import { column, face, type KeyMatter, type PodiumKey } from './podium-key.ts';

const within = (bpm: number): number => Math.min(400, Math.max(20, Math.round(bpm)));

/** The screen "Feel": tempo, time feel and key, and what is called once in a while. */
export const feelKeys = (matter: KeyMatter): readonly PodiumKey[] => {
  const { settings, bpm, writtenBpm, edited, upWords, downWords } = matter;
  const { rampBars, rampPercent } = settings;
  const slower = within(bpm * (1 - rampPercent / 100));
  const faster = within(bpm * (1 + rampPercent / 100));
  const ramp = (to: number): Cue => ({ kind: 'tempo', bpm: to, overBars: rampBars });
  const asWritten = Math.round(bpm) === Math.round(writtenBpm);
  return [
    ...column('feel', 'now', {
      rit: [face('feel', 'Rit.', `to ${slower} over ${count(rampBars, 'bar')}`, ramp(slower))],
      accel: [face('feel', 'Accel.', `to ${faster} over ${count(rampBars, 'bar')}`, ramp(faster))],
      aTempo: [
        face(
          'feel',
          'A tempo',
          `${Math.round(writtenBpm)}`,
          asWritten ? 'It goes in tempo.' : { kind: 'tempo', bpm: writtenBpm },
        ),
      ],
    }),
    ...column('feel', 'phrase', {
      halfTime: [face('feel', 'Half-time feel', 'changes stay put', { kind: 'feel', feel: 'half' }, 'half')],
      doubleTime: [face('feel', 'Double-time feel', 'changes stay put', { kind: 'feel', feel: 'double' })],
      feelAsWritten: [face('feel', 'Feel as written', 'as it was', { kind: 'feel', feel: 'as written' })],
    }),
    ...column('feel', 'chorus', {
      up: [face('more', 'Up a half step', upWords, { kind: 'up' })],
      down: [face('more', 'Down a half step', downWords, { kind: 'down' })],
      stopAtEnd: [face('out', 'Stop at the end', 'of this chorus', { kind: 'stop', at: 'pass' })],
      adopt: [
        face(
          'move',
          'New arrangement',
          'is ready: take it',
          edited === null ? 'Nothing was changed.' : { kind: 'adopt', road: edited },
        ),
      ],
    }),
  ];
};
