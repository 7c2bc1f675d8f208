/** Walks over a text from left to right; every pattern is sticky (`y`), matched where the walker stands. */
export class TextScanner {
  readonly text: string;
  at = 0;

  constructor(text: string) {
    this.text = text;
  }

  /** The match here, stepped over; `null`, staying, where there is none. */
  take(pattern: RegExp): RegExpExecArray | null {
    pattern.lastIndex = this.at;
    const found = pattern.exec(this.text);
    if (found !== null) this.at += found[0].length;
    return found;
  }

  sees(pattern: RegExp): boolean {
    pattern.lastIndex = this.at;
    return pattern.test(this.text);
  }

  /** What `read` answers; where that is false, the walker is back where it was. */
  attempt(read: () => boolean): boolean {
    const start = this.at;
    const good = read();
    if (!good) this.at = start;
    return good;
  }

  get atEnd(): boolean {
    return this.at === this.text.length;
  }
}
