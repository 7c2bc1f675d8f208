import { useEffect, useMemo, useState } from 'react';
import { askHelp } from './ask-help.ts';
import { type FindHelp, type HelpNeeded, helpFinder } from './find-help.ts';

/** What finds the help for a bar; another one each time that something new is known. Null where none is wanted. */
export const useHelp = (needed: HelpNeeded | null): FindHelp | null => {
  const [version, setVersion] = useState(0);
  const finder = useMemo(
    () => needed && helpFinder(needed, askHelp, () => setVersion((one) => one + 1)),
    [needed],
  );
  useEffect(() => () => finder?.close(), [finder]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: lines that are drawn are drawn again when more is known
  return useMemo(() => finder && ((bar) => finder.find(bar)), [finder, version]);
};
