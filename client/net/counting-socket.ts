import { isDocumentWrite } from '../../common/protocol/sync-frames.ts';

/**
 * A WebSocket class for one room that reports each new connection and each frame it sends that the relay will
 * acknowledge. y-websocket has no public way to learn either.
 */
export const countingSocket = (opened: () => void, sentWrite: () => void): typeof WebSocket =>
  class extends WebSocket {
    constructor(url: string | URL, protocols?: string | string[]) {
      super(url, protocols);
      opened();
    }
    override send(data: string | ArrayBufferLike | Blob | ArrayBufferView<ArrayBuffer>): void {
      super.send(data);
      if (data instanceof Uint8Array && isDocumentWrite(data)) sentWrite();
    }
  };
