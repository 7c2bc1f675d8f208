import { addresses, codeInForce, makeCode, renewKey } from '../net/relay-api.ts';
import '../book/book.css';
import './invitation.css';
import { useEffect, useRef, useState } from 'react';
import type { Role } from '../../common/protocol/roles.ts';
import { useBoard } from '../state/board-context.tsx';
import { useObservable } from '../state/observable.ts';
import { copyText } from './copy-text.ts';
import { QrCode } from './qr-code.tsx';
import { bandHref, joinHref } from './route.ts';
import { useServices } from './services.ts';
import { Sheet } from './sheet.tsx';

const LINKS: readonly { readonly role: Role; readonly title: string; readonly words: string }[] = [
  { role: 'player', title: 'For players', words: 'Read their part, write in the charts.' },
  { role: 'reader', title: 'For readers', words: 'A sub or a guest: sees everything, writes nothing.' },
  { role: 'leader', title: 'For another leader', words: 'Calls tunes and cues, as you do. Give it to few.' },
];

const isThisMachine = (origin: string): boolean => /^https?:\/\/(localhost|127\.|\[::1\])/.test(origin);

/** The addresses under which others can reach the relay, the likeliest first. */
const useOrigins = (): readonly string[] => {
  const { ask, origin } = useServices();
  const [origins, setOrigins] = useState<readonly string[]>([origin]);
  useEffect(() => {
    let here = true;
    addresses(ask).then((reply) => {
      if (!here || !reply.ok) return;
      const others = reply.value.filter((one) => one !== origin);
      setOrigins(isThisMachine(origin) ? [...others, origin] : [origin, ...others]);
    });
    return () => {
      here = false;
    };
  }, [ask, origin]);
  return origins;
};

const LinkCard = ({
  title,
  words,
  href,
  onRenew,
}: {
  readonly title: string;
  readonly words: string;
  readonly href: string;
  readonly onRenew: (() => void) | null;
}) => {
  const shown = useRef<HTMLParagraphElement>(null);
  const [said, setSaid] = useState('');
  const copy = async () =>
    setSaid((await copyText(href, shown.current)) ? 'Copied.' : 'Selected: copy it by hand.');
  return (
    <section className="invite-link">
      <QrCode text={href} label={`${title}: the link as a code for a camera`} />
      <div className="invite-words">
        <h2>{title}</h2>
        <p className="dim">{words}</p>
        <p className="invite-href" ref={shown}>
          {href}
        </p>
        <div className="button-row">
          <button type="button" className="button" onClick={copy}>
            Copy the link
          </button>
          {onRenew && (
            <button type="button" className="button-quiet" onClick={onRenew}>
              Renew …
            </button>
          )}
          <span className="dim" role="status">
            {said}
          </span>
        </div>
      </div>
    </section>
  );
};

const EveningCode = ({ band, bandKey }: { readonly band: string; readonly bandKey: string }) => {
  const { ask } = useServices();
  const [code, setCode] = useState<string | null>(null);
  const [words, setWords] = useState('');
  useEffect(() => {
    let here = true;
    codeInForce(ask, band, bandKey).then((reply) => {
      if (here && reply.ok) setCode(reply.value.code);
    });
    return () => {
      here = false;
    };
  }, [ask, band, bandKey]);
  const make = async () => {
    const reply = await makeCode(ask, band, bandKey);
    if (reply.ok) setCode(reply.value.code);
    setWords(reply.ok ? '' : reply.error.words);
  };
  return (
    <section className="invite-code">
      <h2>Evening code</h2>
      {code === null ? (
        <p className="dim">Six digits to type, for whoever cannot scan or open a link. None is in force.</p>
      ) : (
        <>
          <p className="evening-code">
            {code.slice(0, 3)} {code.slice(3)}
          </p>
          <p className="dim">
            Typed on the start page, it lets a player in. It holds until you make a new one.
          </p>
        </>
      )}
      <div className="button-row">
        <button type="button" className={code === null ? 'button-primary' : 'button'} onClick={make}>
          {code === null ? 'Make a code' : 'Make a new one'}
        </button>
        <span className="field-problem" role="alert">
          {words}
        </span>
      </div>
    </section>
  );
};

