import { useEffect, useMemo, useRef, useState } from 'react';
import type { Take } from '../../common/stage/cue.ts';
import { perform } from '../../common/stage/perform.ts';
import type { StageState } from '../state/board.ts';
import type { LinkState } from '../state/link-state.ts';

/** For so long a stand says that the band's place counts again. */
const BACK_MS = 4000;

interface OwnWayOn {
  /** What this stand plays: the band's take or, while the relay is away and the stand was moved, its own. */
  readonly stage: StageState;
  readonly setOwn: (take: Take) => void;
  /** The relay is back, and its place has won over this stand's own. */
  readonly justBack: boolean;
}

/** The stand's own way while the relay is away. */
export const useOwnWay = (band: StageState, link: LinkState): OwnWayOn => {
  const [own, setOwn] = useState<Take | null>(null);
  const [justBack, setJustBack] = useState(false);
  const isOn = link.state === 'on';
  useEffect(() => {
    if (!isOn || own === null) return;
    setOwn(null);
    setJustBack(true);
  }, [isOn, own]);
  useEffect(() => {
    if (!justBack) return;
    const timer = window.setTimeout(() => setJustBack(false), BACK_MS);
    return () => window.clearTimeout(timer);
  }, [justBack]);
  const before = useRef<StageState>(band);
  const stage = useMemo(() => {
    if (own === null) return band;
    return { take: own, performance: perform(own, before.current.performance ?? undefined) };
  }, [own, band]);
  before.current = stage;
  return { stage, setOwn, justBack };
};
