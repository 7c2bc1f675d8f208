/** What a key allows. A link carries a key; the relay knows the role of each key. */
export const ROLES = ['leader', 'player', 'reader'] as const;
export type Role = (typeof ROLES)[number];

/**
 * Whether this role may write this document of a band (`book`, `chart.<id>`, `stage`). Roles are per document:
 * nothing inside a document is filtered. The stage has one writer, the relay itself.
 */
export const mayWrite = (role: Role, document: string): boolean =>
  role !== 'reader' && (document === 'book' || document.startsWith('chart.'));

/** Whether cues may be called. The leader can pass the baton to a player for the evening. */
export const mayCall = (role: Role, hasBaton: boolean): boolean =>
  role === 'leader' || (role === 'player' && hasBaton);

/** Renaming the band, renewing keys, making an evening code. */
export const mayManage = (role: Role): boolean => role === 'leader';

const CHART_DOCUMENT = /^chart\.[A-Za-z0-9_-]{1,64}$/;

/** Whether a band can have a document of this name. */
export const isDocumentName = (name: string): boolean =>
  name === 'book' || name === 'stage' || CHART_DOCUMENT.test(name);
