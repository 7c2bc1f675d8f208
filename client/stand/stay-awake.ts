import { recordSilence } from './silent-video.ts';

/** How the screen is kept on: by the browser's wake lock, by a silent video, or not at all yet. */
export type Awake = 'lock' | 'video' | 'no';

const nothing = (): void => {};

const lockScreen = (changed: (held: boolean) => void): (() => void) => {
  let released = false;
  let sentinel: WakeLockSentinel | null = null;
  const ask = () => {
    if (released || document.visibilityState !== 'visible') return;
    navigator.wakeLock.request('screen').then(
      (held) => {
        if (released) {
          void held.release();
          return;
        }
        sentinel = held;
        changed(true);
        held.addEventListener('release', () => changed(false));
      },
      // Refused while the battery is low or the page is hidden: asked again when the page is seen again.
      () => changed(false),
    );
  };
  document.addEventListener('visibilitychange', ask);
  ask();
  return () => {
    released = true;
    document.removeEventListener('visibilitychange', ask);
    void sentinel?.release();
  };
};

let silent: HTMLVideoElement | null = null;

/**
 * Begins the silent video. Browsers let a page play something only from within a touch, so this is called from
 * the touch that joins the band, and by every later touch until it plays.
 */
export const playSilence = (): void => {
  if (navigator.wakeLock !== undefined) return;
  if (silent === null) {
    silent = document.createElement('video');
    silent.setAttribute('playsinline', '');
    silent.setAttribute('aria-hidden', 'true');
    silent.loop = true;
    silent.style.cssText = 'position:fixed;width:1px;height:1px;left:-2px;bottom:0;pointer-events:none';
    document.body.append(silent);
    const video = silent;
    const first = recordSilence((recorded) => {
      video.srcObject = null;
      video.src = URL.createObjectURL(recorded);
      video.play().catch(nothing); // the next touch tries again
    });
    if (first !== null) video.srcObject = first;
  }
  if (silent.paused) silent.play().catch(nothing); // likewise
};

/**
 * Keeps the screen on until the returned function is called.
 * @param changed is told how it is kept on, whenever that changes
 */
export const stayAwake = (changed: (awake: Awake) => void = nothing): (() => void) => {
  // Only on a secure origin; the address of a box in the rehearsal room is none.
  if (navigator.wakeLock !== undefined) return lockScreen((held) => changed(held ? 'lock' : 'no'));
  const tell = () => changed(silent !== null && !silent.paused ? 'video' : 'no');
  const again = () => {
    if (document.visibilityState === 'visible') playSilence();
    tell();
  };
  const timer = setInterval(tell, 5000);
  document.addEventListener('pointerdown', again);
  document.addEventListener('visibilitychange', again);
  // Another view may have let it rest; what was once begun by a touch may go on.
  if (silent !== null) playSilence();
  tell();
  return () => {
    clearInterval(timer);
    document.removeEventListener('pointerdown', again);
    document.removeEventListener('visibilitychange', again);
    silent?.pause();
  };
};
