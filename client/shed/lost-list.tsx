import type { RankedSpot } from '../../common/form/lost-spots/lost-spots.ts';
import type { Road } from '../../common/form/road.ts';
import { SpelledText } from '../engraving/spelled-text.tsx';

export interface LostListProps {
  readonly road: Road;
  readonly ofLeg: ReadonlyMap<string, readonly RankedSpot[]>;
}

/** Where one gets lost, the likeliest first, each spot once however many legs it lies in. */
export const LostList = ({ road, ofLeg }: LostListProps) => {
  const spots = new Map<string, { readonly spot: RankedSpot; readonly legs: string[] }>();
  for (const { id, name } of road.legs) {
    for (const spot of ofLeg.get(id) ?? []) {
      const known = spots.get(spot.id);
      if (known === undefined) spots.set(spot.id, { spot, legs: [name] });
      else if (!known.legs.includes(name)) known.legs.push(name);
    }
  }
  const ranked = [...spots.values()].sort((one, other) => other.spot.weight - one.spot.weight);
  return (
    <section className="studied-lost" aria-label="lost spots">
      <h2>Where one gets lost</h2>
      {ranked.length === 0 && <p className="dim">Nowhere that can be seen in what is written.</p>}
      <ol>
        {ranked.map(({ spot, legs }) => (
          <li key={spot.id}>
            <b>
              <SpelledText text={spot.announce} />
            </b>{' '}
            <span className="dim">
              <SpelledText text={spot.reason} /> · {legs.join(', ')}
            </span>
          </li>
        ))}
      </ol>
    </section>
  );
};
