import { type FormEvent, useId, useState } from 'react';
import { LIMITS } from '../../common/protocol/limits.ts';
import { makeBand, redeemCode } from '../net/relay-api.ts';
import { useObservable } from '../state/observable.ts';
import type { KnownBand } from '../storage/known-bands.ts';
import { Lettered } from './lettered.tsx';
import { Masthead } from './masthead.tsx';
import { bandHref, joinHref } from './route.ts';
import { useServices } from './services.ts';
import { goTo } from './use-route.ts';

const roleWords = ({ keys }: KnownBand): string =>
  keys.leader
    ? 'you lead'
    : keys.player
      ? 'you play'
      : keys.reader
        ? 'you read'
        : 'the link is no longer valid';

/** A promise's work with a sentence where it fails; one at a time. */
const useAsking = () => {
  const [busy, setBusy] = useState(false);
  const [words, setWords] = useState('');
  const run = async (work: () => Promise<string>) => {
    if (busy) return;
    setBusy(true);
    setWords('');
    setWords(await work());
    setBusy(false);
  };
  return { busy, words, run };
};

const CodeForm = ({ first }: { readonly first: string }) => {
  const { ask } = useServices();
  const [code, setCode] = useState(first);
  const { busy, words, run } = useAsking();
  const problem = useId();
  const digits = code.replace(/\D/g, '');
  const use = (event: FormEvent) => {
    event.preventDefault();
    run(async () => {
      if (digits.length !== 6) return 'The evening code has six digits.';
      const reply = await redeemCode(ask, digits);
      if (!reply.ok) return reply.error.words;
      goTo(joinHref(reply.value.band, reply.value.key));
      return '';
    });
  };
  return (
    <form className="one-line" onSubmit={use} noValidate>
      <label className="field">
        <span>Six digits, from the leader</span>
        <input
          className="code-input"
          value={code}
          onChange={(event) => setCode(event.target.value)}
          inputMode="numeric"
          autoComplete="off"
          maxLength={9}
          aria-invalid={words !== ''}
          aria-describedby={problem}
        />
      </label>
      <button type="submit" className="button" disabled={busy}>
        Join
      </button>
      <p id={problem} className="field-problem" role="alert">
        {words}
      </p>
    </form>
  );
};

const NewBandForm = () => {
  const { ask, bands } = useServices();
  const [name, setName] = useState('');
  const { busy, words, run } = useAsking();
  const problem = useId();
  const make = (event: FormEvent) => {
    event.preventDefault();
    run(async () => {
      const wanted = name.trim();
      if (wanted === '') return 'Give the band a name first.';
      const reply = await makeBand(ask, wanted);
      if (!reply.ok) return reply.error.words;
      const { band, keys } = reply.value;
      bands.learn(band, wanted, 'reader', keys.reader);
      bands.learn(band, wanted, 'player', keys.player);
      bands.learn(band, wanted, 'leader', keys.leader);
      goTo(bandHref(band, 'book'));
      return '';
    });
  };
  return (
    <form className="one-line" onSubmit={make} noValidate>
      <label className="field">
        <span>Its name</span>
        <input
          value={name}
          onChange={(event) => setName(event.target.value)}
          maxLength={LIMITS.bandNameLength}
          autoComplete="off"
          autoCapitalize="words"
          aria-invalid={words !== ''}
          aria-describedby={problem}
        />
      </label>
      <button type="submit" className="button" disabled={busy}>
        Make it
      </button>
      <p id={problem} className="field-problem" role="alert">
        {words}
      </p>
    </form>
  );
};

const BandRow = ({ known }: { readonly known: KnownBand }) => {
  const { bands } = useServices();
  const [forgetting, setForgetting] = useState(false);
  return (
    <li className="list-row band-row">
      <a href={bandHref(known.band, 'book')}>
        <strong>{known.name || 'A band without a name'}</strong>
        <span className="dim">{roleWords(known)}</span>
      </a>
      {forgetting ? (
        <div className="button-row">
          <button type="button" className="button button-danger" onClick={() => bands.forget(known.band)}>
            Forget its link
          </button>
          <button type="button" className="button-quiet" onClick={() => setForgetting(false)}>
            Keep
          </button>
        </div>
      ) : (
        <button
          type="button"
          className="button-quiet dim"
          onClick={() => setForgetting(true)}
          aria-label={`Forget ${known.name} on this tablet`}
        >
          forget
        </button>
      )}
    </li>
  );
};

/** Where a tablet begins: its bands, the evening code, a new band. */
export const StartPage = ({
  code,
  lost,
}: {
  readonly code: string;
  /** The address named no page of ours. */
  readonly lost: boolean;
}) => {
  const known = useObservable(useServices().bands);
  const letters = known.length > 0 ? ['B', 'C'] : ['A', 'B'];
  return (
    <main className="page start">
      <Masthead words="The band’s charts, and where the band is in them, on every stand." />
      {lost && (
        <p className="strip" role="alert">
          There is no page at this address. A link may have been cut off; open it once more.
        </p>
      )}
      {known.length > 0 && (
        <Lettered letter="A" title="Bands on this tablet">
          <ul className="list">
            {known.map((one) => (
              <BandRow key={one.band} known={one} />
            ))}
          </ul>
        </Lettered>
      )}
      <Lettered letter={letters[0] ?? ''} title="Join with the evening code">
        <CodeForm key={code} first={code} />
        <p className="field-note">With a link or a QR code you need no code: open it, and you are in.</p>
      </Lettered>
      <Lettered letter={letters[1] ?? ''} title="Make a new band">
        <NewBandForm />
        <p className="field-note">You will lead it, and get the links for the others.</p>
      </Lettered>
    </main>
  );
};
