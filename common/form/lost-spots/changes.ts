import { readKey } from '../../theory/key.ts';
import { keyName } from '../../theory/note-name.ts';
import { transposeKey } from '../../theory/transpose.ts';
import { count } from '../count.ts';
import type { Reader } from './heard-pass.ts';
import type { Finder, FoundSpot } from './lost-spot.ts';

/** A run of bars in which something stays as it is. */
interface Run {
  readonly value: string;
  readonly from: number;
  readonly to: number;
}

/** Bars in another metre than most: a lone one throws people more than a long stretch. */
export const metreSpots: Finder = (pass) => {
  const runs = runsOf(pass.music.map(({ metre }) => metre.text));
  const usual = [...runs].sort((a, b) => barsIn(runs, b.value) - barsIn(runs, a.value))[0]?.value;
  return runs
    .filter(({ value }) => value !== usual)
    .map((run): FoundSpot => {
      const bars = run.to - run.from;
      return {
        ...placeOf('metre', run),
        weight: bars <= 2 ? 70 : 55,
        reason: `${count(bars, 'bar')} of ${run.value} from ${run.from + 1}, else ${usual}`,
        announce: `${run.value} in ${run.from + 1}${bars > 1 ? `, ${bars} bars` : ''}`,
      };
    });
};

/** Written changes of key within the pass. @param reader to whom the key is said */
export const keySpots =
  ({ reading, names }: Reader): Finder =>
  (pass) =>
    runsOf(pass.music.map(({ key }) => key))
      .slice(1)
      .map((run): FoundSpot => {
        const key = readKey(run.value);
        const name = key ? keyName(transposeKey(key, reading), names) : run.value || 'no key';
        return {
          ...placeOf('key', run),
          weight: 30,
          reason: `${name} from ${run.from + 1}`,
          announce: `${name} from ${run.from + 1}`,
        };
      });

const placeOf = (
  kind: 'metre' | 'key',
  { from, to }: Run,
): Pick<FoundSpot, 'kind' | 'fromBar' | 'toBar' | 'atBar'> => ({
  kind,
  fromBar: from,
  toBar: to - 1,
  atBar: from,
});

const runsOf = (values: readonly string[]): Run[] => {
  const starts = values.flatMap((value, i) => (value === values[i - 1] ? [] : [i]));
  return starts.map((from, i) => ({ value: values[from] ?? '', from, to: starts[i + 1] ?? values.length }));
};

const barsIn = (runs: readonly Run[], value: string): number =>
  runs.reduce((sum, run) => sum + (run.value === value ? run.to - run.from : 0), 0);
