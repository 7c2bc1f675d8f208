import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/** Source: WCAG 2.2, "relative luminance" and "contrast ratio". */
const luminance = (hex: string): number => {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const channel = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};

const ratio = (a: string, b: string): number => {
  const [lighter, darker] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (lighter + 0.05) / (darker + 0.05);
};

const css = readFileSync(new URL('../../../client/styles/tokens.css', import.meta.url), 'utf8');

const theme = (name: string): ((token: string) => string) => {
  const block = css.slice(css.search(new RegExp(`\\[data-theme=["']${name}["']\\] \\{`)));
  const body = block.slice(0, block.indexOf('}'));
  const tokens = new Map([...body.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map((m) => [m[1], m[2]]));
  return (token) => {
    const value = tokens.get(token);
    if (value === undefined) throw new Error(`theme ${name} has no --${token}`);
    return value;
  };
};

const FAMILIES = ['out', 'close', 'more', 'move', 'feel'];
const PRESENCE = [0, 1, 2, 3, 4, 5, 6, 7].map((n) => `presence-${n}`);

describe.each(['night', 'paper'])('the %s theme', (name) => {
  const colour = theme(name);
  const between = (a: string, b: string) => ratio(colour(a), colour(b));

  it('sets text on the stand at 7 : 1 or more', () => {
    const pairs = [
      ['ink', 'ground'],
      ['dim', 'ground'],
      ['ink', 'raised'],
      ['on-paper', 'paper'],
      ['dim-on-paper', 'paper'],
      ...FAMILIES.map((family) => [`on-${family}`, family]),
      ...FAMILIES.map((family) => [family, 'ground']),
    ] as [string, string][];
    for (const [a, b] of pairs) expect(between(a, b), `${a} on ${b}`).toBeGreaterThanOrEqual(7);
  });

  it('sets all other text at 4.5 : 1 or more', () => {
    expect(between('dim', 'raised')).toBeGreaterThanOrEqual(4.5);
    expect(between('past', 'ground')).toBeGreaterThanOrEqual(4.5);
    for (const one of PRESENCE) {
      expect(between('on-presence', one), `text on ${one}`).toBeGreaterThanOrEqual(4.5);
      expect(between(one, 'ground'), `${one} as text`).toBeGreaterThanOrEqual(4.5);
    }
  });

  it('keeps signs and lines that carry meaning at 3 : 1 or more', () => {
    expect(between('rule', 'ground')).toBeGreaterThanOrEqual(3);
    expect(between('paper', 'ground')).toBeGreaterThanOrEqual(3);
    expect(between('ribbon-played', 'ribbon')).toBeGreaterThanOrEqual(2);
    expect(between('ribbon-played', 'ground')).toBeGreaterThanOrEqual(3);
    expect(between('paper', 'ribbon-played')).toBeGreaterThanOrEqual(3);
  });
});
