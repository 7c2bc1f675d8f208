/** When to ask the relay for the time: ten times at 100 ms, then once a second (about 13 kB a minute). */
export interface PingPlan {
  readonly burstLeft: number;
}

const BURST_PINGS = 10;
const BURST_GAP_MS = 100;
const STEADY_GAP_MS = 1000;

/** The plan on connecting, on waking, and when a clock turned out to have jumped. */
export const burst: PingPlan = { burstLeft: BURST_PINGS };

/** The plan after a ping has been sent, and how long to wait before the next, ms. */
export const afterPing = ({ burstLeft }: PingPlan): { readonly plan: PingPlan; readonly waitMs: number } => ({
  plan: { burstLeft: Math.max(0, burstLeft - 1) },
  waitMs: burstLeft > 1 ? BURST_GAP_MS : STEADY_GAP_MS,
});
