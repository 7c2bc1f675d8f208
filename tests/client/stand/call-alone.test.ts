import { expect, it } from 'vitest';
import { callAlone, takeBackAlone } from '../../../client/stand/call-alone.ts';
import { readChart } from '../../../common/chart/read-chart.ts';
import { unroll } from '../../../common/form/unroll.ts';
import { countingIds } from '../../../common/ids.ts';
import type { Take } from '../../../common/stage/cue.ts';
import { locate } from '../../../common/stage/locate.ts';
import { perform } from '../../../common/stage/perform.ts';

const { road } = unroll(
  readChart('time: 4/4\ntempo: 120\ncount: 0\n[A]\n| C | F |\nroad:\n Head: A\n Out: A\n').chart,
);
const ids = countingIds('own');
const waiting: Take = { id: 't', chart: 'c', title: 'Low Water', road, cues: [] };
const stageOf = (take: Take) => ({ take, performance: perform(take) });

const moved = (take: Take, ...call: [Parameters<typeof callAlone>[1], number]) => {
  const result = callAlone(stageOf(take), ...call, ids);
  if ('words' in result) throw new Error(result.words);
  return result.take;
};

it('a stand that was moved is where it was put, and the band’s take is as it was', () => {
  const started = moved(waiting, { kind: 'start' }, 1000);
  const out = road.legs[1]?.id ?? '';
  const own = moved(started, { kind: 'here', leg: out, barIndex: 1 }, 2000);
  expect(locate(perform(own), 2000)).toMatchObject({ place: { leg: out, barIndex: 1, pulse: 0 } });
  expect(locate(perform(started), 2000)).toMatchObject({ place: { leg: road.legs[0]?.id } });
});

it('what makes no sense is refused in the words of the stage', () => {
  expect(callAlone(stageOf(waiting), { kind: 'lastChorus' }, 1000, ids)).toEqual({
    why: 'waiting',
    words: 'The tune has not begun: count in first.',
  });
  const nothing = callAlone({ take: null, performance: null }, { kind: 'start' }, 0, ids);
  expect('words' in nothing && nothing.words).toMatch(/No tune/);
});

it('a start after the end is another take of the same tune', () => {
  const started = moved(waiting, { kind: 'start' }, 1000);
  const again = moved(started, { kind: 'start' }, 60_000);
  expect(again.id).not.toBe(started.id);
  expect(again.cues).toHaveLength(1);
});

it('a cue is taken back before it lands, and the take goes on without it', () => {
  const started = moved(waiting, { kind: 'start' }, 1000);
  const called = moved(started, { kind: 'stop', at: 'pass' }, 2000);
  const cue = called.cues.at(-1)?.id ?? '';
  const back = takeBackAlone(stageOf(called), cue, 2200, ids);
  expect('take' in back && back.take.cues.at(-1)?.cue).toEqual({ kind: 'takeBack', cue });
  expect('words' in takeBackAlone(stageOf(started), 'none', 2200, ids)).toBe(true);
});
