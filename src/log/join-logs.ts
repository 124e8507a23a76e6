import {
  SetAside,
  type Channel,
  type ClockStep,
  type DateReading,
  type Gap,
  type Log,
  type TimeForm,
} from '#formats/log.ts';
import type { Problem, Result } from '#formats/problem.ts';
import type { Remark } from '#formats/remark.ts';
import { convert, unitKind } from '#units/unit.ts';
import { dayNumber } from './civil-day.ts';
import { newClockParts, NO_OFFSET, NS_PER_S, readClockText } from './read-clock.ts';
import { medianPositiveStep } from './time-axis.ts';

/** What a time tells across files: an absolute clock, a time of day without its date, or a count. */
type Scale = 'local' | 'universal' | 'time-of-day' | 'count';
const HALF_DAY_S = 43200;
const DAY_S = 86400;
const HOUR_S = 3600;
const GAP_FACTOR = 5;
const TOLERANCE_S = 5;
/** Times of two files that differ by less are the same one. */
const SAME_S = 1e-6;

/**
 * Joins the files of one run: a logger that begins a new file every hour, or after a power cut.
 *
 * Files with a date are put in the order of their clocks, files with a time of day or a count in the order given (a time of day
 * that falls by over twelve hours is the next day; a count that begins again leaves the pause unknown, and cuts the run). What lies
 * between two files is a gap. A clock set back by whole hours between two files is taken out, as within a file. The same file twice
 * counts once, and so do rows that a part repeats of the one before. Where the dates of one file leave open whether the day comes
 * first, the others decide: an order that one of them shows, else the one by which the files lie closer together. Counts that begin
 * again are joined by the clocks beside them.
 *
 * Channels are joined by name, those of a file without a heading by their place, and those that have one role by that; one that a
 * part lacks is missing there; units are brought to the first part's.
 * @param logs one or more, each as read
 * @returns one log with `parts`; parts-do-not-join for clocks or units that cannot be brought together
 */
