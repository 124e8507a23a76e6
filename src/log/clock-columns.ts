import type { ColumnSummary } from './column-summary.ts';
import { isOtherDate, isOtherTime, namesClock } from './heading-words.ts';
import { Kind } from './column-kind.ts';
import type { Layout } from './settle-layout.ts';
import { newClockParts, readClockText } from './read-clock.ts';
import { clockPart, secondsInUnit } from './time-headings.ts';

/** A column that holds a part of the clock, and the kind that reads it. */
export interface ClockColumn {
  column: number;
  kind: number;
}
/** The columns that a row's time is put together from. */
export interface ClockColumns {
  parts: ClockColumn[];
  /** Year, month and day are among them, or a date without marks. */
  dated: boolean;
  /** Hours, minutes and seconds begin at zero, or go on beyond a day: a time elapsed. */
  elapsed: boolean;
  /** A time of day in one cell beside a date in several; -1 for none. */
  time: number;
  /** A time without marks that nothing proves, as it stands in the first row, and how it is read. */
  assumed: { column: number; as: 'hours and minutes' | 'hours, minutes and seconds' } | null;
}

/** Names of the parts, whole or as a format has them: English, German, French, Spanish, Italian, Portuguese, Dutch (from memory). */
const partNames: readonly (readonly [RegExp, number, number, number])[] = [
  [/^(?:years?|yr|y{1,4}|jahr|j{1,4}|a[nñ]o|ann[ée]e|anno|jaar)$/iu, Kind.year, 0, 2099],
  [/^(?:months?|mon|mo|mth|monat|mes|mois|mese|m[êe]s|maand)$/iu, Kind.month, 1, 12],
  [/^(?:days?|dy|d{1,2}|dom|tag|d[ií]a|jour|giorno|dag)$/iu, Kind.day, 1, 31],
  [/^(?:doy|yday|jday|day of (?:the )?year|julian(?: day)?)$/iu, Kind.dayOfYear, 1, 366],
  [/^(?:hours?|hrs?|h{1,2}|std|stunden?|horas?|heures?|ore|uur)$/iu, Kind.hour, 0, 9999],
  [/^(?:minutes?|mins?|mi|n{2}|minuten?|minutos?|minuti?)$/iu, Kind.minute, 0, 59],
  [/^(?:seconds?|secs?|s{1,2}|sek|sekunden?|segundos?|secondes?|secondi)$/iu, Kind.second, 0, 60],
];
/** `m` and `mm` are the month before the hour, and the minutes behind it. */
const monthOrMinute = /^m{1,2}$/iu;
/** What a heading says beside the part's own name: "RTC hour", "Time (h)". */
const besidePart = /^(?:time|date|clock|rtc|utc|gmt|local|gps|zeit|datum)$/iu;
const wordOf = (heading: string): string =>
  heading
    .split(/[^\p{L}]+/u)
    .filter((word) => word !== '' && !besidePart.test(word))
    .join(' ');

const calendar: readonly number[] = [Kind.year, Kind.month, Kind.day, Kind.dayOfYear];
const clock: readonly number[] = [Kind.hour, Kind.minute, Kind.second];
const LAST_HOUR = 23;

/**
 * Parts of the clock in columns of their own: year, month, day (or the day of the year), hour, minute, second, by their bare names and
 * by what they hold; and a time without marks (`0930`, `093015`) beside a date. Minutes and seconds without the hour above them go
 * round and tell no time.
 * @param date the column of dates, -1 for none
 * @returns null where no time of day can be put together
 */
