import type { Role } from '../../common/protocol/roles.ts';
import type { Ask, Reply } from './ask.ts';
import { bandPath, isRecord, isText, BAD_KEY_SENTENCES as sentences } from './ask-relay.ts';
import type { BandInfo } from './look-at-band.ts';

export interface NewBand {
  readonly band: string;
  readonly keys: Readonly<Record<Role, string>>;
}

export const makeBand = (ask: Ask, name: string): Promise<Reply<NewBand>> =>
  ask(
    'POST',
    'bands',
    (answer): NewBand | undefined => {
      if (!isRecord(answer) || !isText(answer['band']) || !isRecord(answer['keys'])) return undefined;
      const { leader, player, reader } = answer['keys'];
      if (!isText(leader) || !isText(player) || !isText(reader)) return undefined;
      return { band: answer['band'], keys: { leader, player, reader } };
    },
    {
      body: { name },
      sentences: { 429: 'Many bands were made from here just now. Wait a minute and try again.' },
    },
  );

export const renameBand = (ask: Ask, band: string, key: string, name: string): Promise<Reply<true>> =>
  ask('PUT', bandPath(band), () => true as const, { key, body: { name }, sentences });

/** A new key for a role; the old one is not valid any more. */
export const renewKey = (ask: Ask, band: string, key: string, role: Role): Promise<Reply<string>> =>
  ask(
    'POST',
    `${bandPath(band)}/keys`,
    (answer) => (isRecord(answer) && isText(answer['key']) ? answer['key'] : undefined),
    { key, body: { role }, sentences },
  );

interface EveningCode {
  /** Six digits; null where none is in force. */
  readonly code: string | null;
}

const codeFrom = (answer: unknown): EveningCode | undefined => {
  if (!isRecord(answer)) return answer === null ? { code: null } : undefined;
  const { code } = answer;
  return isText(code) ? { code } : code === null ? { code: null } : undefined;
};

export const makeCode = (ask: Ask, band: string, key: string): Promise<Reply<EveningCode>> =>
  ask('POST', `${bandPath(band)}/code`, codeFrom, { key, sentences });

export const codeInForce = (ask: Ask, band: string, key: string): Promise<Reply<EveningCode>> =>
  ask('GET', `${bandPath(band)}/code`, codeFrom, { key, sentences });

const WRONG_CODE = 'No band has this code tonight. Look at it once more, or ask the leader.';

/** The band of an evening code, with a player's key. */
export const redeemCode = (ask: Ask, code: string): Promise<Reply<BandInfo & { readonly key: string }>> =>
  ask(
    'POST',
    'code',
    (answer) => {
      if (!isRecord(answer) || !isText(answer['band']) || !isText(answer['key'])) return undefined;
      const name = isText(answer['name']) ? answer['name'] : '';
      return { band: answer['band'], name, key: answer['key'], role: 'player' as const };
    },
    {
      body: { code },
      sentences: {
        401: WRONG_CODE,
        404: WRONG_CODE,
        429: 'Too many wrong codes from here. Wait a minute, then try again.',
      },
    },
  );

/** Origins at which this relay answers on the local network. */
export const addresses = (ask: Ask): Promise<Reply<readonly string[]>> =>
  ask('GET', 'addresses', (answer) =>
    isRecord(answer) && Array.isArray(answer['urls']) ? answer['urls'].filter(isText) : undefined,
  );
