import { useEffect, useState } from 'react';
import type { LegHelp } from '../../../common/help/help.ts';
import { askHelp } from './ask-help.ts';
import type { HelpQuestion } from './help-worker.ts';

/** The help for every leg of a road; what was found before stands until it is found anew. Null at first. */
export const useRoadHelp = (question: Omit<HelpQuestion, 'id'> | null): readonly LegHelp[] | null => {
  const [legs, setLegs] = useState<readonly LegHelp[] | null>(null);
  useEffect(() => (question === null ? undefined : askHelp(question, setLegs)), [question]);
  return question === null ? null : legs;
};
