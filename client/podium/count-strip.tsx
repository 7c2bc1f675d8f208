import type { Where } from '../../common/stage/place.ts';

/** The count-in on the podium: the beats still to come. */
export const CountStrip = ({ where }: { readonly where: Extract<Where, { state: 'count' }> }) => {
  const left = Math.ceil(where.pulsesToCome - 1e-6);
  return (
    <p className="count-strip">
      Count-in <b>{left === 1 ? '1 beat' : `${left} beats`}</b>
    </p>
  );
};
