import { isLocalHost } from './addresses.ts';
import { readConfig, USAGE } from './config.ts';
import { openDemoBand } from './demo-band.ts';
import { greeting } from './links.ts';
import { createLog } from './log.ts';
import { openRelay, type RelayParts } from './relay.ts';

/** A relay that does not end in this time after a signal has lost nothing, but something holds it up. */
const PATIENCE_MS = 5_000;

const portIsTaken = (error: unknown, port: number): string | null => {
  const { code } = error as NodeJS.ErrnoException;
  if (code === 'EADDRINUSE') return `Port ${port} is in use. Choose another: npm start -- --port ${port + 1}`;
  if (code === 'EACCES')
    return `Port ${port} may not be used by this user. Choose one above 1023 with --port.`;
  return null;
};

const fail = (words: string): never => {
  process.stderr.write(`${words}\n`);
  process.exit(1);
};

/** Reads the command line, runs the relay until it is told to stop, prints the links on stdout. */
export const runRelay = async (parts: Pick<RelayParts, 'pages' | 'headers'>): Promise<void> => {
  const read = readConfig(process.argv.slice(2), process.env);
  if (!read.ok) return fail(`${read.error}\n${USAGE}`);
  const config = read.value;
  const log = createLog(config.logLevel, (line) => process.stderr.write(line), Date.now);
  const failed = (error: Error) =>
    fail(
      `The relay has stopped: the disk did not take what it had to keep (${error.message}). ` +
        'Tablets keep what was typed. Make room on the disk, then start the relay again.',
    );
  try {
    const relay = await openRelay({ ...parts, config, log, failed });
    let stopping = false;
    const stop = async () => {
      if (stopping) return;
      stopping = true;
      setTimeout(() => process.exit(1), PATIENCE_MS).unref();
      await relay.close();
      process.exit(0);
    };
    process.on('SIGTERM', () => void stop());
    process.on('SIGINT', () => void stop());

    const demo = openDemoBand(relay, config.data);
    const host = config.host.includes(':') && config.host !== '::' ? `[${config.host}]` : config.host;
    const local = isLocalHost(config.host) ? host : 'localhost';
    const localOrigin = `http://${local}:${relay.port}`;
    process.stdout.write(await greeting({ ...demo, localOrigin, networkOrigins: relay.addresses() }));
  } catch (error) {
    fail(portIsTaken(error, config.port) ?? (error instanceof Error ? error.message : String(error)));
  }
};
