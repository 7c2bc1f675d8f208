import type { Place } from '../../common/stage/place.ts';

/**
 * The one bar that is lit, and the ticks under it. Writes to the elements themselves, so that the change stands
 * on the screen with the frame that computed it.
 */
export interface LitBar {
  /** Lights this element as the bar being played there; null lights none. */
  readonly light: (bar: HTMLElement | null, place: Place | null) => void;
  /** Fills the ticks up to this pulse. */
  readonly fill: (pulse: number) => void;
}

const clearTicks = (ticks: readonly HTMLElement[]): void => {
  for (const tick of ticks) {
    delete tick.dataset['filled'];
    const filling = tick.lastElementChild;
    if (filling instanceof HTMLElement) filling.style.transform = '';
  }
};

export const litBar = (): LitBar => {
  let lit: HTMLElement | null = null;
  let ticks: HTMLElement[] = [];
  let filled = -1;
  return {
    light: (bar, place) => {
      if (bar !== lit && lit !== null) {
        for (const name of ['now', 'leg', 'pass', 'bar']) delete lit.dataset[name];
        clearTicks(ticks);
      }
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
    fill: (pulse) => {
      const whole = Math.min(ticks.length, Math.max(0, Math.floor(pulse)));
      if (whole !== filled) {
        ticks.forEach((tick, index) => {
          if (index < whole) tick.dataset['filled'] = 'whole';
          else if (index === whole) tick.dataset['filled'] = 'part';
          else delete tick.dataset['filled'];
        });
        clearFillings(ticks, whole);
        filled = whole;
      }
      const filling = ticks[whole]?.lastElementChild;
      if (filling instanceof HTMLElement) filling.style.transform = `scaleX(${(pulse - whole).toFixed(3)})`;
    },
  };
};

/** A place that went back (a tap, a bar named anew) leaves no fillings behind it. */
const clearFillings = (ticks: readonly HTMLElement[], from: number): void => {
  for (const tick of ticks.slice(from)) {
    const filling = tick.lastElementChild;
    if (filling instanceof HTMLElement) filling.style.transform = '';
  }
};
