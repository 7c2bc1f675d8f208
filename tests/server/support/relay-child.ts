import { createLog } from '../../../server/log.ts';
import { openRelay } from '../../../server/relay.ts';

/** A relay in a process of its own, for tests that kill it. Its folder is the argument; its port is printed. */
const [data = ''] = process.argv.slice(2);
const relay = await openRelay({
  config: { port: 0, host: '127.0.0.1', data, origins: [] },
  log: createLog('warn', (line) => process.stderr.write(line), Date.now),
  failed: (error) => {
    process.stderr.write(`${error.message}\n`);
    process.exit(1);
  },
  pages: () => () => false,
});
process.on('SIGTERM', () => void relay.close().then(() => process.exit(0)));
process.stdout.write(`${relay.port}\n`);
