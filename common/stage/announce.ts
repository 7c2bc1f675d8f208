import { pieceAt, walkToLandings } from './ahead.ts';
import type { Landing, Log, Pending } from './course.ts';
import type { Cue } from './cue.ts';
import type { Scene, Told } from './cue-rule.ts';
import { ruleOf } from './cue-table.ts';
import { TAG_GONE } from './cues/tag.ts';
import { farPlace } from './far-place.ts';
import { beatsTo, linesTo, type Now, nowOf } from './lines-to.ts';
import { isOverruled } from './overruled.ts';
import type { Performance } from './perform.ts';
import type { Announcement } from './place.ts';
import { writtenAnnouncements } from './written-announcements.ts';

/** A landing older than a beat at the slowest tempo is not looked at. */
const SLOWEST_BEAT_MS = 3000;

const told = (called: Pending | Landing, scene: Scene): Told & Pick<Announcement, 'family'> => {
  const { cue } = called;
  const rule = ruleOf(cue);
  if ('refused' in called) return { family: 'more', name: 'No tag', detail: 'its leg is gone' };
  return rule
    ? { family: rule.family, ...rule.tell(cue, scene) }
    : { family: 'move', name: cue.kind, detail: '' };
};

const ofLanding = ({ run }: Performance, landing: Landing, now: Now): Announcement => {
  const { id, cue, by, ms, place } = landing;
  const { bars } = run.log;
  const landed = ms <= now.ms;
  return {
    id,
    kind: cue.kind,
    ...told(landing, { last: bars[landing.bar - 1], next: bars[landing.bar], course: run.ahead }),
    written: false,
    landsMs: ms,
    landsAt: place,
    barsToGo: landed ? 0 : linesTo(now, landing),
    beatsToGo: landed ? 0 : beatsTo(now, landing),
    landed,
    canTakeBack: !landed,
    ...(by === undefined ? {} : { by }),
  };
};

/** A cue while an open leg or a loop stands before it: nobody can say when. */
const ofPending = ({ run }: Performance, pending: Pending): Announcement => {
  const { id, cue, by } = pending;
  return {
    id,
    kind: cue.kind,
    ...told(pending, { course: run.ahead }),
    ...(run.ahead.manner.loop ? { detail: 'after the loop' } : {}),
    written: false,
    landsMs: Number.POSITIVE_INFINITY,
    landsAt: farPlace(run.ahead, cue),
    barsToGo: Number.POSITIVE_INFINITY,
    beatsToGo: Number.POSITIVE_INFINITY,
    landed: false,
    canTakeBack: true,
    ...(by === undefined ? {} : { by }),
  };
};

/** Nothing would be left of it by what lands with it: it must not promise. */
const isInVain = ({ landings, bars }: Log, at: number): boolean => {
  const { cue, count, bar } = landings[at] as Landing;
  for (let i = at + 1; landings[i]?.count === count; i += 1) {
    const later = landings[i] as Landing;
    if (!later.refused && isOverruled(cue, later.cue, bars[bar - 1]?.leg.id)) return true;
  }
  return false;
};

/** Cues that are on their way, or landed within the last beat. */
const called = (performance: Performance, now: Now): Announcement[] => {
  const { log } = performance.run;
  const { landings } = log;
  const found: Announcement[] = [];
  for (let i = landings.length - 1; i >= 0; i -= 1) {
    const landing = landings[i] as Landing;
    if (landing.ms <= now.ms - SLOWEST_BEAT_MS) break;
    const isDropped = landing.refused !== undefined && landing.refused !== TAG_GONE;
    const isShown = !isDropped && ruleOf(landing.cue)?.boundary(landing.cue) !== 'atOnce';
    if (isShown && landing.ms > now.ms - now.pulseMs && !isInVain(log, i)) {
      found.unshift(ofLanding(performance, landing, now));
    }
  }
  const waiting = performance.run.ahead.pending;
  const landsWith = (cue: Cue, other: Cue) => ruleOf(cue)?.boundary(cue) === ruleOf(other)?.boundary(other);
  const shown = waiting.filter(
    ({ cue }, i) =>
      !waiting.slice(i + 1).some((later) => landsWith(cue, later.cue) && isOverruled(cue, later.cue)),
  );
  return [...found, ...shown.map((pending) => ofPending(performance, pending))];
};

/**
 * What the stands show at `tMs`, soonest first: the cues on their way and those that landed within the last
 * beat, and what is written in the chart within the next two phrases. A cue that will make no sense when its line
 * comes, or of which another leaves nothing, is left out at once. `landsMs`, `barsToGo` and `beatsToGo` are Infinity
 * where an open leg or a hold that nobody has released stands before it.
 */
export const announced = (performance: Performance, tMs: number): readonly Announcement[] => {
  const { span = null, tempo = null } = pieceAt(performance, tMs) ?? {};
  walkToLandings(performance);
  const now = nowOf(span, tempo, tMs);
  const all = [...called(performance, now), ...writtenAnnouncements(performance, now)];
  return all.sort((a, b) => (a.landsMs === b.landsMs ? 0 : a.landsMs - b.landsMs));
};
