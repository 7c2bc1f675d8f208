/** Which page is shown: what stands after the `#` of the address, so that keys never reach a server's log. */
export type Route =
  | { readonly page: 'start' }
  | { readonly page: 'join'; readonly band: string; readonly key: string }
  | { readonly page: 'code'; readonly code: string }
  | { readonly page: 'band'; readonly band: string; readonly view: BandView }
  | { readonly page: 'unknown' };

export type BandView =
  | { readonly name: 'book' | 'add' | 'invite' | 'podium' }
  /** Without a chart the stand follows the tune that is called. */
  | { readonly name: 'stand'; readonly chart?: string }
  | { readonly name: 'pencil' | 'shed'; readonly chart: string };

const decoded = (part: string): string | null => {
  try {
    return decodeURIComponent(part);
  } catch {
    // A stray % somebody typed: no address of ours.
    return null;
  }
};

const viewFrom = (name: string | undefined, chart: string | undefined): BandView | null => {
  if (name === undefined) return { name: 'stand' };
  if (name === 'stand') return chart ? { name, chart } : { name };
  if (name === 'pencil' || name === 'shed') return chart ? { name, chart } : null;
  if (name === 'book' || name === 'add' || name === 'invite' || name === 'podium') return { name };
  return null;
};

/** The route of an address. `readRoute(printRoute(route))` is the route again. */
export const readRoute = (hash: string): Route => {
  const parts = hash
    .replace(/^#\/?/, '')
    .split('/')
    .filter((part) => part !== '')
    .map(decoded);
  if (parts.includes(null)) return { page: 'unknown' };
  const [first, second, third] = parts.map((part) => part ?? '');
  if (first === undefined || first === 'start') return { page: 'start' };
  if (first === 'join') {
    return second !== undefined && third !== undefined
      ? { page: 'join', band: second, key: third }
      : { page: 'unknown' };
  }
  if (first === 'code') return { page: 'code', code: second ?? '' };
  const view = viewFrom(second, third);
  return view ? { page: 'band', band: first, view } : { page: 'unknown' };
};

/** The address of a route, with its `#`. */
export const printRoute = (route: Route): string => {
  switch (route.page) {
    case 'join':
      return joinHref(route.band, route.key);
    case 'code':
      return route.code ? `#code/${encodeURIComponent(route.code)}` : '#code';
    case 'band':
      return 'chart' in route.view && route.view.chart !== undefined
        ? `${bandHref(route.band, route.view.name)}/${encodeURIComponent(route.view.chart)}`
        : bandHref(route.band, route.view.name);
    default:
      return START_HREF;
  }
};

/** The page where a tablet begins. */
export const START_HREF = '#start';

export const joinHref = (band: string, key: string): string =>
  `#join/${encodeURIComponent(band)}/${encodeURIComponent(key)}`;

/** The address of one of a band's views. */
export const bandHref = (band: string, view: BandView['name']): string =>
  `#${encodeURIComponent(band)}/${view}`;

export const pencilHref = (band: string, chart: string): string =>
  `${bandHref(band, 'pencil')}/${encodeURIComponent(chart)}`;

export const shedHref = (band: string, chart: string): string =>
  `${bandHref(band, 'shed')}/${encodeURIComponent(chart)}`;

/** A chart on this stand, whatever tune is called. */
export const standHref = (band: string, chart: string): string =>
  `${bandHref(band, 'stand')}/${encodeURIComponent(chart)}`;
