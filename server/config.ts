import { failed, ok, type Result } from '../common/result.ts';
import { isLogLevel, type LogLevel } from './log.ts';

export interface Config {
  readonly port: number;
  readonly host: string;
  /** Folder of the database, made where it does not exist. */
  readonly data: string;
  readonly logLevel: LogLevel;
  /** Origins beside the relay's own whose pages may connect, as `https://board.example`. */
  readonly origins: readonly string[];
}

export const USAGE = `Usage: npm start -- [--port N] [--host ADDRESS] [--data FOLDER] [--origin ORIGIN] [--log LEVEL]
  --port     the port to listen on, 0 for any that is free (TILLCUE_PORT; 4321)
  --host     the address to listen on, 127.0.0.1 for this machine only (TILLCUE_HOST; all addresses)
  --data     the folder of the database (TILLCUE_DATA; ./data)
  --origin   another origin whose pages may connect, may be given several times (TILLCUE_ORIGINS, with commas)
  --log      what goes to stderr: debug, info, warn or error (TILLCUE_LOG; warn)`;

const NAMES = ['port', 'host', 'data', 'origin', 'log'] as const;
type Name = (typeof NAMES)[number];
const isName = (name: string): name is Name => (NAMES as readonly string[]).includes(name);

const readArguments = (args: readonly string[]): Result<Map<Name, string[]>, string> => {
  const given = new Map<Name, string[]>();
  for (let at = 0; at < args.length; at++) {
    const arg = args[at] ?? '';
    const [, name = '', joined] = /^--([a-z]+)(?:=(.*))?$/.exec(arg) ?? [];
    if (!isName(name)) return failed(`"${arg}" is not known here.`);
    const value = joined ?? args[++at];
    if (value === undefined || value === '') return failed(`--${name} needs a value.`);
    given.set(name, [...(given.get(name) ?? []), value]);
  }
  return ok(given);
};

const isOrigin = (text: string): boolean => URL.canParse(text) && new URL(text).origin === text;

/** What was asked for on the command line, else in the environment, else the default; or what is wrong with it. */
export const readConfig = (
  args: readonly string[],
  env: Readonly<Record<string, string | undefined>>,
): Result<Config, string> => {
  const given = readArguments(args);
  if (!given.ok) return given;
  const value = (name: Name, variable: string, otherwise: string): string =>
    given.value.get(name)?.at(-1) ?? (env[variable] || otherwise);

  const portText = value('port', 'TILLCUE_PORT', '4321');
  const port = Number(portText);
  if (!/^\d+$/.test(portText) || port > 65_535) {
    return failed(`The port must be a number from 0 to 65535, not "${portText}".`);
  }
  const logLevel = value('log', 'TILLCUE_LOG', 'warn');
  if (!isLogLevel(logLevel)) {
    return failed(`The log level must be debug, info, warn or error, not "${logLevel}".`);
  }
  const origins =
    given.value.get('origin') ?? (env['TILLCUE_ORIGINS'] ?? '').split(',').filter((text) => text !== '');
  const odd = origins.find((text) => !isOrigin(text));
  if (odd !== undefined) return failed(`An origin looks like https://board.example, not "${odd}".`);
  return ok({
    port,
    host: value('host', 'TILLCUE_HOST', '0.0.0.0'),
    data: value('data', 'TILLCUE_DATA', 'data'),
    logLevel,
    origins,
  });
};
