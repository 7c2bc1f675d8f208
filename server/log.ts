const LEVELS = ['debug', 'info', 'warn', 'error'] as const;
export type LogLevel = (typeof LEVELS)[number];
export const isLogLevel = (text: string): text is LogLevel => (LEVELS as readonly string[]).includes(text);

/** Each event has a short stable name; what belongs to it goes beside it. */
export type Log = Readonly<
  Record<LogLevel, (event: string, about?: Readonly<Record<string, unknown>>) => void>
>;

/** Keys stand in addresses (`key=…`, `/#join/band/key`) and in headers (`Bearer …`); none gets into the log. */
export const redact = (text: string): string =>
  text
    .replace(/([?&]key=)[^&\s"#]*/gi, '$1…')
    .replace(/(#join\/[^/\s"]+\/)[^\s"]*/gi, '$1…')
    .replace(/(Bearer\s+)[^\s"]+/gi, '$1…');

const plain = (_name: string, value: unknown): unknown => {
  if (value instanceof Error) return { message: value.message, stack: value.stack };
  return typeof value === 'string' ? redact(value) : value;
};

/**
 * A log of JSON lines.
 * @param write takes one line with its end
 * @param nowMs wall clock, for the reader's sake
 */
export const createLog = (level: LogLevel, write: (line: string) => void, nowMs: () => number): Log => {
  const at = (mine: LogLevel) => (event: string, about?: Readonly<Record<string, unknown>>) => {
    if (LEVELS.indexOf(mine) < LEVELS.indexOf(level)) return;
    const line = { at: new Date(nowMs()).toISOString(), level: mine, event, ...about };
    write(`${redact(JSON.stringify(line, plain))}\n`);
  };
  return { debug: at('debug'), info: at('info'), warn: at('warn'), error: at('error') };
};
