import { useMemo, useState } from 'react';
import type { BarMusic } from '../../common/chart/bar-music.ts';
import { unroll } from '../../common/form/unroll.ts';
import { studyPasses } from '../../common/help/study-pass.ts';
import { instrumentById } from '../../common/theory/instruments.ts';
import { readKey } from '../../common/theory/key.ts';
import { readingFor } from '../../common/theory/transpose.ts';
import { useNoteNames } from '../engraving/note-names.ts';
import { SpelledText } from '../engraving/spelled-text.tsx';
import { findLostSpots } from '../stand/find-lost-spots.ts';
import { HelpFields } from '../stand/help/help-fields.tsx';
import { helpWish, stringsOf, tuningName } from '../stand/help/help-wish.ts';
import { useNeck } from '../stand/help/use-neck.ts';
import { useRoadHelp } from '../stand/help/use-road-help.ts';
import { keyWords, semitonesFor, symbolReader } from '../stand/reader-key.ts';
import type { ChartState } from '../state/chart-handle.ts';
import { useObservable } from '../state/observable.ts';
import { pinnedShapes, tabletHelp } from '../storage/tablet-help.ts';
import { tabletSettings } from '../storage/tablet-settings.ts';
import { LostList } from './lost-list.tsx';
import { type PassHelps, StudiedPass } from './studied-pass.tsx';

export interface StudyProps {
  readonly id: string;
  readonly state: ChartState;
  readonly music: ReadonlyMap<string, BarMusic>;
}

const NO_NOTES: ReadonlyMap<string, readonly string[]> = new Map();
const GUIDES = { kind: 'guides' } as const;

/** A chart to study: what each chord does, what to play on it, how the guide tones run, and where one gets lost. */
export const Study = ({ id, state, music }: StudyProps) => {
  const { chart, said } = state;
  const { part, concert } = useObservable(tabletSettings);
  const names = useNoteNames();
  const settings = useObservable(tabletHelp);
  const tuning = tuningName(stringsOf(settings, part, names));
  const pins = useObservable(pinnedShapes.of(id, tuning));
  const neck = useNeck(part);
  const [isChoosing, setChoosing] = useState(false);

  const road = useMemo(() => unroll(chart).road, [chart]);
  const passes = useMemo(() => studyPasses(road), [road]);
  const semitones = semitonesFor({ part, concert });
  const chartKey = chart.head.key ?? road.key;
  const ask = useMemo(() => {
    const reading = readingFor(readKey(chartKey), semitones);
    const wish = helpWish(settings, part, names, NO_NOTES, pins);
    const own = wish && wish.kind !== 'words' && wish.kind !== 'numerals' ? wish : null;
    const about = { road, reading, music };
    return {
      numerals: { ...about, wish: { kind: 'numerals', names } as const },
      guides: { ...about, wish: GUIDES },
      own: own && { ...about, wish: own },
    };
  }, [road, music, chartKey, semitones, settings, part, names, pins]);
  const numerals = useRoadHelp(ask.numerals);
  const guides = useRoadHelp(ask.guides);
  const own = useRoadHelp(ask.own);
  const found = useMemo(
    () => findLostSpots({ road }, semitones, { ...said, music, names }),
    [road, semitones, said, music, names],
  );
  const read = useMemo(() => symbolReader(chartKey, semitones), [chartKey, semitones]);
  const words = keyWords(chartKey, { part, concert }, 0, names);

  return (
    <main className="page shed">
      <header className="shed-head">
        <h1>{chart.head.title ?? 'A chart'}</h1>
        <p className="dim">
          {words !== null && (
            <SpelledText
              text={words.instrument === '' ? words.concert : `${words.own}, for ${words.instrument}`}
            />
          )}
          {words === null && instrumentById(part)?.name}
        </p>
        <div className="button-row" data-print="no">
          <button
            type="button"
            className="button"
            aria-expanded={isChoosing}
            onClick={() => setChoosing(!isChoosing)}
          >
            Under the chords
          </button>
          <button type="button" className="button" onClick={() => window.print()}>
            Print
          </button>
        </div>
      </header>
      {isChoosing && (
        <section className="panel shed-choices" aria-label="what stands under the chords" data-print="no">
          <HelpFields part={part} />
        </section>
      )}
      {passes.map((pass) => {
        const of = (legs: typeof numerals): PassHelps =>
          (pass.isLast ? legs?.[pass.leg]?.lastPass : legs?.[pass.leg]?.pass) ?? null;
        return (
          <StudiedPass
            key={`${pass.leg} ${pass.isLast}`}
            pass={pass}
            music={music}
            read={read}
            numerals={of(numerals)}
            guides={of(guides)}
            own={of(own)}
            lost={found.ids}
            neck={neck}
            pinning={
              ask.own?.wish.kind === 'shapes'
                ? {
                    instrument: ask.own.wish.instrument,
                    reading: ask.own.reading,
                    pins,
                    onPin: (chord, frets) => pinnedShapes.pin(id, tuning, chord, frets),
                  }
                : null
            }
          />
        );
      })}
      {passes.length === 0 ? (
        <p>Nothing is written in this chart yet: its bars come first, in the Pencil.</p>
      ) : (
        <LostList road={road} ofLeg={found.ofLeg} />
      )}
      <p className="dim small">
        Rest your hands: pain means stop. Practise at a moderate level; if your ears ring, rest them too, and
        ask a doctor or an audiologist if it stays.
      </p>
    </main>
  );
};
