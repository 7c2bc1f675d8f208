import { ROLES, type Role } from '../../common/protocol/roles.ts';
import type { Ask, Reply } from './ask.ts';
import { BAD_KEY_SENTENCES, bandPath, isRecord, isText } from './ask-relay.ts';

export interface BandInfo {
  readonly band: string;
  readonly name: string;
  readonly role: Role;
}

const isRole = (value: unknown): value is Role => ROLES.some((role) => role === value);

/** A band's name, and what this key allows in it. */
export const lookAtBand = (ask: Ask, band: string, key: string): Promise<Reply<BandInfo>> =>
  ask(
    'GET',
    bandPath(band),
    (answer): BandInfo | undefined =>
      isRecord(answer) && isText(answer['name']) && isRole(answer['role'])
        ? { band, name: answer['name'], role: answer['role'] }
        : undefined,
    { key, sentences: BAD_KEY_SENTENCES },
  );
