import type { IncomingMessage } from 'node:http';
import type { CloseName } from '../common/protocol/close-codes.ts';
import { isDocumentName, type Role } from '../common/protocol/roles.ts';
import { failed, ok, type Result } from '../common/result.ts';
import type { Bands } from './bands.ts';

/** Who opens a websocket, and to what. */
export interface Visitor {
  readonly band: string;
  readonly role: Role;
  /** Document on `sync`; null on `live`. */
  readonly document: string | null;
  /** The stand, as it names itself. */
  readonly member: string | null;
  /** What shows that the name is its own; '' where it sent nothing. */
  readonly proof: string;
  readonly wantsAcks: boolean;
}

const MEMBER = /^[\w-]{1,100}$/;
const PATH = /^\/(?:sync\/([^/]+)\/([^/]+)|live\/([^/]+))\/?$/;

const decoded = (part: string | undefined): string => {
  try {
    return decodeURIComponent(part ?? '');
  } catch {
    // A stray % in an address: no band and no document is named so.
    return '';
  }
};

/** Whether an address is one of ours; another websocket on the same server (hot reload) is left alone. */
export const isSocketPath = (url: string): boolean => /^\/(?:sync|live)(?:[/?]|$)/.test(url);

/** A page may connect from the relay's own host, and from those configured. Programs send no origin. */
const isOriginAllowed = (
  origin: string | undefined,
  host: string | undefined,
  allowed: readonly string[],
): boolean => {
  if (origin === undefined || allowed.includes(origin)) return true;
  return URL.canParse(origin) && host !== undefined && new URL(origin).host === host.toLowerCase();
};

/** Who is at the door, or why it stays shut. */
export const readVisitor = (
  request: Pick<IncomingMessage, 'url' | 'headers'>,
  bands: Pick<Bands, 'roleOf'>,
  origins: readonly string[],
): Result<Visitor, CloseName> => {
  const [path = '', query = ''] = (request.url ?? '').split('?', 2);
  const match = PATH.exec(path);
  if (!match) return failed('notFound');
  if (!isOriginAllowed(request.headers.origin, request.headers.host, origins)) return failed('badOrigin');
  const params = new URLSearchParams(query);
  const band = decoded(match[1] ?? match[3]);
  const role = bands.roleOf(band, params.get('key') ?? '');
  if (role === null) return failed('badKey');
  const document = match[2] === undefined ? null : decoded(match[2]);
  if (document !== null && !isDocumentName(document)) return failed('notFound');
  const member = params.get('member') ?? '';
  return ok({
    band,
    role,
    document,
    member: MEMBER.test(member) ? member : null,
    proof: params.get('proof') ?? '',
    wantsAcks: params.get('acks') === '1',
  });
};
