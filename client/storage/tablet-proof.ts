import type { MakeId } from '../../common/ids.ts';
import { readJson, type TextStore, writeJson } from './stored-json.ts';

const NAME = 'tillcue.proof';

/**
 * The secret by which the relay knows this tablet again, so that nobody else can sit in its place and use what it
 * was given. All tabs of a browser have the same.
 */
export const tabletProof = (store: TextStore, makeId: MakeId): string => {
  const kept = readJson(store, NAME);
  if (typeof kept === 'string' && kept !== '') return kept;
  // An id has 51 random bits.
  const proof = `${makeId()}${makeId()}${makeId()}`;
  writeJson(store, NAME, proof);
  return proof;
};