export function joinLogs(logs: readonly Log[]): Result<Log> {
  const [only] = logs;
  if (only === undefined) return { ok: false, problems: [{ code: 'empty-file', file: null }] };
  if (logs.length === 1) return { ok: true, value: only };
  const remarks: Remark[] = [];
  const dated = settleOrders(logs);
  const different = dated.filter((log, i) => {
    const twice = dated.findIndex((other) => sameFile(other, log)) < i;
    if (twice)
      remarks.push({
        code: 'part-twice',
        text: `${nameOf(log)} is the same file as another part; it counts once.`,
      });
    return !twice;
  });
  const scale = scaleOf(only);
  // A file that begins at midnight looks like a count from 0:00:00; beside files with times of day under the same heading it is one.
  const midnight = (log: Log): boolean =>
    scale === 'time-of-day' &&
    log.timeForm === 'elapsed-hms' &&
    log.timeColumns.join() === only.timeColumns.join();
  const other = different.find((log) => scaleOf(log) !== scale && !midnight(log));
  if (other !== undefined)
    return refuse(
      other,
      `its time is ${scaleWords[scaleOf(other)]}, that of ${nameOf(only)} is ${scaleWords[scale]}`,
    );
  const clocked = scale === 'count' ? byClocksBeside(different) : null;
  const own = named(inOrder(clocked ?? different, clocked === null ? scale : 'local'), remarks);
  const parts = scale === 'count' && clocked === null ? own : withoutRepeats(own, remarks);
  const [first] = parts;
  if (first === undefined || parts.length === 1)
    return { ok: true, value: { ...(first ?? only), remarks: [...(first ?? only).remarks, ...remarks] } };

  const rows = parts.reduce((sum, log) => sum + log.rows, 0);
  const time_s = new Float64Array(rows);
  const clockSteps: ClockStep[] = [];
  const starts: number[] = [];
  const median = medianOf(parts.map((log) => log.medianInterval_s).filter((step) => step > 0));
  let row = 0,
    axis = 0,
    clock = first.origin_s;
  for (const [i, log] of parts.entries()) {
    let offset = 0;
    if (i > 0) {
      // Seconds since 1970 are good to a quarter of a microsecond as doubles.
      let pause = Math.round((log.origin_s - clock) * 1e6) / 1e6;
      if (scale === 'time-of-day' && pause < -HALF_DAY_S) pause += DAY_S;
      const before = parts[i - 1];
      const open = [log, before].some((part) => part !== undefined && hasOpenDate(part));
      if (open && scale === 'local' && Math.abs(pause) >= DAY_S)
        return refuse(
          log,
          'its dates or those of the part beside it read in two orders of day and month, and in the one that was taken a day or more lies between them (say "dateOrder" in a rig file)',
        );
      if (pause < 0) {
        const step_s = pause - median;
        const hours = Math.round(step_s / HOUR_S);
        const whole =
          (scale !== 'count' || clocked !== null) &&
          hours !== 0 &&
          Math.abs(step_s - hours * HOUR_S) <= Math.min(2 * median, TOLERANCE_S);
        clockSteps.push({ at_s: tidy(axis), step_s: tidy(step_s), cuts: !whole });
        remarks.push(stepRemark(log, clocked === null ? scale : 'local', tidy(axis), whole));
        pause = median;
      }
      offset = axis + pause;
    }
    starts.push(offset);
    for (const value of log.time_s) time_s[row++] = tidy(offset + value);
    for (const step of log.clockSteps) clockSteps.push({ ...step, at_s: tidy(step.at_s + offset) });
    axis = offset + log.duration_s;
    clock = log.origin_s + log.duration_s + log.clockSteps.reduce((sum, step) => sum + step.step_s, 0);
  }
  const problems: Problem[] = [];
  const channels = joinChannels(parts, rows, problems, remarks);
  if (problems.length > 0) return { ok: false, problems };
  const medianInterval_s = tidy(medianPositiveStep(time_s)) || median;
  return {
    ok: true,
    value: {
      source: {
        fileName: first.source.fileName,
        bytes: parts.reduce((sum, log) => sum + log.source.bytes, 0),
        sha256: null,
      },
      parts: parts.map((log) => log.source),
      dialect: first.dialect,
      rows,
      skippedRowCount: parts.reduce((sum, log) => sum + log.skippedRowCount, 0),
      skippedRows: parts
        .flatMap((log) =>
          log.skippedRows.map(({ line, reason }) => ({ line, reason: `${nameOf(log)}: ${reason}` })),
        )
        .slice(0, 50),
      timeForm: first.timeForm,
      start: first.start,
      origin_s: first.origin_s,
      duration_s: time_s[rows - 1] ?? 0,
      medianInterval_s,
      time_s,
      gaps: gapsOf(time_s, medianInterval_s),
      clockSteps,
      channels,
      timeColumns: first.timeColumns,
      roleCandidates: first.roleCandidates,
      remarks: [...parts.flatMap((log) => log.remarks), ...remarks],
    },
  };
}

/**
 * Files whose dates read in two orders, in the one that the others show; else in the one by which all lie closest together. What is
 * settled so needs no asking.
 */
function settleOrders(logs: readonly Log[]): Log[] {
  const open = logs.filter((log) => log.dateOrders?.length === 2);
  const [one] = open;
  if (one === undefined) return [...logs];
  const orders = (one.dateOrders ?? []).map(({ order }) => order);
  const reading = (log: Log, order: string): DateReading | undefined =>
    log.dateOrders?.find((found) => found.order === order);
  const shown = orders.filter((order) =>
    logs.some((log) => log.dateOrders?.length === 1 && reading(log, order) !== undefined),
  );
  const span = (order: string): number => {
    const begins = logs.map((log) => reading(log, order)?.origin_s ?? log.origin_s);
    return Math.max(...begins) - Math.min(...begins);
  };
  const [a = '', b = ''] = orders;
  const closer = span(a) < span(b) ? a : span(b) < span(a) ? b : undefined;
  // Parts a day and more apart are no run that an order could be told by.
  const settled =
    shown.length === 1 ? shown[0] : closer !== undefined && span(closer) < DAY_S ? closer : undefined;
  if (settled === undefined) return [...logs];
  return logs.map((log) => {
    const found = log.dateOrders?.length === 2 ? reading(log, settled) : undefined;
    return found === undefined
      ? log
      : {
          ...log,
          origin_s: found.origin_s,
          start: found.start,
          dateOrders: [found],
          remarks: log.remarks.filter(({ code }) => code !== 'date-order-undecided'),
        };
  });
}

