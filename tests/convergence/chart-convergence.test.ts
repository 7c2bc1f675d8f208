import { describe, expect, it } from 'vitest';
import * as Y from 'yjs';
import type { Chart } from '../../common/chart/chart.ts';
import { readChartDocument } from '../../common/document/chart-document.ts';
import {
  addBars,
  deleteBars,
  deleteSection,
  moveBars,
  setBarText,
} from '../../common/document/edit-chart.ts';
import { readLostSpotsSaid } from '../../common/document/lost-spots-said.ts';
import { writeChartDocument } from '../../common/document/write-chart-document.ts';
import { countingIds, type MakeId, randomIds } from '../../common/ids.ts';
import { seededRandom } from '../support/seeded-random.ts';
import { Network, type Peer } from './peers.ts';
import { pick, randomEdit } from './random-edit.ts';

const NAMES = ['ines', 'tomas', 'bea', 'wim'];

const start: Chart = {
  head: { title: 'Slow Ferry' },
  sections: ['A', 'B', 'C'].map((label) => ({
    id: `section ${label}`,
    label,
    bars: [1, 2, 3, 4].map((number) => ({
      id: `${label}${number}`,
      text: `start ${label}${number}`,
      left: '',
      right: '',
      ending: '',
      lineEnd: number === 4,
    })),
  })),
  road: [{ id: 'head', name: 'Head', sections: 'A B', times: '', words: '' }],
  lines: [],
};

const idsFrom = (random: () => number): MakeId =>
  randomIds((n) => Uint8Array.from({ length: n }, () => Math.floor(random() * 256)));

const bandOf = (seed: number) => {
  const random = seededRandom(seed);
  const network = new Network(NAMES, random, (doc) => {
    doc.clientID = 1000;
    writeChartDocument(doc, start);
  });
  return { random, network, makeId: idsFrom(random) };
};

/** Every value that any of the entries of the document has, deleted or not. */
const textsHeld = (doc: Y.Doc): Set<unknown> => {
  const held = new Set<unknown>();
  for (const name of ['bars', 'sections', 'road', 'addedSpots']) {
    doc.getMap<Y.Map<unknown>>(name).forEach((entry) => {
      for (const [field, value] of entry.entries()) if (field !== 'deleted') held.add(value);
    });
  }
  return held;
};

const expectOneChart = (network: Network): Chart => {
  const chart = readChartDocument(network.relay);
  const said = readLostSpotsSaid(network.relay);
  for (const { name, doc } of network.peers) {
    expect(readChartDocument(doc), name).toEqual(chart);
    expect(readLostSpotsSaid(doc), name).toEqual(said);
  }
  const ids = chart.sections.flatMap(({ bars }) => bars.map(({ id }) => id));
  expect(new Set(ids).size).toBe(ids.length);
  return chart;
};

