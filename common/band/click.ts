import { countedPulses } from '../stage/count-pattern.ts';
import type { CountIn } from '../stage/course.ts';
import { momentOf, type Passage } from '../stage/passages.ts';
import type { ClickManner } from './band-settings.ts';
import { type BarFrame, isRest } from './bar-frame.ts';
import { type Beat, beatsOf, cellsOf } from './beats.ts';
import { DRUMS } from './drum-kit.ts';
import type { NoteEvent, Stroke } from './note-event.ts';

const ONE = { midi: DRUMS.highBlock, velocity: 100 };
const GROUP = { midi: DRUMS.highBlock, velocity: 82 };
const BEAT = { midi: DRUMS.lowBlock, velocity: 74 };
const PART = { midi: DRUMS.lowBlock, velocity: 46 };
/** The count is never louder than the band. */
const COUNT_VELOCITY = 78;
const CLICK_PULSES = 0.1;
const CLICK_MS = 40;

/** The second of every two beats: two and four in 4/4, two in three. */
const weakBeats = (beats: readonly Beat[]): readonly Beat[] =>
  cellsOf(beats).flatMap((cell) => cell.beats.slice(1, 2));

const isSilent = (frame: BarFrame, place: number): boolean =>
  (frame.hits !== null && !frame.hits.includes(place)) || isRest(frame, place);

/** The click of a bar: on its beats whatever the feel, accented as its metre is grouped. */
export const clickStrokes = (frame: BarFrame, click: ClickManner): Stroke[] => {
  const { metre, pulses } = frame;
  const beats = beatsOf(metre, pulses);
  const stroke = (atPulse: number, how: Pick<Stroke, 'midi' | 'velocity'>): Stroke => ({
    voice: 'click',
    atPulse,
    lengthPulses: CLICK_PULSES,
    ...how,
  });
  const chosen = click.beats === 'all' ? beats : weakBeats(beats);
  const strokes = chosen.flatMap(({ atPulse, lengthPulses, opensGroup }) => {
    const how = !click.accents ? BEAT : atPulse === 0 ? ONE : opensGroup ? GROUP : BEAT;
    return [
      stroke(atPulse, how),
      ...Array.from({ length: click.parts - 1 }, (_, i) =>
        stroke(atPulse + ((i + 1) * lengthPulses) / click.parts, PART),
      ),
    ];
  });
  return click.inBreaks ? strokes : strokes.filter(({ atPulse }) => !isSilent(frame, atPulse));
};

/** The count-in: "one – two – | one two three four". */
export const countEvents = (span: CountIn, passage: Pick<Passage, 'stretches'>): NoteEvent[] => {
  const { zero, end, barPulses } = span;
  return countedPulses({ pulses: end - zero, barPulses }, 0).flatMap((pulse) => {
    const atMs = momentOf(passage, zero + pulse);
    if (atMs === null) return [];
    const isOne = pulse % barPulses === 0;
    const midi = isOne ? DRUMS.highBlock : DRUMS.lowBlock;
    return [{ atMs, lengthMs: CLICK_MS, voice: 'click', midi, velocity: COUNT_VELOCITY }];
  });
};
