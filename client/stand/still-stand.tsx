import { useState } from 'react';
import type { FoundSpots } from './find-lost-spots.ts';
import { NoTuneMoment } from './moments.tsx';
import { semitonesFor } from './reader-key.ts';
import type { StandViewProps } from './stand-props.ts';
import { useReader } from './use-reader.ts';

/** A chart that is only read, or no tune at all. */
export const StillStand = (props: StandViewProps) => {
  const { chart, music, later, pointed } = props;
  const { read } = useReader(props);
  const [found, setFound] = useState<FoundSpots | null>(null);
  if (props.title === '') return <NoTuneMoment leads={props.leads} />;
  if (chart === null || music === null || later === null) {
    return <p className="stand-loading">One moment …</p>;
  }
  return (
    <>
      <later.LostFinder
        link={props.link}
        road={null}
        chart={chart}
        music={music}
        said={props.said}
        semitones={semitonesFor(props.settings)}
        onFound={setFound}
      />
      <later.Page
        chart={chart}
        music={music}
        read={read}
        pointed={pointed}
        lost={found?.ids ?? null}
        follower={null}
      />
    </>
  );
};
