import { useRef, useState, useSyncExternalStore } from 'react';
import { beganAnew, notAnAlarm, quietText, soFarSentences, stillOpenText } from '#formats/so-far.ts';
import { soFarInUnits } from '#formats/assessment-in-units.ts';
import { problemSentence } from '#formats/problem.ts';
import { inReadersForm, noBreak, shownKey } from './shown-numbers.ts';
import type { StripHandle } from './chart/strip-props.ts';
import { Strip } from './chart/strip.tsx';
import type { Followed, FollowState } from './follow-desk.ts';
import { useAround } from './habits.ts';
import { LimitsAndWhy } from './limits-and-why.tsx';
import type { Draft } from './state.ts';
import { useKeys } from './use-keys.ts';
import { viewedAssessment } from './viewed-assessment.ts';
import { ViewedIn } from './viewed-in.tsx';
import { shownUnit } from './viewing-unit.ts';

/** What is followed at the moment, and why something cannot be. */
export function useFollow(): FollowState {
  const { follow } = useAround();
  return useSyncExternalStore(follow.subscribe, follow.state);
}

/** Begins to follow the file that was understood; says why where the browser cannot. */
export function FollowButton({ draft, ready }: { draft: Draft; ready: boolean }): React.ReactElement {
  const { desk, follow } = useAround();
  const { refused } = useFollow();
  return (
    <>
      <button
        type="button"
        className="button"
        aria-disabled={!ready}
        aria-describedby="follow-says"
        onClick={() => {
          const reading = desk.reading();
          if (!ready || reading === null) return;
          void follow.begin({
            file: draft.file,
            reading,
            judging: { spec: draft.limits?.spec ?? null, judge: null },
          });
        }}
      >
        Follow this file
      </button>
      <span id="follow-says" className="second" role="status">
        {refused ?? ''}
      </span>
    </>
  );
}

/** A run that is still being logged, drawn and worded as it comes. */
export function FollowPlace({ followed }: { followed: Followed }): React.ReactElement {
  const { desk, follow, habits } = useAround();
  const strip = useRef<StripHandle>(null);
  const [folded, setFolded] = useState(true);
  const { run, going, problems, anew, quiet_s, name } = followed;
  const judgedUnit = run?.assessment.quantities.operatingPressure.unit ?? null;
  const unit = judgedUnit === null ? null : shownUnit(habits.unit, judgedUnit);
  const quiet = going ? quietText(quiet_s, run?.assessment.log.medianInterval_s ?? 0) : null;
  useKeys(true, { Escape: () => going && follow.stop() });
  const judge = async (): Promise<void> => {
    const file = await follow.wholeFile();
    follow.leave();
    if (file !== null) desk.readAgain(file);
  };
  return (
    <>
      <div className="sheet">
        <div className="part">
          <h1 tabIndex={-1}>{going ? 'Following' : 'Followed until here'}</h1>
          <p className="sentence">{name}</p>
          <p>
            <b>{notAnAlarm}</b>
          </p>
          <p className="second">{stillOpenText}</p>
        </div>
        <div className="opens closes follow-now" aria-live="off">
          {run !== null &&
            unit !== null &&
            soFarSentences(
              soFarInUnits(run.soFar, { pressure: unit, temperature: habits.temperature ?? undefined }),
            ).map((sentence, index) => (
              <p key={index} className={index === 0 ? 'sentence' : undefined}>
                {noBreak(inReadersForm(sentence))}
              </p>
            ))}
          {run === null && problems.length === 0 && <p>Looking at the file …</p>}
        </div>
        {run !== null && unit !== null && (
          <ViewedIn assessment={run.assessment} unit={unit} temperature={habits.temperature} />
        )}
        <div role="status">
          {anew && <p className="aside-line">{beganAnew}</p>}
          {problems.slice(0, 1).map((problem) => (
            <p key={problem.code} className="aside-line">
              {run === null ? 'Not yet: ' : ''}
              {problemSentence(problem)}
            </p>
          ))}
          {quiet !== null && <p className="aside-line">{quiet}</p>}
        </div>
      </div>
      {run !== null && unit !== null && (
        <>
          <Strip
            key={shownKey()}
            ref={strip}
            assessment={run.assessment}
            series={run.series}
            unit={unit}
            {...(habits.temperature === null ? {} : { temperatureUnit: habits.temperature })}
            folded={folded}
            onFold={setFolded}
          />
          <div className="sheet follow-limits">
            <LimitsAndWhy
              assessment={viewedAssessment(run.assessment, unit, habits.temperature)}
              onLook={(part) => strip.current?.lookAt(part)}
            />
            <div className="below" />
          </div>
        </>
      )}
      <div className="foot">
        {going ? (
          <button type="button" className="button first" onClick={() => follow.stop()}>
            Stop following <kbd>Esc</kbd>
          </button>
        ) : (
          <button type="button" className="button first" onClick={() => void judge()}>
            Read the whole log
          </button>
        )}
        <button type="button" className="link" onClick={() => follow.leave()}>
          Back to what was understood
        </button>
      </div>
    </>
  );
}
