import { describe, expect, it } from 'vitest';
import { helpKindOf, helpWish, stringsOf, tuningText } from '../../../../client/stand/help/help-wish.ts';
import { openHelpSettings } from '../../../../client/storage/help-settings.ts';
import { openPinnedShapes } from '../../../../client/storage/pinned-shapes.ts';
import { memoryStore } from '../../../../client/storage/stored-json.ts';
import { NOTE_NAMES } from '../../../../common/theory/note-name.ts';

const settings = openHelpSettings(memoryStore(), memoryStore()).get();
const NONE = new Map();

describe('what a player wants under the chords', () => {
  it('is what is usual for the part until the player chooses otherwise', () => {
    const kinds = ['guitar', 'piano', 'double-bass', 'tenor-sax', 'voice', 'drums', 'violin'];
    expect(kinds.map((part) => helpKindOf(settings, part))).toEqual([
      'shapes',
      'voicings',
      'bass',
      'guides',
      'words',
      'form',
      'guides',
    ]);
    expect(helpKindOf({ ...settings, help: 'numbers' }, 'guitar')).toBe('numbers');
    expect(helpWish({ ...settings, help: 'chords' }, 'guitar', 'english', NONE, NONE)).toBeNull();
  });

  it('leaves the room to the chords where the band has noted nothing', () => {
    expect(helpWish(settings, 'voice', 'english', NONE, NONE)).toBeNull();
    const notes = new Map([['b1', ['breathe']]]);
    expect(helpWish(settings, 'voice', 'english', notes, NONE)).toEqual({ kind: 'words', notes });
  });

  it('is played on the strings of the part, in the tuning chosen or typed', () => {
    expect(
      ['guitar', 'ukulele', 'mandolin', 'bass-guitar', 'double-bass'].map(
        (p) => stringsOf(settings, p, 'english').id,
      ),
    ).toEqual(['guitar', 'ukulele', 'mandolin', 'bass', 'bass']);
    expect(stringsOf({ ...settings, strings: 'guitar-drop-d' }, 'guitar', 'english').openMidi[0]).toBe(38);
    expect(stringsOf({ ...settings, tuning: 'D A D G A D' }, 'guitar', 'english').openMidi).toEqual([
      38, 45, 50, 55, 57, 62,
    ]);
    expect(stringsOf({ ...settings, tuning: 'E A D G B E' }, 'guitar', 'german').openMidi[4]).toBe(58);
    // What cannot be read is said where it is typed; the instrument keeps its own tuning meanwhile.
    expect(stringsOf({ ...settings, tuning: 'D A X' }, 'guitar', 'english').openMidi).toEqual([
      40, 45, 50, 55, 59, 64,
    ]);
  });

  it('has shells on a guitar, all strings of a small instrument, until the player chooses', () => {
    const kinds = (part: string, shapes = settings.shapes) =>
      helpWish({ ...settings, help: 'shapes', shapes }, part, 'english', NONE, NONE);
    for (const part of ['guitar', 'bass-guitar']) expect(kinds(part)).toMatchObject({ kinds: ['shell'] });
    for (const part of ['ukulele', 'mandolin', 'banjo'])
      expect(kinds(part)).toMatchObject({ kinds: ['full'] });
    expect(kinds('ukulele', 'shell')).toMatchObject({ kinds: ['shell'] });
    expect(kinds('ukulele', '')).toMatchObject({ kinds: [] });
  });

  it('keeps a typed tuning when notes are called otherwise later, and shows it in their names', () => {
    const typed = { ...settings, tuning: 'B1 E2 A2 D3 G3 Bb3 E4', tuningNames: 'english' as const };
    for (const names of NOTE_NAMES)
      expect(stringsOf(typed, 'guitar', names).openMidi).toEqual([35, 40, 45, 50, 55, 58, 64]);
    expect(tuningText(typed, 'guitar', 'english')).toBe('B1 E2 A2 D3 G3 Bb3 E4');
    expect(tuningText(typed, 'guitar', 'german')).toBe('H1 E2 A2 D3 G3 B3 E4');
    expect(tuningText(typed, 'guitar', 'solfege')).toBe('Si1 Mi2 La2 Re3 Sol3 Si♭3 Mi4');
    expect(tuningText({ ...typed, tuning: 'D A X' }, 'guitar', 'german')).toBe('D A X');
  });

  it('is kept for the tab and, for a new one, for the tablet; what makes no sense is as at first', () => {
    const [tablet, tab] = [memoryStore(), memoryStore()];
    openHelpSettings(tablet, tab).change({ help: 'scales', leftHanded: true, shapes: '' });
    expect(openHelpSettings(tablet, memoryStore()).get()).toMatchObject({
      help: 'scales',
      leftHanded: true,
      shapes: '',
    });
    tab.setItem('tillcue.help', '{"help":"nonsense","keys":7,"shapes":"?"}');
    expect(openHelpSettings(tablet, tab).get()).toEqual(settings);
  });
});

describe('pinned shapes', () => {
  it('are kept by chart and tuning, and can be let go', () => {
    const store = memoryStore();
    const pins = openPinnedShapes(store);
    pins.pin('c1', '40-45', 'b1 0', [null, 3, 2, 3, null, null]);
    pins.pin('c1', '40-45', 'b2 0', [5, null, 5, 5, null, null]);
    pins.pin('c1', '40-45', 'b2 0', null);
    expect([...openPinnedShapes(store).of('c1', '40-45').get()]).toEqual([
      ['b1 0', [null, 3, 2, 3, null, null]],
    ]);
    expect(openPinnedShapes(store).of('c2', '40-45').get().size).toBe(0);
  });

  it('that something else has written are left out', () => {
    const store = memoryStore();
    store.setItem('tillcue.pins.c1.40', '{"b1 0":[1,"x"],"b2 0":[1,null],"b3 0":5}');
    expect([...openPinnedShapes(store).of('c1', '40').get().keys()]).toEqual(['b2 0']);
  });
});
