import type { DateReading, TimeForm } from '#formats/log.ts';
import type { Remark } from '#formats/remark.ts';
import { stepsOf } from '#statistics/steps.ts';
import { takeBadTimes } from './bad-times.ts';
import { civilDate, type DateOrder } from './civil-day.ts';
import { UNMARKED } from './clock-cells.ts';
import { daysOf, settleDays } from './date-order.ts';
import { secondsOfUnmarked } from './column-summary.ts';
import type { TimePlan } from './time-plan.ts';
import type { DateRun, LogTable } from './log-table.ts';
import { NAMED_MONTH, newClockParts, NO_OFFSET, NS_PER_DAY, readClockText } from './read-clock.ts';
import { medianPositiveStep } from './time-axis.ts';
import { forgetYear } from './time-yearless.ts';

/** Times of the rows as the file has them, on whole ticks so that differences of decimal times are exact. */
export interface RawTime {
  /** Ticks from the first row; whole numbers. */
  ticks: Float64Array;
  ticksPerSecond: number;
  /** The first row on the file's own scale: seconds since 1970, since midnight, or of the count. */
  origin_s: number;
  /** As logged; null where the file has none, or its order of day and month cannot be told. */
  start: string | null;
  dateOrders: DateReading[];
  /** Forward jumps may be a clock that was set; a count has no clock to set. */
  isClock: boolean;
  /** Rows (1) whose date does not exist or whose time is absurd; null where there are none. */
  unusable: Uint8Array | null;
  unusableLines: { line: number; text: string }[];
  form: TimeForm;
  /** The rows were turned round: the file has the newest reading first. */
  turned: boolean;
  /** A time without a date that falls from row to row: a count that runs down, or the newest reading first. */
  fallsThroughout: boolean;
  remarks: Remark[];
}

const powersOfTen = [1, 10, 100, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9] as const;
const power = (digits: number): number => powersOfTen[Math.min(9, Math.max(0, digits))] ?? 1;
const MOST_TICKS = Number.MAX_SAFE_INTEGER;
const HALF_DAY_S = 43200;
/** Day number 0 of the spreadsheet's 1900 system is 1899-12-30 for all days from March 1900 on. */
const SPREADSHEET_EPOCH = 25569;
/** The 1904 system counts as many days less. */
const DAYS_1904 = 1462;
/** 2000-01-01 in the 1900 system. */
const YEAR_2000 = 36526;

/**
 * Takes the time out of a finished table.
 * @param startCell the first row's cell of a clock that stands beside an elapsed time
 */
export function rawTime(table: LogTable, plan: TimePlan, startCell: string): RawTime {
  const raw = table.takeTime();
  const result: RawTime = {
    ticks: raw,
    ticksPerSecond: 1,
    origin_s: 0,
    start: null,
    dateOrders: [],
    isClock: false,
    unusable: null,
    unusableLines: [],
    form: plan.form,
    turned: false,
    fallsThroughout: false,
    remarks: [],
  };
  switch (plan.source) {
    case 'clock':
    case 'date-and-time':
      fromDates(result, table, plan);
      break;
    case 'time-of-day':
      if (plan.twoParts) fromTwoParts(result, table, plan);
      else fromTimeOfDay(result, table, plan);
      break;
    case 'elapsed':
      fromNanoseconds(result, table, plan);
      break;
    case 'number':
      if (plan.unmarked) fromUnmarkedTimes(result, table, plan);
      else fromNumbers(result, table, plan);
      break;
    case 'rows':
      for (let i = 0; i < raw.length; i++) raw[i] = i;
      fromCount(result, plan.unit_s);
      break;
  }
  result.fallsThroughout = !result.turned && falls(result.ticks);
  if (plan.unmarked || plan.source === 'time-of-day')
    result.start = startOnDay(startCell, result.start, plan);
  else if (plan.startColumn >= 0) result.start = startBeside(startCell, plan);
  if (plan.yearless) forgetYear(result);
  sayShared(result);
  return result;
}

/** So many falls tell a direction, where they are so many of a hundred changes (common practice, no source). */
const FEWEST_TURNED = 10;
const TURNED_SHARE = 0.9;
const LOOKED_AT = 1000;
/** Whether times fall from row to row, but for a few. */
function falls(times: Float64Array): boolean {
  let down = 0,
    up = 0;
  for (let i = 1; i < times.length; i++) {
    const step = (times[i] ?? NaN) - (times[i - 1] ?? NaN);
    if (step < 0) down++;
    else if (step > 0) up++;
    // The first rows of a log that goes forward tell.
    if (up > LOOKED_AT && down <= TURNED_SHARE * (down + up)) return false;
  }
  return down >= FEWEST_TURNED && down > TURNED_SHARE * (down + up);
}

