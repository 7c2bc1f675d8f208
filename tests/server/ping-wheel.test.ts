import { expect, it } from 'vitest';
import { pingWheel } from '../../server/ping-wheel.ts';

const turns = <Member>(wheel: ReturnType<typeof pingWheel<Member>>, count: number) =>
  Array.from({ length: count }, () => wheel.turn());

it('visits everybody once a round, a part of them in each turn', () => {
  const wheel = pingWheel<number>(10);
  for (let member = 0; member < 100; member++) wheel.add(member);
  const round = turns(wheel, 10);
  expect(round.map(({ ping }) => ping.length)).toEqual(Array(10).fill(10));
  expect(new Set(round.flatMap(({ ping }) => ping)).size).toBe(100);
});

it('cuts a member from which nothing came for two whole rounds, between 20 and 30 turns after its last word', () => {
  for (let at = 0; at < 10; at++) {
    const wheel = pingWheel<string>(10);
    turns(wheel, at);
    wheel.add('dead');
    const all = turns(wheel, 40);
    const cutAfter = all.findIndex(({ cut }) => cut.includes('dead')) + 1;
    expect(cutAfter).toBeGreaterThan(20);
    expect(cutAfter).toBeLessThanOrEqual(30);
  }
});

it('keeps a member that only answers pings', () => {
  const wheel = pingWheel<string>(10);
  wheel.add('silent');
  for (let turn = 0; turn < 200; turn++) {
    const { ping, cut } = wheel.turn();
    expect(cut).toEqual([]);
    for (const member of ping) wheel.heard(member);
  }
});

it('forgets who has left', () => {
  const wheel = pingWheel<number>(10);
  for (let member = 0; member < 1_000; member++) {
    wheel.add(member);
    wheel.remove(member);
  }
  expect(wheel.size()).toBe(0);
  expect(turns(wheel, 10).flatMap(({ ping, cut }) => [...ping, ...cut])).toEqual([]);
});
