import { networkInterfaces } from 'node:os';

/** Networks of a house or a hall before those of containers and tunnels. */
const likelihood = (address: string): number => {
  if (address.startsWith('192.168.')) return 0;
  if (address.startsWith('10.')) return 1;
  return /^172\.(1[7-9]|2\d|3[01])\./.test(address) ? 3 : 2;
};

export const isLocalHost = (host: string): boolean =>
  host === 'localhost' || host === '::1' || host.startsWith('127.');
const isEveryHost = (host: string): boolean => host === '0.0.0.0' || host === '::';

/**
 * The origins at which a relay that listens on `host` answers on this machine's networks, likeliest first; none
 * where it listens for this machine alone. IPv4 only: that is what fits on a stand and gets typed.
 */
export const networkOrigins = (
  host: string,
  port: number,
  interfaces: ReturnType<typeof networkInterfaces> = networkInterfaces(),
): readonly string[] => {
  if (isLocalHost(host)) return [];
  if (!isEveryHost(host)) return [`http://${host.includes(':') ? `[${host}]` : host}:${port}`];
  return Object.values(interfaces)
    .flatMap((all) => all ?? [])
    .filter((one) => one.family === 'IPv4' && !one.internal)
    .map((one) => one.address)
    .sort((a, b) => likelihood(a) - likelihood(b))
    .map((address) => `http://${address}:${port}`);
};
