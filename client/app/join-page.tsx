import { type FormEvent, useEffect, useState } from 'react';

import { type BandInfo, lookAtBand } from '../net/look-at-band.ts';
import { playSilence } from '../stand/stay-awake.ts';
import { Masthead } from './masthead.tsx';
import { bandHref, START_HREF } from './route.ts';
import { useServices } from './services.ts';
import { goTo } from './use-route.ts';
import { WhoFields } from './who-fields.tsx';

type Found =
  | { readonly state: 'looking' }
  | { readonly state: 'found'; readonly info: BandInfo }
  | { readonly state: 'failed'; readonly words: string };

const INVITED: Readonly<Record<BandInfo['role'], string>> = {
  leader: 'This link makes you a leader: you call the tunes and the cues.',
  player: 'You are invited as a player: you read your part and may write in the charts.',
  reader: 'You are invited to read: you see everything the band sees.',
};

/** What a join link opens: who invites, who you are, what you play. */
export const JoinPage = ({ band, bandKey }: { readonly band: string; readonly bandKey: string }) => {
  const { ask, bands, settings } = useServices();
  const [found, setFound] = useState<Found>({ state: 'looking' });
  const [tries, setTries] = useState(0);
  const [name, setName] = useState(settings.get().name);
  const [part, setPart] = useState(settings.get().part);
  const [missing, setMissing] = useState('');

  // biome-ignore lint/correctness/useExhaustiveDependencies: `tries` asks once more
  useEffect(() => {
    let here = true;
    setFound({ state: 'looking' });
    lookAtBand(ask, band, bandKey).then((reply) => {
      if (!here) return;
      setFound(
        reply.ok ? { state: 'found', info: reply.value } : { state: 'failed', words: reply.error.words },
      );
    });
    return () => {
      here = false;
    };
  }, [ask, band, bandKey, tries]);

  const join = (event: FormEvent) => {
    event.preventDefault();
    if (found.state !== 'found') return;
    if (name.trim() === '') return setMissing('Say your name first: the others see it beside what you do.');
    if (part === '') return setMissing('Choose what you play: the chords are written for it.');
    playSilence();
    settings.change({ name: name.trim(), part });
    bands.learn(band, found.info.name, found.info.role, bandKey);
    goTo(bandHref(band, found.info.role === 'leader' ? 'book' : 'stand'), 'instead');
  };

  return (
    <main className="page start join">
      <Masthead words={found.state === 'found' ? INVITED[found.info.role] : 'You are invited to a band.'} />
      {found.state === 'looking' && (
        <p className="join-band dim" role="status">
          Looking for the band …
        </p>
      )}
      {found.state === 'failed' && (
        <div className="strip" data-family="out" role="alert">
          <span>{found.words}</span>
          <div className="button-row">
            <button type="button" className="button" onClick={() => setTries(tries + 1)}>
              Try again
            </button>
            <a className="button" href={START_HREF}>
              Start page
            </a>
          </div>
        </div>
      )}
      <form className="join-form" onSubmit={join} noValidate>
        {found.state === 'found' && <h2 className="join-band">{found.info.name}</h2>}
        <WhoFields name={name} part={part} onName={setName} onPart={setPart} />
        <p className="field-problem" role="alert">
          {missing}
        </p>
        <button type="submit" className="button-primary join-key" disabled={found.state !== 'found'}>
          Sit down
        </button>
      </form>
    </main>
  );
};
