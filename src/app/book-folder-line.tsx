import { dayText } from './book-words.ts';
import { leftText } from './going.ts';
import { useAround } from './habits.ts';

/** The folder that the book is kept up to date in: how it stands, and what it waits for. */
export function BookFolderLine(): React.ReactElement | null {
  const { book, bookState } = useAround();
  const { folder, today } = bookState;
  if (folder === null) return null;
  const { name, at, upTo, progress, newer, joined } = folder;
  const last = upTo === null ? '' : ` It was last up to date ${dayText(upTo, today)}.`;
  const wrong = typeof at === 'object';
  return (
    <p className={`aside-line${wrong ? ' not-kept' : ''}`} role={wrong ? 'alert' : 'status'}>
      {at === 'writing' && (
        <>
          The folder “{name}” is being brought up to date
          {progress === null ? '' : `: ${progress.done} of ${progress.total}${leftText(progress)}`} …
        </>
      )}
      {at === 'up-to-date' && <>The folder “{name}” is up to date with the book.</>}
      {at === 'asks' && (
        <>
          The folder “{name}” waits: this browser wants to be asked again before it writes there.{last}{' '}
          <button type="button" className="link" onClick={() => void book.goOnWithFolder()}>
            Go on keeping it
          </button>
        </>
      )}
      {typeof at === 'object' && (
        <>
          The folder “{name}” could not be brought up to date: {at.problem}.{last} The book itself is kept
          here as before.{' '}
          <button type="button" className="link" onClick={() => void book.goOnWithFolder()}>
            Try again
          </button>
        </>
      )}
      {newer > 0 && (
        <>
          {' '}
          {newer === 1 ? 'One entry is' : `${newer} entries are`} newer in the folder and{' '}
          {newer === 1 ? 'was' : 'were'} left as {newer === 1 ? 'it is' : 'they are'}: zip the folder and
          bring it back as a copy to have {newer === 1 ? 'it' : 'them'} here.
        </>
      )}
      {joined > 0 && (
        <>
          {' '}
          In the folder {joined === 1 ? 'one entry has a verdict' : `${joined} entries have verdicts`} that
          this book has not: there both are kept, under numbers of their own. Zip the folder and bring it back
          as a copy to have {joined === 1 ? 'it' : 'them'} here as well.
        </>
      )}{' '}
      <button type="button" className="link" onClick={() => void book.unlinkFolder()}>
        Stop keeping it
      </button>
    </p>
  );
}
