import type { CalledMessage, Done, Pong, Refused, RelayMessage } from '../../../common/protocol/messages.ts';
import type { LeadChange } from '../../../common/stage/leading.ts';
import { type RawSocket, rawSocket } from './raw-socket.ts';

/** A `live` socket by hand. Each of its ways of asking gives the relay's answer. */
export interface LiveSocket extends RawSocket {
  readonly ping: () => Promise<Pong>;
  readonly call: (cue: unknown, id?: string) => Promise<CalledMessage | Refused>;
  readonly takeBack: (cue: string, id?: string) => Promise<CalledMessage | Refused>;
  readonly lead: (change: LeadChange, id?: string) => Promise<Done | Refused>;
}

export const liveSocket = async (
  ws: string,
  band: string,
  key: string,
  member = 'ines',
  proof = '',
): Promise<LiveSocket> => {
  const raw = await rawSocket(`${ws}/live/${band}?key=${key}&member=${member}&proof=${proof}`);
  const answerTo = <Message extends RelayMessage>(
    matches: (message: RelayMessage) => boolean,
  ): Promise<Message> =>
    raw.hears((data) => {
      const message = JSON.parse(Buffer.from(data).toString()) as RelayMessage;
      return matches(message) && (message as Message);
    });
  let last = 0;
  const ask = <Answer extends RelayMessage>(id: string, message: object): Promise<Answer> => {
    raw.send(JSON.stringify({ id, ...message }));
    return answerTo<Answer>((answer) => answer.t !== 'pong' && answer.id === id);
  };
  const nextId = (letter: string) => `${letter}-${member}-${++last}`;
  return {
    ...raw,
    ping: () => {
      const n = ++last;
      raw.send(JSON.stringify({ t: 'ping', n, t0: 12.5 }));
      return answerTo<Pong>((message) => message.t === 'pong' && message.n === n);
    },
    call: (cue, id = nextId('c')) => ask(id, { t: 'call', cue }),
    takeBack: (cue, id = nextId('b')) => ask(id, { t: 'takeBack', cue }),
    lead: (change, id = nextId('l')) => ask(id, { t: 'lead', ...change }),
  };
};
