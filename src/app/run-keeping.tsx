import { useAround } from './habits.ts';
import type { Run } from './state.ts';
import { notKeptSentence } from './trouble.tsx';

/** Whether what lies on the sheet is what the book holds: not kept and why, or overtaken by another window; with the ways on. */
export function RunKeeping({ run }: { run: Run }): React.ReactElement | null {
  const { desk, bookState, openRun } = useAround();
  const entry = bookState.runs.find(({ id }) => id === run.id);
  const show =
    run.id === null ? null : (
      <button
        type="button"
        className="link"
        onClick={() => {
          if (run.id !== null) openRun(run.id);
        }}
      >
        Show what is kept
      </button>
    );
  if (run.kept !== 'kept' && run.kept !== 'keeping') {
    const overtaken = run.kept.code === 'changed-elsewhere';
    return (
      <p className="aside-line not-kept" role="alert">
        {notKeptSentence(run.kept)} {overtaken && entry?.removedAt === null && <>{show} </>}
        <button
          type="button"
          className="link"
          onClick={() => void (overtaken ? desk.keepAllTheSame() : desk.keep(run))}
        >
          {overtaken ? 'Keep this one as well' : 'Try again'}
        </button>
      </p>
    );
  }
  if (run.kept !== 'kept' || entry === undefined || run.seen === null) return null;
  if (entry.removedAt !== null)
    return (
      <p className="aside-line not-kept" role="status">
        This run lies in the bin. It can be put back there, under Removed.
      </p>
    );
  if (entry.assessments.at(-1)?.sha256 === run.seen.verdict) return null;
  return (
    <p className="aside-line not-kept" role="status">
      Another window came to a later verdict on this run. {show}
    </p>
  );
}
