import { WebSocket } from 'ws';

/** The network between one tablet and everybody else: how long each message takes, up and down, in ms. */
export interface Link {
  readonly upMs: () => number;
  readonly downMs: () => number;
}

/**
 * One way of a link between rooms: a time that stays, 1 to 4 ms, an exponential part with a mean of 1.8 ms, and with
 * 4 % a Pareto tail (6 ms, 1.3) of at most 120 ms. The same tails and means as in `simulated-traces.ts`.
 */
const oneWay = (random: () => number): (() => number) => {
  const leastMs = 1 + 3 * random();
  return () => {
    const tailMs = random() < 0.04 ? Math.min(120, 6 / (1 - random()) ** (1 / 1.3)) : 0;
    return leastMs - 1.8 * Math.log(1 - random()) + tailMs;
  };
};

/** Ways up and down differ, as they do in rooms; the tablet's clock cannot see by how much. */
export const randomLink = (random: () => number): Link => ({ upMs: oneWay(random), downMs: oneWay(random) });

/** Runs things after their delays, none before one that came earlier: TCP keeps the order. */
const inOrder = () => {
  let lastMs = 0;
  return (delayMs: number, run: () => void) => {
    const nowMs = performance.now();
    lastMs = Math.max(lastMs, nowMs + delayMs);
    setTimeout(run, lastMs - nowMs);
  };
};

/** A class of websockets whose messages take as long as the link of the member that their address names says. */
export const delayedSockets = (linkOf: (member: string) => Link) =>
  class extends WebSocket {
    readonly #link: Link;
    readonly #up = inOrder();
    readonly #down = inOrder();

    constructor(url: string | URL, protocols?: string | string[]) {
      super(url, protocols, { perMessageDeflate: false });
      this.#link = linkOf(new URL(url).searchParams.get('member') ?? '');
    }

    override send(data: Parameters<WebSocket['send']>[0]): void {
      this.#up(this.#link.upMs(), () => {
        if (this.readyState === this.OPEN) super.send(data);
      });
    }

    override emit(event: string | symbol, ...args: unknown[]): boolean {
      if (event !== 'message' && event !== 'close') return super.emit(event, ...args);
      this.#down(this.#link.downMs(), () => super.emit(event, ...args));
      return true;
    }
  };
