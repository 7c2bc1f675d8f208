import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';

/*
 * Loaded before a relay, makes its machine look as if it had just been started: the name of the start is another,
 * and the monotonic clock counts from there. The wall clock goes on, as it does on a machine with a battery. This is
 * all that a process sees of such a restart.
 */
const BOOT_ID = '/proc/sys/kernel/random/boot_id';
/** As long ago as the machine takes to come up, ns. */
const UP_NS = 20_000_000_000n;

const bootId = `${process.pid}-started-anew`;
const { readFileSync } = fs;
fs.readFileSync = ((path: fs.PathOrFileDescriptor, options?: BufferEncoding) =>
  path === BOOT_ID ? `${bootId}\n` : readFileSync(path, options)) as typeof readFileSync;
syncBuiltinESMExports();

const monotonicNs = process.hrtime.bigint;
const startNs = monotonicNs();
process.hrtime.bigint = () => monotonicNs() - startNs + UP_NS;
