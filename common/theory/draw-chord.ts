/** How a chord is drawn after its root. */
export interface Drawn {
  /** On the baseline, beside the root: `m`, `sus` or nothing. */
  readonly base: string;
  /** Raised: figures, signs and alterations: `7♭9`, `△7`, `ø`, `6/9`, `7sus`. */
  readonly raised: string;
}

const ALTERED_DOMINANT = '1 3 b5 #5 b7 b9 #9';

/**
 * The one way in which a chord of these degrees is drawn, however it was typed.
 *
 * It depends on the degrees alone, and is made of what the reader reads: with a root before it,
 * `readChordSymbol(root + base + raised)` has the same degrees again. So two chords with different degrees
 * never look alike. What stands before the first figure or sign is on the baseline, the rest is raised.
 *
 * @param degrees as `chordDegrees` gives them, in order
 * @example drawChord(['1', 'b3', '5', '7']) // { base: 'm', raised: '△7' }
 */
export function drawChord(degrees: readonly string[]): Drawn {
  if (degrees.join(' ') === ALTERED_DOMINANT) return { base: '', raised: '7alt' };
  const left = new Set(degrees);
  const rootless = left.delete('1') ? '' : 'no1';
  const sign = takeSign(left);
  const third = sign === '' ? takeThird(left) : takeDiminishedThird(left);
  const seventh = take(left, 'b7') || take(left, 'bb7') || take(left, '7');
  const figure = seventh === '' ? takeSixth(left, third.sus) : takeFigure(left, third.sus);
  const power = third.missing && figure === '' && left.delete('5') ? '5' : '';
  const fifth = power === '' ? takeFifth(left, sign, third.is === '3' && figure === '') : '';
  const number = power + (seventh === '7' ? '△' : '') + (sign === 'ø' && figure === '7' ? '' : figure);
  const omitted = (third.missing && power === '' ? 'no3' : '') + (fifth === 'no5' ? fifth : '') + rootless;
  const rest = drawRest(left, figure !== '') + omitted;
  const altered = fifth === 'no5' ? '' : withSigns(fifth);
  if (third.sus.length > 0) {
    const sus = drawSus(third.sus);
    if (figure === '') return { base: 'sus', raised: sus + altered + rest };
    return { base: '', raised: `${number}sus${sus}${altered}${rest}` };
  }
  if (third.is === 'b3' && sign === '') return { base: 'm', raised: number + altered + rest };
  const triad = sign + number;
  return {
    base: '',
    raised: triad + (triad === '' && /^[♭♯]/.test(altered) ? `(${altered})` : altered) + rest,
  };
}

const SIGNS: Readonly<Record<string, string>> = { b: '♭', '#': '♯' };
const withSigns = (text: string): string => text.replace(/[b#]/g, (sign) => SIGNS[sign] ?? sign);

const take = (left: Set<string>, degree: string): string => (left.delete(degree) ? degree : '');

/** The circle, plain or slashed, where third, fifth and seventh make a diminished chord. */
function takeSign(left: Set<string>): '' | '°' | 'ø' {
  if (left.has('bb7')) return '°';
  if (!left.has('b3') || !left.has('b5') || left.has('5') || left.has('#5')) return '';
  if (left.has('b7')) return 'ø';
  return left.has('6') && !left.has('7') ? '' : '°';
}

interface Third {
  readonly is: '3' | 'b3' | 'none';
  /** What stands for it. */
  readonly sus: readonly string[];
  readonly missing: boolean;
}

function takeThird(left: Set<string>): Third {
  if (left.delete('3')) return { is: '3', sus: [], missing: false };
  if (left.delete('b3')) return { is: 'b3', sus: [], missing: false };
  const sus = ['b2', '2', '4', '#4'].filter((degree) => left.delete(degree));
  return { is: 'none', sus, missing: sus.length === 0 };
}

function takeDiminishedThird(left: Set<string>): Third {
  return left.delete('b3') ? { is: 'b3', sus: [], missing: false } : { is: 'none', sus: [], missing: true };
}

/** `sus` alone is the fourth; several are `24`, or each with its own word. */
function drawSus(sus: readonly string[]): string {
  const said = sus.join(' ');
  if (said === '4') return '';
  return said === '2 4' ? '24' : withSigns(sus.join('sus'));
}

/**
 * The highest figure whose stack is whole: each degree below it is there, natural or altered but not both.
 * A suspended degree fills the place of its octave.
 */
function takeFigure(left: Set<string>, sus: readonly string[]): string {
  const ninth = isFilled(left, '9', sus.includes('2'));
  const eleventh = isFilled(left, '11', sus.includes('4'));
  if (ninth && eleventh && left.has('13') && !left.has('b13')) return takeAll(left, '13', ['9', '11', '13']);
  if (ninth && eleventh && left.has('11')) return takeAll(left, '11', ['9', '11']);
  if (ninth && left.has('9')) return takeAll(left, '9', ['9']);
  return '7';
}

function takeSixth(left: Set<string>, sus: readonly string[]): string {
  if (!left.delete('6')) return '';
  return isFilled(left, '9', sus.includes('2')) && left.has('9') ? takeAll(left, '6/9', ['9']) : '6';
}

function isFilled(left: ReadonlySet<string>, natural: string, suspended: boolean): boolean {
  const altered = left.has(`b${natural}`) || left.has(`#${natural}`);
  return suspended ? !left.has(natural) : left.has(natural) !== altered;
}

function takeAll(left: Set<string>, figure: string, degrees: readonly string[]): string {
  for (const degree of degrees) left.delete(degree);
  return figure;
}

/** What is said of the fifth: nothing, its alterations, `no5`, or `+` for an augmented triad. */
function takeFifth(left: Set<string>, sign: string, majorTriad: boolean): string {
  if (sign !== '') return left.delete('b5') ? '' : 'no5';
  if (left.delete('5')) return '';
  const altered = take(left, 'b5') + take(left, '#5');
  if (altered === '') return 'no5';
  return altered === '#5' && majorTriad ? '+' : altered;
}

/** Alterations of a chord with a figure, then everything added, each in rising order. */
function drawRest(left: ReadonlySet<string>, hasFigure: boolean): string {
  const isAltered = (degree: string): boolean => hasFigure && /^[b#]/.test(degree);
  const altered = [...left].filter(isAltered);
  const added = [...left].filter((degree) => !isAltered(degree));
  return [
    ...altered.map(withSigns),
    ...added.map((degree) => `add${degree === '7' ? '△7' : withSigns(degree)}`),
  ].join('');
}
