import type { Choice } from '#formats/judge.ts';
import type { Gap, Log } from '#formats/log.ts';
import type { Problem, Result } from '#formats/problem.ts';
import type { Span } from './run.ts';
import { at, rowAfter, rowFrom, type Rows } from './timeline.ts';

/** Hand-made choices in the form that the analysis uses. */
export interface Choices {
  joins: Span[];
  /** In order, not overlapping. */
  leftOut: Rows[];
  holdStart_s: number | null;
  holdEnd_s: number | null;
  /** Place of the last choice that touches the hold; −1 for none. */
  lastBorder: number;
}

/** A step is meant by a choice when it lies within so many sampling intervals, or seconds, of it. */
const NEAR_INTERVALS = 5;
const NEAR_s = 60;

/** The problem that says why a hand-made choice is not followed; choices count from 0. */
export const refused = (choice: number, reason: string): Problem => ({
  code: 'judge-refused',
  choice,
  reason,
});

/**
 * Takes whole-hour steps for what they would be otherwise: a power cut of exactly that length. The log's time after such a step
 * moves on by it, and a gap stands in its place. The log itself is not changed.
 */
export function withGapsForSteps(log: Log, choices: readonly Choice[]): Result<Log> {
  let result = log;
  for (const [index, choice] of choices.entries()) {
    if (choice.what !== 'gap-not-clock-step') continue;
    const wanted_s = choice.from_s ?? choice.to_s ?? null;
    const steps = result.clockSteps.filter((step) => !step.cuts);
    const step =
      wanted_s === null
        ? steps.length === 1
          ? steps[0]
          : undefined
        : steps.find(
            ({ at_s }) =>
              Math.abs(at_s - wanted_s) <= Math.max(NEAR_s, NEAR_INTERVALS * log.medianInterval_s),
          );
    if (!step)
      return {
        ok: false,
        problems: [
          refused(
            index,
            wanted_s === null
              ? 'it does not say which step of the clock it means; give "from_s"'
              : `there is no whole-hour step of the clock at ${wanted_s} s`,
          ),
        ],
      };
    if (step.step_s <= 0)
      return {
        ok: false,
        problems: [refused(index, `the clock went back at ${step.at_s} s: that was no power cut`)],
      };
    result = withGap(result, step.at_s, step.step_s);
  }
  return { ok: true, value: result };
}

function withGap(log: Log, at_s: number, step_s: number): Log {
  const row = rowAfter(log.time_s, at_s);
  const time_s = log.time_s.slice();
  for (let i = row; i < time_s.length; i++) time_s[i] = at(log.time_s, i) + step_s;
  const later = (t: number): number => (t > at_s ? t + step_s : t);
  const gaps: Gap[] = [
    ...log.gaps.map((gap) => ({ start_s: later(gap.start_s), end_s: later(gap.end_s) })),
    { start_s: at_s, end_s: at(time_s, row) },
  ].sort((a, b) => a.start_s - b.start_s);
  return {
    ...log,
    time_s,
    gaps,
    duration_s: log.duration_s + step_s,
    clockSteps: log.clockSteps
      .filter((step) => step.at_s !== at_s)
      .map((step) => ({ ...step, at_s: later(step.at_s) })),
  };
}

/** Sorts the choices out; refuses those that say nothing or lie outside of the log. */
export function choicesOf(log: Log, choices: readonly Choice[]): Result<Choices> {
  const result: Choices = { joins: [], leftOut: [], holdStart_s: null, holdEnd_s: null, lastBorder: -1 };
  const problems: Problem[] = [];
  const last_s = at(log.time_s, log.time_s.length - 1);
  choices.forEach((choice, index) => {
    const from_s = choice.from_s ?? null,
      to_s = choice.to_s ?? null;
    const place_s = to_s ?? from_s;
    switch (choice.what) {
      case 'gap-not-clock-step':
        return;
      case 'join-engagements':
        result.joins.push({ from_s, to_s });
        return;
      case 'leave-out': {
        if (from_s === null || to_s === null || from_s >= to_s)
          problems.push(refused(index, 'leaving out needs "from_s" less than "to_s"'));
        else if (to_s < 0 || from_s > last_s)
          problems.push(refused(index, `the log has nothing from ${from_s} s to ${to_s} s`));
        else {
          result.leftOut.push({ from: rowFrom(log.time_s, from_s), to: rowAfter(log.time_s, to_s) });
          result.lastBorder = index;
        }
        return;
      }
      case 'hold-start':
      case 'hold-end': {
        // "to_s" is where the border goes; "from_s" beside it says where it was.
        if (place_s === null)
          problems.push(refused(index, 'it does not say where the border goes; give "to_s"'));
        else if (place_s < 0 || place_s > last_s)
          problems.push(refused(index, `${place_s} s lies outside of the log`));
        else {
          if (choice.what === 'hold-start') result.holdStart_s = place_s;
          else result.holdEnd_s = place_s;
          result.lastBorder = index;
        }
      }
    }
  });
  result.leftOut = unioned(result.leftOut);
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: result };
}

function unioned(rows: readonly Rows[]): Rows[] {
  const result: Rows[] = [];
  for (const piece of [...rows].sort((a, b) => a.from - b.from)) {
    const last = result.at(-1);
    if (last && piece.from <= last.to) last.to = Math.max(last.to, piece.to);
    else result.push({ ...piece });
  }
  return result;
}
