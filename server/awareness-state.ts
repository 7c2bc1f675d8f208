import { withoutControls } from '../common/chart/without-controls.ts';
import { LIMITS } from '../common/protocol/limits.ts';
import type { Role } from '../common/protocol/roles.ts';

/** Shown to everybody, so kept to one line of reasonable length. */
const TEXT_LENGTHS = { name: 60, part: 60, member: 100 } as const;

const oneLine = (text: string, length: number): string => withoutControls(text).slice(0, length);

/**
 * The state as it is passed on, as JSON: `role` is what the connection's key says, whatever the tablet wrote; a
 * pointer stays only where `mayPoint`; name, part and member are cut to one line.
 * 'unreadable' and 'tooLarge' where it cannot be taken; '' for `null`, by which somebody leaves.
 */
export const stampState = (
  json: string,
  role: Role,
  mayPoint: boolean,
):
  | { readonly ok: true; readonly state: string }
  | { readonly ok: false; readonly why: 'unreadable' | 'tooLarge' } => {
  if (Buffer.byteLength(json) > LIMITS.awarenessBytes) return { ok: false, why: 'tooLarge' };
  let state: unknown;
  try {
    state = JSON.parse(json);
  } catch {
    return { ok: false, why: 'unreadable' };
  }
  if (state === null) return { ok: true, state: '' };
  if (typeof state !== 'object' || Array.isArray(state)) return { ok: false, why: 'unreadable' };
  const stamped: Record<string, unknown> = { ...state, role };
  for (const [name, length] of Object.entries(TEXT_LENGTHS)) {
    if (name in stamped)
      stamped[name] = typeof stamped[name] === 'string' ? oneLine(stamped[name], length) : '';
  }
  if ('point' in stamped && !mayPoint) stamped['point'] = null;
  return { ok: true, state: JSON.stringify(stamped) };
};
