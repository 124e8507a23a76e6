import { useRef } from 'react';
import type { TimeForm } from '#formats/log.ts';
import { partsOf } from '#worker/messages.ts';
import { filesText } from './files-of-run.ts';
import { useAround } from './habits.ts';
import { LogChooser } from './log-chooser.tsx';
import type { Draft, Waiting } from './state.ts';

/** Times that do not say which of two files was first: the order given counts. */
const UNDATED: ReadonlySet<TimeForm> = new Set([
  'time-of-day',
  'elapsed-seconds',
  'elapsed-hms',
  'elapsed-minutes',
  'sample-number',
]);
const MOST_LISTED = 6;
const stateWords = { waiting: 'waits', asked: 'this one', judged: 'judged', 'put-back': 'put back' };

/** The logs that were brought in together, and the files of the one that is asked about; each can be joined to it or taken out. */
export function RunFiles({ draft }: { draft: Draft }): React.ReactElement | null {
  const { desk, state } = useAround();
  const parts = partsOf(draft.file);
  // A sample is no file that others could be parts of.
  const waiting = draft.sample === null ? state.batch.filter((each) => each.state === 'waiting') : [];
  if (state.batch.length === 0 && parts.length === 1) return null;
  return (
    <div className="sheet batch">
      {waiting.length > 0 && (
        <p>
          Each file is a run of its own. Did the logger write several for one run?{' '}
          <button type="button" className="link" onClick={() => desk.joinAll()}>
            {parts.length + waiting.flatMap(({ file }) => partsOf(file)).length === 2
              ? 'Both are one run'
              : 'All are one run'}
          </button>
        </p>
      )}
      {state.batch.length > 0 && (
        <Folded count={state.batch.length}>
          <ol aria-label="Files brought in together">
            {state.batch.map((each) => (
              <BatchLine key={each.file.key} each={each} joins={waiting.includes(each)} />
            ))}
          </ol>
        </Folded>
      )}
      {parts.length > 1 && <Parts draft={draft} />}
    </div>
  );
}

/** A long list leaves the questions in sight. */
function Folded({ count, children }: { count: number; children: React.ReactNode }): React.ReactNode {
  if (count <= MOST_LISTED) return children;
  return (
    <details>
      <summary>Show all {count} files</summary>
      {children}
    </details>
  );
}

function BatchLine({ each, joins }: { each: Waiting; joins: boolean }): React.ReactElement {
  const { file, state: at, verdict } = each;
  const { desk } = useAround();
  return (
    <li {...(at === 'asked' ? { 'aria-current': 'step' as const } : {})}>
      <span>{filesText(file)}</span>
      <span>{verdict ?? stateWords[at]}</span>
      {joins && (
        <button
          type="button"
          className="link"
          aria-label={`${filesText(file)} is a part of this run`}
          onClick={() => desk.join(file.key)}
        >
          part of this run
        </button>
      )}
    </li>
  );
}

/** The files of one run, in the order in which they are joined. */
function Parts({ draft }: { draft: Draft }): React.ReactElement {
  const { desk } = useAround();
  const log = draft.understood?.inspection.log;
  const parts = partsOf(draft.file);
  const ordered = log !== undefined && !UNDATED.has(log.timeForm);
  return (
    <>
      <p>
        {parts.length} files are read as one run
        {log === undefined
          ? '.'
          : ordered
            ? ', put in order by their dates.'
            : ', in the order in which they stand here: their times do not say which was first.'}
      </p>
      <Folded count={parts.length}>
        <ol aria-label="Files of this run">
          {parts.map((part, index) => (
            <li key={part.key}>
              <span>{part.name ?? 'unnamed'}</span>
              {log !== undefined && !ordered && index > 0 && (
                <button
                  type="button"
                  className="link"
                  aria-label={`${part.name ?? 'unnamed'} one earlier`}
                  onClick={() => desk.moveEarlier(part.key)}
                >
                  one earlier
                </button>
              )}
              <button
                type="button"
                className="link"
                aria-label={`${part.name ?? 'unnamed'} is a run of its own`}
                onClick={() => desk.takeOut(part.key)}
              >
                a run of its own
              </button>
            </li>
          ))}
        </ol>
      </Folded>
    </>
  );
}

/** Opens a chooser for the other files of a run that a logger wrote in several. */
export function AddParts(): React.ReactElement {
  const { desk } = useAround();
  const chooser = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className="link" onClick={() => chooser.current?.click()}>
        The run goes on in another file
      </button>
      <LogChooser ref={chooser} label="Other files of this run" onChoose={(files) => desk.addParts(files)} />
    </>
  );
}
