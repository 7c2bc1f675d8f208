import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bandEvents } from '../../../common/band/band-events.ts';
import { plainBand } from '../../../common/band/band-settings.ts';
import { BASS_RANGE } from '../../../common/band/bass-pitch.ts';
import { readChangesOf } from '../../../common/band/changes.ts';
import type { NoteEvent } from '../../../common/band/note-event.ts';
import { plainVoicing } from '../../../common/band/voicing.ts';
import { roadAt } from '../../../common/stage/in-force.ts';
import { locate } from '../../../common/stage/locate.ts';
import { perform } from '../../../common/stage/perform.ts';
import { bassNotes } from '../../../common/theory/harmony/bass-notes.ts';
import { pitchClassOf } from '../../../common/theory/pitch.ts';
import { someCalls } from '../stage/support-random.ts';
import { take } from '../stage/support-road.ts';
import { barsBy, someBandRoad, someFeel } from './support-band.ts';

const UNTIL_MS = 60_000;

const someTake = fc
  .tuple(someBandRoad, someCalls, someFeel, fc.integer())
  .map(([road, calls, feel, seed]) => ({
    performance: perform(take(road, calls)),
    road,
    calls,
    band: plainBand(feel, seed),
  }));

const runs = { numRuns: 60, interruptAfterTimeLimit: 10_000 };

