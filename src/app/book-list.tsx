import { useDeferredValue, useEffect, useMemo, useRef, useState } from 'react';
import { looseRuns, nearestSerial, searcher, type UnitLine } from '#book/search.ts';
import { BookBin } from './book-bin.tsx';
import { BookFoot, BookTold } from './book-foot.tsx';
import { RunRow, UnitRow } from './book-line.tsx';
import { keptWords, runsText, unitsText } from './book-words.ts';
import { BookRecords } from './book-records.tsx';
import { BookShelf } from './book-shelf.tsx';
import { useAround } from './habits.ts';
import { SampleList } from './sample-list.tsx';
import { notKeptSentence } from './trouble.tsx';
import { useKeys } from './use-keys.ts';
import { useUndoKeys } from './use-undo-keys.ts';
import type { Hovering } from './use-dropped-files.ts';

/** So many lines are drawn at once; more as they come into view. */
const LINES_AT_ONCE = 100;

/** Every unit, on the bench first, the last run of each on its line. */
export function BookList({ hovering }: { hovering: Hovering | null }): React.ReactElement {
  const { book, bookState, state, habits, chooseLogs } = useAround();
  const { lines, units, runs } = bookState;
  const [query, setQuery] = useState('');
  const asked = useDeferredValue(query);
  const [binShown, setBinShown] = useState(false);
  const [shelfShown, setShelfShown] = useState(false);
  const [recordsShown, setRecordsShown] = useState(false);
  const field = useRef<HTMLInputElement>(null);
  const list = useRef<HTMLDivElement>(null);
  const search = useMemo(() => searcher(lines), [lines]);
  const found = useMemo(() => search(asked), [search, asked]);
  const words = useMemo(() => asked.toLowerCase().split(/\s+/u), [asked]);
  const withoutUnit = useMemo(() => looseRuns(units, runs), [units, runs]);
  const loose = asked.trim() === '' ? withoutUnit : [];
  const onBench = found.filter(({ unit }) => unit.goneOutOn === null);
  const gone = found
    .filter(({ unit }) => unit.goneOutOn !== null)
    .sort((a, b) => ((a.unit.goneOutOn ?? '') < (b.unit.goneOutOn ?? '') ? 1 : -1));
  const kept = keptWords(bookState, bookState.today);

  const step = (by: 1 | -1): void => {
    const links = [...(list.current?.querySelectorAll<HTMLElement>('a.book-line') ?? [])];
    const at = links.findIndex((link) => link === document.activeElement);
    const next = links[at === -1 ? (by === 1 ? 0 : links.length - 1) : at + by];
    next?.focus();
    next?.scrollIntoView({ block: 'nearest' });
  };
  useKeys(habits.keys, { '/': () => field.current?.focus() });
  useKeys(true, { ArrowDown: () => step(1), ArrowUp: () => step(-1) });
  useUndoKeys(book);

  return (
    <>
      <div className="sheet">
        {kept.asks && (
          <p className="aside-line" role="status">
            {bookState.lastCopy === null
              ? 'No copy of the book was ever put aside. If this disk fails, it is gone. '
              : 'The last copy of the book is over 14 days old. '}
            <button type="button" className="link" onClick={() => void book.putCopyAside()}>
              Put a copy aside now?
            </button>
          </p>
        )}
        {hovering !== null && (
          <p className="aside-line let-go">
            {hovering.count === 1 ? 'Let go to read it.' : `Let go to read ${hovering.count} files.`}
          </p>
        )}
        <div className="book-head">
          <h1 tabIndex={-1}>Bench book</h1>
          <input
            ref={field}
            type="search"
            aria-label="Find a unit"
            placeholder="Find a serial, a customer or a month"
            autoComplete="off"
            value={query}
            onChange={(event) => setQuery(event.currentTarget.value)}
            onKeyDown={(event) => {
              if (event.key !== 'ArrowDown') return;
              event.preventDefault();
              step(1);
            }}
          />
          <button type="button" className="button first" onClick={chooseLogs}>
            Bring in a log <kbd>N</kbd>
          </button>
        </div>
        {state.keptProblem !== null && <p className="aside-line">{notKeptSentence(state.keptProblem)}</p>}
        <BookTold />
        <div ref={list}>
          {asked.trim() !== '' && (
            <p className="unseen" role="status">
              {unitsText(found.length)} found.
            </p>
          )}
          {asked.trim() !== '' && found.length === 0 && (
            <p className="part nothing-found">
              No unit matches ‘{asked.trim()}’.{' '}
              <Nearest lines={lines} query={asked} onTake={(serial) => setQuery(serial)} />
            </p>
          )}
          {loose.length > 0 && (
            <section aria-labelledby="loose">
              <h2 id="loose" className="book-part">
                Not given to a unit <span className="second">{runsText(loose.length)}</span>
              </h2>
              <ul>
                {loose.map((run) => (
                  <li key={run.id}>
                    <RunRow run={run} byUnit={false} />
                    <details className="loose-run">
                      <summary>Give it to a unit</summary>
                      <GiveTo runId={run.id} />
                    </details>
                  </li>
                ))}
              </ul>
            </section>
          )}
          {(onBench.length > 0 || asked.trim() === '') && (
            <Part
              id="on-bench"
              title="On the bench"
              said={`${unitsText(onBench.length)}, not yet gone out`}
              lines={onBench}
              words={words}
            />
          )}
          {gone.length > 0 && (
            <Part
              id="gone-out"
              title="Gone out"
              said={`${unitsText(gone.length)}, newest first`}
              lines={gone}
              words={words}
            />
          )}
        </div>
        {binShown && <BookBin />}
        {shelfShown && <BookShelf />}
        {recordsShown && <BookRecords />}
        {state.samplesShown && <SampleList />}
        <div className="below" />
      </div>
      <BookFoot
        binShown={binShown}
        onBin={() => setBinShown(!binShown)}
        shelfShown={shelfShown}
        onShelf={() => setShelfShown(!shelfShown)}
        onRecords={() => setRecordsShown(!recordsShown)}
        recordsShown={recordsShown}
      />
    </>
  );
}

