import { useEffect, useState } from 'react';
import { writeJson } from '#formats/number.ts';
import type { Adjustment } from '#formats/unit-record.ts';
import { useRelief } from './relief-around.ts';
import { changesUpTo, firstTestOf } from './relief-stock.ts';

/** What the relief card knows of the changes that led to a run, and the test before the last of them. */
export interface KnownChanges {
  adjustments: Adjustment[];
  /** Id of its run. */
  firstTest: string | null;
}

/** @param run the run's id in the book */
export function useKnownChanges(run: string | null): KnownChanges {
  const { relief } = useRelief();
  const [known, setKnown] = useState<KnownChanges>({ adjustments: [], firstTest: null });
  useEffect(() => {
    let left = false;
    if (run !== null)
      void relief.trailOf(run).then((trail) => {
        if (!left && trail !== null)
          setKnown({ adjustments: changesUpTo(trail), firstTest: firstTestOf(trail) });
      });
    return () => void (left = true);
  }, [relief, run]);
  return known;
}

/** Whether a record tells of just these changes: then the test before the last of them can be drawn. */
export const tellsOf = (known: KnownChanges, adjustments: readonly Adjustment[]): boolean =>
  known.adjustments.length > 0 && writeJson(known.adjustments) === writeJson(adjustments);
