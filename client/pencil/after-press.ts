/** A press that makes no click (a long one, or one that became a sweep) is over by then, in ms. */
const PRESS_MS = 700;

let isPressing = false;

/** Notices presses from now on; gives what ends it. */
export const noticePresses = (): (() => void) => {
  const begin = () => {
    isPressing = true;
  };
  const end = () => {
    isPressing = false;
  };
  window.addEventListener('pointerdown', begin, true);
  for (const over of ['click', 'keydown', 'pointercancel']) window.addEventListener(over, end, true);
  return () => {
    end();
    window.removeEventListener('pointerdown', begin, true);
    for (const over of ['click', 'keydown', 'pointercancel']) window.removeEventListener(over, end, true);
  };
};

/**
 * Does something at once, or after the press that is going on: what is drawn anew in the middle of a press moves the key
 * away from under the finger, and the press is lost.
 */
export const afterPress = (run: () => void): void => {
  if (!isPressing) {
    run();
    return;
  }
  const go = () => {
    clearTimeout(timer);
    window.removeEventListener('click', go);
    run();
  };
  const timer = setTimeout(go, PRESS_MS);
  window.addEventListener('click', go);
};
