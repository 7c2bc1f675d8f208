import qrcode from 'qrcode';
import { ROLES, type Role } from '../common/protocol/roles.ts';

/** The address that lets a tablet in. The key stands behind the #, which browsers send to no server. */
const joinLink = (origin: string, band: string, key: string): string => `${origin}/#join/${band}/${key}`;

/** Who opens which link. */
const FOR: Readonly<Record<Role, string>> = {
  leader: 'the leader: calls cues, manages the band',
  player: 'players: edit the charts',
  reader: 'readers: see everything, write nothing',
};

export interface Greeting {
  readonly bandName: string;
  readonly band: string;
  /** Keys that are still in force; null where one was renewed since. */
  readonly keys: Readonly<Record<Role, string | null>>;
  readonly localOrigin: string;
  /** Likeliest first; none where the relay listens for this machine alone. */
  readonly networkOrigins: readonly string[];
}

/** What is printed at the start: a link for each role and origin, and a QR code of the players' link. */
export const greeting = async (about: Greeting): Promise<string> => {
  const origins = [about.localOrigin, ...about.networkOrigins];
  const lines = [`Tillcue is on, with the demo band ${about.bandName}. Stop it with Ctrl-C.`];
  for (const role of ROLES) {
    const key = about.keys[role];
    lines.push('', `For ${FOR[role]}`);
    if (key === null) lines.push('  This link was renewed in the page; the new one is known there only.');
    else lines.push(...origins.map((origin) => `  ${joinLink(origin, about.band, key)}`));
  }
  const [nearest = about.localOrigin] = about.networkOrigins;
  if (about.keys.player !== null) {
    const code = await qrcode.toString(joinLink(nearest, about.band, about.keys.player), {
      type: 'terminal',
      small: true,
    });
    lines.push('', `Players can also scan this (${nearest}):`, code.trimEnd());
  }
  return `${lines.join('\n')}\n`;
};