describe('what always holds', () => {
  it('[BAND-1] windows that touch give the events of the window over both', () => {
    const edges = fc.uniqueArray(fc.double({ min: 0, max: UNTIL_MS, noNaN: true }), { maxLength: 8 });
    fc.assert(
      fc.property(someTake, edges, ({ performance, band }, inner) => {
        const at = [0, ...[...inner].sort((a, b) => a - b), UNTIL_MS];
        const apart = at.slice(1).flatMap((to, i) => bandEvents(performance, band, at[i] ?? 0, to));
        expect(apart).toEqual(bandEvents(performance, band, 0, UNTIL_MS));
      }),
      runs,
    );
  });

  it('[BAND-1] windows may begin exactly on a note', () => {
    fc.assert(
      fc.property(someTake, fc.nat(), ({ performance, band }, n) => {
        const all = bandEvents(performance, band, 0, UNTIL_MS);
        const edge = all[n % Math.max(1, all.length)]?.atMs ?? 1;
        const apart = [
          ...bandEvents(performance, band, 0, edge),
          ...bandEvents(performance, band, edge, UNTIL_MS),
        ];
        expect(apart).toEqual(all);
      }),
      runs,
    );
  });

  it('[BAND-1] the same take, settings and seed give the same events, another seed the same places of the chords', () => {
    fc.assert(
      fc.property(someTake, fc.integer(), ({ performance, road, calls, band }, seed) => {
        const again = perform(take(road, calls));
        const first = bandEvents(performance, band, 0, UNTIL_MS);
        expect(bandEvents(again, { ...band, changes: readChangesOf() }, 0, UNTIL_MS)).toEqual(first);
        const comping = (events: NoteEvent[]) => events.filter(({ voice }) => voice === 'comping');
        expect(comping(bandEvents(performance, { ...band, seed }, 0, UNTIL_MS))).toEqual(comping(first));
      }),
      runs,
    );
  });

  it('[BAND-2] what sounded before a cue was called stays as it was', () => {
    const sounded = ({ atMs, voice, midi, velocity }: NoteEvent) => ({ atMs, voice, midi, velocity });
    const instant = new Set(['here', 'tap', 'itHappened', 'resume', 'takeBack']);
    fc.assert(
      fc.property(someTake, ({ road, calls, band }) => {
        for (let n = 1; n < calls.length; n += 1) {
          const [atMs, cue] = calls[n] ?? [0, { kind: 'here' as const }];
          if (instant.has(cue.kind)) continue;
          const before = bandEvents(perform(take(road, calls.slice(0, n))), band, 0, atMs).map(sounded);
          const after = bandEvents(perform(take(road, calls.slice(0, n + 1))), band, 0, atMs).map(sounded);
          expect(after).toEqual(before);
        }
      }),
      { numRuns: 30, interruptAfterTimeLimit: 8000 },
    );
  });

  it('[BAND-3] notes lie in the ranges of their parts; before the first bar and after the end nothing but the click sounds', () => {
    fc.assert(
      fc.property(someTake, ({ performance, band }) => {
        for (const { atMs, lengthMs, voice, midi, velocity } of bandEvents(performance, band, 0, UNTIL_MS)) {
          expect(Number.isFinite(atMs)).toBe(true);
          expect(lengthMs).toBeGreaterThan(0);
          expect(Number.isInteger(velocity) && velocity >= 1 && velocity <= 127).toBe(true);
          if (voice === 'bass') {
            expect(midi).toBeGreaterThanOrEqual(BASS_RANGE.low);
            expect(midi).toBeLessThanOrEqual(BASS_RANGE.high);
          }
          if (voice === 'comping') {
            expect(midi).toBeGreaterThanOrEqual(48);
            expect(midi).toBeLessThanOrEqual(84);
          }
          if (voice === 'drums') expect(midi >= 35 && midi <= 81).toBe(true);
          const { state } = locate(performance, atMs + 1e-6);
          expect(state).not.toBe('waiting');
          if (state === 'ended' || state === 'count') expect(voice).toBe('click');
        }
      }),
      runs,
    );
  });

  it('[BAND-4] every note of bass and comping is of its chord, its scale, or leads to the next chord', () => {
    fc.assert(
      fc.property(someTake, ({ performance, band }) => {
        const read = readChangesOf();
        const bars = barsBy(performance, UNTIL_MS);
        const changesOf = (i: number) => {
          const bar = bars[i];
          return bar ? read(bar, roadAt(performance, bar.startMs)) : [];
        };
        bars.forEach((bar, i) => {
          const untilMs = Math.min(UNTIL_MS, bars[i + 1]?.startMs ?? UNTIL_MS);
          const chords = changesOf(i).flatMap(({ chord }) => (chord ? [chord] : []));
          const next = changesOf(i + 1)[0]?.chord;
          const all = next ? [...chords, next] : chords;
          const allowed = new Set(
            all.flatMap((chord, n) => {
              const then = all[n + 1];
              const ways = then ? bassNotes(chord.symbol, then.symbol, then.key).approaches : [];
              const { fifth } = bassNotes(chord.symbol, null, chord.key);
              return [
                ...chord.tones,
                ...chord.scale,
                pitchClassOf(fifth),
                ...ways.map(({ note }) => pitchClassOf(note)),
              ];
            }),
          );
          const voiced = new Set(all.flatMap(({ symbol }) => plainVoicing(symbol)));
          for (const { voice, midi } of bandEvents(performance, band, bar.startMs, untilMs)) {
            if (voice === 'bass') expect(allowed).toContain(midi % 12);
            if (voice === 'comping') expect(voiced).toContain(midi);
          }
        });
      }),
      runs,
    );
  });

  it('[BAND-5] in breaks nothing sounds after beat one, and nothing at all where the band is out', () => {
    fc.assert(
      fc.property(someTake, ({ performance, band }) => {
        const all = bandEvents(performance, band, 0, UNTIL_MS).filter(({ voice }) => voice !== 'click');
        const bars = barsBy(performance, UNTIL_MS);
        bars.forEach((bar, i) => {
          if (!bar.out) return;
          const endMs = Math.min(UNTIL_MS, bars[i + 1]?.startMs ?? UNTIL_MS);
          const inside = all.filter(({ atMs }) => atMs >= bar.startMs && atMs < endMs - 1e-6);
          // The place stays where it was entered by a jump into the middle.
          const late = inside.filter(({ atMs }) => {
            const where = locate(performance, atMs);
            return where.state !== 'playing' || where.place.pulse > 1e-6;
          });
          const held = locate(performance, endMs - 1e-6).state === 'held';
          if (!held) expect(late).toEqual([]);
          if (bar.out === 'out') expect(inside).toEqual([]);
        });
      }),
      runs,
    );
  });

  it('[BAND-8] while the band holds, nothing begins but the chord that is held, and that lasts to the release', () => {
    fc.assert(
      fc.property(someTake, ({ performance, band }) => {
        for (const event of bandEvents(performance, band, 0, UNTIL_MS)) {
          const where = locate(performance, event.atMs + 1e-6);
          if (where.state !== 'held' || event.voice === 'click') continue;
          expect(event.atMs).toBeCloseTo(where.sinceMs, 6);
          const endMs = event.atMs + event.lengthMs;
          if (endMs < 1e9) expect(locate(performance, endMs + 0.001).state).not.toBe('held');
          expect(locate(performance, Math.min(endMs, 1e9) - 0.001).state).toBe('held');
        }
      }),
      runs,
    );
  });
});
