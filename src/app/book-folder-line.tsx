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
      {newer.length > 0 && (
        <>
          {' '}
          {newer.length === 1 ? 'One entry is' : `${newer.length} entries are`} newer in the folder and{' '}
          {newer.length === 1 ? 'was left as it is' : 'were left as they are'}.
        </>
      )}
      {joined.length > 0 && (
        <>
          {' '}
          In the folder{' '}
          {joined.length === 1 ? 'one entry has a verdict' : `${joined.length} entries have verdicts`} that
          this book has not: there both are kept, under numbers of their own.
        </>
      )}
      {newer.length + joined.length > 0 && (
        <>
          {' '}
          <button type="button" className="link" onClick={() => void book.lookAtFolder()}>
            Look at what would come from there
          </button>
        </>
      )}{' '}
      <button type="button" className="link" onClick={() => void book.unlinkFolder()}>
        Stop keeping it
      </button>
    </p>
  );
}
