import type { Chart } from '../../common/chart/chart.ts';
import { count } from '../../common/form/count.ts';
import { CountLine } from '../engraving/count-line.tsx';
import { TradeSign } from '../engraving/trade-sign.tsx';
import { type Follower, momentKey } from './follower.ts';
import { KeyInWords } from './header.tsx';
import { legWords } from './place-words.ts';
import type { KeyWords } from './reader-key.ts';
import { useMoment } from './use-follower.ts';
import './moments.css';

const everyPulse = ({ where }: { where: Parameters<typeof momentKey>[0] }): string => momentKey(where);

/** The count-in, where the line being played will stand. */
export const CountMoment = ({ follower }: { follower: Follower }) => {
  const { where } = useMoment(follower, everyPulse);
  if (where.state !== 'count') return null;
  return (
    <div className="roll-count">
      <CountLine
        pulsesToCome={where.pulsesToCome}
        countPulses={where.countPulses}
        barPulses={where.barPulses}
      />
    </div>
  );
};

/** Before the count: the tune, its key for this reader, tempo, feel and the road map in one line. */
export const WaitingMoment = ({
  follower,
  title,
  words,
  tempoBpm,
  head,
}: {
  follower: Follower;
  title: string;
  words: KeyWords | null;
  tempoBpm: number | null;
  head: Chart['head'];
}) => {
  const road = follower.source.roadAt(follower.now());
  return (
    <div className="roll-waiting">
      <h2>{title}</h2>
      <p className="waiting-facts">
        {words !== null && (
          <span>
            <KeyInWords words={words} />
          </span>
        )}
        {tempoBpm !== null && (
          <span>
            <TradeSign name="quarter" /> = <b>{tempoBpm}</b>
          </span>
        )}
        {head.time !== undefined && <span>{head.time}</span>}
        {head.feel !== undefined && <span>{head.feel}</span>}
        {road.countBars > 0 && <span>{count(road.countBars, 'bar')} count-in</span>}
      </p>
      <p className="waiting-road">
        {road.legs.map((leg, at) => (
          <span key={leg.id}>
            {legWords(leg)}
            {at < road.legs.length - 1 && ' ·'}{' '}
          </span>
        ))}
      </p>
      {head.by !== undefined && <p className="waiting-by">{head.by}</p>}
    </div>
  );
};

/** Nothing was called yet. */
export const NoTuneMoment = ({ leads }: { leads: string }) => (
  <section className="stand-ended">
    <h2>No tune yet</h2>
    <p className="ended-facts">
      {leads === ''
        ? 'It comes up here when the leader calls one.'
        : `It comes up here when ${leads} calls one.`}
    </p>
  </section>
);
