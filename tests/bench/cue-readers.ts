import { fork } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { type RawData, WebSocket } from 'ws';

const PATIENCE_MS = 5000;

/** A caller and readers on websockets of this process; the two ways to bring them together are measured alike. */
export interface Readers {
  /** ms from the sending of `message` until each reader got a frame in which `id` stands. */
  readonly send: (id: string, message: string) => Promise<number[]>;
  /** The caller's next answer to `message`. */
  readonly ask: (message: string) => Promise<string>;
  readonly close: () => void;
}

const opened = async (url: string): Promise<WebSocket> => {
  const socket = new WebSocket(url, { perMessageDeflate: false });
  await once(socket, 'open');
  return socket;
};

export const openReaders = async (callerUrl: string, readerUrl: string, count: number): Promise<Readers> => {
  const caller = await opened(callerUrl);
  const readers = await Promise.all(Array.from({ length: count }, () => opened(readerUrl)));
  let said = '';
  caller.on('message', (data: RawData) => {
    said = data.toString();
  });
  return {
    send: async (id, message) => {
      const wanted = Buffer.from(id);
      const heard = readers.map(
        (reader, nth) =>
          new Promise<number>((done, failed) => {
            const patience = setTimeout(
              () => failed(new Error(`reader ${nth} never got ${id}; the last answer was ${said}`)),
              PATIENCE_MS,
            );
            const listen = (data: RawData) => {
              if (!(data as Buffer).includes(wanted)) return;
              const atMs = performance.now();
              clearTimeout(patience);
              reader.off('message', listen);
              done(atMs);
            };
            reader.on('message', listen);
          }),
      );
      const sentMs = performance.now();
      caller.send(message);
      return (await Promise.all(heard)).map((atMs) => atMs - sentMs);
    },
    ask: async (message) => {
      const answer = once(caller, 'message');
      caller.send(message);
      const [data] = await answer;
      return String(data);
    },
    close: () => {
      for (const socket of [caller, ...readers]) socket.terminate();
    },
  };
};

/** Starts the bare broadcast in a process of its own. */
export const bareBroadcast = async (): Promise<{ readonly url: string; readonly close: () => void }> => {
  const program = fileURLToPath(new URL('./bare-broadcast.ts', import.meta.url));
  const child = fork(program, { execArgv: ['--import', 'tsx'] });
  const [port] = await once(child, 'message');
  const close = () => {
    if (child.connected) child.disconnect();
  };
  return { url: `ws://127.0.0.1:${port}`, close };
};
