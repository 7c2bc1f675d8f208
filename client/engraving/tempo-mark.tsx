import { TradeSign } from './trade-sign.tsx';

/** The pulse before a tempo, `♩ =` or `♩. =`; nothing where the metre is not known. */
export const TempoMark = ({ isCompound }: { readonly isCompound: boolean | undefined }) =>
  isCompound !== undefined && (
    <>
      <TradeSign name="quarter" />
      {isCompound && '.'} ={' '}
    </>
  );
