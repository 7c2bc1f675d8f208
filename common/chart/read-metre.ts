import type { Metre } from './bar-music.ts';
import { plainText, tidyBlanks } from './text-line.ts';

export const COMMON_TIME: Metre = {
  text: '4/4',
  upper: 4,
  lower: 4,
  pulses: 4,
  groups: [4],
  compound: false,
};

const METRE = /^(\d{1,2}) ?\/ ?(1|2|4|8|16|32)(?: ?\(([\d +]+)\))?$/;
const MOST_UPPER = 32;

/**
 * A metre such as `4/4`, `6/8` or `5/4 (3+2)`; null where it is none or its groups don't add up.
 *
 * The pulse is the dotted quarter in 6/8, 9/8 and 12/8, else the lower figure. Groups add up to the upper
 * figure; in compound time they may also be counted in pulses. Groups that cut a dotted quarter in two, as in
 * `9/8 (2+2+2+3)`, say that the bar isn't counted in dotted quarters: then the eighth is the pulse.
 */
export const readMetre = (text: string): Metre | null => {
  const tidy = tidyBlanks(plainText(text));
  const [, upperText, lowerText, groupText] = METRE.exec(tidy) ?? [];
  if (upperText === undefined || lowerText === undefined) return null;
  const upper = Number(upperText);
  const lower = Number(lowerText);
  if (upper < 1 || upper > MOST_UPPER) return null;
  const dotted = lower === 8 && (upper === 6 || upper === 9 || upper === 12);
  const written = groupText?.split('+').map((group) => (/^ *\d+ *$/.test(group) ? Number(group) : 0));
  if (written?.some((group) => group < 1)) return null;
  const sum = written?.reduce((total, group) => total + group, 0);
  const inPulses = dotted && sum === upper / 3;
  if (sum !== undefined && sum !== upper && !inPulses) return null;
  const compound = dotted && (inPulses || !written?.some((group) => group % 3 !== 0));
  const pulses = compound ? upper / 3 : upper;
  const groups = written ? (compound && !inPulses ? written.map((group) => group / 3) : written) : [pulses];
  return {
    text: `${upper}/${lower}${written ? ` (${written.join('+')})` : ''}`,
    upper,
    lower,
    pulses,
    groups,
    compound,
  };
};