const ROLE_WORDS: Readonly<Record<Role, string>> = { leader: 'leader', player: 'player', reader: 'reader' };

const RenewSheet = ({ role, onClose }: { readonly role: Role; readonly onClose: () => void }) => {
  const { ask, bands } = useServices();
  const { band } = useBoard();
  const { name } = useObservable(useBoard().book);
  const [words, setWords] = useState('');
  const [busy, setBusy] = useState(false);
  const renew = async () => {
    const access = bands.keyFor(band);
    if (!access || busy) return;
    setBusy(true);
    const reply = await renewKey(ask, band, access.key, role);
    setBusy(false);
    if (!reply.ok) return setWords(reply.error.words);
    bands.keep(band, name, role, reply.value);
    onClose();
  };
  return (
    <Sheet title={`Renew the ${ROLE_WORDS[role]} link?`} onClose={onClose}>
      <p>
        Everybody who came by the old {ROLE_WORDS[role]} link is put out at once, in the middle of a tune as
        well, and needs the new one to come back. Nothing they wrote is lost.
      </p>
      <p className="field-problem" role="alert">
        {words}
      </p>
      <div className="button-row">
        <button type="button" className="button button-danger" onClick={renew} disabled={busy}>
          Renew it
        </button>
        <button type="button" className="button" onClick={onClose}>
          Leave it
        </button>
      </div>
    </Sheet>
  );
};

/** How the others get in: links as text and as codes for a camera, and the evening code. */
export const Invitation = () => {
  const { bands } = useServices();
  const { band, role } = useBoard();
  const known = useObservable(bands).find((one) => one.band === band);
  const origins = useOrigins();
  const [chosen, setChosen] = useState('');
  const [renewing, setRenewing] = useState<Role | null>(null);
  const origin = origins.includes(chosen) ? chosen : (origins[0] ?? '');
  const leads = role === 'leader';
  const shown = LINKS.filter((link) => known?.keys[link.role] !== undefined && (leads || link.role === role));
  const missing = leads ? LINKS.filter((link) => known?.keys[link.role] === undefined) : [];
  return (
    <main className="page scrolled invite">
      <header className="book-head">
        <h1>Invite</h1>
        <a className="button" href={bandHref(band, 'book')}>
          Back to the book
        </a>
      </header>
      {origins.length > 1 && (
        <label className="field invite-origin">
          <span>Address of the relay, as the others’ tablets reach it</span>
          <select value={origin} onChange={(event) => setChosen(event.target.value)}>
            {origins.map((one) => (
              <option key={one} value={one}>
                {one.replace(/^https?:\/\//, '')}
                {isThisMachine(one) ? ' (this machine only)' : ''}
              </option>
            ))}
          </select>
        </label>
      )}
      {isThisMachine(origin) && (
        <p className="field-note">
          This address works on this machine only. Others need its address in the network.
        </p>
      )}
      <div className="invite-links">
        {shown.map(({ role: linkRole, title, words }) => (
          <LinkCard
            key={linkRole}
            title={title}
            words={words}
            href={`${origin}/${joinHref(band, known?.keys[linkRole] ?? '')}`}
            onRenew={leads ? () => setRenewing(linkRole) : null}
          />
        ))}
      </div>
      {missing.length > 0 && (
        <section className="invite-missing">
          <h2>Links this tablet does not know</h2>
          <p className="dim">
            They were made on another tablet. Renewing makes a new one that you can show here.
          </p>
          <div className="button-row">
            {missing.map((link) => (
              <button key={link.role} type="button" className="button" onClick={() => setRenewing(link.role)}>
                Renew the {ROLE_WORDS[link.role]} link …
              </button>
            ))}
          </div>
        </section>
      )}
      {leads && known?.keys.leader && <EveningCode band={band} bandKey={known.keys.leader} />}
      {renewing && <RenewSheet role={renewing} onClose={() => setRenewing(null)} />}
    </main>
  );
};
