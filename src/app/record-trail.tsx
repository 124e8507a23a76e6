import { stackText } from './shown-numbers.ts';
import type { Adjustment } from '#formats/unit-record.ts';
import { dayText } from './book-words.ts';
import { useAround } from './habits.ts';
import { tellsOf, type KnownChanges } from './use-known-changes.ts';

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
  const told = tellsOf(props.known, adjustments);
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
