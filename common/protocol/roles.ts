import type { LeadChange, Leading } from '../stage/leading.ts';

/** What a key allows. A link carries a key; the relay knows the role of each key. */
export const ROLES = ['leader', 'player', 'reader'] as const;
export type Role = (typeof ROLES)[number];

/**
 * Whether this role may write this document of a band (`book`, `chart.<id>`, `stage`). Roles are per document:
 * nothing inside a document is filtered. The stage has one writer, the relay itself.
 */
export const mayWrite = (role: Role, document: string): boolean =>
  role !== 'reader' && (document === 'book' || document.startsWith('chart.'));

/**
 * Whether somebody may call every cue: whoever came by a leader's link, and the player who has the baton.
 * @param member null for somebody whom the relay does not know
 */
export const mayLead = (role: Role, member: string | null, leading: Leading): boolean =>
  role === 'leader' || (role === 'player' && member !== null && leading.baton === member);

/** Whether somebody may call this cue: who leads, and taps also whoever was lent them. */
export const mayCall = (
  role: Role,
  member: string | null,
  leading: Leading,
  cue: { readonly kind: string },
): boolean =>
  mayLead(role, member, leading) ||
  (cue.kind === 'tap' && role === 'player' && member !== null && leading.taps === member);

/**
 * Whether somebody may change who leads. Leaders may do everything. A player gives back what they have, and with
 * the baton lends and takes back the taps; passing the baton on and locking the book is for leaders.
 */
export const mayChange = (
  role: Role,
  member: string | null,
  leading: Leading,
  { baton, taps, locked }: LeadChange,
): boolean => {
  if (role === 'leader') return true;
  if (role !== 'player' || member === null || locked !== undefined) return false;
  const leads = leading.baton === member;
  const batonIsFine = baton === undefined || (baton === null && leads);
  const tapsAreFine = taps === undefined || leads || (taps === null && leading.taps === member);
  return batonIsFine && tapsAreFine;
};

/** Renaming the band, renewing keys, making an evening code. */
export const mayManage = (role: Role): boolean => role === 'leader';

const CHART_DOCUMENT = /^chart\.[A-Za-z0-9_-]{1,64}$/;

/** Whether a band can have a document of this name. */
export const isDocumentName = (name: string): boolean =>
  name === 'book' || name === 'stage' || CHART_DOCUMENT.test(name);
