import { useDeferredValue, useEffect, useRef, useState } from 'react';
import { fixedText } from './shown-numbers.ts';
import { BlankStrip } from './blank-strip.tsx';
import { SerialQuestion } from './book-serial.tsx';
import { ColumnLayout, isLaidOut } from './column-layout.tsx';
import { LayoutQuestions, layoutQuestions } from './column-questions.tsx';
import { channelsAsked } from './desk.ts';
import { FileAsRead } from './file-as-read.tsx';
import { FirstTrace } from './first-trace.tsx';
import { FollowButton, FollowPlace, useFollow } from './follow-place.tsx';
import { GaugeQuestion } from './gauge-question.tsx';
import { leftText } from './going.ts';
import { useAround } from './habits.ts';
import { LimitsQuestion } from './limits-question.tsx';
import { MarginList } from './margin-list.tsx';
import { QuestionForm } from './question-form.tsx';
import { PRESSURE_COLUMN, questionsOf } from './questions.ts';
import { AddParts, RunFiles } from './run-files.tsx';
import { filesText } from './files-of-run.ts';
import type { Draft } from './state.ts';
import { TroubleLine } from './trouble.tsx';
import { holdsSentence } from './understood-words.ts';
import type { Hovering } from './use-dropped-files.ts';
import { useKeys } from './use-keys.ts';

/** Shorter work shows no progress: a flash only startles. */
const QUIET_MS = 300;

/** Whether something has been going on for long enough to be shown. */
function useLasting(going: boolean): boolean {
  const [lasting, setLasting] = useState(false);
  useEffect(() => {
    if (!going) return undefined;
    const timer = setTimeout(() => setLasting(true), QUIET_MS);
    return () => {
      clearTimeout(timer);
      setLasting(false);
    };
  }, [going]);
  return going && lasting;
}

/** What was understood of a log, one question at a time; then it is judged. */
export function BringIn({ hovering }: { hovering: Hovering | null }): React.ReactElement | null {
  const { state, follow } = useAround();
  const { followed } = useFollow();
  const { draft } = state;
  const following = followed !== null && followed.key === draft?.file.key;
  // Another log was brought in: that one counts.
  useEffect(() => {
    if (!following) follow.leave();
  }, [following, follow]);
  if (following) return <FollowPlace followed={followed} />;
  if (draft === null) return null;
  return (
    <>
      <RunFiles draft={draft} />
      {draft.understood === null && draft.trouble === null ? (
        <Reading draft={draft} hovering={hovering !== null} />
      ) : draft.understood === null ? (
        <NotRead draft={draft} />
      ) : (
        <Understood draft={draft} />
      )}
    </>
  );
}

const rowsText = (rows: number): string => fixedText(rows, 0);

function Reading({ draft, hovering }: { draft: Draft; hovering: boolean }): React.ReactElement {
  const { desk } = useAround();
  const lasting = useLasting(true);
  const { progress } = draft;
  const share = progress === null || progress.bytesTotal === 0 ? 0 : progress.bytesDone / progress.bytesTotal;
  if (draft.trace !== null)
    return (
      <div className="sheet">
        <div className="part">
          <h1 tabIndex={-1}>Looking through it</h1>
          <p className="sentence">{filesText(draft.file)}</p>
        </div>
        <FirstTrace trace={draft.trace} />
        <div className="part first-look">
          <p role="status">
            {rowsText(progress?.rows ?? 0)} rows were read. Now spikes and stuck readings are looked for.
          </p>
          <button type="button" className="button" onClick={() => desk.putBack()}>
            Stop
          </button>
        </div>
      </div>
    );
  return (
    <>
      <div className="sheet welcome">
        <h1 tabIndex={-1}>Reading</h1>
        <p className="sentence">{filesText(draft.file)}</p>
      </div>
      <BlankStrip share={lasting ? share : null} hovering={hovering}>
        {lasting && (
          <>
            <h2 role="status">
              Reading: {Math.floor(share * 100)} %, {rowsText(progress?.rows ?? 0)} rows
              {progress === null ? '' : leftText(progress)}
            </h2>
            <div className="buttons">
              <button type="button" className="button" onClick={() => desk.putBack()}>
                Stop
              </button>
            </div>
          </>
        )}
      </BlankStrip>
    </>
  );
}

