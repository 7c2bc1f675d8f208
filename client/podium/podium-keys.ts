import { feelKeys } from './feel-keys.ts';
import { formKeys } from './form-keys.ts';
import { face, type KeyMatter, type PodiumKey } from './podium-key.ts';
import { soloKeys } from './solo-keys.ts';

/** The keys in their places. Their order never changes, so that a hand learns where they are. */
export const podiumKeys = (matter: KeyMatter): readonly PodiumKey[] => [
  ...formKeys(matter),
  ...feelKeys(matter),
  ...soloKeys(matter),
];

/** The two keys that share the corner under the thumb, on every screen. */
export const countInKey: Pick<PodiumKey, 'id' | 'faces'> = {
  id: 'start',
  faces: [face('more', 'Count in', 'from the top', { kind: 'start' })],
};
export const stopKey: Pick<PodiumKey, 'id' | 'faces'> = {
  id: 'stop',
  faces: [face('out', 'Stop', 'everyone out', { kind: 'stop' })],
};
