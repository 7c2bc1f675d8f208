import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

/**
 * `npm run bench` runs every `*.bench.ts` of this folder, `npm run bench -- clock` only that one. Each exports
 * `run(print, options)`. Options: `--traces=DIR` (or TILLCUE_TRACES): a folder of recorded pings; `--seed=N` and
 * `--tunes=N`: of the simulated bands; `--seconds=N`: how long the sound is listened to.
 */
export type Print = (line: string) => void;

export interface BenchOptions {
  readonly traces?: string;
  readonly seed?: number;
  readonly tunes?: number;
  readonly seconds?: number;
}

const main = async (): Promise<void> => {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      traces: { type: 'string' },
      seed: { type: 'string' },
      tunes: { type: 'string' },
      seconds: { type: 'string' },
    },
  });
  const traces = values.traces ?? process.env['TILLCUE_TRACES'];
  const options: BenchOptions = {
    ...(traces === undefined || traces === '' ? {} : { traces }),
    ...(values.seed === undefined ? {} : { seed: Number(values.seed) }),
    ...(values.tunes === undefined ? {} : { tunes: Number(values.tunes) }),
    ...(values.seconds === undefined ? {} : { seconds: Number(values.seconds) }),
  };
  const names = readdirSync(fileURLToPath(new URL('.', import.meta.url)))
    .filter((file) => file.endsWith('.bench.ts'))
    .map((file) => file.slice(0, -'.bench.ts'.length))
    .sort();
  for (const unknown of positionals.filter((wanted) => !names.includes(wanted))) {
    throw new Error(`There is no benchmark called ${unknown}. There are: ${names.join(', ')}.`);
  }
  for (const name of positionals.length === 0 ? names : positionals) {
    console.log(`\n== ${name} ==`);
    const bench = (await import(`./${name}.bench.ts`)) as {
      readonly run: (print: Print, options: BenchOptions) => Promise<void> | void;
    };
    await bench.run((line) => console.log(line), options);
  }
};

await main();
