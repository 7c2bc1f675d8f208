import { SpelledText } from '../engraving/spelled-text.tsx';
import { TempoMark } from '../engraving/tempo-mark.tsx';
import type { Follower, Moment } from './follower.ts';
import type { KeyWords } from './reader-key.ts';
import { useMoment } from './use-follower.ts';
import './header.css';

/** Whether this stand follows the band: the dot's colour and what it says. */
export interface Standing {
  readonly state: 'on' | 'finding' | 'away';
  /** "Ines leads", "finding the beat". */
  readonly words: string;
}

export interface HeaderProps {
  title: string;
  /** The key in words, so many semitones higher than written; null where none is written. */
  keyWords: (modulation: number) => KeyWords | null;
  feel: string;
  /** Written tempo, where nothing is played. */
  tempoBpm: number | null;
  compound: boolean;
  follower: Follower | null;
  standing: Standing;
  panelOpen: boolean;
  onPanel: () => void;
}

export const KeyInWords = ({ words }: { words: KeyWords }) =>
  words.instrument === '' ? (
    <b>
      <SpelledText text={words.concert} />
    </b>
  ) : (
    <>
      <span className="key-concert">
        <SpelledText text={words.concert} />, for{' '}
      </span>
      {words.instrument} in{' '}
      <b>
        <SpelledText text={words.own} />
      </b>
    </>
  );

const KeyLine = ({ words }: { words: KeyWords | null }) =>
  words !== null && (
    <p className="stand-key">
      <KeyInWords words={words} />
    </p>
  );

/** The key in which the band plays: it changes when a modulation lands. */
const KeyNow = ({ follower, keyWords }: { follower: Follower; keyWords: HeaderProps['keyWords'] }) => {
  const modulationAt = ({ atMs }: Moment): number => follower.source.semitonesAt(atMs);
  const moment = useMoment(follower, (at) => String(modulationAt(at)));
  return <KeyLine words={keyWords(modulationAt(moment))} />;
};

const bpmKey = ({ where }: { where: { state: string; bpm?: number } }): string =>
  where.bpm === undefined ? 'written' : String(Math.round(where.bpm));

const Tempo = ({ follower, written }: { follower: Follower; written: number | null }) => {
  const { where } = useMoment(follower, bpmKey);
  const bpm = 'bpm' in where ? where.bpm : written;
  return bpm === null ? null : Math.round(bpm);
};

/** The strip at the head of a stand: the tune, its key for this reader, tempo, feel; the dot opens the panel. */
export const Header = (props: HeaderProps) => {
  const { title, keyWords, feel, tempoBpm, compound, follower, standing, panelOpen, onPanel } = props;
  return (
    <header className="stand-header">
      <h1>{title}</h1>
      {follower === null ? (
        <KeyLine words={keyWords(0)} />
      ) : (
        <KeyNow follower={follower} keyWords={keyWords} />
      )}
      <p className="stand-tempo">
        {tempoBpm !== null && (
          <b>
            <TempoMark isCompound={compound} />
            {follower === null ? tempoBpm : <Tempo follower={follower} written={tempoBpm} />}
          </b>
        )}{' '}
        {feel}
      </p>
      <button
        type="button"
        className="stand-dot"
        data-link={standing.state}
        aria-expanded={panelOpen}
        aria-label={`${standing.words}. Settings of this stand`}
        onClick={onPanel}
      >
        <i aria-hidden="true" />
        <span>{standing.words}</span>
      </button>
    </header>
  );
};
