import { useEffect, useRef, useState } from 'react';
import type { Board } from '../state/board.ts';

/** For so long a stand says that its place has jumped, ms. */
const SHOWN_MS = 6000;

/**
 * How far shared time has just jumped on this stand, ms, + = forward; null where it has not for a while, and where
 * nothing was played then, so that nobody's place has jumped.
 */
export const useReseek = ({ onReseek }: Pick<Board, 'onReseek'>, isPlaying: () => boolean): number | null => {
  const [byMs, setByMs] = useState<number | null>(null);
  const playing = useRef(isPlaying);
  playing.current = isPlaying;
  useEffect(() => {
    let timer = 0;
    const show = (jumpMs: number) => {
      if (!playing.current()) return;
      setByMs(jumpMs);
      window.clearTimeout(timer);
      timer = window.setTimeout(() => setByMs(null), SHOWN_MS);
    };
    // It is told in the midst of a frame, or of a render: both come first.
    const stop = onReseek((jumpMs) => queueMicrotask(() => show(jumpMs)));
    return () => {
      stop();
      window.clearTimeout(timer);
    };
  }, [onReseek]);
  return byMs;
};

/**
 * What a player reads when the place has jumped.
 * @example reseekWords(-3400) // 'Jumped back 3 seconds: this stand was ahead of the band.'
 */
export const reseekWords = (byMs: number): string => {
  const seconds = Math.round(Math.abs(byMs) / 1000);
  const far = seconds < 120 ? `${seconds} seconds` : `${Math.round(seconds / 60)} minutes`;
  return byMs > 0
    ? `Jumped ahead ${far}: this stand was behind the band.`
    : `Jumped back ${far}: this stand was ahead of the band.`;
};
