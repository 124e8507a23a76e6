import { useEffect, useState } from 'react';
import { stackText } from '#formats/advice-words.ts';
import { writeJson } from '#formats/number.ts';
import type { Adjustment } from '#formats/unit-record.ts';
import { dayText } from './book-words.ts';
import { useAround } from './habits.ts';
import { useRelief } from './relief-around.ts';
import { changesUpTo } from './relief-stock.ts';

/** Changes of the setting that the record tells of, and those that the relief card knows of and the record does not yet. */
export function RecordTrail(props: {
  /** The run's id in the book. */
  run: string | null;
  adjustments: Adjustment[];
  onTake: (adjustments: Adjustment[]) => void;
}): React.ReactElement | null {
  const { run, adjustments, onTake } = props;
  const { bookState } = useAround();
  const { relief } = useRelief();
  const [known, setKnown] = useState<Adjustment[]>([]);
  useEffect(() => {
    let left = false;
    if (run !== null)
      void relief.trailOf(run).then((trail) => {
        if (!left && trail !== null) setKnown(changesUpTo(trail));
      });
    return () => void (left = true);
  }, [relief, run]);
  const missing = known.length > 0 && writeJson(known) !== writeJson(adjustments);
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
