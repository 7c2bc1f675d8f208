import type { CloseName } from './close-codes.ts';

const SENTENCES: Readonly<Record<CloseName, string>> = {
  badMessage:
    'The relay could not read what this tablet sent. Reload the page; it may be older than the relay.',
  badKey: 'This link is not valid here. Ask the leader for a new one.',
  notAllowed: 'This link lets you read, not write. Ask the leader for a player’s link.',
  notFound: 'There is nothing at this address. Ask the leader for a new link.',
  tooManyDocuments: 'This band has as many charts as it can hold. Delete some in the Book first.',
  keyRenewed: 'The leader has renewed this link. Ask for the new one.',
  tooLarge: 'That is too large for the relay. Make it smaller; what you typed stays on this tablet.',
  locked: 'The book is locked for the gig. What you typed stays on this tablet until it is unlocked.',
  tooManyMessages: 'This tablet sent too much at once and was disconnected. Reload the page to go on.',
  tooManyConnections: 'Too many tablets are connected from this address. Close some pages and reload.',
  badOrigin: 'This page comes from another address than the relay’s. Open the link the leader gave you.',
  brokenDocument: 'The relay cannot read this chart at the moment. It tries again.',
};

/** The reason sent with a close of this name: the sentence that the page shows to the person. */
export const sentenceOf = (name: CloseName): string => SENTENCES[name];
