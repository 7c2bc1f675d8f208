import { readChart } from '../common/chart/read-chart.ts';
import { DEMO_BAND } from '../common/demo/demo-band.ts';
import { setMember } from '../common/document/book-document.ts';
import { chartEntryOf } from '../common/document/chart-entry.ts';
import { addChart, setBandName } from '../common/document/edit-book.ts';
import { writeChartDocument } from '../common/document/write-chart-document.ts';
import { ROLES, type Role } from '../common/protocol/roles.ts';
import { type DemoKeys, readDemoKeys, writeDemoKeys } from './demo-keys.ts';
import type { Relay } from './relay.ts';

/** Where the store keeps which band is the demo band. */
const META_NAME = 'demo band';

const rememberedBand = (relay: Relay): string | null => {
  const rows = relay.store.database.prepare('select value from meta where name = ?').raw(true).all(META_NAME);
  return (rows as [string][])[0]?.[0] ?? null;
};

const fill = (relay: Relay, band: string): void => {
  const { rooms, clientId } = relay;
  for (const { id, text } of DEMO_BAND.charts) {
    rooms.open(band, `chart.${id}`).write(clientId, (doc) => writeChartDocument(doc, readChart(text).chart));
  }
  rooms.open(band, 'book').write(clientId, (doc) => {
    setBandName(doc, DEMO_BAND.name);
    for (const member of DEMO_BAND.members) setMember(doc, member);
    for (const { id, text } of DEMO_BAND.charts) addChart(doc, chartEntryOf(id, readChart(text).chart));
  });
  // The charts are on the disk before the band is remembered: a start that is broken off is made good by the next.
  relay.store.flush();
};

const make = (relay: Relay, folder: string): DemoKeys => {
  const made = relay.bands.make(DEMO_BAND.name);
  fill(relay, made.band);
  writeDemoKeys(folder, made);
  relay.store.transaction(() =>
    relay.store.database
      .prepare('insert or replace into meta (name, value) values (?, ?)')
      .run(META_NAME, made.band),
  );
  return made;
};

/** The file is gone but the band is not: new links, and the old ones are worth nothing. */
const renewAll = (relay: Relay, folder: string, band: string): DemoKeys => {
  const [leader, player, reader] = ROLES.map((role) => relay.bands.renew(band, role)) as [
    string,
    string,
    string,
  ];
  const renewed = { band, keys: { leader, player, reader } };
  writeDemoKeys(folder, renewed);
  return renewed;
};

/**
 * The demo band, made at the first start. Its keys are those of the first start for as long as nobody renews them
 * (a key renewed in the page is null here: the relay has only its hash).
 */
export const openDemoBand = (
  relay: Relay,
  folder: string,
): { readonly band: string; readonly bandName: string; readonly keys: Record<Role, string | null> } => {
  const remembered = rememberedBand(relay);
  const demo =
    remembered === null ? make(relay, folder) : (readDemoKeys(folder) ?? renewAll(relay, folder, remembered));
  const inForce = (role: Role) =>
    relay.bands.roleOf(demo.band, demo.keys[role]) === role ? demo.keys[role] : null;
  return {
    band: demo.band,
    bandName: relay.bands.nameOf(demo.band) ?? DEMO_BAND.name,
    keys: { leader: inForce('leader'), player: inForce('player'), reader: inForce('reader') },
  };
};