function NotRead({ draft }: { draft: Draft }): React.ReactElement {
  const { desk, chooseLogs } = useAround();
  return (
    <div className="sheet">
      <div className="part">
        <h1 tabIndex={-1}>It could not be read</h1>
        <p className="sentence">{filesText(draft.file)}. Nothing is judged.</p>
      </div>
      {draft.trouble !== null && (
        <TroubleLine trouble={draft.trouble}>
          <button type="button" className="button first" onClick={chooseLogs}>
            Choose another file <kbd>N</kbd>
          </button>
          <button type="button" className="button" onClick={() => desk.putBack()}>
            {draft.file.more === undefined ? 'Put the file back' : 'Put the files back'}
          </button>
        </TroubleLine>
      )}
      <ColumnLayout draft={draft} />
    </div>
  );
}

const numberWords = ['Nothing', 'One thing', 'Two things', 'Three things', 'Four things', 'Five things'];

function Understood({ draft }: { draft: Draft }): React.ReactElement {
  const { desk } = useAround();
  const questions = useRef<HTMLDivElement>(null);
  // The questions stand first; what was read is built bit by bit under them, so that the page answers meanwhile.
  const whole = useDeferredValue(true, false);
  const { questions: list, open } = questionsOf(channelsAsked(draft), draft.answers);
  const limitsOpen = draft.limits === null;
  const layoutOpen = layoutQuestions(draft).filter((question) => question.open);
  const count = open.length + layoutOpen.length + (limitsOpen ? 1 : 0);
  const title = `${numberWords[count] ?? `${count} things`} to put right`;
  const ready = count === 0 && draft.stage === 'ready';
  const working = useLasting(draft.stage === 'judging');
  const waitsFor = layoutOpen[0]?.toSay ?? open[0]?.toSay ?? (limitsOpen ? 'what it has to hold' : null);

  const judge = (): void => {
    if (ready) void desk.judge();
    else
      questions.current?.querySelector<HTMLElement>('[data-open="true"] :is(input, select, button)')?.focus();
  };
  useKeys(true, { Enter: () => ready && judge() });

  return (
    <>
      <div className="sheet">
        <div className="part">
          <h1 tabIndex={-1}>{title}</h1>
          <p className="sentence">{holdsSentence(draft)}</p>
          {draft.sample === null && (
            <p className="second goes-on">
              <AddParts />
            </p>
          )}
        </div>
        {draft.trouble !== null && !isLaidOut(draft) && <TroubleLine trouble={draft.trouble} />}
        {draft.fileTrouble !== null && <TroubleLine trouble={draft.fileTrouble} />}
        <div ref={questions} className={`opens closes${count > 0 ? ' question' : ''}`}>
          <LayoutQuestions draft={draft} />
          {list.map((question) => (
            <QuestionForm
              key={question.id}
              question={question}
              chosen={draft.answers.get(question.id) ?? null}
              onChoose={(choice) => desk.answer(question.id, choice)}
            />
          ))}
          <LimitsQuestion draft={draft} onEnter={judge} />
          <GaugeQuestion draft={draft} />
          <SerialQuestion key={draft.file.key} draft={draft} />
        </div>
        {draft.trace !== null && <FirstTrace trace={draft.trace} />}
        {whole && (
          <>
            <div className="as-read">
              <FileAsRead
                draft={draft}
                openColumns={open.flatMap(({ id, choices }) =>
                  id === PRESSURE_COLUMN ? choices.map((choice) => choice.id) : [id],
                )}
              />
              <MarginList draft={draft} />
            </div>
            <ColumnLayout key={`layout-${draft.file.key}`} draft={draft} />
          </>
        )}
        <div className="below" />
      </div>
      <div className="foot">
        <button
          type="button"
          className={`button ${ready ? 'first' : 'waits'}`}
          aria-disabled={!ready}
          aria-describedby="judge-waits"
          onClick={judge}
        >
          Judge this run <kbd>Enter</kbd>
        </button>
        <span id="judge-waits" className="second" role="status">
          {waitsFor !== null ? `First say ${waitsFor}.` : working ? 'Working it out …' : ''}
        </span>
        {working && (
          <button type="button" className="button" onClick={() => desk.stopJudging()}>
            Stop
          </button>
        )}
        {draft.file.more === undefined && <FollowButton draft={draft} ready={ready} />}
        <button type="button" className="link" onClick={() => desk.putBack()}>
          {draft.file.more === undefined ? 'Put the file back' : 'Put the files back'}
        </button>
      </div>
    </>
  );
}