/** Counts that do not go on from file to file, by the date and time that stand beside their first rows; null where they lack them. */
function byClocksBeside(logs: readonly Log[]): Log[] | null {
  const goesOn = inOrder(logs, 'count').every((log, i, all) => {
    const before = all[i - 1];
    return before === undefined || log.origin_s >= before.origin_s + before.duration_s;
  });
  const begins = logs.map((log) => secondsOf(log.start));
  return goesOn || begins.includes(null)
    ? null
    : logs.map((log, i) => ({ ...log, origin_s: begins[i] ?? log.origin_s }));
}

/** Seconds since 1970 of a start as the log has it; null without a date. */
function secondsOf(start: string | null): number | null {
  const parts = newClockParts();
  if (start === null || !readClockText(start, 'date-time', parts)) return null;
  const offset_min = parts.offset_min === NO_OFFSET ? 0 : parts.offset_min;
  return DAY_S * dayNumber(parts.a, parts.b, parts.c) + parts.clock_ns / NS_PER_S - 60 * offset_min;
}

/** Columns of a file without a heading under the names that those in their places have in the first file with one. */
function named(parts: readonly Log[], remarks: Remark[]): Log[] {
  const model = parts.find((log) => log.dialect.headerLine !== null);
  const places = (log: Log): string => log.channels.map(({ position }) => position).join();
  return parts.map((log) => {
    if (model === undefined || log.dialect.headerLine !== null || places(log) !== places(model)) return log;
    remarks.push({
      code: 'part-without-heading',
      text: `${nameOf(log)} has no heading; its columns were taken to be those of ${nameOf(model)}.`,
    });
    return {
      ...log,
      channels: log.channels.map((channel, i) => ({
        ...channel,
        column: model.channels[i]?.column ?? channel.column,
        unit: channel.unit ?? model.channels[i]?.unit ?? null,
      })),
    };
  });
}

const nameOf = (log: Log): string => log.source.fileName ?? 'standard input';
const sameFile = (a: Log, b: Log): boolean =>
  a.source.sha256 !== null && a.source.sha256 === b.source.sha256 && a.source.bytes === b.source.bytes;
const refuse = (log: Log, reason: string): Result<Log> => ({
  ok: false,
  problems: [{ code: 'parts-do-not-join', file: log.source.fileName, reason }],
});
/** Sums of offsets and times, back on the nanosecond so that 0.1 + 0.2 is 0.3 again. */
const tidy = (seconds: number): number => Math.round(seconds * 1e9) / 1e9;

const scaleWords: Readonly<Record<Scale, string>> = {
  local: 'a local date and time',
  universal: 'a time with its offset from UTC',
  'time-of-day': 'a time of day without a date',
  count: 'a count from its start',
};
function scaleOf(log: Log): Scale {
  const form: TimeForm = log.timeForm;
  switch (form) {
    case 'iso-8601':
    case 'date-time':
      return /(?:Z|[+-]\d{2}:\d{2})$/u.test(log.start ?? '') ? 'universal' : 'local';
    case 'epoch-seconds':
    case 'epoch-milliseconds':
    case 'epoch-microseconds':
    case 'epoch-nanoseconds':
    case 'ticks-from-1601':
      return 'universal';
    case 'spreadsheet-serial':
    case 'ticks-from-1':
    case 'julian-day':
    case 'modified-julian-day':
      return 'local';
    case 'time-of-day':
      return 'time-of-day';
    case 'elapsed-seconds':
    case 'elapsed-hms':
    case 'elapsed-minutes':
    case 'sample-number':
      return 'count';
  }
}