export function clockColumns(
  columns: readonly ColumnSummary[],
  layout: Layout,
  date: number,
): ClockColumns | null {
  const parts: ClockColumn[] = [];
  const has = (...kinds: number[]): boolean =>
    kinds.every((kind) => parts.some((part) => part.kind === kind));
  const take = (c: ColumnSummary, kind: number, low: number, high: number): void => {
    if (c.kind !== 'number' || c.min === null || c.max === null || has(kind)) return;
    if (!c.integers && kind !== Kind.second) return;
    if (c.min >= low && c.max < high + 1) parts.push({ column: c.column, kind });
  };
  for (const c of columns) {
    const word = wordOf(layout.lowestHeadings[c.column] ?? '');
    const named = partNames.find(([name]) => name.test(word));
    if (named !== undefined) take(c, named[1], named[2], named[3]);
    else if (monthOrMinute.test(word) && has(Kind.hour)) take(c, Kind.minute, 0, 59);
    else if (monthOrMinute.test(word)) take(c, Kind.month, 1, 12);
  }
  // Beside a year and no month, a day counts through the year.
  const day = columns.find((c) => partNames[2]?.[0].test(wordOf(layout.lowestHeadings[c.column] ?? '')));
  if (has(Kind.year) && !has(Kind.month) && !has(Kind.dayOfYear) && day !== undefined && (day.max ?? 0) > 31)
    take(day, Kind.dayOfYear, 1, 366);
  const heading = (c: ColumnSummary): string => layout.lowestHeadings[c.column] ?? '';
  const shortDate = date >= 0 ? undefined : columns.find((c) => c.shortDates && !isOtherDate(heading(c)));
  const dated = has(Kind.year, Kind.month, Kind.day) || has(Kind.year, Kind.dayOfYear);
  const days = parts.filter(({ kind }) => dated && calendar.includes(kind));
  if (!dated && shortDate !== undefined) days.push({ column: shortDate.column, kind: Kind.shortDate });
  const withDate = days.length > 0;
  const ownTimes = columns.filter((c) => c.kind === 'time' && !isOtherTime(heading(c)));
  const time = ownTimes.find((c) => c.changes > 1) ?? ownTimes[0];
  const clockOf = (of: readonly ClockColumn[]): number[] =>
    layout.rows.map((row) => secondsOf(row.cells, of, time));
  // `08:15` and the seconds beside it, which begin again as the minutes go on.
  const seconds = parts.filter(
    ({ column, kind }) => kind === Kind.second && clockPart(layout.lowestHeadings[column] ?? '') === 1,
  );
  const inMinutes =
    time?.twoParts === true &&
    seconds.length > 0 &&
    !has(Kind.hour) &&
    beginAgain(layout, seconds[0]?.column ?? -1, clockOf(seconds));
  if (time !== undefined && (withDate || inMinutes))
    return {
      parts: [...days, ...(inMinutes ? seconds : [])],
      dated: withDate,
      elapsed: false,
      time: time.column,
      assumed: null,
    };
  // A clock in one cell says more than hours and minutes beside it, which may be those of a run.
  const times = parts.filter(({ kind }) => clock.includes(kind));
  const finer = time?.twoParts === true && has(Kind.hour, Kind.minute, Kind.second);
  if (time !== undefined && time.changes > 1 && !finer) return null;
  // Beside a greatest value or a mean "Min" is the least, unless seconds follow.
  const least = !has(Kind.second) && columns.some((c) => besideLeast.test(heading(c)));
  if (has(Kind.hour, Kind.minute) && !least && goesOn(clockOf(times))) {
    const hours = parts.find(({ kind }) => kind === Kind.hour)?.column ?? -1;
    const overDay = (columns[hours]?.max ?? 0) > LAST_HOUR;
    if (overDay && (withDate || date >= 0)) return null;
    const first = layout.rows.find((row) =>
      times.every(({ column }) => (row.cells[column] ?? '').trim() !== ''),
    );
    const atZero = times.every(({ column }) => Number((first?.cells[column] ?? '').replace(',', '.')) === 0);
    const elapsed = !withDate && date < 0 && (overDay || atZero);
    return { parts: [...days, ...times], dated: withDate, elapsed, time: -1, assumed: null };
  }
  const unmarked = unmarkedTime(columns, layout, withDate || date >= 0);
  if (unmarked === null) return null;
  const { own } = unmarked;
  const beside =
    own.kind === Kind.hourMinute &&
    seconds.length > 0 &&
    beginAgain(layout, seconds[0]?.column ?? -1, clockOf([own, ...seconds]))
      ? seconds
      : [];
  // One time in all rows tells none.
  if (beside.length === 0 && layout.rows.length > 1 && (columns[own.column]?.changes ?? 0) < 2) return null;
  return {
    parts: [...days, own, ...beside],
    assumed: unmarked.assumed,
    dated: withDate,
    elapsed: false,
    time: -1,
  };
}

const besideLeast = /^\W*(?:max|avg|ave|average|mean|mittel|peak|high|std|dev)/iu;

/** A row's time of day in seconds by the parts of it; NaN where one is none. */
function secondsOf(
  cells: readonly string[],
  of: readonly ClockColumn[],
  time: ColumnSummary | undefined,
): number {
  let sum_s = 0;
  for (const { column, kind } of of) {
    const value = Number((cells[column] ?? '').trim().replace(',', '.') || NaN);
    if (kind === Kind.hour) sum_s += value * 3600;
    else if (kind === Kind.minute) sum_s += value * 60;
    else if (kind === Kind.second) sum_s += value;
    else sum_s += Math.floor(value / 100) * 3600 + (value % 100) * 60;
  }
  if (!of.every(({ kind }) => kind === Kind.second)) return sum_s;
  return readClockText(cells[time?.column ?? -1] ?? '', 'date-time', read) ||
    readClockText(cells[time?.column ?? -1] ?? '', 'time', read)
    ? sum_s + read.clock_ns / 1e9
    : NaN;
}
const read = newClockParts();

