import { type BarItem, GAP_EM, type LaidBar, REST_EM } from './lay-bar.ts';

/**
 * A bar as it is drawn while the band is out: the chord on one, then rests for a bar of one chord ('hit'); a
 * whole rest beside its chord where the band is silent throughout. The changes stay: the form goes on.
 */
export const whileOut = (laid: LaidBar, out: 'hit' | 'out' | undefined, pulses: number): LaidBar => {
  const only = laid.items[0];
  if (out === undefined || laid.items.length !== 1 || only === undefined || only.kind === 'rest') return laid;
  const count = out === 'hit' ? Math.max(1, Math.min(12, Math.round(pulses) - 1)) : 0;
  const struck = out === 'hit' ? 1 : Math.max(1, pulses / 2);
  const rest: BarItem = {
    kind: 'rest',
    count,
    widthEm: Math.max(1, count) * REST_EM,
    atPulse: struck,
    lengthPulses: Math.max(1, pulses - struck),
  };
  return {
    items: [{ ...only, lengthPulses: struck }, rest],
    widthEm: laid.widthEm + GAP_EM + rest.widthEm,
  };
};
