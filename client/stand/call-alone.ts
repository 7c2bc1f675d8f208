import type { MakeId } from '../../common/ids.ts';
import { type ConductContext, type Conducted, conduct, conductTakeBack } from '../../common/stage/conduct.ts';
import type { Called, Cue, Take } from '../../common/stage/cue.ts';
import type { StageState } from '../state/board.ts';

/**
 * What a take becomes when a player moves their own stand: judged as the relay judges a call, but nobody else
 * hears of it. `words` say why it makes no sense.
 * @param atMs shared time as this tablet knows it
 * @param chart the tune that a `callTune` asks for, where it is known
 */
export const callAlone = (
  { take, performance }: StageState,
  cue: Cue,
  atMs: number,
  makeId: MakeId,
  chart?: ConductContext['chart'],
): Alone => {
  const state = performance === null ? { take } : { take, performance };
  const conducted = conduct(state, { id: makeId(), cue }, atMs, {
    newTakeId: makeId(),
    ...(chart === undefined ? {} : { chart }),
  });
  return afterwards(take, conducted);
};

/** What a take becomes when a cue is taken back by this stand alone. */
export const takeBackAlone = (
  { take, performance }: StageState,
  cue: string,
  atMs: number,
  makeId: MakeId,
): Alone =>
  afterwards(
    take,
    conductTakeBack(performance === null ? { take } : { take, performance }, { id: makeId(), cue }, atMs),
  );

/** The take as it goes on, with what was called; or why not. */
export type Alone =
  | { readonly take: Take; readonly called: Called }
  | { readonly why: string; readonly words: string };

const afterwards = (take: Take | null, conducted: Conducted): Alone => {
  if (!conducted.ok) return { why: conducted.why, words: conducted.words };
  const { effect } = conducted;
  const { called } = effect;
  if (effect.kind === 'newTake') return { take: effect.take, called };
  if (take === null) return { why: 'noTune', words: 'There is no tune.' };
  return { take: effect.kind === 'repeat' ? take : { ...take, cues: [...take.cues, called] }, called };
};
