import { useCallback, useEffect, useRef, useState } from 'react';
import type { Cue } from '../../common/stage/cue.ts';
import type { LeadChange } from '../../common/stage/leading.ts';
import type { Board } from '../state/board.ts';

/** How long a refusal stays to be read, in ms. */
const WORDS_STAY_MS = 7_000;

/** Calls and takes back; what is refused is said in words for a while. */
export const useCalling = (board: Board) => {
  const [words, setWords] = useState<string | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const say = useCallback((next: string | null) => {
    clearTimeout(timer.current);
    setWords(next);
    if (next !== null) timer.current = setTimeout(() => setWords(null), WORDS_STAY_MS);
  }, []);
  useEffect(() => () => clearTimeout(timer.current), []);
  const call = useCallback(
    async (cue: Cue) => {
      const answer = await board.call(cue);
      say(answer.ok ? null : answer.error.words);
      return answer.ok;
    },
    [board, say],
  );
  const takeBack = useCallback(
    async (id: string) => {
      const answer = await board.takeBack(id);
      say(answer.ok ? null : answer.error.words);
    },
    [board, say],
  );
  const lead = useCallback(
    async (change: LeadChange) => {
      const answer = await board.lead(change);
      say(answer.ok ? null : answer.error.words);
    },
    [board, say],
  );
  return { call, takeBack, lead, words, say };
};
