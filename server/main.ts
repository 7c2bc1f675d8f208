import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runRelay } from './run-relay.ts';
import { staticFiles } from './static-files.ts';

/** `npm start`: the built page and the relay in one process. */
const page = fileURLToPath(new URL('../client/', import.meta.url));

if (!existsSync(join(page, 'index.html'))) {
  process.stderr.write('The page is not built yet. Run: npm run build\n');
  process.exit(1);
}
await runRelay({ pages: () => staticFiles(page) });
