import type { LoggedRun } from '#formats/assessment.ts';
import { durationText, fixedText } from '#units/number-text.ts';

/** A position on the log, from its first row: "0:41:56". */
export function positionText(seconds: number): string {
  const whole = Math.round(seconds);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
}

/** "11 160 rows over 6 h 17 min, one every 2 s". */
export function rowsText({ rows, duration_s, medianInterval_s }: LoggedRun): string {
  const count = `${fixedText(rows, 0)} ${rows === 1 ? 'row' : 'rows'} over ${durationText(duration_s)}`;
  if (medianInterval_s === null || medianInterval_s <= 0) return count;
  return medianInterval_s < 1
    ? `${count}, ${fixedText(1 / medianInterval_s, 0)} a second`
    : `${count}, one ${medianInterval_s === 1 ? 'a second' : `every ${durationText(medianInterval_s, true)}`}`;
}

/** What was set aside of a column: '45 spikes, 12 fault tokens ("OL" 12)'; the empty text where nothing was. */
export function setAsideText(channel: LoggedRun['channels'][number]): string {
  const kinds: [number, string, string][] = [
    [channel.missing, 'missing', 'missing'],
    [channel.faultTokens, 'fault token', 'fault tokens'],
    [channel.outOfRange, 'out of range', 'out of range'],
    [channel.stuck, 'stuck', 'stuck'],
    [channel.spikes, 'spike', 'spikes'],
  ];
  return kinds
    .filter(([count]) => count > 0)
    .map(
      ([count, one, many]) =>
        `${fixedText(count, 0)} ${count === 1 ? one : many}${one === 'fault token' ? tokensText(channel.tokens ?? []) : ''}`,
    )
    .join(', ');
}

/** The most frequent texts among the fault tokens. */
function tokensText(tokens: NonNullable<LoggedRun['channels'][number]['tokens']>): string {
  const told = tokens.slice(0, 3).map(({ token, count }) => `"${token}" ${fixedText(count, 0)}`);
  return told.length === 0 ? '' : ` (${told.join(', ')}${tokens.length > told.length ? ' …' : ''})`;
}

/** Rows that could not be read, with the line and reason of the first five; the empty text where there are none. */
export function skippedText({ skippedRowCount, skippedRows }: LoggedRun): string {
  if (skippedRowCount === 0) return '';
  const told = skippedRows.slice(0, 5).map(({ line, reason }) => `line ${line}: ${reason}`);
  const words = `${fixedText(skippedRowCount, 0)} ${skippedRowCount === 1 ? 'row was' : 'rows were'} skipped`;
  return told.length === 0
    ? `${words}.`
    : `${words} (${told.join('; ')}${skippedRowCount > told.length ? ' …' : ''}).`;
}

/** Jumps of the clock that get a line each. */
const STEPS_TOLD = 5;

/** Stretches without record and jumps of the clock, a line each. */
export function timeLines({ gaps, clockSteps }: LoggedRun): string[] {
  return [
    ...gaps.map(
      ({ start_s, end_s }) =>
        `No record from ${positionText(start_s)} to ${positionText(end_s)} (${durationText(end_s - start_s, true)}).`,
    ),
    ...clockSteps
      .slice(0, STEPS_TOLD)
      .map(
        ({ at_s, step_s }) =>
          `The clock was set ${step_s < 0 ? 'back' : 'forward'} by ${durationText(Math.abs(step_s), true)} at ${positionText(at_s)}.`,
      ),
    ...(clockSteps.length > STEPS_TOLD
      ? [`The clock was set ${clockSteps.length - STEPS_TOLD} times more.`]
      : []),
  ];
}
