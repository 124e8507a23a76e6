import type { TimeForm } from '#formats/log.ts';
import type { Problem } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import { clockBesideDisagrees } from './clock-beside.ts';
import { clockColumns, secondsBeside, unmarkedPart } from './clock-columns.ts';
import { Kind } from './column-kind.ts';
import { findColumn } from './column-names.ts';
import { summariseColumns, type ColumnSummary } from './column-summary.ts';
import {
  elapsedName,
  epochName,
  isOtherDate,
  isOtherTime,
  maySayDate,
  recordName,
  saysTime,
  timeName,
} from './heading-words.ts';
import type { Layout } from './settle-layout.ts';
import { byParts, fractionAmong } from './clock-in-parts.ts';
import { byCount, countForm, countOfRig } from './time-counts.ts';
import type { TimePlan } from './time-plan.ts';
import { whyNoTime } from './why-no-time.ts';
import { byYearless, setYearless } from './time-yearless.ts';
import {
  clockPart,
  fractionNamed,
  isOtherQuantity,
  isUnitOfTime,
  partsHint,
  orderSaid,
  secondsInUnit,
  secondsOfCells,
  secondsName,
} from './time-headings.ts';

/** Headings of a column that says which half of the day it is. */
const halfName = /^\W*$|[ap]\W?m\b|noon|half|merid|period|time|zeit|clock|12|tag/iu;

/** A log of a bench run lasts hours; a bare "time" that would make it longer is no count of seconds. */
const LONGEST_BARE_S = 48 * 3600;
/** In fewer of the rows a date does not date each. */
const FILLED_DATES = 0.5;
/** Nor does a count begin after years: 260304081500 is a date. */
const LATEST_BARE_S = 1e8;
/** Nor has it 10,000 readings a second: so small steps are fractions of a day, or anything. */
const SHORTEST_BARE_STEP_S = 1e-4;

/**
 * Finds the time of the rows from headings and values, the rig's word first: an elapsed count before a clock (it settles the
 * order), a clock before an epoch or day number, a row counter only with an interval from the rig.
 * @returns no-usable-time where nothing can be told; column-not-in-log for a name that the file lacks
 */
