import { useRef, useState } from 'react';
import { BIN_DAYS, type Bringing, type Look } from './book-desk.ts';
import { BookFolderLine } from './book-folder-line.tsx';
import { dayText } from './book-words.ts';
import { shareText, type Going } from './going.ts';
import { GoingLine } from './going-line.tsx';
import { useAround } from './habits.ts';
import { useComeIntoView } from './use-come-into-view.ts';

/** What was just done, or why not; with the way back. */
export function BookTold(): React.ReactElement | null {
  const { book, bookState } = useAround();
  const { told, copying, recording, look, bringing, problem, damaged, shopComing } = bookState;
  return (
    <>
      {problem !== null && (
        <p className="aside-line not-kept" role="alert">
          {problem.code === 'not-kept'
            ? `Nothing is kept: this browser refuses to store the book (${problem.reason}). A private window, or storage switched off, does that. Runs can be judged and saved as files; they are gone when the page is closed.`
            : 'The book cannot be read.'}
        </p>
      )}
      {damaged > 0 && (
        <p className="aside-line not-kept" role="alert">
          {damaged === 1 ? 'One entry of the book' : `${damaged} entries of the book`} cannot be read and{' '}
          {damaged === 1 ? 'is' : 'are'} not shown. Bring a copy back: what is damaged is mended from it.
        </p>
      )}
      {bookState.later > 0 && (
        <p className="aside-line not-kept" role="alert">
          {bookState.later === 1
            ? 'One entry of the book was'
            : `${bookState.later} entries of the book were`}{' '}
          written by a later version of this program and cannot be shown by this one. Nothing is lost: load
          the page anew to get that version.
        </p>
      )}
      <div className="told" role="status">
        {told !== null && (
          <p className={`aside-line${told.wrong ? ' not-kept' : ''}`}>
            {told.text}{' '}
            {told.canPutBack && bookState.canUndo && (
              <button type="button" className="link" onClick={() => void book.undo()}>
                Put back <kbd>Ctrl Z</kbd>
              </button>
            )}
          </p>
        )}
        {copying !== null && (
          <GoingLine
            text={`Putting a copy aside: ${copying.done} of ${copying.total} files`}
            going={copying}
            onStop={() => book.stopCopy()}
          />
        )}
        {recording !== null && (
          <GoingLine
            text={`Making records: ${recording.done} of ${recording.total}`}
            going={recording}
            onStop={() => book.stopRecords()}
          />
        )}
        {bringing !== null && look === null && <BringingLine bringing={bringing} />}
        {shopComing !== null && (
          <GoingLine
            text={`The sample shop comes in: ${shopComing.done} of ${shopComing.total} runs`}
            going={shopComing}
            onStop={() => book.stopSampleShop()}
          />
        )}
      </div>
      {look !== null && <CopyPlan look={look} />}
      <BookFolderLine />
    </>
  );
}

/** A copy that is being looked at or brought back: how far it is. */
function BringingLine({ bringing }: { bringing: Bringing }): React.ReactElement {
  const { book } = useAround();
  const { name, what, going } = bringing;
  const doing = {
    look: `Looking at ${name}`,
    bring: `Bringing ${name} back`,
    back: `Putting back as before ${name}`,
  }[what];
  return (
    <GoingLine
      text={`${doing}${going === null ? '' : `: ${stageText(going)}`}`}
      going={going}
      onStop={() => book.stopBringing()}
    />
  );
}

function stageText(going: Going): string {
  const { stage, done, total } = going;
  if (stage === 'reading') return `reading it, ${shareText(going)}`;
  if (stage === 'checking') return `checking its logs and verdicts, ${done} of ${total} runs`;
  if (stage === 'comparing') return `comparing with the book, ${done} of ${total} entries`;
  return `${done} of ${total} entries written`;
}

