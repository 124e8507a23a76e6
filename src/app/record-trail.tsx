import { useEffect, useState } from 'react';
import { stackText } from '#formats/advice-words.ts';
import { writeJson } from '#formats/number.ts';
import type { Adjustment } from '#formats/unit-record.ts';
import { dayText } from './book-words.ts';
import { useAround } from './habits.ts';
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

/** Whether a record tells of these changes: then the test before the last of them can be drawn. */
export const tells = (adjustments: readonly Adjustment[], known: KnownChanges): boolean =>
  known.adjustments.length > 0 && writeJson(known.adjustments) === writeJson(adjustments);

/** Changes of the setting that the record tells of, and those that the relief card knows of and the record does not yet. */
export function RecordTrail(props: {
  known: KnownChanges;
  adjustments: Adjustment[];
  onTake: (adjustments: Adjustment[]) => void;
  /** Whether the test before the last change is drawn beside this one. */
  firstTestDrawn: boolean;
  onDraw: (drawn: boolean) => void;
}): React.ReactElement | null {
  const { adjustments, onTake, firstTestDrawn, onDraw } = props;
  const { bookState } = useAround();
  const known = props.known.adjustments;
  const told = tells(adjustments, props.known);
  const missing = known.length > 0 && !told;
  if (adjustments.length === 0 && !missing) return null;
  const list = (changes: Adjustment[]): React.ReactElement => (
    <ul>
      {changes.map((change, index) => (
        <li key={`${index} ${change.date ?? ''}`}>
          {stackText(change.before_mm)} to {stackText(change.after_mm)}
          <span className="second">
            {[change.date === undefined ? '' : dayText(change.date, bookState.today), change.by ?? '']
              .filter((part) => part !== '')
              .map((part) => `, ${part}`)
              .join('')}
          </span>
        </li>
      ))}
    </ul>
  );
  return (
    <fieldset className="record-trail">
      <legend>
        <h2>Changes of the setting</h2>
      </legend>
      {adjustments.length > 0 && (
        <>
          {list(adjustments)}
          <button type="button" className="link" onClick={() => onTake([])}>
            Leave {adjustments.length === 1 ? 'it' : 'them'} out of the record
          </button>
          {told && props.known.firstTest !== null && (
            <label>
              <input
                type="checkbox"
                checked={firstTestDrawn}
                onChange={(event) => onDraw(event.currentTarget.checked)}
              />{' '}
              Draw the test before {known.length === 1 ? 'the change' : 'the last change'} beside this one
            </label>
          )}
        </>
      )}
      {missing && (
        <>
          <p className="second">
            {adjustments.length === 0 ? 'The relief card has:' : 'The relief card has other changes now:'}
          </p>
          {list(known)}
          <button type="button" className="button" onClick={() => onTake(known)}>
            Take {known.length === 1 ? 'this change' : `these ${known.length} changes`} into the record
          </button>
        </>
      )}
    </fieldset>
  );
}
