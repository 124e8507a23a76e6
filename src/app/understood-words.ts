import type { LoggedRun } from '#formats/assessment.ts';
import type { TimeForm } from '#formats/log.ts';
import { partsOf } from '#worker/messages.ts';
import { durationText, fixedText, noBreak, NO_BREAK_SPACE, statedText } from './shown-numbers.ts';
import type { Draft } from './state.ts';

const count = (value: number): string => fixedText(value, 0);
/** A duration that no line end parts. */
const together = (text: string): string => text.replaceAll(' ', NO_BREAK_SPACE);
const plural = (value: number, one: string, many: string): string =>
  `${count(value)} ${value === 1 ? one : many}`;

/** "one a second", "10 a second", "one each 2 s". */
export function samplingText(interval_s: number | null): string {
  if (interval_s === null || interval_s <= 0) return 'at no steady rate';
  const rate = 1 / interval_s;
  if (Math.abs(interval_s - 1) < 0.005) return 'one a second';
  if (rate > 1.5) return `${statedText(Number(rate.toPrecision(3)))} a second`;
  if (Math.abs(interval_s - 60) < 0.5) return 'one a minute';
  return `one each ${durationText(interval_s)}`;
}

/** "run.csv holds 21 941 readings in 5 columns, one a second. Nothing is judged yet." */
export function holdsSentence(draft: Draft): string {
  const log = draft.understood?.inspection.log;
  if (log === undefined) return '';
  const { file } = draft;
  const parts = partsOf(file);
  const name =
    parts.length === 1 ? `${file.name ?? 'The log'} holds` : `The ${parts.length} files of the run hold`;
  const columns = draft.understood?.excerpt.columns.length ?? log.channels.length;
  return noBreak(
    `${name} ${plural(log.rows, 'row', 'rows')} in ${plural(columns, 'column', 'columns')}, ${samplingText(log.medianInterval_s)}, ${together(durationText(log.duration_s))} in all. Nothing is judged yet.`,
  );
}

/** A time form in words. */
export const formWords: Readonly<Record<TimeForm, string>> = {
  'iso-8601': 'year, month, day',
  'date-time': 'date and time',
  'time-of-day': 'time of day',
  'elapsed-seconds': 'seconds from the start',
  'elapsed-hms': 'hours, minutes, seconds from the start',
  'elapsed-minutes': 'minutes from the start',
  'epoch-seconds': 'seconds since 1970, as UTC',
  'epoch-milliseconds': 'milliseconds since 1970, as UTC',
  'epoch-microseconds': 'microseconds since 1970, as UTC',
  'epoch-nanoseconds': 'nanoseconds since 1970, as UTC',
  'ticks-from-1601': 'ticks of 100 ns since 1601, as UTC',
  'ticks-from-1': 'ticks of 100 ns since the year 1',
  'julian-day': 'Julian days',
  'modified-julian-day': 'modified Julian days',
  'spreadsheet-serial': 'days as a spreadsheet counts them',
  'sample-number': 'numbers of the samples, no clock',
};

const clockOf = (seconds: number): string => {
  const whole = ((Math.round(seconds) % 86400) + 86400) % 86400;
  const part = (value: number): string => String(Math.floor(value)).padStart(2, '0');
  return `${part(whole / 3600)}:${part((whole % 3600) / 60)}`;
};

/** "08:15 to 14:27", or how long. */
export function startAndEnd(log: LoggedRun): string {
  const clock = /(\d{2}):(\d{2})(?::(\d{2}))?/u.exec(log.start ?? '');
  if (clock === null) return `0 to ${durationText(log.duration_s)}`;
  const start = Number(clock[1]) * 3600 + Number(clock[2]) * 60 + Number(clock[3] ?? 0);
  return `${clockOf(start)} to ${clockOf(start + log.duration_s)}`;
}

export const timeText = (log: LoggedRun): string => `${startAndEnd(log)}, ${formWords[log.timeForm]}`;

export function samplingAndGaps(log: LoggedRun): string {
  const gaps = log.gaps.length;
  const missing_s = log.gaps.reduce((sum, { start_s, end_s }) => sum + end_s - start_s, 0);
  const steps = log.clockSteps.length;
  return [
    samplingText(log.medianInterval_s),
    gaps === 0
      ? 'no gap'
      : `${gaps === 1 ? 'one gap' : `${count(gaps)} gaps`}, ${durationText(missing_s)} in all`,
    ...(steps === 0 ? [] : [steps === 1 ? 'the clock was set once' : `the clock was set ${steps} times`]),
  ].join(', ');
}

export function numbersText({ dialect }: LoggedRun): string {
  const names: Readonly<Record<string, string>> = {
    ',': 'commas',
    ';': 'semicolons',
    '\t': 'tabs',
    ' ': 'blanks',
  };
  return `parted by ${names[dialect.delimiter] ?? dialect.delimiter}, decimal ${dialect.decimal === ',' ? 'comma' : 'point'}, ${dialect.encoding}`;
}

/** Readings set aside of one channel by kind: "133: 70 stuck, 45 spikes, 12 fault tokens, 6 missing". */
export function setAsideText(channel: LoggedRun['channels'][number] | undefined): string {
  if (channel === undefined) return 'no pressure column yet';
  const kinds: [number, string, string][] = [
    [channel.stuck, 'stuck', 'stuck'],
    [channel.spikes, 'spike', 'spikes'],
    [channel.outOfRange, 'out of range', 'out of range'],
    [channel.faultTokens, 'fault token', 'fault tokens'],
    [channel.missing, 'missing', 'missing'],
  ];
  const total = kinds.reduce((sum, [number]) => sum + number, 0);
  if (total === 0) return 'nothing';
  const parts = kinds
    .filter(([number]) => number > 0)
    .map(([number, one, many]) => plural(number, one, many));
  return parts.length === 1 ? (parts[0] ?? '') : `${count(total)}: ${parts.join(', ')}`;
}