export function findTime(
  layout: Layout,
  names: readonly string[],
  rig: Rig['time'],
  file: string | null,
  dates1904: boolean,
): TimePlan | Problem {
  const columns = summariseColumns(layout);
  const plan: TimePlan = {
    form: 'elapsed-seconds',
    source: 'rows',
    column: -1,
    dateColumn: -1,
    fractionColumn: -1,
    fractionDigits: null,
    halfColumn: -1,
    startColumn: -1,
    parts: [],
    count: null,
    yearless: false,
    recordColumn: -1,
    unit_s: 1,
    ahead_s: 0,
    dates1904,
    cellUnit: null,
    twoParts: false,
    unmarked: false,
    dateOrder: rig?.dateOrder ?? null,
    dateOrderHint: null,
    otherClocks: [],
    remarks: [],
  };
  const named = rig?.column === undefined ? -1 : findColumn(names, rig.column);
  const dateNamed = rig?.dateColumn === undefined ? -1 : findColumn(names, rig.dateColumn);
  if (rig?.column !== undefined && named < 0) return notInLog(file, rig.column, names);
  if (rig?.dateColumn !== undefined && dateNamed < 0) return notInLog(file, rig.dateColumn, names);

  const heading = (column: number): string => layout.lowestHeadings[column] ?? '';
  const dates = columns.filter((c) => c.kind === 'date-time' || c.kind === 'date');
  // A date alone may be that of a calibration, and `1.2.3` in all rows a version: the heading tells.
  const unsaid = (c: ColumnSummary): boolean =>
    !c.fullDates && c.changes < 2 && layout.rows.length > 1 && !maySayDate(heading(c.column));
  const clocks = dates.filter(
    (c) => (c.kind === 'date-time' && !c.midnightOnly) || !(isOtherDate(heading(c.column)) || unsaid(c)),
  );
  const allTimes = columns.filter((c) => c.kind === 'time');
  // "Shift 06:00" and "Time left" say nothing of the rows, where another time does.
  const rowTimes = allTimes.filter((c) => c.changes > 1 && !isOtherTime(heading(c.column)));
  // Nor does how long something took, "5m 3s".
  const points = rowTimes.filter((c) => !c.lengths);
  const times = points.length > 0 ? points : rowTimes.length > 0 ? rowTimes : allTimes;
  const still = (c: ColumnSummary): boolean => c.constant || isOtherTime(heading(c.column));
  const record = columns.find(
    (c) => c.kind === 'number' && c.integers && recordName.test(heading(c.column)) && c.countsUp,
  );
  plan.recordColumn = record?.column ?? -1;

  const inParts = columns.some((c) => c.kind === 'date-time' && !c.midnightOnly)
    ? null
    : clockColumns(columns, layout, clocks[0]?.column ?? -1);
  const wholeSeconds = [...clocks, ...times].some(
    (c) => c.kind !== 'date' && c.changes > 1 && !c.fractions && !c.wholeMinutes,
  );
  const ofSecond = inParts === null && !wholeSeconds ? undefined : fractionAmong(columns, layout);
  const minutes = columns.find((c) => c.kind === 'date-time' && !c.midnightOnly && c.wholeMinutes);
  const beside = minutes === undefined ? undefined : secondsBeside(columns, layout, minutes);
  const isPart = (column: number): boolean => inParts?.parts.some((part) => part.column === column) === true;
  const partsNamed =
    (named < 0 || isPart(named)) && (dateNamed < 0 || isPart(dateNamed) || dateNamed === clocks[0]?.column);
  const partsStated = rig?.form === undefined || rig.form === 'date-time' || rig.form === 'time-of-day';
  const settled =
    (named >= 0 || rig?.form !== undefined) && !(inParts !== null && partsNamed && partsStated)
      ? byRig(plan, columns, layout, rig, named, dateNamed)
      : (named < 0 &&
          rig?.form === undefined &&
          byElapsed(
            plan,
            columns.filter((c) => !isPart(c.column) && c !== ofSecond && c !== beside),
            layout,
            ofSecond,
          )) ||
        byParts(plan, inParts, clocks[0], columns, layout) ||
        ((times.length > 0 || clocks.some((c) => c.kind === 'date-time')) &&
          clocks.every((c) => c.constant) &&
          times.every(still) &&
          named < 0 &&
          byNumber(plan, columns, layout, rig?.interval_s !== undefined)) ||
        byClock(plan, clocks, times, columns, layout) ||
        byNumber(plan, columns, layout, rig?.interval_s !== undefined) ||
        byCount(plan, columns, layout, 'by-size') ||
        (rig?.interval_s === undefined && byYearless(plan, columns, layout));
  if (!settled) {
    const down = columns.find(
      (c) => c.falls && (timeName.test(heading(c.column)) || elapsedName.test(heading(c.column))),
    );
    if (rig?.interval_s === undefined)
      return down === undefined
        ? noTime(file, names, whyNoTime(columns, layout, named))
        : { code: 'time-runs-down', file, column: names[down.column] ?? null };
    plan.form = 'sample-number';
    plan.source = plan.recordColumn >= 0 ? 'number' : 'rows';
    plan.column = plan.recordColumn;
    plan.unit_s = rig.interval_s;
    plan.recordColumn = -1;
  }
  if (beside !== undefined && plan.source === 'clock' && plan.column === minutes?.column)
    plan.parts = [{ column: beside.column, kind: Kind.second }];
  if (plan.fractionColumn >= 0)
    plan.fractionDigits =
      plan.fractionColumn === layout.cutFraction?.column
        ? layout.cutFraction.digits
        : (fractionNamed(heading(plan.fractionColumn))?.digits ?? null);
  if (plan.source === 'clock' || plan.source === 'date-and-time' || plan.source === 'time-of-day') {
    // A clock of 24 hours needs none, and "FM" in a column "Mode" is none.
    const hours = plan.parts.find(({ kind }) => kind === Kind.hour)?.column ?? -1;
    const twelve = (hours < 0 ? (columns[plan.column]?.latestHour ?? 24) : (columns[hours]?.max ?? 24)) <= 12;
    const half = columns.find((c) => c.halves && halfName.test(heading(c.column)));
    plan.halfColumn =
      twelve && half !== undefined && plan.count === null && !plan.yearless ? half.column : -1;
    if (plan.halfColumn >= 0) plan.twoParts = false;
  }
  const used = new Set([
    plan.column,
    plan.dateColumn,
    plan.fractionColumn,
    ...plan.parts.map((part) => part.column),
  ]);
  const undated = dates.find((c) => c.kind === 'date' && unsaid(c) && !isOtherDate(heading(c.column)));
  if (plan.source === 'time-of-day' && undated !== undefined && plan.column !== undated.column)
    plan.remarks.push({
      code: 'dates-not-said',
      text: `Column "${heading(undated.column)}" may hold dates, but its heading says nothing of the kind: they were not taken for the date of the run. If they are, name it as "dateColumn" in a rig file.`,
    });
  plan.otherClocks = [...dates, ...allTimes].map((c) => c.column).filter((column) => !used.has(column));
  const counts = plan.source === 'elapsed' || plan.source === 'number';
  if (counts && !plan.form.startsWith('epoch') && plan.form !== 'spreadsheet-serial') {
    const clock = clocks.find((c) => c.kind === 'date-time');
    plan.startColumn = (clock ?? (plan.unmarked ? clocks[0] : undefined))?.column ?? -1;
  }
  if (plan.recordColumn === plan.column) plan.recordColumn = -1;
  const unit = plan.source === 'number' ? columns[plan.column]?.cellUnit : null;
  plan.cellUnit = unit === undefined || unit === 'mixed' ? null : unit;
  plan.dateOrderHint =
    [plan.dateColumn, plan.column, plan.startColumn]
      .filter((column) => column >= 0)
      .map((column) => orderSaid(`${layout.headings[column] ?? ''} ${layout.unitTexts[column] ?? ''}`))
      .find((order) => order !== null) ?? null;
  const disagreement = clockBesideDisagrees(plan, layout);
  if (disagreement !== null) plan.remarks.push(disagreement);
  return plan;
}

