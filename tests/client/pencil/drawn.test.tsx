import type { ReactNode } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { AsText } from '../../../client/pencil/as-text.tsx';
import { Foot } from '../../../client/pencil/foot.tsx';
import { HeadFields } from '../../../client/pencil/head-fields.tsx';
import { LostDrafts } from '../../../client/pencil/lost-drafts.tsx';
import { ProblemList } from '../../../client/pencil/problem-list.tsx';
import { RoadMap } from '../../../client/pencil/road-map.tsx';
import { SectionHead } from '../../../client/pencil/section-head.tsx';
import { TrayOverFoot } from '../../../client/pencil/trays.tsx';
import { keepUnfinished } from '../../../client/pencil/unfinished-texts.ts';
import type { ChartHandle } from '../../../client/state/chart-handle.ts';
import { openChart } from './open-chart.ts';

/** The page as text: tags, with what a screen reader is told. */
const drawn = (node: ReactNode): string => renderToStaticMarkup(node);
const nothing = () => {};

/** The tags of one kind, each with its attributes and what it holds. */
const all = (html: string, tag: string): string[] =>
  [...html.matchAll(new RegExp(`<${tag}\\b[^>]*>(?:(?!</${tag}>).)*`, 'gs'))].map(([found]) => found);
/** Fields close themselves. */
const fields = (html: string): string[] => [...html.matchAll(/<input\b[^>]*>/g)].map(([found]) => found);
const asReader = (handle: ChartHandle): ChartHandle => Object.create(handle, { canEdit: { value: false } });

const SHORT =
  'key: Q\ntempo: 999\n\n[A]\n| C7 | F7 |\n[B]\n| "brake" G7 |\n\nroad:\n  Head: A B x2 "all"\n  Solos: A open\n';

describe('the header above the music', () => {
  it('shows every word under its name, and what is wrong with a bad one, which is kept', async () => {
    const { ines } = await openChart(SHORT);
    const html = drawn(<HeadFields handle={ines.handle} chart={ines.chart()} />);
    for (const word of ['by', 'concert key', 'time', 'tempo', 'feel', 'count-in'])
      expect(html).toContain(`>${word}<`);
    const inputs = fields(html);
    const key = inputs.find((input) => input.includes('value="Q"'));
    expect(key).toContain('aria-invalid="true"');
    const told = /aria-describedby="([^"]+)"/.exec(key ?? '')?.[1];
    expect(html).toMatch(new RegExp(`id="${told}">“Q” is no key that is known`));
    expect(inputs.filter((input) => input.includes('aria-invalid="true"'))).toHaveLength(2);
  });

  it('is for reading only where one may not edit', async () => {
    const { ines } = await openChart(SHORT);
    const html = drawn(<HeadFields handle={asReader(ines.handle)} chart={ines.chart()} />);
    expect(fields(html).every((input) => input.includes('disabled'))).toBe(true);
  });
});

describe('the head of a section', () => {
  it('names what each of its keys does, and turns off what can’t be done', async () => {
    const { ines } = await openChart(SHORT);
    const [a, b] = ines.chart().sections;
    if (!a || !b) throw new Error('two sections');
    const keysOf = (section: typeof a) =>
      all(
        drawn(
          <SectionHead handle={ines.handle} chart={ines.chart()} section={section} editing={ines.editing} />,
        ),
        'button',
      ).map((key) => [/aria-label="([^"]+)"/.exec(key)?.[1], key.includes('disabled')]);
    expect(keysOf(a)).toEqual([
      ['choose all 2 bars of A', false],
      ['section A up', true],
      ['section A down', false],
      ['duplicate section A', false],
      ['delete section A', false],
    ]);
    expect(keysOf(b).slice(1, 3)).toEqual([
      ['section B up', false],
      ['section B down', true],
    ]);
  });
});

describe('the road map', () => {
  it('takes two lines a leg, with how long it lasts and what is assumed', async () => {
    const { ines } = await openChart(`tempo: 120\n${SHORT.replace('tempo: 999\n', '')}`);
    const html = drawn(<RoadMap handle={ines.handle} chart={ines.chart()} />);
    const legs = all(html, 'li');
    expect(legs).toHaveLength(2);
    expect(legs[0]).toMatch(/<b>Head<\/b>.*all.*×2.*A B · 6 bars, 0:12/s);
    expect(legs[1]).toMatch(/<b>Solos<\/b>.*open.*A · about 0:16 for 4 times/s);
    expect(html).toMatch(/about 0:28 in all: what is open 4 times/);
    expect(html).not.toContain('<input');
  });

  it('says which legs are played where none is written', async () => {
    const { ines } = await openChart('[A]\n| C7 |\n');
    expect(drawn(<RoadMap handle={ines.handle} chart={ines.chart()} />)).toContain('Head, Solos, Head out');
  });
});