/**
 * Turns the rows round where the newest comes first, as some programs export a run: dates say which way time goes. Rows out of line stay
 * so; nothing is sorted.
 */
function turnRound(result: RawTime): void {
  if (!falls(result.ticks)) return;
  result.turned = true;
  result.ticks.reverse();
  result.unusable?.reverse();
  result.remarks.push({
    code: 'newest-first',
    text: 'The file has the newest reading first; it was read from its last row to its first.',
  });
}

/** What a number must lie between to be a point in time of such a form: 1998 to 2099, and day numbers from 1954 to 2119. */
const timesBetween: Partial<Record<TimePlan['form'], readonly [number, number]>> = {
  'epoch-seconds': [9e8, 4.1e9],
  'epoch-milliseconds': [9e11, 4.1e12],
  'spreadsheet-serial': [20_000, 80_000],
};
const MOST_NO_TIMES = 0.1;

/** Leaves out the rows whose number is no point in time, where nearly all others are: a small table above, counts below. */
function leaveOutNoTimes(result: RawTime, times: Float64Array, form: TimePlan['form']): void {
  const between = timesBetween[form];
  if (between === undefined) return;
  const [low, high] = between;
  const isNone = (value: number): boolean => !(value > low && value < high);
  let count = 0,
    first = -1;
  for (let row = 0; row < times.length; row++)
    if (isNone(times[row] ?? NaN)) {
      if (count++ === 0) first = row;
    }
  if (count === 0 || count > MOST_NO_TIMES * times.length) return;
  result.remarks.push({
    code: 'time-out-of-line',
    text: `${count} ${count === 1 ? 'row has' : 'rows have'} a number in place of the time that is none, and ${count === 1 ? 'was' : 'were'} left out; the first: row ${first + 1} says ${times[first] ?? NaN}.`,
  });
  result.unusable ??= new Uint8Array(times.length);
  let good = times.find((value) => !isNone(value)) ?? 0;
  for (let row = 0; row < times.length; row++) {
    const value = times[row] ?? NaN;
    if (!isNone(value)) good = value;
    else {
      result.unusable[row] = 1;
      times[row] = good;
    }
  }
}

/** Leaves out rows with an absurd time, and says so. @param seconds of one unit of `times` */
function leaveOutBadTimes(result: RawTime, times: Float64Array, seconds: number): void {
  const first = times[0] ?? 0;
  const bad = takeBadTimes(times);
  const [one] = bad;
  if (one === undefined) return;
  result.unusable ??= new Uint8Array(times.length);
  for (const { row } of bad) result.unusable[row] = 1;
  const shown = (value: number): string => `${Number(((value - first) * seconds).toPrecision(9))} s`;
  result.remarks.push({
    code: 'time-out-of-line',
    text: `${bad.length === 1 ? '1 row has a time that does' : `${bad.length} rows have times that do`} not fit the rows on either side and ${bad.length === 1 ? 'was' : 'were'} left out${bad.length === 1 ? '' : '; the first'}: row ${one.row + 1} says ${shown(one.time)} after the first row, the row before it ${shown(times[one.row - 1] ?? NaN)}.`,
  });
}

/** Stamps coarser than the rows: a few doubled ones are not worth a word. */
const SHARED_SHARE = 0.01;
function sayShared({ ticks, unusable, remarks }: RawTime): void {
  let { shared } = stepsOf(ticks);
  for (let i = 1; unusable !== null && i < ticks.length; i++)
    if (ticks[i] === ticks[i - 1] && (unusable[i] === 1 || unusable[i - 1] === 1)) shared--;
  if (shared > SHARED_SHARE * ticks.length)
    remarks.push({
      code: 'times-coarser-than-rows',
      text: `${shared} of ${ticks.length} rows have the same time as the row before: the times are coarser than the rows. Rows that share a time share what it stands for; how fast something happened cannot be told more finely than the times.`,
    });
}

