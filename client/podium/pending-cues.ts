import type { Performance } from '../../common/stage/perform.ts';
import type { Announcement } from '../../common/stage/place.ts';

/**
 * What has been called and has not landed, the soonest first; what waits for an open leg comes last.
 * @param announced what is announced at that moment, in the order of landing
 */
export const pendingCues = (announced: readonly Announcement[]): readonly Announcement[] =>
  announced.filter(({ written, landed }) => !written && !landed);

/** Of those the one that was called last; undefined where nothing is pending. */
export const lastCalled = (
  performance: Performance,
  announced: readonly Announcement[],
): Announcement | undefined => {
  const pending = new Map(pendingCues(announced).map((one) => [one.id, one]));
  const last = performance.take.cues.findLast(({ id }) => pending.has(id));
  return last === undefined ? undefined : pending.get(last.id);
};
