import { useEffect, useId, useRef, useState } from 'react';
import { problemSentence } from '#formats/problem.ts';
import { durationText, noBreak } from './shown-numbers.ts';
import type { PressureUnit } from '#units/pressure.ts';
import { useAround } from './habits.ts';
import { headOf } from './run-words.ts';
import type { Run, Trial } from './state.ts';

/** Letters below which a reason is none. */
const REASON_AT_LEAST = 3;

/** The foot while a border was moved by hand: what would come of it, why, and who says so. */
export function MoveSlip(props: { run: Run; trial: Trial; unit: PressureUnit }): React.ReactElement {
  const { run, trial, unit } = props;
  const { desk, habits, changeHabits } = useAround();
  const [who, setWho] = useState(habits.who);
  const name = useId();
  const { what, why } = trial;
  const reason = useRef<HTMLInputElement>(null);
  // Whoever asked for it from beneath the strip goes on here; a handle that is moved by keys keeps the keyboard.
  useEffect(() => {
    if (document.activeElement?.closest('.span-bar')) reason.current?.focus({ preventScroll: true });
  }, []);
  useEffect(
    () => () => {
      // The button that was pressed is gone with the slip: the keyboard goes back to what was moved.
      if (document.activeElement !== document.body) return;
      const moved = document.querySelector<HTMLElement>(
        what === 'leave-out' || what === 'join-engagements'
          ? '.span-bar input'
          : `.strip-handle[data-border='${what}']`,
      );
      moved?.focus({ preventScroll: true });
    },
    [what],
  );
  const ready =
    why.trim().length >= REASON_AT_LEAST && who.trim() !== '' && trial.judged !== null && !trial.judging;
  const before = run.judged.assessment;
  const after = trial.judged?.assessment ?? null;
  const head = after === null ? null : headOf(after, unit);
  const refused = trial.trouble?.kind === 'problems' ? trial.trouble.problems : [];
  // Counted from the log's first reading, as the strip's time line is.
  const at = (place_s: number): string => noBreak(durationText(place_s, true));
  return (
    <form
      className="foot slip"
      aria-labelledby={name}
      onSubmit={(event) => {
        event.preventDefault();
        if (!ready) return;
        changeHabits({ who: who.trim() });
        void desk.keepMove(who.trim(), why.trim());
      }}
    >
      <p id={name} role="status">
        {trial.what === 'leave-out' ? (
          <>
            <b>Left out by hand</b>: {at(trial.from_s)} to {at(trial.to_s)}.
          </>
        ) : trial.what === 'join-engagements' ? (
          <>
            <b>All engagements judged together</b> by hand, as one run.
          </>
        ) : (
          <>
            <b>{trial.what === 'hold-start' ? 'Start of the hold' : 'End of the hold'} moved by hand</b> to{' '}
            {at(trial.to_s)} from {at(trial.from_s)}.
          </>
        )}{' '}
        {refused.length > 0
          ? refused.map(problemSentence).join(' ')
          : head === null || after === null
            ? 'Working it out …'
            : `${head.found === '' ? '' : `${head.found}, `}${after.verdict === before.verdict ? 'still ' : 'then '}${head.word.toLowerCase()}.`}
      </p>
      <label>
        <span className="field-name">Why</span>
        <input
          ref={reason}
          value={why}
          autoComplete="off"
          onChange={(event) => desk.sayWhy(event.currentTarget.value)}
        />
      </label>
      <label>
        <span className="field-name">Who</span>
        <input value={who} autoComplete="name" onChange={(event) => setWho(event.currentTarget.value)} />
      </label>
      <button type="submit" className={`button ${ready ? 'first' : 'waits'}`} aria-disabled={!ready}>
        Keep
      </button>
      <button type="button" className="button" onClick={() => desk.putBackMove()}>
        Put back <kbd>Ctrl Z</kbd>
      </button>
    </form>
  );
}
