import * as fc from 'fast-check';
import * as encoding from 'lib0/encoding';
import { expect, it } from 'vitest';
import {
  decodeAcknowledgement,
  encodeAcknowledgement,
  isDocumentWrite,
} from '../../../common/protocol/sync-frames.ts';

it('decodes what it encodes', () => {
  fc.assert(
    fc.property(fc.maxSafeNat(), (count) => {
      expect(decodeAcknowledgement(encodeAcknowledgement(count))).toBe(count);
    }),
  );
});

it('writes the bytes that lib0 writes', () => {
  fc.assert(
    fc.property(fc.maxSafeNat(), (count) => {
      const bytes = encoding.encode((encoder) => {
        encoding.writeVarUint(encoder, 4);
        encoding.writeVarUint(encoder, count);
      });
      expect([...encodeAcknowledgement(count)]).toEqual([...bytes]);
    }),
  );
});

it.each([[[]], [[4]], [[4, 128]], [[4, 1, 1]], [[0, 1]], [[4, ...Array(9).fill(255), 1]]])(
  'takes %j for no acknowledgement',
  (bytes) => {
    expect(decodeAcknowledgement(Uint8Array.from(bytes))).toBeNull();
  },
);

it('counts steps 2 and updates as writes, not step 1 nor awareness', () => {
  expect(
    [
      [0, 1, 2, 0, 0],
      [0, 2, 2, 0, 0],
    ].map((frame) => isDocumentWrite(Uint8Array.from(frame))),
  ).toEqual([true, true]);
  expect([[0, 0, 1, 0], [1, 1, 0], [], [3]].some((frame) => isDocumentWrite(Uint8Array.from(frame)))).toBe(
    false,
  );
});
