import { WebSocketServer } from 'ws';

/**
 * The least that could bring a message from one to all: no roles, no store, no documents. A process of its own, as
 * the relay is; tells its parent the port.
 */
const server = new WebSocketServer({ port: 0, host: '127.0.0.1', perMessageDeflate: false });
server.on('connection', (socket) => {
  socket.on('message', (data) => {
    for (const reader of server.clients) reader.send(data, { binary: true });
  });
});
server.on('listening', () => {
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error(`no port: ${address}`);
  process.send?.(address.port);
});
process.on('disconnect', () => process.exit());
