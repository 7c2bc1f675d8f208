import type { MakeId } from '../../common/ids.ts';
import { conduct } from '../../common/stage/conduct.ts';
import type { Cue, Take } from '../../common/stage/cue.ts';
import type { StageState } from '../state/board.ts';

/**
 * What a take becomes when a player moves their own stand: judged as the relay judges a call, but nobody else
 * hears of it. `words` say why it makes no sense.
 * @param atMs shared time as this tablet knows it
 */
export const callAlone = (
  { take, performance }: StageState,
  cue: Cue,
  atMs: number,
  makeId: MakeId,
): { readonly take: Take } | { readonly words: string } => {
  const state = performance === null ? { take } : { take, performance };
  const conducted = conduct(state, { id: makeId(), cue }, atMs, { newTakeId: makeId() });
  if (!conducted.ok) return { words: conducted.words };
  const { effect } = conducted;
  if (effect.kind === 'newTake') return { take: effect.take };
  return take === null
    ? { words: 'There is no tune.' }
    : { take: { ...take, cues: [...take.cues, effect.called] } };
};
