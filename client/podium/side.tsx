import type { Where } from '../../common/stage/place.ts';
import { PAD_PAGES } from './pad-pages.ts';
import type { PadPage } from './podium-key.ts';
import type { PodiumMoment } from './podium-moment.ts';
import { TapKey } from './tap-key.tsx';

const tapWords = (state: Where['state'], downbeats: boolean): string => {
  if (state === 'waiting') return 'counts the band in';
  if (state === 'ended') return '';
  return downbeats ? 'the one of every bar' : 'every beat';
};

/** What stands under the thumb on every screen: the way to the other keys, and the tap key. */
export const Side = ({
  moment,
  page,
  onPage,
  onMore,
}: {
  readonly moment: PodiumMoment;
  readonly page: PadPage;
  readonly onPage: (page: PadPage) => void;
  readonly onMore: () => void;
}) => {
  const { where, settings, away, call, pressedAt } = moment;
  const downbeats = settings.tapping === 'downbeats';
  return (
    <aside className="podium-side">
      <nav className="page-keys" aria-label="screens of keys">
        {PAD_PAGES.map((one) => (
          <button
            type="button"
            className="page-key"
            key={one.page}
            aria-pressed={one.page === page}
            onClick={() => onPage(one.page)}
          >
            {one.name}
          </button>
        ))}
      </nav>
      <TapKey
        name="Tap"
        detail={tapWords(where.state, downbeats)}
        disabled={where.state === 'ended'}
        away={away}
        onTap={(stampMs) =>
          call({ kind: 'tap', tappedAtMs: pressedAt(stampMs), ...(downbeats ? { downbeat: true } : {}) })
        }
      />
      <button type="button" className="page-key more-key" aria-haspopup="dialog" onClick={onMore}>
        more
      </button>
    </aside>
  );
};
