import { type FormEvent, useState } from 'react';
import { playSilence } from '../stand/stay-awake.ts';
import { Masthead } from './masthead.tsx';
import { useServices } from './services.ts';
import { WhoFields } from './who-fields.tsx';

/** Asked once on a tablet that opens a band before anybody has said who they are. */
export const WhoPage = () => {
  const { settings } = useServices();
  const [name, setName] = useState(settings.get().name);
  const [part, setPart] = useState(settings.get().part);
  const [missing, setMissing] = useState('');
  const sit = (event: FormEvent) => {
    event.preventDefault();
    if (name.trim() === '' || part === '') {
      return setMissing('Say your name and what you play: the chords are written for it.');
    }
    playSilence();
    settings.change({ name: name.trim(), part });
  };
  return (
    <main className="page start join">
      <Masthead words="Who sits at this stand?" />
      <form className="join-form" onSubmit={sit} noValidate>
        <WhoFields name={name} part={part} onName={setName} onPart={setPart} />
        <p className="field-problem" role="alert">
          {missing}
        </p>
        <button type="submit" className="button-primary join-key">
          Sit down
        </button>
      </form>
    </main>
  );
};
