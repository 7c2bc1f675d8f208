/**
 * Who leads besides those who came by a leader's link, and whether the book may be written in. Names are member
 * ids. What a member was given stays theirs while they are away.
 */
export interface Leading {
  /** The player who has the baton: calls every cue, as a leader does. */
  readonly baton?: string;
  /** The player who was lent the taps, usually the drummer. */
  readonly taps?: string;
  /** Locked for the gig: nobody changes the book or a chart, leaders included. */
  readonly locked?: true;
}

/** What is to change of it: what is absent stays as it is, null takes back. */
export interface LeadChange {
  readonly baton?: string | null;
  readonly taps?: string | null;
  readonly locked?: boolean;
}

/** Who leads after a change. `leadingAfter(leading, {})` equals `leading`, and changing twice is changing once. */
export const leadingAfter = (leading: Leading, change: LeadChange): Leading => {
  const { baton = leading.baton, taps = leading.taps, locked = leading.locked } = change;
  return {
    ...(baton ? { baton } : {}),
    ...(taps ? { taps } : {}),
    ...(locked ? { locked: true } : {}),
  };
};
