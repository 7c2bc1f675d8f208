import { parseMidi } from 'midi-file';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { bandEvents } from '../../common/band/band-events.ts';
import { plainBand } from '../../common/band/band-settings.ts';
import { writeMidi } from '../../common/interchange/write-midi.ts';
import { perform } from '../../common/stage/perform.ts';
import { chart } from '../common/band/support-band.ts';
import { START, take } from '../common/stage/support-road.ts';
import { clockOf, timed } from '../support/midi-clock.ts';
import { openSoundPage } from '../support/open-sound-page.ts';
import { openBrowser } from '../support/tablets.ts';

let browser: Browser;
let page: Page;

beforeAll(async () => {
  browser = await openBrowser(inject('chromium'));
  page = await openSoundPage(browser);
}, 60_000);

afterAll(() => browser?.close());

describe('the sound of the practice band', () => {
  it('has one-shots that begin within a millisecond, none of them silent or clipped', async () => {
    const shots = await page.evaluate(() => window.soundPage.oneShots());
    expect(shots.length).toBeGreaterThan(25);
    for (const { voice, midi, peak, beginsMs } of shots) {
      const which = `${voice} ${midi}`;
      expect(peak, which).toBeGreaterThan(0.3);
      expect(peak, which).toBeLessThan(1);
      expect(beginsMs, which).toBeLessThan(1);
    }
  });

  it('is heard within 1 ms of the computed instants over ten minutes with changes of tempo', async () => {
    const road = { ...chart('| C7 | F7 | Bb7 | C7 |', { road: 'Head: A x200' }), tempoBpm: 97 };
    const performance = perform(
      take(road, [
        [0, START],
        [60_000, { kind: 'tempo', bpm: 140, overBars: 8 }],
        [200_000, { kind: 'tempo', bpm: 63 }],
        [400_000, { kind: 'tempo', bpm: 211, overBars: 4 }],
      ]),
    );
    const seconds = 600;
    const clicks = bandEvents(performance, plainBand('swing'), 0, seconds * 1000 - 100).filter(
      ({ voice }) => voice === 'click',
    );
    expect(clicks.length).toBeGreaterThan(1000);
    const { onsets, peak } = await page.evaluate(
      ({ events, length }) => window.soundPage.onsets(events, length),
      { events: clicks, length: seconds },
    );
    const errorsMs = onsets.map((ms, i) => Math.abs(ms - (clicks[i]?.atMs ?? Number.NaN)));
    expect(Math.max(...errorsMs)).toBeLessThan(1);
    expect(peak).toBeGreaterThan(0.05);
  });

  it('is heard when the MIDI file of the same take has it, as an independent reader reads that', async () => {
    const road = { ...chart('| C7 | F7 | Bb7 | C7 |', { road: 'Head: A x8' }), tempoBpm: 97 };
    const performance = perform(
      take(road, [
        [0, START],
        [9_000, { kind: 'tempo', bpm: 140, overBars: 3 }],
        [24_000, { kind: 'tempo', bpm: 63 }],
      ]),
    );
    const band = plainBand('swing');
    const untilMs = 60_000;
    const data = parseMidi(writeMidi({ performance, band, title: 'Slow Ferry', untilMs }));
    const clock = clockOf(data);
    const written = timed(data.tracks[1] ?? []).flatMap(({ tick, event }) =>
      event.type === 'noteOn' ? [{ ms: clock(tick), tickMs: clock(tick + 1) - clock(tick) }] : [],
    );
    const clicks = bandEvents(performance, band, 0, untilMs).filter(({ voice }) => voice === 'click');
    const { onsets } = await page.evaluate(({ events }) => window.soundPage.onsets(events, 62), {
      events: clicks,
    });
    expect(written.length).toBe(onsets.length);
    expect(onsets.length).toBeGreaterThan(60);
    // The file counts from the first click.
    const startMs = clicks[0]?.atMs ?? Number.NaN;
    written.forEach(({ ms, tickMs }, i) => {
      expect(Math.abs(ms + startMs - (onsets[i] ?? Number.NaN)), `click ${i}`).toBeLessThan(1 + tickMs / 2);
    });
  });

  it('asks live for one stretch of time after the other, none twice', async () => {
    await page.mouse.click(5, 5);
    const windows = await page.evaluate(() => window.soundPage.live(2));
    expect(windows.length).toBeGreaterThan(2);
    windows.slice(1).forEach(([fromMs], i) => {
      expect(fromMs).toBeGreaterThanOrEqual(windows[i]?.[1] ?? Number.NaN);
    });
  });

  it('never comes out above full scale, with everything at its loudest', async () => {
    const all = Array.from({ length: 40 }, (_, i) =>
      [36, 38, 49, 51].map((midi) => ({ midi, atMs: 100 + i * 60 })),
    )
      .flat()
      .map((one) => ({ ...one, lengthMs: 200, voice: 'drums' as const, velocity: 127 }));
    const { peak } = await page.evaluate(({ events }) => window.soundPage.onsets(events, 4), { events: all });
    expect(peak).toBeGreaterThan(0.2);
    expect(peak).toBeLessThan(1);
  });
});
