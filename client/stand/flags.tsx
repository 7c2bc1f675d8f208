import { useEffect, useState } from 'react';
import type { Announcement } from '../../common/stage/place.ts';
import { detailWords, Flag, type FlagWords } from '../engraving/flag.tsx';
import { useNoteNames } from '../engraving/note-names.ts';
import { type Follower, momentKey } from './follower.ts';
import { useMoment } from './use-follower.ts';
import './flags.css';

/** How many are shown beside the next one. */
const OTHERS = 2;

/** As long as the band holds, whoever looks up reads it, also who comes late. */
const HELD: FlagWords = {
  id: 'held',
  kind: 'hold',
  family: 'out',
  name: 'Held',
  detail: '',
  written: false,
  barsToGo: 0,
  beatsToGo: 0,
  landed: true,
};

const everyPulse = ({ where }: { where: Parameters<typeof momentKey>[0] }): string => momentKey(where);

/**
 * The cues on their way: the next one large, those after it small. What has landed fills the row for one beat, a hold
 * until it is released.
 */
export const Flags = ({ follower, onLanding }: { follower: Follower; onLanding: (ids: string) => void }) => {
  const { where, atMs } = useMoment(follower, everyPulse);
  const announced = follower.source.announced(atMs);
  const coming = announced.filter((one) => !one.landed);
  const isHeld = where.state === 'held' && coming[0]?.kind !== 'release';
  const justLanded = announced.filter((one) => one.landed);
  const landed = isHeld ? [HELD] : justLanded;
  const landing = justLanded.map((one) => one.id).join(' ');
  useEffect(() => onLanding(landing), [landing, onLanding]);
  const first = landed[0] ?? coming[0];
  // What somebody called is news; what is written stands over its bar as well.
  const others = [...landed, ...coming].slice(1).sort((a, b) => Number(a.written) - Number(b.written));
  return (
    <div
      className="flags"
      data-landed={landed.length > 0 ? '' : undefined}
      data-held={isHeld ? '' : undefined}
    >
      {others.length > 0 && (
        <div className="flags-others" data-all={`+${others.length}`}>
          {others.slice(0, OTHERS).map((one) => (
            <Flag key={one.id} announcement={one} compact />
          ))}
          {others.length > OTHERS && <span className="flags-more">+{others.length - OTHERS}</span>}
        </div>
      )}
      {first !== undefined && <Flag key={first.id} announcement={first} />}
      <FlagsAloud announced={announced} />
    </div>
  );
};

/** Says a new cue once to those who listen to the page, not its countdown. */
const FlagsAloud = ({ announced }: { announced: readonly Announcement[] }) => {
  const names = useNoteNames();
  const words = announced
    .filter((one) => !one.landed)
    .map((one) => `${one.name}${one.detail === '' ? '' : `, ${detailWords(one, names)}`}`)
    .join('; ');
  const [said, setSaid] = useState('');
  useEffect(() => setSaid(words), [words]);
  return (
    <span className="visually-hidden" role="status">
      {said}
    </span>
  );
};