/** By their clocks; a time of day or a count as given, unless only the other order lets each file go on where another ended. */
function inOrder(logs: readonly Log[], scale: Scale): Log[] {
  const sorted = logs.toSorted((a, b) => a.origin_s - b.origin_s);
  if (scale === 'local' || scale === 'universal') return sorted;
  const follows = (log: Log, before: Log | undefined): boolean => {
    if (before === undefined) return true;
    const pause = log.origin_s - (before.origin_s + before.duration_s);
    return pause >= 0 || (scale === 'time-of-day' && pause < -HALF_DAY_S);
  };
  const inTurn = (list: readonly Log[]): boolean => list.every((log, i) => follows(log, list[i - 1]));
  return inTurn(logs) || !inTurn(sorted) ? [...logs] : sorted;
}

function stepRemark(log: Log, scale: Scale, at_s: number, whole: boolean): Remark {
  const at = `${nameOf(log)}, ${Math.round(at_s)} s after the first row`;
  if (whole)
    return {
      code: 'clock-step-joined',
      text: `${at}: its clock was set back by whole hours; the run was joined.`,
    };
  return scale === 'count'
    ? {
        code: 'part-begins-again',
        text: `${at}: its count begins again, so how long the pause before it was cannot be told; the run is cut there.`,
      }
    : {
        code: 'clock-step-cuts',
        text: `${at}: it begins before the part ahead of it ends; the run is cut there.`,
      };
}

const hasOpenDate = (log: Log): boolean => log.remarks.some(({ code }) => code === 'date-order-undecided');

/** Parts without the rows that the part ahead of them holds already, at the same times and with the same readings. */
function withoutRepeats(parts: readonly Log[], remarks: Remark[]): Log[] {
  const kept: Log[] = [];
  for (const log of parts) {
    const before = kept.at(-1);
    const rows = before === undefined ? 0 : repeatedRows(before, log);
    if (rows > 0)
      remarks.push({
        code: 'part-repeats',
        text: `${nameOf(log)} repeats ${rows} rows of the part ahead of it; they count once.`,
      });
    if (rows < log.rows) kept.push(rows === 0 ? log : withoutFirst(log, rows));
  }
  return kept;
}

/** How many of a log's first rows stand in the one before it; 0 unless all are the same as far as both go. */
function repeatedRows(before: Log, log: Log): number {
  if (before.clockSteps.length > 0 || log.clockSteps.length > 0) return 0;
  const ahead = log.origin_s - before.origin_s;
  let first = 0;
  while (first < before.rows && (before.time_s[first] ?? NaN) < ahead - SAME_S) first++;
  const rows = Math.min(before.rows - first, log.rows);
  const pairs = log.channels.flatMap((own) => {
    const other = before.channels.find(({ column }) => column === own.column);
    return other === undefined ? [] : [{ own: own.values, other: other.values }];
  });
  if (pairs.length === 0) return 0;
  for (let row = 0; row < rows; row++) {
    if (Math.abs((before.time_s[first + row] ?? NaN) - ahead - (log.time_s[row] ?? NaN)) > SAME_S) return 0;
    for (const { own, other } of pairs) if (!Object.is(own[row], other[first + row])) return 0;
  }
  return rows;
}

function withoutFirst(log: Log, rows: number): Log {
  const from = log.time_s[rows] ?? 0;
  const later = ({ start_s, end_s }: Gap): Gap[] =>
    start_s >= from ? [{ start_s: tidy(start_s - from), end_s: tidy(end_s - from) }] : [];
  return {
    ...log,
    rows: log.rows - rows,
    origin_s: log.origin_s + from,
    duration_s: tidy(log.duration_s - from),
    time_s: log.time_s.slice(rows).map((at) => tidy(at - from)),
    gaps: log.gaps.flatMap(later),
    channels: log.channels.map((channel) => ({
      ...channel,
      values: channel.values.slice(rows),
      flags: channel.flags.slice(rows),
    })),
  };
}