const noTime = (file: string | null, names: readonly string[], why: ReturnType<typeof whyNoTime>): Problem =>
  why === null
    ? { code: 'no-usable-time', file, line: null, text: null }
    : {
        code: 'no-usable-time',
        file,
        line: null,
        text: why.text,
        column: names[why.column] ?? '',
        reason: why.reason,
      };

const notInLog = (file: string | null, column: string, names: readonly string[]): Problem => ({
  code: 'column-not-in-log',
  file,
  column,
  columns: [...names],
});

function setNumber(plan: TimePlan, column: number, form: TimeForm, unit_s: number): true {
  plan.source = 'number';
  plan.column = column;
  plan.form = form;
  plan.unit_s = unit_s;
  return true;
}

function byElapsed(
  plan: TimePlan,
  columns: readonly ColumnSummary[],
  layout: Layout,
  fraction?: ColumnSummary,
): boolean {
  for (const c of columns) {
    const heading = layout.lowestHeadings[c.column] ?? '';
    if (
      c.kind === 'time' &&
      elapsedName.test(heading) &&
      !(c.constant && columns.some(movesOn)) &&
      !(c.lengths && columns.some((other) => isClock(other, layout)))
    )
      return setHms(plan, c, layout, partsHint(layout, c.column) !== 'hours', fraction);
    if (c.kind !== 'number' || !c.rises || epochScale(c) !== null) continue;
    if (countForm(c, layout) !== null) continue;
    if (isOtherQuantity(layout, c.column) || isPartOfClock(c, columns, layout)) continue;
    // Whole hours of a run tell less than the clock beside them.
    if (
      columns.some(
        (other) => (other.kind === 'time' || other.kind === 'date-time') && other.changes > 2 * c.changes,
      )
    )
      continue;
    const unit_s = secondsOfCells(c, secondsInUnit(layout, c.column));
    if (unit_s === null || Number.isNaN(unit_s)) continue;
    if (
      elapsedName.test(heading) ||
      timeName.test(heading) ||
      isUnitOfTime(heading) ||
      (c.column === 0 && isUnitOfTime(layout.unitTexts[0] ?? ''))
    )
      return setNumber(plan, c.column, unit_s === 60 ? 'elapsed-minutes' : 'elapsed-seconds', unit_s);
  }
  return false;
}