describe('several people in one chart', () => {
  it('all read the same chart, with every bar in exactly one section, whatever they do and however it arrives', () => {
    let spotsSaid = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const { random, network, makeId } = bandOf(seed);
      let texts = 0;
      for (let round = 0; round < 40; round++) {
        const peer = pick(network.peers, random) as Peer;
        randomEdit({ doc: peer.doc, makeId, random, newText: () => `${peer.name} ${++texts}` });
        if (random() < 0.5) network.deliverSome();
        if (random() < 0.06) network.disconnect(pick(network.peers, random) as Peer);
        if (random() < 0.06) network.reconnect(pick(network.peers, random) as Peer);
      }
      network.settle();
      const chart = expectOneChart(network);
      const late = new Y.Doc();
      Y.applyUpdate(late, Y.encodeStateAsUpdate(network.relay));
      expect(readChartDocument(late), `seed ${seed}`).toEqual(chart);
      expect(readLostSpotsSaid(late), `seed ${seed}`).toEqual(readLostSpotsSaid(network.relay));
      spotsSaid += Object.values(readLostSpotsSaid(network.relay)).flat().length;
    }
    // What agrees is something: some have been dismissed and some added.
    expect(spotsSaid).toBeGreaterThan(40);
  });

  it('lose nothing that one person types while the others do anything but write over it', () => {
    for (let seed = 100; seed < 130; seed++) {
      const { random, network, makeId } = bandOf(seed);
      const [bea, ...others] = network.peers as [Peer, ...Peer[]];
      const typed = new Map<string, string>();
      let texts = 0;
      for (let round = 0; round < 30; round++) {
        // Bea writes into bars of her own; the others delete, move and duplicate whatever they see.
        if (random() < 0.4) {
          const section = pick(readChartDocument(bea.doc).sections, random);
          if (section) {
            const bars = [{ text: `bea ${++texts}` }];
            const [id] = addBars(bea.doc, section.id, pick(section.bars, random)?.id ?? null, bars, makeId);
            if (id !== undefined) typed.set(id, `bea ${texts}`);
          }
        } else if (random() < 0.5) {
          const id = pick([...typed.keys()], random);
          if (id !== undefined) {
            setBarText(bea.doc, id, `bea ${++texts}`);
            typed.set(id, `bea ${texts}`);
          }
        }
        const other = pick(others, random) as Peer;
        const chart = readChartDocument(other.doc);
        const section = pick(chart.sections, random);
        const bars = section?.bars.slice(0, 3).map(({ id }) => id) ?? [];
        // Only what Bea's last word hasn't reached yet may be deleted under her hands.
        const seen = (id: string) => {
          const bar = chart.sections.flatMap((all) => all.bars).find((found) => found.id === id);
          return typed.has(id) && bar?.text === typed.get(id);
        };
        const unseen = bars.filter((id) => !seen(id));
        if (random() < 0.5) deleteBars(other.doc, unseen);
        else if (section && unseen.length === section.bars.length) deleteSection(other.doc, section.id);
        else moveBars(other.doc, bars, pick(chart.sections, random)?.id ?? '', null, makeId);
        if (random() < 0.3) network.deliverSome();
      }
      network.settle();
      const chart = expectOneChart(network);
      const read = new Map(chart.sections.flatMap(({ bars }) => bars.map(({ id, text }) => [id, text])));
      for (const [id, text] of typed) expect(read.get(id), `seed ${seed}, bar ${id}`).toBe(text);
    }
  });

  it('find in the document the last thing that was typed into each place', () => {
    for (let seed = 200; seed < 240; seed++) {
      const { random, network, makeId } = bandOf(seed);
      const last = new Set<string>();
      for (const peer of network.peers) {
        network.disconnect(peer);
        // Each in bars of their own section, so that nobody writes over anybody.
        const section = start.sections[network.peers.indexOf(peer) % 3];
        if (!section || network.peers.indexOf(peer) > 2) continue;
        for (const { id } of section.bars) {
          const text = `${peer.name} in ${id}`;
          setBarText(peer.doc, id, text);
          last.add(text);
        }
      }
      const wim = network.peers[3] as Peer;
      for (let round = 0; round < 8; round++) {
        const doc = wim.doc;
        randomEdit({ doc, makeId, random, newText: () => `wim ${round} ${Math.floor(random() * 1e9)}` });
      }
      network.settle();
      expectOneChart(network);
      const held = textsHeld(network.relay);
      for (const { doc } of network.peers) expect(textsHeld(doc)).toEqual(held);
      const overwritten = [...last].filter((text) => !held.has(text));
      // Wim may have written into the same bar at the same time: then one of the two stands there.
      for (const text of overwritten) {
        const bar = readBar(network.relay, text.split(' in ')[1] ?? '');
        expect(bar, `seed ${seed}: ${text}`).toMatch(/^wim /);
      }
    }
  });

  it('paste blocks into one place at once, and each block stays whole', () => {
    for (let seed = 300; seed < 340; seed++) {
      const { random, network, makeId } = bandOf(seed);
      const blocks: string[][] = [];
      for (const peer of network.peers) network.disconnect(peer);
      for (let round = 0; round < 8; round++) {
        const peer = pick(network.peers, random) as Peer;
        const bars = Array.from({ length: 1 + Math.floor(random() * 12) }, (_, index) => ({
          text: `${index}`,
        }));
        const after = pick([null, 'A1', 'A2'], random) ?? null;
        blocks.push(addBars(peer.doc, 'section A', after, bars, makeId));
      }
      network.settle();
      const ids = expectOneChart(network).sections[0]?.bars.map(({ id }) => id) ?? [];
      for (const block of blocks) {
        const at = ids.indexOf(block[0] ?? '');
        expect(ids.slice(at, at + block.length), `seed ${seed}`).toEqual(block);
      }
    }
  });

  it('keep a block whole that one person moves while another types into it', () => {
    const { network, makeId } = bandOf(400);
    const [ines, tomas] = network.peers as [Peer, Peer];
    network.disconnect(ines);
    network.disconnect(tomas);
    moveBars(ines.doc, ['A2', 'A3'], 'section C', 'C1', makeId);
    setBarText(tomas.doc, 'A3', 'Fm9');
    network.settle();
    const chart = expectOneChart(network);
    expect(chart.sections[2]?.bars.map(({ text }) => text)).toEqual([
      'start C1',
      'start A2',
      'Fm9',
      'start C2',
      'start C3',
      'start C4',
    ]);
  });

  it('keep in "recovered" what was written into a section that somebody deleted', () => {
    const { network } = bandOf(401);
    const makeId = countingIds('new');
    const [ines, tomas] = network.peers as [Peer, Peer];
    network.disconnect(ines);
    network.disconnect(tomas);
    deleteSection(ines.doc, 'section B');
    setBarText(tomas.doc, 'B2', 'Fm9');
    addBars(tomas.doc, 'section B', 'B4', [{ text: 'C7' }], makeId);
    network.settle();
    const chart = expectOneChart(network);
    expect(chart.sections.map(({ label }) => label)).toEqual(['A', 'C', 'recovered']);
    expect(chart.sections[2]?.bars.map(({ text }) => text)).toEqual(['Fm9', 'C7']);
  });
});

const readBar = (doc: Y.Doc, id: string): string => {
  const text = doc.getMap<Y.Map<unknown>>('bars').get(id)?.get('text');
  return typeof text === 'string' ? text : '';
};