/**
 * Seconds beside a stamp of whole minutes. Seconds with a fraction beside stamps that never repeat are more likely a reading ("0.42 s").
 */
export function secondsBeside(
  columns: readonly ColumnSummary[],
  layout: Layout,
  stamp: ColumnSummary,
): ColumnSummary | undefined {
  return columns.find(
    (c) =>
      c.kind === 'number' &&
      clockPart(layout.lowestHeadings[c.column] ?? '') === 1 &&
      c.min !== null &&
      c.max !== null &&
      c.min >= 0 &&
      c.max < 60 &&
      (c.integers || stamp.changes < layout.rows.length) &&
      beginAgain(
        layout,
        c.column,
        layout.rows.map((row) => secondsOf(row.cells, [{ column: c.column, kind: Kind.second }], stamp)),
      ),
  );
}

/**
 * Whether times put together go on from row to row, as a clock's do: over midnight they begin again, one row in fifty may be out of
 * line, and the newest may come first. Parts that belong to other things go up and down, or stand still.
 */
function goesOn(times_s: readonly number[]): boolean {
  const known = times_s.filter((at) => !Number.isNaN(at));
  let up = 0,
    down = 0;
  const rises: number[] = [];
  for (let i = 1; i < known.length; i++) {
    const step = (known[i] ?? 0) - (known[i - 1] ?? 0);
    if (step > 0 || step < -HALF_DAY_S) up++;
    else if (step < 0) down++;
    if (step > 0) rises.push(step);
  }
  // A row an hour: no bench logs so slowly.
  const usual = rises.toSorted((a, b) => a - b)[rises.length >> 1] ?? 0;
  if (known.length < 2) return true;
  if (up + down === 0 || usual >= 3600) return false;
  const few = known.length < FEW_ROWS ? 0 : Math.max(1, known.length / 50);
  return down <= few || (up <= few && down > FEW_ROWS);
}

/**
 * Whether seconds begin again as the minutes beside them go on. A count of seconds from the start goes on over it, and a minute would
 * be counted twice.
 * @param times_s minutes and seconds put together
 */
function beginAgain(layout: Layout, column: number, times_s: readonly number[]): boolean {
  if (!goesOn(times_s)) return false;
  const seconds = layout.rows.map((row) => Number((row.cells[column] ?? '').trim().replace(',', '.') || NaN));
  let again = 0,
    counted = 0,
    within = 0;
  for (let i = 1; i < seconds.length; i++) {
    const own = (seconds[i] ?? 0) - (seconds[i - 1] ?? 0);
    const apart_s = (times_s[i] ?? 0) - (times_s[i - 1] ?? 0) - own;
    const minutes_s = apart_s < -HALF_DAY_S ? apart_s + 2 * HALF_DAY_S : apart_s;
    if (own < 0) again++;
    else if (Math.abs(minutes_s) < 1e-3) within++;
    else if (own > 0 && Math.abs(minutes_s - 60) < 1e-3) counted++;
  }
  // A row a minute and more begins none again.
  return counted <= again || within === 0;
}
const HALF_DAY_S = 43200;
const FEW_ROWS = 10;

/**
 * `0930` and `093015` are times where the heading says time, no unit makes it a count, and all cells are times of day. Without a date
 * beside them they may be a count as well, unless they step from 0959 to 1000.
 */
function unmarkedTime(
  columns: readonly ColumnSummary[],
  layout: Layout,
  besideDate: boolean,
): { own: ClockColumn; assumed: ClockColumns['assumed'] } | null {
  for (const { column, clockDigits } of columns) {
    if (clockDigits === null) continue;
    const heading = layout.lowestHeadings[column] ?? '';
    const named = /hhmm/iu.test(`${heading} ${layout.unitTexts[column] ?? ''}`);
    if (!named && secondsInUnit(layout, column) !== null) continue;
    if (!named && !(namesClock(heading) && (besideDate || (clockDigits.jumps && clockDigits.digits === 4))))
      continue;
    const six = clockDigits.digits > 4;
    return {
      own: unmarkedPart(columns, column),
      assumed:
        named || clockDigits.proven
          ? null
          : { column, as: six ? 'hours, minutes and seconds' : 'hours and minutes' },
    };
  }
  return null;
}

/** A column of times without marks as a part of the clock. */
export const unmarkedPart = (columns: readonly ColumnSummary[], column: number): ClockColumn => ({
  column,
  kind: (columns[column]?.clockDigits?.digits ?? 0) > 4 ? Kind.hourMinuteSecond : Kind.hourMinute,
});
