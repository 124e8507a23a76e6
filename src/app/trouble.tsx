import { problemSentence } from '#formats/problem.ts';
import type { BookProblem } from '#worker/messages.ts';
import type { Trouble } from './state.ts';

/** What went wrong, where it went wrong: what, where, what would mend it, and what to do next. */
export function TroubleLine(props: { trouble: Trouble; children?: React.ReactNode }): React.ReactElement {
  const { trouble } = props;
  return (
    <div className="trouble" role="alert">
      {trouble.kind === 'problems' ? (
        trouble.problems.map((problem) => <p key={problemSentence(problem)}>{problemSentence(problem)}</p>)
      ) : (
        <>
          <p>
            Something in this program went wrong, and it is not your file’s fault. Nothing was judged and
            nothing was changed. Try again; if it happens again, keep the file and the next line for whoever
            looks after the program.
          </p>
          <p className="second">{trouble.message}</p>
        </>
      )}
      <div className="actions">{props.children}</div>
    </div>
  );
}

/** Why a run is not kept, in plain words. */
export function notKeptSentence(problem: BookProblem): string {
  switch (problem.code) {
    case 'no-room':
      return 'The run could not be kept: the disk, or this browser’s share of it, is full. It is still here on the sheet. Save the record and the log before closing the page.';
    case 'not-kept':
      return `The run is not kept: this browser refuses to store it (${problem.reason}). It is still here on the sheet. Save what you need before closing the page.`;
    case 'changed-elsewhere':
      return 'This run or its unit was changed in another window of this browser in the meantime. What lies on this sheet is not kept yet.';
    case 'entry-damaged':
      return `What was kept cannot be read any more: ${problem.reason}. Bring the log in again, or a copy back.`;
  }
}
