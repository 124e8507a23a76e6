import { useId, useState } from 'react';
import type { Assessment } from '#formats/assessment.ts';
import type { Choice } from '#formats/judge.ts';
import { dateText, durationText } from './shown-numbers.ts';
import type { Shown } from './chart/strip-props.ts';
import { useAround } from './habits.ts';
import { plainNumber } from './typed-number.ts';

const HOUR_S = 3600;
/** Shorter spans are no part of a run. */
const LEAST_S = 1;

/** "2:10" or "2:10:30" or "130" (minutes) as seconds from the log's start; null: not a time. */
export function typedSpan_s(text: string): number | null {
  const trimmed = plainNumber(text);
  if (trimmed === '') return null;
  if (/^\d+(\.\d+)?$/u.test(trimmed)) return Number(trimmed) * 60;
  const parts = /^(\d+):([0-5]?\d)(?::([0-5]?\d(?:\.\d+)?))?$/u.exec(trimmed);
  return parts === null ? null : Number(parts[1]) * HOUR_S + Number(parts[2]) * 60 + Number(parts[3] ?? 0);
}
/** Seconds as the fields show them: "2:10:30". */
export function spanText(at_s: number): string {
  const whole = Math.round(at_s);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${Math.floor(whole / HOUR_S)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
}

/** Parts of a run that have a name. */
export function namedSpans(assessment: Assessment): { name: string; part: Shown }[] {
  const { log, judged, phases } = assessment;
  const end_s = judged.end_s ?? log.duration_s,
    start_s = judged.start_s ?? 0;
  const holds = phases.filter(({ kind }) => kind === 'hold');
  const hold = { from_s: holds[0]?.start_s ?? 0, to_s: holds.at(-1)?.end_s ?? 0 };
  const spans = [
    { name: 'the hold', part: hold },
    { name: 'the first hour', part: { from_s: start_s, to_s: Math.min(end_s, start_s + HOUR_S) } },
    { name: 'the last hour', part: { from_s: Math.max(start_s, end_s - HOUR_S), to_s: end_s } },
    { name: 'the last ten minutes', part: { from_s: Math.max(start_s, end_s - 600), to_s: end_s } },
  ];
  return spans.filter(({ part }) => part.to_s - part.from_s > LEAST_S);
}

/** A part of the run by name or by its times: to look at, or to leave out of what is judged. */
export function SpanBar(props: {
  assessment: Assessment;
  /** null: the whole run. */
  shown: Shown | null;
  onLook: (part: Shown | null) => void;
}): React.ReactElement {
  const { assessment, shown, onLook } = props;
  const { desk } = useAround();
  const [typed, setTyped] = useState<{ from: string; to: string } | null>(null);
  const hint = useId();
  const spans = namedSpans(assessment);
  const end_s = assessment.log.duration_s;
  const from = typed?.from ?? spanText(shown?.from_s ?? 0),
    to = typed?.to ?? spanText(shown?.to_s ?? end_s);
  const from_s = typedSpan_s(from),
    to_s = typedSpan_s(to);
  const part =
    from_s === null || to_s === null || to_s - from_s < LEAST_S || from_s >= end_s
      ? null
      : { from_s, to_s: Math.min(end_s, to_s) };
  const whole = part !== null && part.from_s <= 0 && part.to_s >= Math.floor(end_s);
  const { choices } = assessment.judged;
  const leftOut = choices.filter(({ what }) => what === 'leave-out');
  const joined = choices.filter(({ what }) => what === 'join-engagements');
  const engagements = assessment.quantities.engagements.length;
  return (
    <section className="span-bar" aria-label="A part of the run">
      <label>
        <span className="field-name">Look at</span>
        <select
          value=""
          onChange={(event) => {
            const { value } = event.currentTarget;
            setTyped(null);
            onLook(spans.find(({ name }) => name === value)?.part ?? null);
          }}
        >
          <option value="">choose a part</option>
          <option value="whole">the whole run</option>
          {spans.map(({ name }) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </select>
      </label>
      <label>
        <span className="field-name">from</span>
        <input
          value={from}
          autoComplete="off"
          aria-describedby={hint}
          aria-invalid={from_s === null}
          onChange={(event) => setTyped({ from: event.currentTarget.value, to })}
        />
      </label>
      <label>
        <span className="field-name">to</span>
        <input
          value={to}
          autoComplete="off"
          aria-describedby={hint}
          aria-invalid={to_s === null}
          onChange={(event) => setTyped({ from, to: event.currentTarget.value })}
        />
      </label>
      <span id={hint} className="second">
        {part === null
          ? 'Write times since the log’s start, like 2:10 or 2:10:30, the later one second.'
          : durationText(part.to_s - part.from_s, true)}
      </span>
      <button
        type="button"
        className="button"
        aria-disabled={part === null}
        onClick={() => {
          if (part === null) return;
          setTyped(null);
          onLook(whole ? null : part);
        }}
      >
        Show it
      </button>
      <button
        type="button"
        className="button"
        aria-disabled={part === null || whole}
        onClick={() => {
          if (part !== null && !whole) desk.leaveOut(part.from_s, part.to_s);
        }}
      >
        Leave it out…
      </button>
      {engagements > 1 && joined.length === 0 && (
        <button type="button" className="link" onClick={() => desk.judgeTogether()}>
          Judge {engagements === 2 ? 'both' : `all ${engagements}`} engagements together…
        </button>
      )}
      {leftOut.length + joined.length > 0 && (
        <ul className="left-out">
          {joined.map((choice) => (
            <li key={`joined ${choice.why}`}>
              Engagements judged together. {choice.why} <Said choice={choice} />{' '}
              <ChoiceBack choice={choice} name="the engagements judged together" />
            </li>
          ))}
          {leftOut.map((choice) => (
            <li key={`${choice.from_s ?? ''} ${choice.to_s ?? ''} ${choice.why}`}>
              Left out: {spanText(choice.from_s ?? 0)} to {spanText(choice.to_s ?? 0)}. {choice.why}{' '}
              <Said choice={choice} />{' '}
              <ChoiceBack
                choice={choice}
                name={`${spanText(choice.from_s ?? 0)} to ${spanText(choice.to_s ?? 0)}`}
              />
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** Who chose so, and when. */
function Said({ choice: { by, on } }: { choice: Choice }): React.ReactElement {
  return (
    <span className="second">
      {by}
      {on === undefined ? '' : `, ${dateText(on)}`}
    </span>
  );
}

function ChoiceBack(props: { choice: Choice; name: string }): React.ReactElement | null {
  const { desk, state } = useAround();
  const { what, from_s, to_s } = props.choice;
  const choice = state.run?.judging.judge?.choices.find(
    (each) => each.what === what && each.from_s === from_s && each.to_s === to_s,
  );
  if (choice === undefined) return null;
  return (
    <button
      type="button"
      className="link"
      aria-label={`Put back ${props.name}`}
      onClick={() => void desk.putBackChoice(choice)}
    >
      Put back
    </button>
  );
}