/** Ticks of the fraction column; its scale by its size: 25 of 0, 25, 50, 75 is a quarter of a second. */
function fractionTicks(
  table: LogTable,
  plan: TimePlan,
): { values: Float64Array; scale: number; digits: number } | null {
  if (plan.fractionColumn < 0) return null;
  const values = table.takeFraction();
  let max = 0,
    whole = true;
  for (const value of values) {
    if (value > max) max = value;
    if (!Number.isInteger(value)) whole = false;
  }
  if (max < 1 || !whole) return { values, scale: 1, digits: 6 };
  const named = plan.fractionDigits;
  if (named !== null && max < power(named)) return { values, scale: 1 / power(named), digits: named };
  const digits = max < 10 ? 1 : max < 100 ? 2 : max < 1000 ? 3 : 6;
  return { values, scale: 1 / power(digits), digits };
}

function fromDates(result: RawTime, table: LogTable, plan: TimePlan): void {
  const { ticks } = result;
  const runs = table.dates;
  const found = settleDays(runs, ticks.length, plan.dateOrder, plan.dateOrderHint);
  const fraction = fractionTicks(table, plan);
  const digits = Math.max(table.fractionDigits, fraction?.digits ?? 0);
  const perSecond = power(digits);
  const nsPerTick = 1e9 / perSecond;
  const firstRun = found.days.findIndex((day) => !Number.isNaN(day));
  const firstDay = found.days[firstRun] ?? 0;
  result.isClock = true;
  result.ticksPerSecond = perSecond;
  for (const [i, run] of runs.entries()) {
    const day = found.days[i] ?? NaN;
    const end = runs[i + 1]?.row ?? ticks.length;
    if (Number.isNaN(day)) {
      result.unusable ??= new Uint8Array(ticks.length);
      result.unusable.fill(1, run.row, end);
      ticks.fill(NaN, run.row, end);
      result.unusableLines.push({ line: run.line, text: dateText(run) });
      continue;
    }
    const offset_s = run.offset_min === NO_OFFSET ? 0 : run.offset_min * 60;
    const base = ((day - firstDay) * 86400 - offset_s) * perSecond;
    for (let row = run.row; row < end; row += SOME_ROWS)
      toTicks(ticks, base, nsPerTick, row, Math.min(end, row + SOME_ROWS));
    if (fraction !== null)
      for (let row = run.row; row < end; row++)
        ticks[row] = (ticks[row] ?? 0) + Math.round((fraction.values[row] ?? 0) * fraction.scale * perSecond);
  }
  turnRound(result);
  leaveOutBadTimes(result, ticks, 1 / perSecond);
  const first = result.turned ? runs[found.days.findLastIndex((day) => !Number.isNaN(day))] : runs[firstRun];
  if (first === undefined) return;
  const firstTicks = ticks.find((at) => !Number.isNaN(at)) ?? 0;
  const offset_s = first.offset_min === NO_OFFSET ? 0 : first.offset_min * 60;
  result.origin_s = firstDay * 86400 + firstTicks / perSecond;
  const beginning = (order: DateOrder, laterDays: number): DateReading => ({
    order,
    origin_s: result.origin_s + laterDays * 86400,
    start: isoStart(
      firstDay + laterDays,
      firstTicks + offset_s * perSecond,
      perSecond,
      digits,
      first.offset_min,
    ),
  });
  const chosen = beginning(found.order, 0);
  result.dateOrders = [chosen];
  // Where nothing decides all rows bear one date; 04/04 is the same in both orders, and decides nothing for another file.
  const same = runs.every(({ a, b, separator }) => a === b && separator !== NAMED_MONTH);
  const other = found.undecided ?? (same ? turnedOrder[found.order] : null);
  if (other !== null) {
    const [day = NaN] = daysOf([first], found.order),
      [otherDay = NaN] = daysOf([first], other);
    result.dateOrders.push(beginning(other, otherDay - day));
  }
  result.start = found.undecided === null ? chosen.start : null;
  if (found.undecided !== null)
    result.remarks.push({
      code: 'date-order-undecided',
      text: `The date "${dateText(first)}" reads as ${found.order} and as ${found.undecided}, and nothing in the log decides; times within the run are not touched by it. Say "dateOrder" in a rig file.`,
    });
  shiftToFirst(ticks, firstTicks);
}

/** Rows that are gone over in one call: a function that is called often is compiled as a whole. */
const SOME_ROWS = 1024;

/** Some rows more: nanoseconds of the day to ticks from the first day. */
function toTicks(ticks: Float64Array, base: number, nsPerTick: number, from: number, to: number): void {
  for (let row = from; row < to; row++) ticks[row] = base + (ticks[row] ?? 0) / nsPerTick;
}

const turnedOrder: Readonly<Record<DateOrder, DateOrder | null>> = {
  'day-month-year': 'month-day-year',
  'month-day-year': 'day-month-year',
  'year-month-day': null,
};

