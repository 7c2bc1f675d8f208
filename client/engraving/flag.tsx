import type { Announcement } from '../../common/stage/place.ts';
import { readKey } from '../../common/theory/key.ts';
import { keyName, type NoteNames } from '../../common/theory/note-name.ts';
import { useNoteNames } from './note-names.ts';
import { SpelledText } from './spelled-text.tsx';
import { signOfCue, TradeSign } from './trade-sign.tsx';
import './flag.css';

/**
 * How far a cue is off: bars, in its last bar beats.
 * @example countdown({barsToGo: 11, beatsToGo: 0}) // 'in 11 bars'
 */
export const countdown = ({ barsToGo, beatsToGo }: { barsToGo: number; beatsToGo: number }): string => {
  // A tag waits for the end, and nobody knows how long an open leg goes on.
  if (!Number.isFinite(barsToGo)) return '';
  if (barsToGo > 1) return `in ${barsToGo} bars`;
  if (beatsToGo > 1) return `in ${beatsToGo} beats`;
  return beatsToGo === 1 ? 'in 1 beat' : 'now';
};

/** What a flag says of an announcement. */
export type FlagWords = Omit<Announcement, 'landsMs' | 'landsAt' | 'canTakeBack'>;

/** What is announced, as people say it who call the notes so: 'concert H minor'. A key stands there in English. */
export const detailWords = ({ kind, detail }: FlagWords, names: NoteNames): string => {
  const key = ['key', 'up', 'down'].includes(kind) ? readKey(detail.replace(/^concert /, '')) : null;
  return key === null ? detail : `concert ${keyName(key, names)}`;
};

/** A cue on its way: the trade's sign, what it is, what follows and when. When it has landed it says so by filling the line. */
export const Flag = ({ announcement, compact = false }: { announcement: FlagWords; compact?: boolean }) => {
  const { kind, family, name, barsToGo, beatsToGo, landed, id, written } = announcement;
  const detail = detailWords(announcement, useNoteNames());
  const inBeats = !landed && barsToGo <= 1 && beatsToGo > 0;
  const when = countdown(announcement);
  const lastBeats = Math.max(0, Math.min(12, beatsToGo));
  return (
    <div
      className={`flag${compact ? ' flag-compact' : ''}`}
      data-family={family}
      data-cue={id}
      data-kind={kind}
      data-written={written ? '' : undefined}
      data-landed={landed ? '' : undefined}
    >
      <TradeSign name={signOfCue(kind, family)} className="flag-sign" />
      <span className="flag-name">
        <SpelledText text={name} />
      </span>
      {!landed && (
        <span className="flag-when">
          {detail !== '' && (
            <span className="flag-detail">
              <SpelledText text={when !== '' && /bars?$|\d$/.test(detail) ? `${detail},` : detail} />
            </span>
          )}{' '}
          <span className="flag-countdown">{when}</span>
          {inBeats && !compact && (
            <span className="flag-beats" aria-hidden="true">
              {Array.from({ length: lastBeats }, (_, beat) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: beats are alike
                <i key={beat} />
              ))}
            </span>
          )}
        </span>
      )}
    </div>
  );
};
