import type { Leg, Road } from '../../common/form/road.ts';
import { tradeWords } from '../../common/stage/trading.ts';

/**
 * Which time through a leg this is, in the trade's words; '' where it is played once.
 * @param passes as known now: `open` becomes a number when the last chorus has been called
 * @example passWords(solos, 3, 'open') // 'chorus 3'
 */
export const passWords = (leg: Leg, pass: number, passes: number | 'open' | 'vamp'): string => {
  if (leg.tag !== undefined) return `${pass + 1} of ${Math.max(leg.tag.timesInAll, pass + 1)}`;
  if (leg.passes === 'vamp') return passes === 'vamp' ? `time ${pass}, till cue` : `time ${pass}, the last`;
  const trading = leg.trade === undefined ? '' : `trading ${tradeWords(leg.trade)}, `;
  if (leg.passes === 'open' || trading !== '') {
    return passes === pass ? `${trading}chorus ${pass}, the last` : `${trading}chorus ${pass}`;
  }
  return typeof passes === 'number' && passes > 1 ? `${pass} of ${passes}` : '';
};

const timesWords = ({ passes, tag, trade }: Leg): string => {
  if (tag !== undefined) return ` ×${tag.timesInAll}`;
  const times =
    passes === 'open' ? ' open' : passes === 'vamp' ? ' till cue' : passes === 1 ? '' : ` ×${passes}`;
  return trade === undefined ? times : `${times} trading ${tradeWords(trade)}`;
};

/** @example legWords(tag) // 'Tag ×3' */
export const legWords = (leg: Leg): string => `${leg.name}${timesWords(leg)}`;

/** What comes after a leg, as the foot says it: 'then Head out, Tag ×3'; 'then the end' after the last. */
export const afterWords = (road: Road, legId: string): string => {
  const at = road.legs.findIndex((leg) => leg.id === legId);
  if (at < 0) return '';
  const after = road.legs.slice(at + 1).map(legWords);
  return after.length === 0 ? 'then the end' : `then ${after.join(', ')}`;
};

/**
 * Passes as pips: gone, being played, still to come where their number is known; '' where it is played once or
 * there would be more than twelve.
 * @example passPips(3, 'open') // '●●◉'
 */
export const passPips = (pass: number, passes: number | 'open' | 'vamp'): string => {
  const all = typeof passes === 'number' ? Math.max(passes, pass) : pass;
  if (all > 12 || passes === 1) return '';
  return `${'●'.repeat(pass - 1)}◉${'○'.repeat(all - pass)}`;
};

/** @example minutesWords(221_400) // '3:41' */
export const minutesWords = (ms: number): string => {
  const seconds = Math.max(0, Math.round(ms / 1000));
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`;
};
