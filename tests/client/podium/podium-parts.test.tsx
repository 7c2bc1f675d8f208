import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { HereRow } from '../../../client/podium/here-row.tsx';
import { LeadSheet } from '../../../client/podium/lead-sheet.tsx';
import { PadKey } from '../../../client/podium/pad-key.tsx';
import { face } from '../../../client/podium/podium-key.ts';
import { SoloPicker } from '../../../client/podium/solo-picker.tsx';
import { SpotPanel } from '../../../client/podium/spot-panel.tsx';
import { openPodiumSettings } from '../../../client/storage/podium-settings.ts';
import { memoryStore } from '../../../client/storage/stored-json.ts';
import type { Cue } from '../../../common/stage/cue.ts';

const nothing = () => {};
const settings = openPodiumSettings(memoryStore()).get();

/** The buttons of a drawing, each with its words or its label, and whether it can be pressed. */
const buttons = (html: string): string[] =>
  [...html.matchAll(/<button([^>]*)>(.*?)<\/button>/gs)].map(([, attributes = '', inside = '']) => {
    const label = /aria-label="([^"]*)"/.exec(attributes)?.[1] ?? inside.replaceAll(/<[^>]*>/g, ' ').trim();
    return `${label.replaceAll(/\s+/g, ' ')}${/\sdisabled/.test(attributes) ? ' (off)' : ''}`;
  });

describe('a key that is drawn', () => {
  const hold = face('out', 'Hold', 'the chord that comes', { kind: 'hold' });

  it('shows name, sign and detail; called it says so and cannot be pressed again', () => {
    const ready = renderToStaticMarkup(
      <PadKey
        id="hold"
        state={{ state: 'ready', face: { ...hold, cue: { kind: 'hold' } } }}
        onPress={nothing}
      />,
    );
    expect(ready).toContain('𝄐');
    expect(buttons(ready)).toEqual(['Hold 𝄐 the chord that comes']);
    const called = renderToStaticMarkup(
      <PadKey id="hold" state={{ state: 'called', face: hold }} onPress={nothing} />,
    );
    expect(buttons(called)).toEqual(['Hold 𝄐 called (off)']);
  });

  it('is named and can be pressed while nobody would hear it, and looks out of use', () => {
    const face = { ...hold, cue: { kind: 'hold' } } as const;
    const away = renderToStaticMarkup(
      <PadKey id="hold" state={{ state: 'away', face, words: 'No answer.' }} onPress={nothing} />,
    );
    expect(buttons(away)).toEqual(['Hold: No answer.']);
    expect(away).toContain('𝄐');
    expect(away).toContain('aria-disabled="true"');
  });

  it('goes blank, but tells its name and the reason to who asks', () => {
    const blank = renderToStaticMarkup(
      <PadKey id="hold" state={{ state: 'blank', face: hold, words: 'The band holds.' }} onPress={nothing} />,
    );
    expect(buttons(blank)).toEqual(['Hold: The band holds. (off)']);
    expect(blank).not.toContain('𝄐');
  });
});

describe('the row here', () => {
  const row = (rolling: boolean, isFree: (cue: Cue) => boolean) =>
    renderToStaticMarkup(
      <HereRow
        spots={[
          { leg: 'Solos', barIndex: 0, name: 'top' },
          { leg: 'Solos', barIndex: 8, name: 'B' },
        ]}
        rolling={rolling}
        nowMs={0}
        isFree={isFree}
        pressTime={(ms) => ms}
        onCall={nothing}
        onSlip={nothing}
      />,
    );

  it('has the spots and the two slips while the band plays', () => {
    expect(buttons(row(true, () => true))).toEqual([
      'here',
      'go to',
      'top',
      'B',
      'beat late',
      'beat early',
      'by half a bar',
    ]);
  });

  it('counts in from the spots otherwise, and a spot from which nothing can begin is off', () => {
    const html = row(false, (cue) => cue.kind === 'start' && cue.barIndex === 8);
    expect(html).toContain('count in from');
    expect(buttons(html)).toEqual(['top (off)', 'B']);
  });
});

describe('who leads', () => {
  const people = [
    { member: 'm1', name: 'Ines', part: 'guitar', role: 'leader' },
    { member: 'm2', name: 'Bea', part: 'trumpet', role: 'player' },
    { member: 'm3', name: 'Odile', part: 'drums', role: 'player' },
    { member: 'm4', name: 'a guest', part: 'voice', role: 'reader' },
  ] as const;
  const sheet = (
    me: { member: string; role: 'leader' | 'player' },
    leading: { baton?: string; taps?: string; locked?: true },
  ) =>
    renderToStaticMarkup(
      <LeadSheet
        people={people.map((one) => ({
          ...one,
          colour: 0,
          errorMs: 1,
          point: null,
          isMe: one.member === me.member,
        }))}
        me={me}
        leading={leading}
        away={false}
        words={null}
        onLead={nothing}
        onClose={nothing}
      />,
    );

  it('a leader can hand everything to a player, not to a reader, and lock the book', () => {
    expect(buttons(sheet({ member: 'm1', role: 'leader' }, {}))).toEqual([
      'Close',
      'pass the baton: Bea',
      'lend the taps: Bea',
      'pass the baton: Odile',
      'lend the taps: Odile',
      'Lock the book for the gig',
    ]);
  });

  it('says who has the baton and who taps, and takes them back, also from who has gone', () => {
    const html = sheet({ member: 'm1', role: 'leader' }, { baton: 'm2', taps: 'm9' });
    expect(html).toContain('has the baton');
    expect(buttons(html)).toContain('take the baton back: Bea');
    expect(buttons(html)).toContain('take the taps back');
  });

  it('who has the baton lends the taps, but does not pass the baton on nor lock the book', () => {
    const all = buttons(sheet({ member: 'm2', role: 'player' }, { baton: 'm2' }));
    expect(all).toContain('lend the taps: Odile');
    expect(all).toContain('pass the baton: Odile (off)');
    expect(all).toContain('take the baton back: Bea');
    expect(all).toContain('Lock the book for the gig (off)');
  });
});

describe('solos and spots', () => {
  it('names stand with their place in the order; who has gone stays until left out', () => {
    const html = renderToStaticMarkup(
      <SoloPicker
        names={['Ines', 'Tomas', 'drums']}
        picked={['Tomas', 'Bea']}
        now="Tomas"
        next="Bea"
        isFree={() => true}
        onPick={nothing}
        onCall={nothing}
      />,
    );
    expect(buttons(html)).toEqual([
      'Ines',
      'Tomas solos now 1',
      'drums',
      'Bea is next 2',
      'solo in this order',
    ]);
  });

  it('nothing is looped before bars were touched; a loop that is on can be called off', () => {
    const panel = (chosen: Parameters<typeof SpotPanel>[0]['chosen'], looping: boolean) =>
      renderToStaticMarkup(
        <SpotPanel
          chosen={chosen}
          legName="Solos"
          settings={settings}
          bpm={96}
          goalBpm={108}
          rolling
          looping={looping}
          isFree={() => true}
          onSettings={nothing}
          onGoal={nothing}
          onCall={nothing}
        />,
      );
    expect(buttons(panel(null, false)).at(-1)).toBe('loop it (off)');
    const on = panel({ leg: 'Solos', from: 4, to: 7 }, true);
    expect(on).toContain('Solos, bars 5–8');
    expect(on).toContain('96, 100, 104, 108: 6 rounds to the goal');
    expect(buttons(on).slice(-2)).toEqual(['loop it', 'loop off']);
  });
});