/** A time of day, or date and time, that changes from row to row. */
const isClock = (c: ColumnSummary, layout: Layout): boolean =>
  c.changes > 1 &&
  (c.kind === 'date-time' ||
    (c.kind === 'time' && !c.lengths) ||
    (c.rises && epochScale(c) !== null) ||
    countForm(c, layout) !== null);

/** Another time that tells more than one that stands still. */
const movesOn = (c: ColumnSummary): boolean =>
  c.changes > 1 && (c.kind === 'time' || c.kind === 'date-time' || (c.kind === 'number' && c.steady));

/** Seconds or minutes of a clock whose hours or minutes stand in a column of their own: they go round, and count nothing. */
function isPartOfClock(c: ColumnSummary, columns: readonly ColumnSummary[], layout: Layout): boolean {
  const own = clockPart(layout.lowestHeadings[c.column] ?? '');
  return (
    own > 0 &&
    c.max !== null &&
    c.max < 60 &&
    columns.some(
      (other) =>
        other.kind === 'number' &&
        other.integers &&
        clockPart(layout.lowestHeadings[other.column] ?? '') > own &&
        (other.max ?? 60) < 60,
    )
  );
}
/** Seconds from 1904-01-01, from which some measuring programs count, to 1970-01-01: 24,107 days. */
const FROM_1904_s = 24107 * 86400;
/** The year 2070: what counts beyond it counts from 1904, and lies between 2004 and 2040. Two digits of a year end there, too. */
const YEAR_2070_s = 3155760000;

/** 1 for a count of seconds since 1970 (or 1904), 0.001 for milliseconds, by size: from 1998 on. */
function epochScale(c: ColumnSummary): number | null {
  if (c.kind !== 'number' || c.min === null || c.max === null) return null;
  if (c.min > 9e8 && c.max < 4_294_967_296) return 1;
  return c.min > 9e11 && c.max < 1000 * YEAR_2070_s ? 0.001 : null;
}

function setEpoch(plan: TimePlan, c: ColumnSummary, scale: number): true {
  if (scale === 1 && (c.min ?? 0) >= YEAR_2070_s) {
    plan.ahead_s = FROM_1904_s;
    plan.remarks.push({
      code: 'seconds-from-1904',
      text: 'The times count seconds from 1904, as some measuring programs do: counted from 1970 they would lie beyond 2069.',
    });
  }
  return setNumber(plan, c.column, scale === 1 ? 'epoch-seconds' : 'epoch-milliseconds', scale);
}