const monthNames = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const dateText = (run: DateRun): string => {
  if (run.separator === NAMED_MONTH)
    return [two(run.a), monthNames[run.b - 1] ?? two(run.b), two(run.c)].join('-');
  const mark = run.separator === UNMARKED ? '' : String.fromCharCode(run.separator);
  return [two(run.a), two(run.b), two(run.c)].join(mark);
};

/** A local date-time as ISO 8601 has it, with the offset where the log gives one. */
function isoStart(day: number, ticks: number, perSecond: number, digits: number, offset_min: number): string {
  const dayTicks = 86400 * perSecond;
  const days = Math.floor(ticks / dayTicks);
  const date = civilDate(day + days);
  const zone =
    offset_min === NO_OFFSET
      ? ''
      : offset_min === 0
        ? 'Z'
        : `${offset_min < 0 ? '-' : '+'}${two(Math.floor(Math.abs(offset_min) / 60))}:${two(Math.abs(offset_min) % 60)}`;
  return `${String(date.year).padStart(4, '0')}-${two(date.month)}-${two(date.day)}T${clockText(ticks - days * dayTicks, perSecond, digits)}${zone}`;
}
const two = (value: number): string => String(value).padStart(2, '0');
function clockText(ticks: number, perSecond: number, digits: number): string {
  const seconds = Math.floor(ticks / perSecond);
  const rest = ticks - seconds * perSecond;
  const fraction = digits === 0 ? '' : `.${String(Math.round(rest)).padStart(digits, '0')}`;
  return `${two(Math.floor(seconds / 3600))}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}${fraction}`;
}

function shiftToFirst(ticks: Float64Array, first: number): void {
  if (first !== 0) for (let i = 0; i < ticks.length; i++) ticks[i] = (ticks[i] ?? 0) - first;
}

/** `81500.5` for 8:15 and half a second, all rows alike. */
function fromUnmarkedTimes(result: RawTime, table: LogTable, plan: TimePlan): void {
  const digits = table.timeDecimals < 0 ? 9 : Math.min(9, table.timeDecimals);
  for (let i = 0; i < result.ticks.length; i++) {
    const value = result.ticks[i] ?? 0;
    const seconds = secondsOfUnmarked(value);
    result.ticks[i] = Math.round(seconds * power(digits)) * power(9 - digits);
    if (value >= 0 && value < 240000 && value % 100 < 60 && Math.floor(value / 100) % 100 < 60) continue;
    result.unusable ??= new Uint8Array(result.ticks.length);
    result.unusable[i] = 1;
    result.ticks[i] = result.ticks[i - 1] ?? 0;
  }
  table.fractionDigits = digits;
  fromTimeOfDay(result, table, plan);
}

const LAST_HOUR = 23;
const LAST_MINUTE = 59;
/**
 * `12:34`, read as minutes and seconds: so it is where the first number goes beyond 23. Else it is taken for hours and minutes, which
 * nothing but a midnight proves; at 59:59 minutes begin again.
 */
function fromTwoParts(result: RawTime, table: LogTable, plan: TimePlan): void {
  const { ticks } = result;
  const minute_ns = 60 * 1e9;
  let most = 0,
    hours_ns = 0,
    midnight = false;
  for (let i = 0; i < ticks.length; i++) {
    const now = ticks[i] ?? 0,
      last = ticks[i - 1] ?? now;
    most = Math.max(most, Math.floor(now / minute_ns));
    midnight ||= now < minute_ns && Math.floor(last / minute_ns) === LAST_HOUR;
  }
  if (most > LAST_HOUR) {
    result.form = 'elapsed-hms';
    let last = ticks[0] ?? 0;
    for (let i = 0; i < ticks.length; i++) {
      const now = ticks[i] ?? 0;
      if (most <= LAST_MINUTE && now < last - 30 * minute_ns) hours_ns += 60 * minute_ns;
      last = now;
      ticks[i] = now + hours_ns;
    }
    fromNanoseconds(result, table, plan);
    return;
  }
  const [first = 0] = ticks;
  const shown = `${two(Math.floor(first / minute_ns))}:${two((first / 1e9) % 60)}`;
  for (let i = 0; i < ticks.length; i++) ticks[i] = (ticks[i] ?? 0) * 60;
  fromTimeOfDay(result, table, plan);
  if (!midnight)
    result.remarks.push({
      code: 'time-parts-assumed',
      text: `The times have two parts ("${shown}"); they were read as hours and minutes. If they are minutes and seconds, say "form": "elapsed-hms" in a rig file.`,
    });
}

