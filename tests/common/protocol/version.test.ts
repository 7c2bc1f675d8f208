import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { relayMessageSchema, tabletMessageSchema } from '../../../common/protocol/messages.ts';
import * as frames from '../../../common/protocol/sync-frames.ts';
import { PROTOCOL_VERSION } from '../../../common/protocol/version.ts';

/** What a schema takes, without what valibot keeps beside it: names, types and bounds. */
const shapeOf = (schema: unknown): unknown => {
  if (schema instanceof RegExp) return String(schema);
  if (Array.isArray(schema)) return schema.map(shapeOf);
  if (typeof schema !== 'object' || schema === null) return typeof schema === 'function' ? null : schema;
  return Object.fromEntries(
    Object.entries(schema)
      .filter(([name]) => !['message', '~standard', 'expects', 'async', 'reference'].includes(name))
      .filter(([, value]) => typeof value !== 'function')
      .map(([name, value]) => [name, shapeOf(value)] as const)
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  );
};

it('pins the shape of every message beside the version', () => {
  const shapes = JSON.stringify([
    shapeOf(tabletMessageSchema),
    shapeOf(relayMessageSchema),
    shapeOf({ ...frames }),
  ]);
  const hash = createHash('sha256').update(shapes).digest('hex').slice(0, 16);
  // Another hash: the wire has changed. Raise PROTOCOL_VERSION if older pages can't read it, then pin the hash anew.
  expect({ version: PROTOCOL_VERSION, hash }).toMatchInlineSnapshot(`
    {
      "hash": "778333e1d7afb554",
      "version": 2,
    }
  `);
});