function Nearest(props: {
  lines: readonly UnitLine[];
  query: string;
  onTake: (serial: string) => void;
}): React.ReactElement | null {
  const serial = nearestSerial(props.lines, props.query);
  if (serial === null) return null;
  return (
    <>
      Nearest:{' '}
      <button type="button" className="link" onClick={() => props.onTake(serial)}>
        {serial}
      </button>
      .
    </>
  );
}

/** A part of the list; beyond the first lines the rest is drawn as it comes into view. */
function Part(props: {
  id: string;
  title: string;
  said: string;
  lines: readonly UnitLine[];
  words: readonly string[];
}): React.ReactElement {
  const { lines } = props;
  const [shown, setShown] = useState(LINES_AT_ONCE);
  const end = useRef<HTMLLIElement>(null);
  const more = lines.length > shown;
  useEffect(() => {
    const mark = end.current;
    if (mark === null) return undefined;
    const watch = new IntersectionObserver(
      (seen) => {
        if (seen.some(({ isIntersecting }) => isIntersecting)) setShown((count) => count + LINES_AT_ONCE);
      },
      { rootMargin: '1200px' },
    );
    watch.observe(mark);
    return () => watch.disconnect();
  }, [shown, more]);
  return (
    <section aria-labelledby={props.id}>
      <h2 id={props.id} className="book-part">
        {props.title} <span className="second">{props.said}</span>
      </h2>
      <ul>
        {lines.slice(0, shown).map((line) => (
          <UnitRow key={line.unit.id} line={line} words={props.words} />
        ))}
        {more && (
          <li ref={end} key="more" className="second more-lines">
            {lines.length - shown} more …
          </li>
        )}
      </ul>
    </section>
  );
}

/** Asks for the serial of the unit that a run belongs to. */
export function GiveTo({ runId }: { runId: string }): React.ReactElement | null {
  const { book, bookState } = useAround();
  const [serial, setSerial] = useState('');
  const run = bookState.runs.find(({ id }) => id === runId);
  if (run === undefined) return null;
  const another = run.unitId !== null;
  return (
    <form
      className="give-to"
      onSubmit={(event) => {
        event.preventDefault();
        if (serial.trim() !== '') void book.giveTo(run, serial);
      }}
    >
      <label>
        <span className="field-name">
          {another ? 'Serial of another unit, if it is not of this one' : 'Serial of its unit'}
        </span>
        <input
          value={serial}
          list="known-serials"
          autoComplete="off"
          onChange={(event) => setSerial(event.currentTarget.value)}
        />
      </label>
      <KnownSerials />
      <button type="submit" className="button">
        {another ? 'Give it to that unit' : 'Give it to this unit'}
      </button>
    </form>
  );
}

/** The serials in the book, for fields that ask for one. */
export function KnownSerials(): React.ReactElement {
  const { bookState } = useAround();
  return (
    <datalist id="known-serials">
      {bookState.lines.slice(0, LINES_AT_ONCE).map(({ unit }) => (
        <option key={unit.id} value={unit.record.unit?.serial ?? ''} />
      ))}
    </datalist>
  );
}
