import type { Section } from './chart.ts';
import type { Found } from './found.ts';

/** Sections that the road map could not tell apart, or that hold nothing. */
export const checkSections = (sections: readonly Section[]): Found[] => {
  const seen = new Set<string>();
  return sections.flatMap(({ id, label, bars }, index): Found[] => {
    const found: Found[] = [];
    if (label === '' && index > 0) {
      found.push({
        id,
        at: id,
        kind: 'section-without-name',
        words: 'This section has no name, so the road map can’t call for it.',
      });
    } else if (label !== '' && seen.has(label)) {
      const free = freeName(label, sections);
      found.push({
        id,
        at: id,
        kind: 'section-twice',
        words: `Two sections are called ${label}; the road map means the first.`,
        suggestion: `[${free}]`,
      });
    }
    seen.add(label);
    if (bars.length === 0) {
      found.push({
        id,
        at: id,
        kind: 'empty-section',
        words: `No bars stand in ${label === '' ? 'this section' : label}.`,
      });
    }
    return found;
  });
};

const freeName = (label: string, sections: readonly Section[]): string => {
  const isTaken = (name: string) => sections.some((section) => section.label === name);
  let number = 2;
  while (isTaken(`${label}${number}`)) number++;
  return `${label}${number}`;
};
