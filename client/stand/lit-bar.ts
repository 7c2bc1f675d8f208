import type { Place } from '../../common/stage/place.ts';

/**
 * The one bar that is lit, and the ticks under it. Writes to the elements themselves, so that the change stands
 * on the screen with the frame that computed it.
 */
export interface LitBar {
  /** Lights this element as the bar being played there; null lights none. */
  readonly light: (bar: HTMLElement | null, place: Place | null) => void;
  /**
   * Fills the ticks up to this pulse. To be called on every frame; what it does then is to look whether the tick
   * that is filling by itself is where it should be.
   * @param bpm pulses a minute at which the band goes on; null while it is held
   */
  readonly fill: (pulse: number, bpm: number | null) => void;
}

/** A tick may fill a little early or late before it is set right, pulses: less than anybody sees. */
const LOOSE_PULSES = 0.03;

export const litBar = (): LitBar => {
  let lit: HTMLElement | null = null;
  let ticks: HTMLElement[] = [];
  let filled = -1;
  let filling: Filling | null = null;
  const stop = (): void => {
    filling?.animation.cancel();
    filling = null;
  };
  return {
    light: (bar, place) => {
      if (bar !== lit && lit !== null) {
        for (const name of ['now', 'leg', 'pass', 'bar']) delete lit.dataset[name];
        clearTicks(ticks);
      }
      stop();
      // Asked for anew each time: an edit may have drawn the ticks afresh.
      ticks = bar === null ? [] : [...bar.querySelectorAll<HTMLElement>('.ticks > i')];
      filled = -1;
      lit = bar;
      if (bar === null || place === null) return;
      bar.dataset['now'] = '';
      bar.dataset['leg'] = place.leg;
      bar.dataset['pass'] = String(place.pass);
      bar.dataset['bar'] = String(place.barIndex);
    },
    fill: (pulse, bpm) => {
      const whole = Math.min(ticks.length, Math.max(0, Math.floor(pulse)));
      const part = pulse - whole;
      if (whole === filled && filling !== null && Math.abs(filledPart(filling) - part) < LOOSE_PULSES) return;
      if (whole !== filled) {
        ticks.forEach((tick, index) => {
          if (index < whole) tick.dataset['filled'] = 'whole';
          else if (index === whole) tick.dataset['filled'] = 'part';
          else delete tick.dataset['filled'];
        });
        filled = whole;
      }
      stop();
      const element = ticks[whole]?.lastElementChild;
      if (element instanceof HTMLElement) filling = startFilling(element, part, bpm);
    },
  };
};

/** A tick that fills by itself at the band's tempo: the frames between have nothing to write. */
interface Filling {
  readonly animation: Animation;
  /** 0 while held: it stands still. */
  readonly pulsesPerMs: number;
  /** How full it was at `startMs` of the document's timeline, pulses. */
  readonly from: number;
  readonly startMs: number;
}

const timelineMs = (): number => Number(document.timeline.currentTime ?? 0);

const startFilling = (element: HTMLElement, part: number, bpm: number | null): Filling => {
  const to = bpm === null ? part : 1;
  const pulsesPerMs = bpm === null ? 0 : bpm / 60_000;
  const frames = [{ transform: `scaleX(${part})` }, { transform: `scaleX(${to})` }];
  const duration = bpm === null ? 0 : Math.max(0, (1 - part) / pulsesPerMs);
  const animation = element.animate(frames, { duration, fill: 'forwards' });
  const startMs = timelineMs();
  // Without this it would begin a frame later.
  animation.startTime = startMs;
  return { animation, pulsesPerMs, from: part, startMs };
};

const filledPart = ({ from, pulsesPerMs, startMs }: Filling): number =>
  Math.min(1, from + (timelineMs() - startMs) * pulsesPerMs);

const clearTicks = (ticks: readonly HTMLElement[]): void => {
  for (const tick of ticks) delete tick.dataset['filled'];
};
