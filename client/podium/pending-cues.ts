import type { Performance } from '../../common/stage/perform.ts';
import type { Announcement } from '../../common/stage/place.ts';

/**
 * What has been called and has not landed, the last one called first.
 * @param announced what is announced at that moment
 */
export const pendingCues = (
  performance: Performance,
  announced: readonly Announcement[],
): readonly Announcement[] => {
  const order = new Map(performance.take.cues.map(({ id }, at) => [id, at]));
  return announced
    .filter(({ written, landed }) => !written && !landed)
    .sort((a, b) => (order.get(b.id) ?? 0) - (order.get(a.id) ?? 0));
};
