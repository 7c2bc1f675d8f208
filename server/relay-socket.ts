import { WebSocket } from 'ws';
import { CLOSE_CODES } from '../common/protocol/close-codes.ts';
import { sentenceOf } from '../common/protocol/close-sentences.ts';

/** What `ws` closes with when a message is beyond `maxPayload` (RFC 6455 §7.4.1). */
const MESSAGE_TOO_BIG = 1009;

/**
 * A websocket that says "too large" with a code of our own: after 1009 a tablet would connect again and send the
 * same message for ever, after a code from 4400 to 4499 it stops and tells the person.
 */
export class RelaySocket extends WebSocket {
  override close(code?: number, reason?: string | Buffer): void {
    if (code === MESSAGE_TOO_BIG) super.close(CLOSE_CODES.tooLarge, sentenceOf('tooLarge'));
    else super.close(code, reason);
  }
}
