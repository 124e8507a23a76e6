import { useState } from 'react';
import { BIN_DAYS, type Removable } from './book-desk.ts';
import { newestRig, newestSpec } from './book-shelf-desk.ts';
import { logName } from '#book/new-run.ts';
import { dayText } from './book-words.ts';
import { useAround } from './habits.ts';
import { useComeIntoView } from './use-come-into-view.ts';

/** What was removed, until it is emptied or its days are over. */
export function BookBin(): React.ReactElement {
  const { book, bookState } = useAround();
  const heading = useComeIntoView();
  const [asks, setAsks] = useState(false);
  const removed = [...bookState.units, ...bookState.runs, ...bookState.specs, ...bookState.rigs]
    .filter(({ removedAt }) => removedAt !== null)
    .sort((a, b) => ((a.removedAt ?? '') < (b.removedAt ?? '') ? 1 : -1));
  return (
    <section className="part opens" aria-labelledby="removed">
      <h2 id="removed" ref={heading} tabIndex={-1}>
        Removed
      </h2>
      <p className="second">Kept {BIN_DAYS} days, then taken out for good.</p>
      <ul className="bin">
        {removed.length === 0 && <li>Nothing.</li>}
        {removed.map((entry) => {
          const name = nameOf(entry);
          return (
            <li key={entry.id}>
              <span>
                {name}{' '}
                <span className="second">removed {dayText(entry.removedAt ?? '', bookState.today)}</span>
              </span>
              <button
                type="button"
                className="link"
                aria-label={`Put back ${name}`}
                onClick={() => void book.putBack(entry)}
              >
                Put back
              </button>
            </li>
          );
        })}
      </ul>
      {removed.length > 0 && !asks && (
        <button type="button" className="button" onClick={() => setAsks(true)}>
          Empty: take all {removed.length} out for good
        </button>
      )}
      {asks && removed.length > 0 && (
        <div role="group" aria-labelledby="bin-asks">
          <p id="bin-asks" role="alert">
            Their logs and verdicts will be gone from this book, and nothing here can bring them back; only a
            copy that was put aside before can.
          </p>
          <div className="buttons">
            <button
              type="button"
              className="button"
              onClick={() => {
                setAsks(false);
                void book.emptyBin();
              }}
            >
              Take {removed.length === 1 ? 'it' : `all ${removed.length}`} out
            </button>
            <button type="button" className="button first" onClick={() => setAsks(false)}>
              Leave {removed.length === 1 ? 'it' : 'them'}
            </button>
          </div>
        </div>
      )}
    </section>
  );
}

function nameOf(entry: Removable): string {
  switch (entry.format) {
    case 'overdrive-bench/book-unit':
      return `Unit ${entry.record.unit?.serial ?? 'without a serial'}`;
    case 'overdrive-bench/book-run':
      return `Run ${logName(entry) ?? 'without a name'}`;
    case 'overdrive-bench/book-spec':
      return `Limits ${newestSpec(entry)?.name ?? ''}`;
    case 'overdrive-bench/book-rig':
      return `Bench ${newestRig(entry)?.name ?? ''}`;
  }
}