describe('what is to look at', () => {
  it('has a key to go there and one that writes what would be right', async () => {
    const { ines } = await openChart(SHORT);
    const html = drawn(
      <ProblemList handle={ines.handle} chart={ines.chart()} writing={null} onShow={nothing} />,
    );
    const entry = all(html, 'li').find((one) => one.includes('brake'));
    expect(entry).toMatch(/<button[^>]*>bar 3<\/button>/);
    expect(entry).toContain('aria-label="write &quot;break&quot; instead"');
    const reading = drawn(
      <ProblemList handle={asReader(ines.handle)} chart={ines.chart()} writing={null} onShow={nothing} />,
    );
    expect(reading).not.toContain('instead');
  });

  it('takes many empty bars for one thing, and none for the bar that is being written', async () => {
    const { ines } = await openChart('[A]\n| C7 | | | |\n');
    const list = (writing: string | null) =>
      drawn(<ProblemList handle={ines.handle} chart={ines.chart()} writing={writing} onShow={nothing} />);
    expect(list(null)).toContain('1 to look at');
    expect(list(null)).toContain('Nothing stands in this bar and 2 others');
    expect(list(ines.bar(1))).toContain('2 to look at');
    const { ines: one } = await openChart('[A]\n| C7 | |\n');
    const props = { handle: one.handle, chart: one.chart(), onShow: nothing };
    expect(drawn(<ProblemList {...props} writing={one.bar(1)} />)).toBe('');
  });
});

describe('the foot', () => {
  it('turns off what needs bars while none are chosen, and shows what the chosen ones have', async () => {
    const { ines } = await openChart(SHORT);
    const keys = (...bars: number[]) =>
      new Map(
        all(
          drawn(
            <Foot at={ines.atHand(...bars)} tray={null} group="bars" onGroup={nothing} onUse={nothing} />,
          ),
          'button',
        ).map((key) => [/data-tool="([^"]+)"/.exec(key)?.[1], key]),
      );
    const none = keys();
    const off = [...none].flatMap(([id, key]) => (key.includes('disabled') ? [id] : []));
    expect(off).not.toContain('barAfter');
    expect(off).not.toContain('transpose');
    expect(off).toEqual(expect.arrayContaining(['delete', 'move', 'copy', 'repeat', 'break']));
    expect(keys(0).get('delete')).not.toContain('disabled');
    ines.editing.open(ines.bar(0));
    ines.editing.type('|: C7 :|');
    ines.editing.write();
    expect(keys(0).get('repeat')).toContain('aria-pressed="true"');
    expect(keys(1).get('repeat')).toContain('aria-pressed="false"');
  });
});

describe('the trays over the foot', () => {
  it('say which bars they are about, and the keys a chart can be put into', async () => {
    const { ines } = await openChart('key: Eb blues\n[A]\n| C7 | F7 | G7 |\n');
    const tray = (name: 'move' | 'times' | 'transpose', ...bars: number[]) =>
      drawn(<TrayOverFoot tray={name} at={ines.atHand(...bars)} editing={ines.editing} onClose={nothing} />);
    expect(tray('move', 0, 1)).toContain('Moving bars 1 to 2');
    expect(tray('times', 2)).toContain('Repeat bar 3, in all');
    const into = tray('transpose');
    expect(into).toContain('aria-label="into F blues, up a whole step"');
    expect(all(into, 'button').find((key) => key.includes('into E♭ blues'))).toContain('aria-pressed="true"');
  });
});

describe('a draft whose bar was deleted', () => {
  it('is shown with who did it, the text in a field, and both ways out', async () => {
    const { ines } = await openChart(SHORT);
    const lost = [{ bar: 'b9', text: 'Bb7sus', number: 9, who: 'Tomas' }];
    const html = drawn(<LostDrafts lost={lost} editing={ines.editing} />);
    expect(html).toContain('role="alert"');
    expect(html).toContain('Tomas deleted bar 9 while you were typing into it');
    expect(html).toContain('value="Bb7sus"');
    expect(all(html, 'button').map((key) => key.replace(/^.*>/, ''))).toEqual(['put it back', 'let it go']);
    const unknown = lost.map((one) => ({ ...one, who: null }));
    expect(drawn(<LostDrafts lost={unknown} editing={ines.editing} />)).toContain(
      'Somebody else deleted bar 9',
    );
  });
});

describe('the chart as text', () => {
  it('is the chart as it would be printed, with what is to look at and where', async () => {
    const { ines } = await openChart(SHORT);
    const html = drawn(<AsText handle={ines.handle} chart={ines.chart()} onClose={nothing} />);
    expect(html).toContain('| &quot;brake&quot; G7 |');
    expect(html).toMatch(/line 7, column 3/);
    expect(html).toContain('back to the bars');
  });

  it('is there again where it was left unfinished', async () => {
    const { ines } = await openChart(SHORT);
    keepUnfinished(ines.handle.id, { base: ines.chart(), text: '[A]\n| Db7 |\n' });
    const html = drawn(<AsText handle={ines.handle} chart={ines.chart()} onClose={nothing} />);
    keepUnfinished(ines.handle.id, null);
    expect(html).toContain('| Db7 |');
    expect(html).toContain('the text you left unfinished');
    expect(html).toContain('leave it as it was');
  });
});
