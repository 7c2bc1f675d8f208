/**
 * What a chord symbol says after its root and before its bass, taken apart. `chord-degrees.ts` makes degrees of
 * it; `CONVENTIONS.md` says how each part is read and why.
 */
export interface ChordParts {
  quality: 'major' | 'minor' | 'diminished' | 'half-diminished' | 'augmented' | 'power' | 'altered';
  /** The main figure; 0 for a triad. 69 is six-nine; 2 is an added second. */
  figure: 0 | 2 | 6 | 69 | 7 | 9 | 11 | 13;
  /** Whether the seventh was said to be major (`maj7`, `△`, `7M`). */
  majorSeventh: boolean;
  /** What stands for the third: `4`, `2`, `b2`, `#4`. */
  sus: string[];
  /** Altered degrees as said: `b5`, `#9`. */
  altered: string[];
  /** Added degrees: `9`, `b6`, `7` (a major seventh). */
  added: string[];
  /** Numbers of the degrees left out. */
  omitted: string[];
}

const HALF_DIMINISHED = /ø|half-?dim(?:inished)?/iy;
const DIMINISHED = /°|dim(?:inished)?|DIM|o(?!mit)/y;
const AUGMENTED = /\+|aug(?:mented)?/iy;
const MINOR = /minor|min(?!o\d)|mi/iy;
const MINOR_SIGN = /m|-/y;
const MAJOR = /major|maj|ma(?!dd)/iy;
const MAJOR_SIGN = /M|Δ/y;
const DOMINANT = /dom(?:inant)?/iy;
const ALTERED = /alt(?:ered)?\.?/iy;
const FIGURE = /(?:6\/?9|13|11|9|7|6|5|4|2)(?!\d)/y;
const SEVENTH_FIGURE = /(?:13|11|9|7)(?!\d)/y;
const SUS = /sus(?:pended)?(2\/?4(?!\d)|4\/?2(?!\d)|[b#]?[24](?!\d))?/iy;
const ADD = /add */iy;
const OMIT = /(?:no|omit) *(root|13|11|9|7|5|3|1)(?!\d)(?:th|rd|st)?/iy;
const ALTERATION = /([b#+-]) *(13|11|9|7|6|5|4)(?!\d)/y;
const SPELT_ALTERATION = /(aug|dim) *(9|5|11)(?!\d)/iy;
const ADDED = /([b#+-]?) *(13|11|9|7|6|4|3|2)(?!\d)(?:th|rd|nd)?/y;
const NUMBER = /(?:13|11|9|7|6|4|2)(?!\d)/y;
const SHARP_FIFTH = /\+(?!\d)|aug(?!\d)/iy;

/** The alterations there are; a number that is not here (♭22, ♯13) is no chord's. */
const ALTERATIONS = new Set(['b5', '#5', 'b9', '#9', '#11', '#4', 'b13', 'b6', 'b7', '#7']);
const ADDITIONS = new Set([
  ...['2', '3', '4', '6', '9', '11', '13', 'b2', 'b6', 'b9', '#9', '#4', '#11', 'b13', '7', 'b7'],
]);

/**
 * The parts of the text between root and bass (plain signs: `m7b5`, `7(b9 #11)`), or `null` where anything in
 * it cannot be read. Reads from left to right: quality, figure, then any number of suspensions,
 * alterations, additions and omissions, each also in round brackets or after a slash.
 */
export function readChordParts(text: string): ChordParts | null {
  const reader = new PartsReader(text);
  return reader.read() ? reader.parts : null;
}

class PartsReader {
  readonly parts: ChordParts = {
    quality: 'major',
    figure: 0,
    majorSeventh: false,
    sus: [],
    altered: [],
    added: [],
    omitted: [],
  };
  readonly #text: string;
  #at = 0;
  /** The text said `maj` or `M` of the triad, which a figure may follow. */
  #saidMajor = false;

  constructor(text: string) {
    this.#text = text;
  }

  read(): boolean {
    if (!this.#readHead()) return false;
    while (this.#at < this.#text.length) {
      if (!this.#readTail()) return false;
    }
    return true;
  }

  #take(pattern: RegExp): RegExpExecArray | null {
    pattern.lastIndex = this.#at;
    const found = pattern.exec(this.#text);
    if (found !== null) this.#at += found[0].length;
    return found;
  }

  /** Quality and main figure. */
  #readHead(): boolean {
    const { parts } = this;
    if (this.#readAltered()) return true;
    if (this.#take(DOMINANT)) return this.#takeFigure(SEVENTH_FIGURE);
    if (this.#take(HALF_DIMINISHED)) {
      parts.quality = 'half-diminished';
      parts.figure = 7;
      this.#takeFigure(SEVENTH_FIGURE);
      return true;
    }
    if (this.#take(MAJOR)) return this.#readMajor(false);
    if (this.#take(DIMINISHED)) parts.quality = 'diminished';
    else if (this.#take(AUGMENTED)) parts.quality = 'augmented';
    else if (this.#take(MINOR) ?? this.#take(MINOR_SIGN)) parts.quality = 'minor';
    if (parts.quality === 'major') {
      const sign = this.#take(MAJOR_SIGN)?.[0];
      return sign === undefined ? this.#readPlainFigure() : this.#readMajor(sign === 'Δ');
    }
    if (this.#readMajorSeventh()) return true;
    return this.#readQualityFigure();
  }

  /** After `maj`, `M`: a triad, sixth or major seventh. A triangle alone is a major seventh. */
  #readMajor(triangle: boolean): boolean {
    this.#saidMajor = true;
    if (this.#takeFigure(SEVENTH_FIGURE)) {
      this.parts.majorSeventh = true;
      return true;
    }
    if (triangle) {
      this.parts.majorSeventh = true;
      this.parts.figure = 7;
      return !this.#digitFollows();
    }
    return !this.#digitFollows() || this.#takeFigure(/6(?:\/?9)?(?!\d)/y);
  }

  /** After a minor, diminished or augmented quality: `maj7`, `/M9`, `△` – the seventh is major. */
  #readMajorSeventh(): boolean {
    const start = this.#at;
    this.#take(/\//y);
    const sign = this.#take(MAJOR) ?? this.#take(MAJOR_SIGN);
    if (sign !== null) {
      const figure = this.#takeFigure(SEVENTH_FIGURE);
      if (figure || (sign[0] === 'Δ' && !this.#digitFollows())) {
        if (!figure) this.parts.figure = 7;
        this.parts.majorSeventh = true;
        return true;
      }
    }
    this.#at = start;
    return false;
  }

  #readQualityFigure(): boolean {
    const { parts } = this;
    if (!this.#digitFollows()) return true;
    if (parts.quality === 'augmented' && this.#take(/5(?!\d)/y)) return true;
    if (parts.quality !== 'diminished' && this.#takeFigure(/6(?:\/?9)?(?!\d)/y)) return true;
    if (!this.#takeFigure(SEVENTH_FIGURE)) return false;
    this.#readTrailingMajor();
    return true;
  }

  /** A figure right after the root. */
  #readPlainFigure(): boolean {
    const { parts } = this;
    if (!this.#digitFollows()) return true;
    const figure = this.#take(FIGURE)?.[0];
    if (figure === undefined) return false;
    if (figure === '5') parts.quality = 'power';
    else if (figure === '4') parts.sus.push('4');
    else parts.figure = Number(figure.replace('/', '')) as ChordParts['figure'];
    if (parts.figure === 7 && this.#readAltered()) return true;
    if (parts.figure >= 7 && parts.figure <= 13) this.#readTrailingMajor();
    return true;
  }

  /** `7M`, `7maj`, `7△`: the sign after its figure. */
  #readTrailingMajor(): void {
    const start = this.#at;
    if ((this.#take(MAJOR) ?? this.#take(MAJOR_SIGN)) === null) return;
    if (this.#digitFollows() || this.#text.startsWith('sus', this.#at)) this.#at = start;
    else this.parts.majorSeventh = true;
  }

  /** `alt`, `7alt`, `7(alt)`, `alt7`, and nothing after it. */
  #readAltered(): boolean {
    const start = this.#at;
    const bracket = this.#take(/\( */y) !== null;
    if (this.#take(ALTERED) !== null && (!bracket || this.#take(/ *\)/y) !== null)) {
      if (this.parts.figure === 0) this.#take(/7/y);
      if (this.#at === this.#text.length) {
        this.parts.quality = 'altered';
        this.parts.figure = 7;
        return true;
      }
    }
    this.#at = start;
    return false;
  }

  #takeFigure(pattern: RegExp): boolean {
    const found = this.#take(pattern);
    if (found === null) return false;
    this.parts.figure = Number(found[0].replace('/', '')) as ChordParts['figure'];
    return true;
  }

  #digitFollows(): boolean {
    return /\d/.test(this.#text.charAt(this.#at));
  }

  /** One part after quality and figure, a bracket of parts, or a part after a slash or comma. */
  #readTail(): boolean {
    if (this.#take(/\( */y)) return this.#readBracket();
    if (this.#take(/[/,]/y)) return this.#readItem() || this.#readSlashNumber();
    return this.#readItem() || this.#readLateFigure();
  }

  #readBracket(): boolean {
    do {
      if (!this.#readItem() && !this.#readBracketed()) return false;
      this.#take(/ *[,/]? */y);
    } while (!this.#take(/\)/y));
    return !/[,/] *\)$/.test(this.#text.slice(0, this.#at));
  }

  /** A part that reads the same wherever it stands. */
  #readItem(): boolean {
    const { parts } = this;
    const sus = this.#take(SUS);
    if (sus !== null) {
      const said = (sus[1] ?? '4').replace('/', '');
      return this.#all(parts.sus, /^[b#]/.test(said) ? [said] : [...said]);
    }
    if (this.#take(ADD)) return this.#readAdded();
    const omitted = this.#take(OMIT)?.[1];
    if (omitted !== undefined) return this.#all(parts.omitted, [omitted.replace(/root/i, '1')]);
    const spelt = this.#take(SPELT_ALTERATION);
    if (spelt !== null) return this.#alter(spelt[1]?.toLowerCase() === 'aug' ? '#' : 'b', spelt[2]);
    if (this.#take(SHARP_FIFTH)) return this.#alter('#', '5');
    const altered = this.#take(ALTERATION);
    if (altered !== null) return this.#alter(altered[1], altered[2]);
    return parts.figure !== 0 && this.#readAddedMajorSeventh();
  }

  /** `add9`, `add#11`, `addmaj7`. */
  #readAdded(): boolean {
    if (this.#readAddedMajorSeventh()) return true;
    const found = this.#take(ADDED);
    if (found === null) return false;
    const degree = accidental(found[1]) + (found[2] ?? '');
    return this.#add(degree === '7' ? 'b7' : degree === '#7' ? '7' : degree);
  }

  /** A major seventh beside a sixth, a diminished seventh or a triad: `6(maj7)`, `°7(maj7)`. */
  #readAddedMajorSeventh(): boolean {
    const start = this.#at;
    if ((this.#take(MAJOR) ?? this.#take(MAJOR_SIGN)) !== null && this.#take(/7(?!\d)/y))
      return this.#add('7');
    this.#at = start;
    return false;
  }

  /** In brackets: a number is added; `(7)` and `(maj9)` are the figure where none was said before. */
  #readBracketed(): boolean {
    const { parts } = this;
    if (parts.figure === 0 && parts.quality !== 'power') {
      if (this.#readMajorSeventh()) return true;
      if (this.#takeFigure(/7(?!\d)/y)) return true;
    }
    const number = this.#take(NUMBER)?.[0];
    return number !== undefined && this.#add(number === '7' ? 'b7' : number);
  }

  /** After a slash a number is added (`7/9`, `7/13`); a sixth only to a seventh. Never a bass. */
  #readSlashNumber(): boolean {
    const number = this.#take(/(?:9|11|13|6)(?!\d)/y)?.[0];
    return number !== undefined && (number !== '6' || this.parts.figure === 7) && this.#add(number);
  }

  /** `sus7`, `sus13`: the figure after the word. */
  #readLateFigure(): boolean {
    if (this.parts.figure !== 0 || this.parts.sus.length === 0 || this.#saidMajor) return false;
    return this.#takeFigure(SEVENTH_FIGURE);
  }

  #alter(sign: string | undefined, number: string | undefined): boolean {
    const degree = accidental(sign) + (number ?? '');
    if (!ALTERATIONS.has(degree)) return false;
    return this.#all(this.parts.altered, [degree]);
  }

  #add(degree: string): boolean {
    return ADDITIONS.has(degree) && this.#all(this.parts.added, [degree]);
  }

  /** Appends, unless something is said a second time. */
  #all(list: string[], more: readonly string[]): boolean {
    if (more.some((each) => list.includes(each))) return false;
    list.push(...more);
    return true;
  }
}

const accidental = (sign = ''): string => (sign === '-' ? 'b' : sign === '+' ? '#' : sign);
