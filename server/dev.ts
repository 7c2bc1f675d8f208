import { createServer as createViteServer } from 'vite';
import { runRelay } from './run-relay.ts';

/** `npm run dev`: the relay, the demo band, and the page with hot reload, in one process. */
await runRelay({
  // Hot reload puts scripts into the page, which the policy of the built page forbids.
  headers: () => ({}),
  pages: async (server) => {
    const vite = await createViteServer({
      appType: 'spa',
      server: { middlewareMode: true, hmr: { server } },
    });
    return (request, response) => {
      vite.middlewares(request, response, () => {
        response.writeHead(404, { 'content-type': 'text/plain' }).end('Not found');
      });
      return true;
    };
  },
});