/** A time of day that falls by over twelve hours is a new day. */
function fromTimeOfDay(result: RawTime, table: LogTable, plan: TimePlan): void {
  const { ticks } = result;
  const fraction = fractionTicks(table, plan);
  const digits = Math.max(table.fractionDigits, fraction?.digits ?? 0);
  const perSecond = power(digits);
  const nsPerTick = 1e9 / perSecond;
  let days_ns = 0,
    last = ticks[0] ?? 0;
  for (let i = 0; i < ticks.length; i++) {
    const own = ticks[i] ?? 0;
    if (own < last - HALF_DAY_S * 1e9) days_ns += NS_PER_DAY;
    last = own;
    ticks[i] =
      (own + days_ns) / nsPerTick +
      (fraction === null ? 0 : Math.round((fraction.values[i] ?? 0) * fraction.scale * perSecond));
  }
  const first = ticks[0] ?? 0;
  result.isClock = true;
  result.ticksPerSecond = perSecond;
  result.origin_s = first / perSecond;
  result.start = clockText(first, perSecond, digits);
  shiftToFirst(ticks, first);
}

function fromNanoseconds(result: RawTime, table: LogTable, plan: TimePlan): void {
  const { ticks } = result;
  const fraction = fractionTicks(table, plan);
  const digits = Math.max(table.fractionDigits, fraction?.digits ?? 0);
  const perSecond = power(digits);
  const nsPerTick = 1e9 / perSecond;
  for (let i = 0; i < ticks.length; i++)
    ticks[i] =
      (ticks[i] ?? 0) / nsPerTick +
      (fraction === null ? 0 : Math.round((fraction.values[i] ?? 0) * fraction.scale * perSecond));
  leaveOutBadTimes(result, ticks, 1 / power(digits));
  const first = ticks[0] ?? 0;
  result.ticksPerSecond = power(digits);
  result.origin_s = first / result.ticksPerSecond;
  shiftToFirst(ticks, first);
}

/** Elapsed counts, epochs, day numbers, sample numbers. */
function fromNumbers(result: RawTime, table: LogTable, plan: TimePlan): void {
  const { ticks } = result;
  const { unit_s, form } = plan;
  const fraction = fractionTicks(table, plan);
  leaveOutNoTimes(result, ticks, form);
  if (form.startsWith('epoch') || form === 'spreadsheet-serial') turnRound(result);
  if (result.turned) fraction?.values.reverse();
  const first = ticks[0] ?? 0;
  if (form === 'sample-number') {
    // Of a run in several files the counts go on.
    result.origin_s = first * unit_s;
    for (let i = 0; i < ticks.length; i++) ticks[i] = (ticks[i] ?? 0) - first;
    fromCount(result, unit_s);
    return;
  }
  if (!form.startsWith('epoch') && form !== 'spreadsheet-serial') unwrap(result, ticks);
  // Parts of a day without the day begin again at midnight.
  const dayless = form === 'spreadsheet-serial' && first >= 0 && ticks.every((part) => part < 1);
  if (dayless) overMidnight(ticks);
  if (form === 'spreadsheet-serial' && !dayless && !plan.dates1904 && first < YEAR_2000)
    result.remarks.push({
      code: 'day-numbers-before-2000',
      text: `The times are a spreadsheet's day numbers, and counted from 1900 they lie in ${civilDate(Math.floor(first) - SPREADSHEET_EPOCH).year}. If it counts from 1904, the dates are ${DAYS_1904} days later; times within the run are not touched by it.`,
    });
  leaveOutBadTimes(result, ticks, unit_s);
  const perUnit = unit_s < 1 ? Math.round(1 / unit_s) : 1;
  let digits = table.timeDecimals < 0 ? 9 : Math.min(9, table.timeDecimals);
  // A day number's last digits are not the clock's: a millisecond is as fine as they can be trusted.
  if (form === 'spreadsheet-serial') digits = 3;
  digits = Math.max(digits, fraction?.digits ?? 0);
  let largest = 0;
  for (const value of ticks) largest = Math.max(largest, Math.abs(value - first));
  while (digits > 0 && largest * Math.max(1, unit_s) * power(digits) * perUnit > MOST_TICKS) digits--;
  const perSecond = power(digits) * perUnit;
  const scale = unit_s < 1 ? power(digits) : unit_s * power(digits);
  result.isClock = form.startsWith('epoch') || form === 'spreadsheet-serial';
  result.ticksPerSecond = perSecond;
  result.origin_s =
    form === 'spreadsheet-serial'
      ? (first + (plan.dates1904 ? DAYS_1904 : 0) - SPREADSHEET_EPOCH) * 86400
      : unit_s < 1
        ? first / perUnit
        : first * unit_s;
  const firstFraction = fraction === null ? 0 : (fraction.values[0] ?? 0) * fraction.scale;
  result.origin_s += firstFraction - plan.ahead_s;
  for (let i = 0; i < ticks.length; i++) {
    const extra = fraction === null ? 0 : (fraction.values[i] ?? 0) * fraction.scale - firstFraction;
    ticks[i] = Math.round(((ticks[i] ?? 0) - first) * scale) + Math.round(extra * perSecond);
  }
  if (!result.isClock) return;
  const shown =
    fraction?.digits ?? (form === 'epoch-milliseconds' ? 3 : form === 'spreadsheet-serial' ? 0 : digits);
  const perShown = power(shown);
  if (dayless) {
    result.start = clockText(Math.round(first * 86400), 1, 0);
    return;
  }
  const total = Math.round(result.origin_s * perShown);
  const day = Math.floor(total / (86400 * perShown));
  result.start = isoStart(
    day,
    total - day * 86400 * perShown,
    perShown,
    shown,
    form.startsWith('epoch') ? 0 : NO_OFFSET,
  );
}

