import type { Stretch } from '../stage/passages.ts';
import type { BandSettings } from './band-settings.ts';
import { type BarFrame, isRest } from './bar-frame.ts';
import { bassStroke } from './bass.ts';
import { bassPitch } from './bass-pitch.ts';
import { changeAt } from './changes.ts';
import { chordStrokes } from './comping.ts';
import { drumStroke } from './drums.ts';
import type { Stroke } from './note-event.ts';

const VELOCITY = 84;

/** The hold of a passage; null where the band does not hold in it. */
export const holdOf = ({ passage }: Pick<BarFrame, 'passage'>): Stretch | null =>
  passage.stretches.find(({ tempo }) => tempo.still) ?? null;

/**
 * The chord that is held, struck by all where the hold begins; nothing where the band is out or rests there. Its notes
 * last until the release.
 */
export const holdStrokes = (frame: BarFrame, hold: Stretch, settings: BandSettings): Stroke[] => {
  const pulse = Math.max(0, hold.fromCount - frame.zero);
  const isOut = frame.hits !== null && !frame.hits.some((place) => Math.abs(place - pulse) < 1e-6);
  const change = changeAt(frame.changes, pulse);
  if (isOut || isRest(frame, pulse)) return [];
  const drums = [drumStroke('crash', pulse, 70), drumStroke('kick', pulse, 80)];
  if (!change?.chord) return drums;
  const root = bassPitch(change.chord, settings.seed, frame.coming.index, frame.changes.indexOf(change));
  return [
    ...chordStrokes(change, pulse, 0, VELOCITY, settings),
    bassStroke(root, pulse, 0, VELOCITY),
    ...drums,
  ];
};
