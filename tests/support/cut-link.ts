import { once } from 'node:events';
import { connect, createServer, type Socket } from 'node:net';

/** A TCP proxy between a tablet and the relay that can be cut and mended, as a network would be. */
export interface CutLink {
  readonly origin: string;
  /** Ends all connections and refuses new ones. */
  readonly cut: () => void;
  /** Keeps the connections open but lets nothing through. */
  readonly stall: () => void;
  readonly mend: () => void;
  readonly close: () => Promise<void>;
}

export const cutLink = async (targetPort: number): Promise<CutLink> => {
  const sockets = new Set<Socket>();
  let state: 'open' | 'cut' | 'stalled' = 'open';
  const server = createServer((near) => {
    if (state === 'cut') {
      near.destroy();
      return;
    }
    const far = connect(targetPort, '127.0.0.1');
    for (const [from, to] of [
      [near, far],
      [far, near],
    ] as const) {
      sockets.add(from);
      from.on('data', (chunk) => {
        if (state !== 'stalled') to.write(chunk);
      });
      from.on('error', () => to.destroy());
      from.on('close', () => {
        sockets.delete(from);
        to.destroy();
      });
    }
  }).listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error(`no port: ${address}`);
  const destroyAll = () => {
    for (const socket of sockets) socket.destroy();
  };
  return {
    origin: `http://127.0.0.1:${address.port}`,
    cut: () => {
      state = 'cut';
      destroyAll();
    },
    stall: () => {
      state = 'stalled';
    },
    mend: () => {
      // What was swallowed during a stall is gone: such a connection can only start anew.
      if (state === 'stalled') destroyAll();
      state = 'open';
    },
    close: async () => {
      destroyAll();
      server.close();
      await once(server, 'close');
    },
  };
};
