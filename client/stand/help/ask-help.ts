import type { LegHelp } from '../../../common/help/help.ts';
import type { HelpAnswer, HelpQuestion } from './help-worker.ts';

/** A worker that could not be had, as when the relay is away, is tried again after so long, ms. */
const AGAIN_MS = 5000;

interface Waiting {
  readonly question: HelpQuestion;
  readonly done: (legs: readonly LegHelp[]) => void;
}

let worker: Worker | null = null;
let lastId = 0;
const waiting = new Map<number, Waiting>();

const begin = (): Worker => {
  const begun = new Worker(new URL('./help-worker.ts', import.meta.url), { type: 'module' });
  begun.onmessage = ({ data }: MessageEvent<HelpAnswer>) => {
    const asked = waiting.get(data.id);
    waiting.delete(data.id);
    if ('failed' in data) console.error('No help was found for this tune.', data.failed);
    else asked?.done(data.legs);
  };
  begun.onerror = (event) => {
    console.warn('What stands under the chords is worked out later.', event.message);
    begun.terminate();
    worker = null;
    window.setTimeout(() => {
      if (worker !== null || waiting.size === 0) return;
      worker = begin();
      for (const { question } of waiting.values()) worker.postMessage(question);
    }, AGAIN_MS);
  };
  return begun;
};

/** Begins the worker, so that it is here when the relay is not. */
export const readyHelp = (): void => {
  worker ??= begin();
};

/** Asks the worker; what comes back after the returned function was called is let go. */
export const askHelp = (
  asked: Omit<HelpQuestion, 'id'>,
  done: (legs: readonly LegHelp[]) => void,
): (() => void) => {
  lastId += 1;
  const question: HelpQuestion = { ...asked, id: lastId };
  waiting.set(question.id, { question, done });
  readyHelp();
  worker?.postMessage(question);
  return () => waiting.delete(question.id);
};