/** Parts of a day that fall by over half of one are of the next. */
function overMidnight(parts: Float64Array): void {
  let days = 0,
    last = parts[0] ?? 0;
  for (let i = 0; i < parts.length; i++) {
    const own = parts[i] ?? 0;
    if (own < last - 0.5) days++;
    last = own;
    parts[i] = own + days;
  }
}

/**
 * A count in a 16-bit or 32-bit word begins again at its end (milliseconds: after 65.5 s and 49.7 days): where the step over the end
 * is about as long as the usual one, the count went on. One step alone says nothing: a garbled time makes a fall, too.
 */
function unwrap(result: RawTime, counts: Float64Array): void {
  let max = 0,
    whole = true;
  for (const value of counts) {
    if (value > max) max = value;
    if (!Number.isInteger(value)) whole = false;
  }
  const size = max < 65536 ? 65536 : 4294967296;
  if (!whole || max >= size) return;
  const usual = medianPositiveStep(counts);
  let turns = 0,
    last = counts[0] ?? 0;
  for (let i = 1; i < counts.length; i++) {
    const now = counts[i] ?? 0;
    const step = now - last;
    if (step < 0 && usual > 0 && step + size > 0 && step + size <= 3 * usual) turns++;
    last = now;
    counts[i] = now + turns * size;
  }
  if (turns > 0)
    result.remarks.push({
      code: 'counter-wrapped',
      text: `The time is a ${size === 65536 ? '16' : '32'}-bit count that began again at ${size} ${turns} ${turns === 1 ? 'time' : 'times'}; it was read on.`,
    });
}

/** Counts of samples with a given interval. */
function fromCount(result: RawTime, interval_s: number): void {
  const { ticks } = result;
  const step = Math.round(interval_s * 1e9);
  let largest = 0;
  for (const value of ticks) largest = Math.max(largest, Math.abs(value));
  const exact = largest * step <= MOST_TICKS;
  result.ticksPerSecond = exact ? 1e9 : 1e6;
  const scale = exact ? step : Math.round(interval_s * 1e6);
  for (let i = 0; i < ticks.length; i++) ticks[i] = (ticks[i] ?? 0) * scale;
}

/** A time of day on the date that stands beside it in the first row. */
function startOnDay(cell: string, clock: string | null, plan: TimePlan): string | null {
  const date = plan.startColumn < 0 ? null : startBeside(cell, plan);
  return date === null || clock === null ? clock : `${date.slice(0, 10)}T${clock}`;
}

function startBeside(cell: string, plan: TimePlan): string | null {
  const parts = newClockParts();
  if (!readClockText(cell, 'date-time', parts)) return null;
  const run: DateRun = { row: 0, line: 0, ...parts };
  const found = settleDays([run], 1, plan.dateOrder, plan.dateOrderHint);
  const day = found.days[0] ?? NaN;
  if (found.undecided !== null || Number.isNaN(day)) return null;
  const perSecond = power(parts.fractionDigits);
  return isoStart(day, parts.clock_ns / (1e9 / perSecond), perSecond, parts.fractionDigits, parts.offset_min);
}
