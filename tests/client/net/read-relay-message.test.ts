import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readRelayMessage } from '../../../client/net/read-relay-message.ts';
import { readRelayMessage as readBySchema } from '../../../common/protocol/messages.ts';

const finite = fc.double({ noNaN: true, noDefaultInfinity: true });
const text = fc.string({ minLength: 1, maxLength: 20 });
const odd = fc.oneof(
  fc.string(),
  fc.integer(),
  fc.constant(null),
  fc.constant(undefined),
  fc.constant(Number.NaN),
);

const sent = fc.oneof(
  fc.record({ t: fc.constant('pong'), n: finite, t0: finite, t1: finite, t2: finite, epoch: text }),
  fc.record({ t: fc.constant('done'), id: text }),
  fc.record({ t: fc.constant('refused'), id: text, why: text, words: text }),
  fc.record({
    t: fc.constant('called'),
    id: text,
    cue: fc.oneof(
      fc.record({ kind: fc.constantFrom('lastChorus', 'oneMore', 'goOn') }),
      fc.record({ kind: fc.constant('takeBack'), cue: text }),
    ),
    calledAtMs: finite,
  }),
);

describe('a message from the relay, read on a tablet', () => {
  it('is read as the schema of the wire reads it, but for the cue that the tablet knows', () => {
    fc.assert(
      fc.property(sent, (message) => {
        const bySchema = readBySchema(message);
        expect(bySchema).not.toBeNull();
        const { cue: _cue, ...heard } = bySchema as { cue?: unknown };
        expect(readRelayMessage(message)).toEqual(heard);
      }),
    );
  });

  it('is refused where a field that the tablet uses is missing or of another kind', () => {
    fc.assert(
      fc.property(sent, fc.nat(), odd, (message, pick, value) => {
        const names = Object.keys(message).filter((name) => name !== 'cue');
        const spoilt = { ...message, [names[pick % names.length] ?? 't']: value };
        if (readBySchema(spoilt) === null && typeof value !== 'string') {
          expect(readRelayMessage(spoilt)).toBeNull();
        }
      }),
    );
  });

  it('is nothing where it is no message at all', () => {
    fc.assert(
      fc.property(fc.anything(), (value) => {
        expect(readRelayMessage([value])).toBeNull();
      }),
    );
    for (const value of [null, 3, 'pong', {}, { t: 'news' }]) expect(readRelayMessage(value)).toBeNull();
  });
});
