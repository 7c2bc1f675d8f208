import type { Road } from '../../common/form/road.ts';
import { roadAt, semitonesAt, soloAt, tempoAt } from '../../common/stage/in-force.ts';
import { locate } from '../../common/stage/locate.ts';
import type { Performance } from '../../common/stage/perform.ts';
import type { NoteNames } from '../../common/theory/note-name.ts';
import { keyWords } from '../stand/reader-key.ts';
import type { PodiumSettings } from '../storage/podium-settings.ts';
import { legAfter, legNow, letterAround } from './letters.ts';
import type { KeyMatter } from './podium-key.ts';
import { traders } from './soloists.ts';

/** The chord of a key in words, at concert pitch: 'F to G♭'; '' where the chart has no key. */
const changeWords = (chartKey: string, from: number, by: number, names: NoteNames): string => {
  const keyAt = (semitones: number) =>
    keyWords(chartKey, { part: '', concert: true }, semitones, names)?.concert.split(' ')[0];
  const now = keyAt(from);
  return now === undefined ? '' : `${now} to ${keyAt(from + by)}`;
};

/**
 * What the keys are about at shared time `atMs`.
 * @param edited the chart's road as edited meanwhile, null where it is the one being played
 * @param picked who was picked to solo or trade, in order
 * @param names how this tablet calls the notes
 */
export const keyMatter = (
  performance: Performance,
  atMs: number,
  {
    settings,
    edited,
    chartKey,
    picked,
    names = 'english',
  }: {
    readonly settings: PodiumSettings;
    readonly edited: Road | null;
    readonly chartKey: string;
    readonly picked: readonly string[];
    readonly names?: NoteNames;
  },
): KeyMatter => {
  const road = roadAt(performance, atMs);
  const where = locate(performance, atMs);
  const place = 'place' in where ? where.place : null;
  const leg = legNow(road, place?.leg ?? null);
  const semitones = semitonesAt(performance, atMs);
  return {
    settings,
    edited,
    bpm: tempoAt(performance, atMs),
    writtenBpm: road.tempoBpm,
    traders: traders(picked, soloAt(performance, atMs)?.now ?? null),
    stretch: leg === undefined || place === null ? null : letterAround(leg, Math.max(0, place.barIndex)),
    upWords: changeWords(chartKey, semitones, 1, names),
    downWords: changeWords(chartKey, semitones, -1, names),
    legAfter: leg === undefined ? '' : (legAfter(road, leg.id)?.name ?? ''),
  };
};