function byClock(
  plan: TimePlan,
  clocks: readonly ColumnSummary[],
  times: readonly ColumnSummary[],
  columns: readonly ColumnSummary[],
  layout: Layout,
): boolean {
  const fraction = fractionAmong(columns, layout);
  const heading = (c: ColumnSummary): string => layout.lowestHeadings[c.column] ?? '';
  const epoch = columns.find(
    (c) =>
      epochScale(c) !== null &&
      (c.rises || c.falls) &&
      (epochName.test(heading(c)) ||
        timeName.test(heading(c)) ||
        isUnitOfTime(heading(c)) ||
        /(?:^|_)s(?:ecs?|econds)?$/iu.test(heading(c))),
  );
  // Of several the one that changes: "Created" stands still, a server's clock comes in gusts.
  const clock =
    clocks
      .filter((c) => c.kind === 'date-time' && !c.midnightOnly)
      .toSorted((a, b) => b.changes - a.changes)[0] ?? null;
  if (epoch !== undefined && (clock === null || fraction !== undefined)) {
    plan.fractionColumn = fraction?.column ?? -1;
    return setEpoch(plan, epoch, epochScale(epoch) ?? 1);
  }
  const written = Math.max(clock?.changes ?? 0, ...times.map(({ changes }) => changes));
  const counts = columns.filter((c) => c.changes > 2 * written);
  if (byCount(plan, counts, layout, 'by-heading')) return true;
  // A stamp of whole minutes beside a time of day that changes from row to row says less than that.
  const finer = times.some((time) => clock !== null && time.changes > 2 * clock.changes);
  if (clock !== null && !finer) {
    plan.source = 'clock';
    plan.column = clock.column;
    plan.form = clock.iso ? 'iso-8601' : 'date-time';
    plan.fractionColumn = fraction !== undefined && !clock.fractions ? fraction.column : -1;
    return true;
  }
  const lengthsAlone = times.length > 0 && times.every((c) => c.lengths);
  const date = lengthsAlone
    ? undefined
    : (clocks.find((c) => c.kind === 'date' || c.midnightOnly) ?? (finer ? undefined : clocks[0]));
  const unmarked = columns.find((c) => c.unmarkedTimes === 'yes' && saysTime(heading(c)));
  if (times.length === 0 && unmarked !== undefined) {
    plan.unmarked = true;
    plan.fractionColumn = fraction?.column ?? -1;
    return setNumber(plan, unmarked.column, 'time-of-day', 1);
  }
  // One date in all rows tells no time.
  if (date !== undefined && date.filled < FILLED_DATES && times.length > 0) {
    // It stands in the first row alone, as people fill in forms.
    plan.startColumn = date.column;
  } else if (date !== undefined && !(times.length === 0 && date.constant)) {
    const time = times.toSorted(
      (a, b) => Math.abs(a.column - date.column) - Math.abs(b.column - date.column),
    )[0];
    plan.source = time === undefined ? 'clock' : 'date-and-time';
    plan.column = time?.column ?? date.column;
    plan.dateColumn = time === undefined ? -1 : date.column;
    plan.form = time === undefined && date.iso ? 'iso-8601' : 'date-time';
    plan.fractionColumn =
      time !== undefined && fraction !== undefined && !time.fractions ? fraction.column : -1;
    return true;
  }
  const time = times[0];
  if (time === undefined) return false;
  const hint = partsHint(layout, time.column);
  const isElapsed =
    time.startsAtZero ||
    time.overDay ||
    time.lengths ||
    (time.minutesFirst && !/uhr|clock/iu.test(heading(time)));
  return setHms(plan, time, layout, (isElapsed || hint === 'minutes') && hint !== 'hours', fraction);
}

function setHms(
  plan: TimePlan,
  time: ColumnSummary,
  layout: Layout,
  isElapsed: boolean,
  fraction: ColumnSummary | undefined,
): true {
  const open = time.twoParts && !time.startsAtZero && partsHint(layout, time.column) === null;
  plan.twoParts = open && (!isElapsed || !elapsedName.test(layout.lowestHeadings[time.column] ?? ''));
  plan.source = isElapsed && !plan.twoParts ? 'elapsed' : 'time-of-day';
  plan.column = time.column;
  plan.form = isElapsed ? 'elapsed-hms' : 'time-of-day';
  plan.fractionColumn = fraction !== undefined && !time.fractions && !time.twoParts ? fraction.column : -1;
  // "0:01" may be a minute as well as a second.
  if (isElapsed && time.twoParts && !time.overDay && partsHint(layout, time.column) === null) {
    const first = layout.rows.map((row) => (row.cells[time.column] ?? '').trim()).find((cell) => cell !== '');
    plan.remarks.push({
      code: 'time-parts-assumed',
      text: `The times of column "${layout.lowestHeadings[time.column] ?? ''}" have two parts ("${first ?? ''}"); they were read as minutes and seconds. If they are hours and minutes, say "form": "time-of-day" in a rig file.`,
    });
  }
  return true;
}

