import type { Tablet } from './tablets.ts';

/** A key is touched with a finger: no smaller than this, px. */
const LEAST_PX = 44;

/**
 * The keys within `root` that a finger does not reach, each with its name and what is wrong: too small, or, once it has
 * been scrolled to, under something else or out of sight.
 */
export const keysAstray = ({ page }: Tablet, root: string): Promise<readonly string[]> =>
  page.evaluate(
    ({ root, least }) => {
      const astray: string[] = [];
      for (const key of document.querySelectorAll<HTMLElement>(`${root} button`)) {
        if (key.getClientRects().length === 0) continue;
        key.scrollIntoView({ block: 'nearest', inline: 'nearest' });
        const { left, right, top, bottom, width, height } = key.getBoundingClientRect();
        const name = `${key.getAttribute('aria-label') ?? key.textContent} ${Math.round(width)} × ${Math.round(height)}`;
        if (width < least - 0.5 || height < least - 0.5) astray.push(`${name}: too small`);
        const points = [
          [(left + right) / 2, (top + bottom) / 2],
          [left + 4, top + 4],
          [right - 4, top + 4],
          [left + 4, bottom - 4],
          [right - 4, bottom - 4],
        ] as const;
        const under = points
          .map(([x, y]) => document.elementFromPoint(x, y))
          .find((hit) => hit === null || !key.contains(hit));
        if (under !== undefined) astray.push(`${name}: under ${under?.className}`);
      }
      return astray;
    },
    { root, least: LEAST_PX },
  );
