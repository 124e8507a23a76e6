import { looseRuns } from '#book/search.ts';
import { useState } from 'react';
import { BlankStrip } from './blank-strip.tsx';
import { BookBin } from './book-bin.tsx';
import { BookFoot, BookTold } from './book-foot.tsx';
import { BookList } from './book-list.tsx';
import { BookShelf } from './book-shelf.tsx';
import { useAround } from './habits.ts';
import { SampleList } from './sample-list.tsx';
import { notKeptSentence } from './trouble.tsx';
import type { Hovering } from './use-dropped-files.ts';

/** The book: on the first visit a place to lay a log, later every unit. */
export function BookPlace({ hovering }: { hovering: Hovering | null }): React.ReactElement {
  const { desk, state, chooseLogs, bookState } = useAround();
  const { keptProblem, samplesShown } = state;
  const [binShown, setBinShown] = useState(false);
  const [shelfShown, setShelfShown] = useState(false);
  const removed = [...bookState.units, ...bookState.runs, ...bookState.specs, ...bookState.rigs].some(
    ({ removedAt }) => removedAt !== null,
  );
  const empty = bookState.lines.length === 0 && looseRuns(bookState.units, bookState.runs).length === 0;
  if (!empty) return <BookList hovering={hovering} />;
  return (
    <>
      <div className="sheet">
        {keptProblem !== null && <p className="aside-line">{notKeptSentence(keptProblem)}</p>}
        <div className="welcome">
          <h1 tabIndex={-1}>
            <Steady
              now={bookState.loading ? 'Bench book' : null}
              then={
                <>
                  The book is
                  <br />
                  still empty
                </>
              }
            />
          </h1>
          <p className="sentence">
            <Steady
              now={bookState.loading ? 'Looking what is kept here …' : null}
              then="Bring in the log of one run and a pressure band. You get a verdict in words, the reason, and a chart to send out with the unit."
            />
          </p>
        </div>
        <BookTold />
      </div>
      <BlankStrip share={null} hovering={hovering !== null}>
        {hovering === null ? (
          <>
            <h2>Lay a log here</h2>
            <div className="buttons">
              <button type="button" className="button first" onClick={chooseLogs}>
                Choose a file <kbd>N</kbd>
              </button>
              <button
                type="button"
                className="button"
                aria-expanded={samplesShown}
                onClick={() => (samplesShown ? desk.hideSamples() : void desk.showSamples())}
              >
                Try a sample run
              </button>
            </div>
            <p className="second">A table from your logger: .csv, .tsv, .txt, .xlsx</p>
          </>
        ) : (
          <h2>{hovering.count === 1 ? 'Let go to read it' : `Let go to read ${hovering.count} files`}</h2>
        )}
      </BlankStrip>
      <div className="sheet">
        {samplesShown ? (
          <SampleList />
        ) : (
          <div className="three">
            <section>
              <h2>First, what it understood</h2>
              <p>Columns, units and time, before anything is judged. You put right what is wrong.</p>
            </section>
            <section>
              <h2>Then it judges the hot hold</h2>
              <p>Cold and settling parts stay on the chart, named, and are not judged.</p>
            </section>
            <section>
              <h2>It stays in the shop</h2>
              <p>Runs are kept on this computer. Nothing is sent anywhere. It works without a network.</p>
            </section>
          </div>
        )}
        {binShown && <BookBin />}
        {shelfShown && <BookShelf />}
      </div>
      {(removed || bookState.problem === null) && !bookState.loading && (
        <BookFoot
          binShown={binShown}
          onBin={() => setBinShown(!binShown)}
          shelfShown={shelfShown}
          onShelf={() => setShelfShown(!shelfShown)}
          onRecords={null}
          recordsShown={false}
        />
      )}
    </>
  );
}

/** Words that hold the room of those to come: what stands beneath must not move from under a hand that is about to press it. */
function Steady({ now, then }: { now: string | null; then: React.ReactNode }): React.ReactElement {
  if (now === null) return <>{then}</>;
  return (
    <span className="steady">
      <span>{now}</span>
      <span className="steady-room" aria-hidden="true">
        {then}
      </span>
    </span>
  );
}