function byNumber(
  plan: TimePlan,
  columns: readonly ColumnSummary[],
  layout: Layout,
  intervalStated: boolean,
): boolean {
  for (const c of columns) {
    if (c.kind !== 'number' || !c.rises || c.min === null || c.max === null) continue;
    if (isOtherQuantity(layout, c.column)) continue;
    const heading = layout.lowestHeadings[c.column] ?? '';
    const scale = epochScale(c);
    if (scale !== null && c.column === 0) return setEpoch(plan, c, scale);
    // Day numbers from 1954 to 2119 with their fractions.
    if (
      c.min > 20000 &&
      c.max < 80000 &&
      c.decimals >= 4 &&
      (timeName.test(heading) || heading === '' || /serial|excel/iu.test(heading))
    )
      return setNumber(plan, c.column, 'spreadsheet-serial', 86400);
    if (!timeName.test(heading) && !elapsedName.test(heading)) continue;
    if (c.min > LATEST_BARE_S || (c.dottedClock && (c.medianStep ?? 1) < 0.05 && c.min >= 1)) continue;
    if (
      Number.isNaN(secondsOfCells(c, secondsInUnit(layout, c.column)) ?? 0) ||
      isPartOfClock(c, columns, layout)
    )
      continue;
    if (c.unmarkedTimes === 'unsure') continue;
    // 1200, 1201 may be hours and minutes, but no run's length.
    if (c.clockDigits?.digits === 4 && (c.clockDigits.jumps || !elapsedName.test(heading))) continue;
    // T is a temperature as often as a time, and X anything; t is a time by custom.
    if (/^\W*[TXx]\W*$/u.test(heading) && !c.steady) continue;
    if (/^\W*t\W*$/u.test(heading) && !c.even) continue;
    const part = partOfDay(c);
    if (part === true) return setNumber(plan, c.column, 'spreadsheet-serial', 86400);
    if (part === null) continue;
    const step = c.medianStep ?? 0;
    // A stated interval is a better word than a unit that is assumed.
    if (intervalStated) continue;
    if (step >= SHORTEST_BARE_STEP_S && step <= 60 && c.max - c.min <= LONGEST_BARE_S) {
      plan.remarks.push({
        code: 'time-unit-assumed',
        text: `Column "${heading}" gives no unit; it was read as seconds (one row every ${Number(step.toPrecision(6))} s). If that is wrong, name its form in a rig file.`,
      });
      return setNumber(plan, c.column, 'elapsed-seconds', 1);
    }
  }
  return false;
}

/**
 * Whether a time below 1 is a spreadsheet's part of a day: 0.34375 is 08:15. A thousand rows a second and more would be as small; their
 * steps are round numbers. Null where neither can be: steps that are no round number, nor anything that a logger would keep to.
 */
function partOfDay(c: ColumnSummary): boolean | null {
  const { min, max, medianStep, meanStep } = c;
  if (min === null || max === null || medianStep === null || meanStep === null) return false;
  if (min < 0 || max >= 1 || medianStep >= 1e-3 || c.roundSteps) return false;
  const step_s = meanStep * 86400;
  return c.decimals >= 5 && step_s >= 0.05 && Math.abs(step_s - Math.round(20 * step_s) / 20) <= 0.01 * step_s
    ? true
    : null;
}

