import type { Role } from '../../common/protocol/roles.ts';

export interface Person {
  readonly member: string;
  readonly name: string;
  /** Instrument id. */
  readonly part: string;
  readonly role: Role;
  /** 0–7, an index into the presence colours. */
  readonly colour: number;
  readonly errorMs: number | null;
  readonly point: { readonly chart: string; readonly bar: string } | null;
  readonly isMe: boolean;
}