/** What bringing a copy back would change, before anything does. */
function CopyPlan({ look }: { look: Look }): React.ReactElement {
  const { book, bookState } = useAround();
  const { bringing } = bookState;
  const { steps, left, twice } = look.plan;
  // The button that asks for it stands in the foot, the list may be scrolled far from here.
  const heading = useComeIntoView();
  const of = (what: string): typeof steps => steps.filter((step) => step.what === what);
  const groups: readonly (readonly [string, typeof steps])[] = [
    ['Would come in', of('add')],
    ['Would take the place of an older one here', of('replace')],
    ['Would be kept with what both hold', of('join')],
    ['Is damaged here and would be mended', of('mend')],
    ['Is newer here and stays', of('keep')],
  ];
  const nothing = steps.every(({ what }) => what === 'keep' || what === 'same');
  return (
    <section className="part look closes" aria-labelledby="look-title">
      <h2 id="look-title" ref={heading} tabIndex={-1}>
        What {look.name} would change
      </h2>
      <p className="second">
        Nothing is taken out of the book, and one step puts back what was before. {of('same').length} of{' '}
        {steps.length} entries are the same here.
      </p>
      {groups.map(([title, entries]) =>
        entries.length === 0 ? null : (
          <details key={title} open={entries.length <= 12}>
            <summary>
              {title}: {entries.length}
            </summary>
            <ul>
              {entries.map(({ name }, index) => (
                // Two runs may have the same name; the list never changes while it is shown.
                <li key={`${name} ${index}`}>{name}</li>
              ))}
            </ul>
          </details>
        ),
      )}
      {twice.length > 0 && (
        <details open={twice.length <= 12}>
          <summary>Would stand on two units: {twice.length}</summary>
          <p className="second">
            The copy has a unit of its own with this serial. Both are kept, each with its runs; the unit’s
            page says so, and a run can be given to the other there.
          </p>
          <ul>
            {twice.map((serial) => (
              <li key={serial}>{serial}</li>
            ))}
          </ul>
        </details>
      )}
      {left.length > 0 && (
        <details open>
          <summary>Damaged in the copy, and left out: {left.length}</summary>
          <ul>
            {left.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </details>
      )}
      {bringing !== null ? (
        <div role="status">
          <BringingLine bringing={bringing} />
        </div>
      ) : (
        <div className="buttons">
          {nothing ? (
            <p>There is nothing in it to bring back.</p>
          ) : (
            <button type="button" className="button first" onClick={() => void book.bringCopyBack()}>
              Bring it back
            </button>
          )}
          <button type="button" className="button" onClick={() => book.leaveCopy()}>
            {nothing ? 'Close' : 'Leave it'}
          </button>
        </div>
      )}
    </section>
  );
}

/** Copies, and what was removed. */
export function BookFoot(props: {
  binShown: boolean;
  onBin: () => void;
  shelfShown: boolean;
  onShelf: () => void;
  /** null: there is nothing to make records of. */
  onRecords: (() => void) | null;
  recordsShown: boolean;
}): React.ReactElement {
  const { binShown, onBin, shelfShown, onShelf, onRecords, recordsShown } = props;
  const { book, bookState, desk, state } = useAround();
  const chooser = useRef<HTMLInputElement>(null);
  const removed = [...bookState.units, ...bookState.runs, ...bookState.specs, ...bookState.rigs].filter(
    ({ removedAt }) => removedAt !== null,
  ).length;
  const empty = bookState.units.length + bookState.runs.length === removed;
  return (
    <div className="foot whole-book" role="group" aria-label="The book as a whole">
      <button
        type="button"
        className="button"
        disabled={bookState.units.length + bookState.runs.length === 0}
        // Not disabled meanwhile: it keeps the keyboard, and is there again when the copy is.
        aria-disabled={bookState.copying !== null}
        onClick={() => void book.putCopyAside()}
      >
        Put a copy aside
      </button>
      {onRecords !== null && (
        <button type="button" className="link" aria-expanded={recordsShown} onClick={onRecords}>
          Records of a day
        </button>
      )}
      <button
        type="button"
        className="link"
        disabled={(bookState.bringing?.what ?? 'look') !== 'look'}
        onClick={() => chooser.current?.click()}
      >
        Bring a copy back
      </button>
      <input
        ref={chooser}
        type="file"
        hidden
        accept=".zip,application/zip"
        aria-label="A copy of a book"
        onChange={(event) => {
          const file = event.currentTarget.files?.[0];
          if (file !== undefined) void book.lookAtCopy(file);
          event.currentTarget.value = '';
        }}
      />
      <BeforeCopy />
      {(removed > 0 || binShown) && (
        <button type="button" className="link" aria-expanded={binShown} onClick={onBin}>
          Removed: {removed}
        </button>
      )}
      {bookState.canLink && bookState.folder === null && (
        <button type="button" className="link" onClick={() => void book.linkFolder()}>
          Keep a folder up to date
        </button>
      )}
      {(shelfShown || !empty || bookState.specs.length + bookState.rigs.length > 0) && (
        <button type="button" className="link" aria-expanded={shelfShown} onClick={onShelf}>
          Limits and benches
        </button>
      )}
      <SampleShop />
      {!empty && (
        <>
          <button
            type="button"
            className="link foot-aside"
            aria-expanded={state.samplesShown}
            onClick={() => (state.samplesShown ? desk.hideSamples() : void desk.showSamples())}
          >
            Try a sample run
          </button>
          <span className="second foot-aside">Arrow keys choose, Enter opens, / finds</span>
        </>
      )}
    </div>
  );
}

/** The copy that was brought back last, taken back as a whole; asked before. */
function BeforeCopy(): React.ReactElement | null {
  const { book, bookState } = useAround();
  const [asks, setAsks] = useState(false);
  const { broughtBack, today } = bookState;
  // As long as the bin keeps what was removed; later the book has grown past it.
  if (broughtBack === null || today.getTime() - Date.parse(broughtBack.at) > BIN_DAYS * 86_400_000)
    return null;
  const { name, at, came, changed } = broughtBack;
  if (!asks)
    return (
      <button type="button" className="link" onClick={() => setAsks(true)}>
        Put back as before {name}
      </button>
    );
  return (
    <span role="group" aria-label={`Put back as before ${name}?`}>
      {name} was brought back {dayText(at, today)}: {came}{' '}
      {came === 1 ? 'entry that came' : 'entries that came'} in would go out again, {changed} would be as
      before. What was changed since stays.{' '}
      <button
        type="button"
        className="link"
        onClick={() => {
          setAsks(false);
          void book.putBackBeforeCopy();
        }}
      >
        Put it back
      </button>{' '}
      <button type="button" className="link" onClick={() => setAsks(false)}>
        Leave it
      </button>
    </span>
  );
}

/** The invented shop: into the book and out of it again, asked before. */
function SampleShop(): React.ReactElement | null {
  const { book, bookState } = useAround();
  const [asks, setAsks] = useState(false);
  const { loading, problem, shopComing } = bookState;
  const there = bookState.runs.some(({ id }) => id.startsWith('sample-'));
  const own = bookState.runs.some(({ id, removedAt }) => removedAt === null && !id.startsWith('sample-'));
  if (loading || problem !== null || shopComing !== null) return null;
  // A shop with runs of its own is past looking at an invented one.
  if (!there)
    return own ? null : (
      <button type="button" className="link" onClick={() => void book.bringSampleShop()}>
        Look at a sample shop
      </button>
    );
  if (!asks)
    return (
      <button type="button" className="link" onClick={() => setAsks(true)}>
        Take the sample shop out
      </button>
    );
  return (
    <span role="group" aria-label="Take the sample shop out?">
      All its invented units and runs go, and what was noted on them.{' '}
      <button
        type="button"
        className="link"
        onClick={() => {
          setAsks(false);
          void book.removeSampleShop();
        }}
      >
        Take it out
      </button>{' '}
      <button type="button" className="link" onClick={() => setAsks(false)}>
        Leave it
      </button>
    </span>
  );
}