/** The channels of each joined column, one or null for each part: by name, then by role where no part has both. */
function grouped(parts: readonly Log[], remarks: Remark[]): (Channel | null)[][] {
  const names = [...new Set(parts.flatMap((log) => log.channels.map((channel) => channel.column)))];
  const groups: (Channel | null)[][] = [];
  for (const column of names) {
    const own = parts.map((log) => log.channels.find((channel) => channel.column === column) ?? null);
    const role = own.find((channel) => channel?.role)?.role ?? null;
    const same = groups.find(
      (group) =>
        role !== null &&
        role !== 'ignored' &&
        group.some((channel) => channel?.role === role) &&
        group.every((channel, i) => channel === null || own[i] === null),
    );
    if (same === undefined) {
      groups.push(own);
      continue;
    }
    const model = same.find((channel) => channel !== null)?.column ?? '';
    remarks.push({
      code: 'columns-joined-by-role',
      text: `"${model}" and "${column}" of different files were joined: they stand for the same.`,
    });
    for (const [i, channel] of own.entries()) same[i] ??= channel;
  }
  return groups;
}

function joinChannels(
  parts: readonly Log[],
  rows: number,
  problems: Problem[],
  remarks: Remark[],
): Channel[] {
  return grouped(parts, remarks).flatMap((own): Channel[] => {
    const model =
      own.find((channel) => channel !== null && channel.unit !== null) ??
      own.find((channel) => channel !== null);
    if (model === null || model === undefined) return [];
    const values = new Float64Array(rows).fill(NaN);
    const flags = new Uint8Array(rows).fill(SetAside.missing);
    const tokens = new Map<string, number>();
    let decimals: number | null = 0,
      row = 0;
    for (const [i, log] of parts.entries()) {
      const channel = own[i] ?? null;
      if (channel !== null) {
        const from = channel.unit ?? model.unit;
        const to = model.unit;
        if (from !== null && to !== null && from !== to && unitKind(from) !== unitKind(to))
          problems.push({
            code: 'parts-do-not-join',
            file: log.source.fileName,
            reason: `column "${channel.column}" is in ${from} there and in ${to} elsewhere`,
          });
        if (channel.unit === null && to !== null)
          remarks.push({
            code: 'part-without-unit',
            text: `Column "${channel.column}" has no unit in ${nameOf(log)}; it was taken to be in ${to} there, as in the other parts.`,
          });
        const same = from === null || to === null || from === to;
        values.set(same ? channel.values : channel.values.map((value) => convert(value, from, to)), row);
        flags.set(channel.flags, row);
        for (const { token, count } of channel.faultTokens)
          tokens.set(token, (tokens.get(token) ?? 0) + count);
        decimals =
          decimals === null || channel.decimals === null || !same
            ? null
            : Math.max(decimals, channel.decimals);
      }
      row += log.rows;
    }
    const role = own.find((channel) => channel?.role !== null && channel?.role !== undefined)?.role ?? null;
    return [
      {
        ...model,
        role,
        values,
        flags,
        decimals,
        faultTokens: [...tokens].slice(0, 20).map(([token, count]) => ({ token, count })),
      },
    ];
  });
}

function gapsOf(time_s: Float64Array, median: number): Gap[] {
  const gaps: Gap[] = [];
  for (let i = 1; i < time_s.length; i++) {
    const start_s = time_s[i - 1] ?? 0,
      end_s = time_s[i] ?? 0;
    // The comparison is made on nanoseconds: five intervals of 0.1 s are a gap, whatever their last bit.
    if (median > 0 && tidy(end_s - start_s) >= tidy(GAP_FACTOR * median)) gaps.push({ start_s, end_s });
  }
  return gaps;
}

function medianOf(steps: number[]): number {
  const sorted = steps.toSorted((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 0;
}