function byRig(
  plan: TimePlan,
  columns: readonly ColumnSummary[],
  layout: Layout,
  rig: Rig['time'],
  named: number,
  dateNamed: number,
): boolean {
  const only = named >= 0 ? columns.filter((c) => c.column === named) : columns;
  const form = rig?.form;
  const kind = columns[named]?.kind;
  const own = columns[named];
  if (own?.yearless === true && (form === undefined || form === 'date-time' || form === 'time-of-day'))
    return setYearless(plan, own, layout);
  switch (form) {
    case undefined: {
      const clocks = columns.filter(
        (c) =>
          (c.column === named || c.column === dateNamed) && (c.kind === 'date-time' || c.kind === 'date'),
      );
      const times = columns.filter(
        (c) => (c.column === named || (kind === 'date' && dateNamed < 0)) && c.kind === 'time',
      );
      if (kind === 'number' && recordish(layout, named) && rig?.interval_s !== undefined)
        return setNumber(plan, named, 'sample-number', rig.interval_s);
      return (
        byElapsed(plan, only, layout) ||
        (clocks.some((c) => c.kind === 'date-time') &&
          clocks.every((c) => c.constant) &&
          times.length === 0 &&
          named < 0 &&
          byNumber(plan, columns, layout, rig?.interval_s !== undefined)) ||
        byClock(plan, clocks, times, kind === 'number' ? only : [], layout) ||
        byNumber(plan, only, layout, false) ||
        (named >= 0 && byCount(plan, only, layout, 'by-rig'))
      );
    }
    case 'iso-8601':
    case 'date-time': {
      const column =
        named >= 0 ? named : (columns.find((c) => c.kind === 'date-time' || c.kind === 'date')?.column ?? -1);
      const date =
        dateNamed >= 0
          ? dateNamed
          : kind === 'time'
            ? (columns.find((c) => c.kind === 'date')?.column ?? -1)
            : -1;
      plan.column = column;
      plan.dateColumn = date;
      plan.source = date >= 0 ? 'date-and-time' : 'clock';
      plan.form = form;
      return column >= 0;
    }
    case 'time-of-day':
    case 'elapsed-hms': {
      plan.column = named >= 0 ? named : (columns.find((c) => c.kind === 'time')?.column ?? -1);
      plan.source = form === 'time-of-day' ? 'time-of-day' : 'elapsed';
      plan.form = form;
      // `0930` without a date beside it: only the rig file can say so.
      if (form === 'time-of-day' && plan.column < 0)
        plan.column = columns.find((c) => c.clockDigits !== null)?.column ?? -1;
      if (form === 'time-of-day' && columns[plan.column]?.clockDigits)
        plan.parts = [unmarkedPart(columns, plan.column)];
      return plan.column >= 0;
    }
    case 'sample-number': {
      if (rig?.interval_s === undefined) return false;
      const column = named >= 0 ? named : plan.recordColumn;
      setNumber(plan, column, form, rig.interval_s);
      if (column < 0) plan.source = 'rows';
      return true;
    }
    case 'epoch-microseconds':
    case 'epoch-nanoseconds':
    case 'ticks-from-1601':
    case 'ticks-from-1':
    case 'julian-day':
    case 'modified-julian-day':
      return countOfRig(plan, columns, named, form);
    case 'elapsed-seconds':
    case 'elapsed-minutes':
    case 'epoch-seconds':
    case 'epoch-milliseconds':
    case 'spreadsheet-serial': {
      const column = named >= 0 ? named : (columns.find((c) => c.kind === 'number' && c.rises)?.column ?? -1);
      const unit =
        form === 'elapsed-minutes'
          ? 60
          : form === 'epoch-milliseconds'
            ? 0.001
            : form === 'spreadsheet-serial'
              ? 86400
              : 1;
      const counted = columns[column];
      const inFile =
        counted === undefined ? NaN : (secondsOfCells(counted, secondsInUnit(layout, column)) ?? NaN);
      if (form === 'elapsed-minutes' && !Number.isNaN(inFile) && inFile !== 60)
        plan.remarks.push({
          code: 'unit-differs-from-file',
          text: `Column "${layout.lowestHeadings[column] ?? ''}": the file says ${secondsName(inFile)}, the rig file says ${form}; ${form} was used.`,
        });
      const stated = form === 'elapsed-seconds' && !Number.isNaN(inFile);
      return column >= 0 && setNumber(plan, column, form, stated ? inFile : unit);
    }
  }
}

const recordish = (layout: Layout, column: number): boolean =>
  recordName.test(layout.lowestHeadings[column] ?? '');
