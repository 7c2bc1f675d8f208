import type { MidiData, MidiEvent } from 'midi-file';

export interface Timed<Event> {
  readonly tick: number;
  readonly event: Event;
}

/** The events with their ticks from the beginning. */
export const timed = (track: readonly MidiEvent[]): Timed<MidiEvent>[] => {
  let tick = 0;
  return track.map((event) => {
    tick += event.deltaTime;
    return { tick, event };
  });
};

/** Times in ms from the file's beginning, by its own tempo map: what any reader of the file would make of it. */
export const clockOf = ({ tracks, header }: MidiData): ((tick: number) => number) => {
  const steps = timed(tracks[0] ?? []).flatMap(({ tick, event }) =>
    event.type === 'setTempo' ? [{ tick, us: event.microsecondsPerBeat }] : [],
  );
  const quarter = header.ticksPerBeat ?? 0;
  return (at) => {
    let ms = 0;
    let tick = 0;
    let us = 500_000;
    for (const step of [...steps, { tick: at, us: 0 }]) {
      const until = Math.min(step.tick, at);
      ms += ((until - tick) * us) / quarter / 1000;
      tick = until;
      if (step.tick >= at) break;
      us = step.us;
    }
    return ms;
  };
};
