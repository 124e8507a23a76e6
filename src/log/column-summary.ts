import type { UnitName } from '#units/unit.ts';
import { isNumberClass } from './cell-class.ts';
import { dayNumber, fullYear } from './civil-day.ts';
import { letteredTime } from './lettered-time.ts';
import { plainText } from './plain-text.ts';
import { newClockParts, readClockText, readHalfOfDay } from './read-clock.ts';
import { readNumber } from './read-number.ts';
import { elapsedName, namesClock, namesDateTime, saysTime, timeName } from './heading-words.ts';
import type { Layout } from './settle-layout.ts';

/** What the head's rows say about one column, as far as finding the time needs it. */
export interface ColumnSummary {
  column: number;
  kind: 'date-time' | 'date' | 'time' | 'number' | 'other' | 'empty';
  /** Numbers that never fall (but for a wrap or a step in fifty) and do grow. */
  rises: boolean;
  /** Ten falls or more, and hardly a rise: the newest row comes first, or a count runs down. */
  falls: boolean;
  /** Numbers that fall now and then, or stay the same. */
  cycles: boolean;
  /** Whole numbers one apart. */
  countsUp: boolean;
  integers: boolean;
  decimals: number;
  min: number | null;
  max: number | null;
  medianStep: number | null;
  /** Nine of ten steps are the same, to a fiftieth, and the numbers hardly ever stand still: a count, no reading. */
  steady: boolean;
  /** The same within a half: a count whose rows come a little early or late. */
  even: boolean;
  /** Mean of the steps upwards, and whether they are one decimal number of three digits at most, as counts of seconds are. */
  meanStep: number | null;
  roundSteps: boolean;
  /**
   * `81500` for 08:15:00: hours, minutes and seconds without marks, told by a zero in front or by what stands at full minutes. Unsure
   * where all have four digits at most (hours and minutes, or minutes and seconds), and where the head has no full minute.
   */
  unmarkedTimes: 'yes' | 'no' | 'unsure';
  /**
   * `0930` or `093015` in every row, with as many digits: a time of day without marks, perhaps. Proven by a zero in front, or by what
   * stands at full hours or minutes. null for anything else.
   */
  clockDigits: { digits: number; jumps: boolean; proven: boolean } | null;
  /** `260304` or `04032026` in every row under a heading that says date, and each a date in some order. */
  shortDates: boolean;
  /** Dates: every one has a year of four digits and a day of a month, or the month's name. `1.2.3` and `2026-118` may be numbers of a part. */
  fullDates: boolean;
  /** The same text in every row of two or more. */
  constant: boolean;
  /** Times: year first with hyphens; a fraction of a second written; 0:00:00 first; 24 hours or more; `12:34.5`. */
  iso: boolean;
  fractions: boolean;
  startsAtZero: boolean;
  overDay: boolean;
  minutesFirst: boolean;
  /** Times: one at least is written as a length of time alone is, `5m 3s`; under a heading that says so `5h03` is one, too. */
  lengths: boolean;
  /** Times: every one has two parts, `12:34`: hours and minutes, or minutes and seconds. */
  twoParts: boolean;
  /** Times: the latest hour; -1 for none. */
  latestHour: number;
  /** Cells that differ from the one before. */
  changes: number;
  /** Share of the rows in which it holds anything. */
  filled: number;
  /** The unit that every number bears; null where none does, 'mixed' where some do or in several. */
  cellUnit: UnitName | null | 'mixed';
  /** Times and dates: no seconds in any. */
  wholeMinutes: boolean;
  /** `8.15`, `8.16`: perhaps hours and minutes between points. */
  dottedClock: boolean;
  /** Nothing but AM and PM, or what other languages write for them; a lone letter may as well be a name. */
  halves: boolean;
  /** Dates without a year and times of day, `04 Mar 08:15:00`. */
  yearless: boolean;
  /** Dates that carry 00:00:00 in every row: the time of day stands elsewhere. */
  midnightOnly: boolean;
}

/** Headings under which `5m 3s` is taken for the time of the row: a dwell is written so, too. */
const mayBeLettered = (heading: string, column: number): boolean =>
  (column === 0 && !/\p{L}/u.test(heading)) ||
  timeName.test(heading) ||
  elapsedName.test(heading) ||
  namesClock(heading);

/** Summaries of all columns, in file order. */
export function summariseColumns(layout: Layout): ColumnSummary[] {
  return Array.from({ length: layout.width }, (_, column) => summarise(layout, column));
}

function summarise(layout: Layout, column: number): ColumnSummary {
  const marks = { decimal: layout.decimal };
  const parts = newClockParts();
  const count = { 'date-time': 0, date: 0, time: 0, number: 0 };
  let filled = 0,
    iso = 0,
    clocks = 0,
    dotted = 0,
    changes = 0,
    midnights = 0,
    halves = 0,
    clocksOfMinutes = 0,
    decimals = 0,
    yearless = 0,
    lettered = 0,
    twoParts = 0,
    latestHour = -1;
  const hours: number[] = [];
  const heading = layout.lowestHeadings[column] ?? '';
  const mayBeInLetters = mayBeLettered(heading, column);
  const anyLength =
    mayBeInLetters &&
    layout.rows.some((row) => letteredTime((row.cells[column] ?? '').trim(), false)?.isLength === true);
  const mayBeThousandths = namesDateTime(heading);
  let noDate = false,
    fractions = false,
    overDay = false,
    minutesFirst = false,
    startsAtZero = false,
    fullDates = true;
  let before = '';
  let firstCell = '';
  let same = true,
    unmarkedClocks = 0,
    unmarked = 0,
    zeroInFront = false;
  const numbers: number[] = [],
    texts: string[] = [];
  const units = new Set<UnitName | null>();
  for (const row of layout.rows) {
    const written = row.cells[column] ?? '';
    // "59 s" among "1 min 0 s", "PT59S", and "08h15m00s".
    const inLetters = mayBeInLetters ? letteredTime(plainText(written.trim()), anyLength) : null;
    let found = row.classes[column] ?? 'empty';
    if (inLetters !== null && (found === 'with-unit' || found === 'other' || found === 'lettered')) {
      found = 'time';
      lettered++;
    }
    const cell = found === 'time' ? (inLetters?.text ?? written) : written;
    if (found === 'empty') continue;
    filled++;
    if (found === 'yearless') yearless++;
    if (cell !== before) changes++;
    before = cell;
    if (filled === 1) firstCell = cell.trim();
    else if (cell.trim() !== firstCell) same = false;
    if (
      (unmarkedDateTime.test(cell) || (mayBeThousandths && unmarkedThousandths.test(cell))) &&
      readClockText(cell, 'date-time', parts)
    )
      unmarkedClocks++;
    if (unmarkedTime.test(cell)) {
      unmarked++;
      zeroInFront ||= /^\s*0\d{5}/u.test(cell);
    }
    if (cell.trim().length > 1 && readHalfOfDay(cell) !== null) halves++;
    if (found === 'date' && dottedTime.test(cell)) {
      dotted++;
      noDate ||= isNoDate(cell);
    }
    if (found === 'date-time' || found === 'date') {
      count[found]++;
      clocks++;
      fullDates &&= fullDate.test(cell);
      if (readClockText(cell, 'date-time', parts)) {
        if (parts.separator === 45 && parts.digitsA === 4) iso++;
        if (parts.clock_ns === 0) midnights++;
        if (parts.clock_ns % 60e9 === 0) clocksOfMinutes++;
        latestHour = Math.max(latestHour, Math.floor(parts.clock_ns / 3600e9));
        if (parts.fractionDigits > 0) fractions = true;
      }
    } else if (found === 'time') {
      count.time++;
      if (/[.,]\d+|(?::\d+){3}/u.test(cell)) fractions = true;
      const hour = Number(/^\s*(\d+):/u.exec(cell)?.[1] ?? 0);
      if (daysInFront.test(cell)) overDay = true;
      hours.push(hour);
      if (/^\s*\d+:\d{1,2}\s*$/u.test(cell)) twoParts++;
      if (count.time === 1) startsAtZero = /^\s*0{1,3}:00(?::00)?(?:[.,:]0*)?\s*$/u.test(cell);
      if (/^\s*\d+:\d{2}[.,]\d+\s*$/u.test(cell)) minutesFirst = true;
    } else if (isNumberClass(found)) {
      count.number++;
      texts.push(plainText(cell.trim()));
      const reading = readNumber(cell, marks);
      if (reading.kind === 'number') {
        numbers.push(reading.value);
        units.add(reading.unit);
        decimals = Math.max(decimals, reading.decimals ?? 0);
      }
    }
  }
  const hoursOfTimes = hours.filter((_, i) => !isGarbledHour(hours, i));
  overDay ||= hoursOfTimes.some((hour) => hour > LAST_HOUR);
  latestHour = Math.max(latestHour, ...hoursOfTimes);
  const allUnmarked = filled > 0 && unmarked === filled && unmarked === numbers.length;
  const allDigits = filled > 0 && texts.length === filled;
  const most = 0.6 * filled;
  // `08.15.01` may be a date or a time of day: one cell that is no date in any order tells, or a heading that says time, or none, above
  // cells that change from row to row.
  const asTimes =
    filled > 0 &&
    dotted === filled &&
    (noDate || (saysTime(layout.lowestHeadings[column] || 'time') && changes > 0.5 * filled));
  const dateLike = count['date-time'] + count.date;
  const isDates =
    numbers.length > 0 &&
    /date|datum|fecha|dato/iu.test(layout.lowestHeadings[column] ?? '') &&
    numbers.every(isCompactDate);
  // A dwell that stands in some rows, or is the same in all, tells no row's time.
  const fewLettered =
    lettered > 0 && layout.rows.length > 1 && (same || filled < MOST_FILLED * layout.rows.length);
  const kind =
    filled === 0
      ? 'empty'
      : isDates
        ? 'date'
        : unmarkedClocks === filled
          ? 'date-time'
          : dateLike >= most && !asTimes
            ? count['date-time'] > 0
              ? 'date-time'
              : 'date'
            : (count.time >= most && !fewLettered) || asTimes
              ? 'time'
              : count.number >= most
                ? 'number'
                : 'other';
  return {
    column,
    kind,
    ...trendOf(numbers),
    integers: numbers.length > 0 && numbers.every(Number.isInteger),
    unmarkedTimes: !allUnmarked
      ? 'no'
      : zeroInFront || (jumpsAtFullMinutes(numbers) && numbers.some((value) => value >= 10000))
        ? 'yes'
        : jumpsAtFullMinutes(numbers) || numbers.every((value) => value >= 10000)
          ? 'unsure'
          : 'no',
    clockDigits: filled > 0 && filled - texts.length <= spareOf(filled) ? clockDigitsOf(texts, filled) : null,
    shortDates: allDigits && datesName.test(layout.lowestHeadings[column] ?? '') && areShortDates(texts),
    fullDates: clocks > 0 && fullDates,
    constant: same && filled > 1,
    decimals,
    iso: iso > 0 && iso === clocks,
    fractions,
    startsAtZero,
    overDay,
    minutesFirst,
    lengths: count.time > 0 && (anyLength || (lettered > 0 && elapsedName.test(heading))),
    filled: layout.rows.length === 0 ? 0 : filled / layout.rows.length,
    cellUnit: units.size === 1 ? ([...units][0] ?? null) : units.size === 0 ? null : 'mixed',
    wholeMinutes: clocks + count.time > 0 && clocks === clocksOfMinutes && twoParts === count.time,
    dottedClock: texts.length === filled && texts.every((text) => dottedClock.test(text)),
    twoParts: count.time > 0 && twoParts === count.time,
    latestHour,
    changes,
    halves: filled > 0 && halves === filled,
    yearless: kind === 'other' && yearless > 0 && yearless >= 0.9 * filled,
    midnightOnly: clocks > 0 && midnights === clocks,
  };
}

const MOST_FILLED = 0.9;
const LAST_HOUR = 23;
/** An hour beyond a day between two that are not: an elapsed time would stay there. */
function isGarbledHour(hours: readonly number[], i: number): boolean {
  const own = hours[i] ?? 0,
    before = hours[i - 1] ?? hours[i + 1] ?? own,
    after = hours[i + 1] ?? before;
  // At either end of the head it may be the first of many.
  const next = i === 0 ? after : i === hours.length - 1 ? before : -1;
  return own > LAST_HOUR && before <= LAST_HOUR && after <= LAST_HOUR && own - next !== 1;
}

const fullDate =
  /(?<!\d)\d{4}([-./])\d{1,2}\1\d{1,2}(?!\d)|(?<!\d)\d{1,2}([-./])\d{1,2}\2\d{4}(?!\d)|\. \d|\p{L}{3}|(?<!\d)\d{8}(?!\d)/u;
const dottedClock = /^(?:[01]?\d|2[0-3])[.,][0-5]\d$/u;
/** `0d 00:15:02`: a time of day has no days. */
const daysInFront = /^\s*\d+ ?d/iu;
/** 20260304081500, perhaps with a fraction. */
const unmarkedDateTime = /^\s*(?:19|20)\d{12}(?:[.,]\d+)?\s*$/u;
/** With thousandths behind it, as well as with the number of a sample: under a heading that names date or time alone. */
const unmarkedThousandths = /^\s*(?:19|20)\d{15}\s*$/u;
/** 081500, 81500 or, a minute after midnight, 100; perhaps with a fraction. */
const unmarkedTime = /^\s*(?:(?:(?:[01]?\d|2[0-3])[0-5]|[0-5])?\d[0-5]|[0-5])?\d(?:[.,]\d+)?\s*$/u;
/** Seconds of a day that are written as `hhmmss`. */
export const secondsOfUnmarked = (value: number): number => {
  const whole = Math.floor(value);
  return (
    Math.floor(whole / 10000) * 3600 + (Math.floor(whole / 100) % 100) * 60 + (whole % 100) + (value - whole)
  );
};
/** Whether steps differ as numbers that are the same as times of day: 81559 is followed by 81600, 235959 by 0. */
function jumpsAtFullMinutes(numbers: readonly number[]): boolean {
  const usual = medianOf(steps(numbers.map(secondsOfUnmarked)));
  let apart = 0,
    jumps = 0,
    plain = 0;
  for (let i = 1; i < numbers.length; i++) {
    const now = numbers[i] ?? 0,
      last = numbers[i - 1] ?? 0;
    const step = secondsOfUnmarked(now) - secondsOfUnmarked(last);
    const onward = step < -HALF_DAY_S ? step + 2 * HALF_DAY_S : step;
    if (Math.abs(onward - usual) > 0.02 * usual + 1e-6) apart++;
    else if (Math.abs(now - last - onward) > 1) jumps++;
    else plain++;
  }
  return jumps > 0 && plain > jumps && plain + jumps > 9 * apart;
}
const HALF_DAY_S = 43200;
const steps = (numbers: readonly number[]): number[] =>
  numbers.slice(1).map((value, i) => value - (numbers[i] ?? value));
const medianOf = (numbers: readonly number[]): number =>
  numbers.toSorted((a, b) => a - b)[numbers.length >> 1] ?? 0;

const datesName = /date|datum|fecha|(?:^|[^a-z])(?:dat[ao]|d[aá]tum|ddmmyy\w*|mmddyy\w*|yymmdd)(?![a-z])/iu;
/** Cells of a column that may be garbled. */
const spareOf = (filled: number): number => (filled < 10 ? 0 : Math.max(1, Math.floor(filled / 20)));
const DIGITS_OF_CLOCK = [4, 6, 9];
/** Hours and minutes in four digits, with the seconds in six, with the thousandths in nine; or six and a fraction behind a mark. */
function clockDigitsOf(texts: readonly string[], filled: number): ColumnSummary['clockDigits'] {
  const lengths = texts.map((text) => /^\d*/u.exec(text)?.[0].length ?? 0).toSorted((a, b) => a - b);
  const own = lengths[lengths.length >> 1] ?? 0;
  // 815 and 1000 under one heading lost the zero in front.
  const digits = own === 3 ? 4 : own;
  if (!DIGITS_OF_CLOCK.includes(digits)) return null;
  const form =
    digits === 4
      ? /^(?:[01]?\d|2[0-3])[0-5]\d$/u
      : digits === 6
        ? /^(?:[01]\d|2[0-3])[0-5]\d[0-5]\d(?:[.,]\d{1,9})?$/u
        : /^(?:[01]\d|2[0-3])[0-5]\d[0-5]\d\d{3}$/u;
  const all = texts.map((text) => Number(text.replace(',', '.')));
  const numbers = all.filter((_, i) => form.test(texts[i] ?? ''));
  // 0959 is followed by 1000, 081559 by 081600: 40 more than from row to row.
  const usual = medianOf(steps(numbers));
  // A garbled cell is no other number's doing; 1259, 1260, 1261 is a count's.
  if (filled - numbers.length > spareOf(filled)) return null;
  for (const [i, text] of texts.entries())
    if (
      !form.test(text) &&
      ((all[i] ?? 0) - (all[i - 1] ?? NaN) === usual || (all[i + 1] ?? NaN) - (all[i] ?? 0) === usual)
    )
      return null;
  // 1000, 1100, 1200: no bench logs a row an hour; it counts.
  if (digits === 4 && usual >= 100) return null;
  const jumps = usual < 40 && steps(numbers).some((step) => step === usual + 40);
  return { digits, jumps, proven: jumps || texts.some((text) => text.startsWith('0')) };
}

function areShortDates(texts: readonly string[]): boolean {
  const orders = [
    (a: number, b: number, c: number): number => dayNumber(fullYear(c, 2), b, a),
    (a: number, b: number, c: number): number => dayNumber(fullYear(c, 2), a, b),
    (a: number, b: number, c: number): number => dayNumber(fullYear(a, 2), b, c),
  ];
  const long = texts.every((text) => /^\d{4}(?:19[7-9]|20\d)\d$/u.test(text));
  if (!long && !texts.every((text) => /^\d{6}$/u.test(text))) return false;
  const numbers = texts.map((text): [number, number, number] => [
    Number(text.slice(0, 2)),
    Number(text.slice(2, 4)),
    Number(text.slice(-2)),
  ]);
  return orders
    .slice(0, long ? 2 : 3)
    .some((order) => numbers.every(([a, b, c]) => !Number.isNaN(order(a, b, c))));
}

/** Hours, minutes and seconds between points. */
const dottedTime = /^\s*(?:[01]?\d|2[0-3])\.[0-5]\d\.[0-5]\d(?:[.,]\d+)?\s*$/u;
/** Whether three numbers between points are no date in any order. */
function isNoDate(cell: string): boolean {
  const [a = 0, b = 0, c = 0] = cell.split('.').map(Number);
  return [
    [2000 + a, b, c],
    [2000 + c, b, a],
    [2000 + c, a, b],
  ].every(([year = 0, month = 0, day = 0]) => Number.isNaN(dayNumber(year, month, day)));
}
/** 20260304 as a date. */
const isCompactDate = (value: number): boolean =>
  Number.isInteger(value) &&
  value > 19700101 &&
  value < 21000101 &&
  value % 100 <= 31 &&
  Math.floor(value / 100) % 100 <= 12;

function trendOf(
  numbers: readonly number[],
): Pick<
  ColumnSummary,
  | 'rises'
  | 'falls'
  | 'cycles'
  | 'countsUp'
  | 'min'
  | 'max'
  | 'medianStep'
  | 'steady'
  | 'even'
  | 'meanStep'
  | 'roundSteps'
> {
  if (numbers.length === 0)
    return {
      rises: false,
      falls: false,
      cycles: false,
      countsUp: false,
      min: null,
      max: null,
      medianStep: null,
      steady: false,
      even: false,
      meanStep: null,
      roundSteps: false,
    };
  let falls = 0,
    ones = 0;
  const steps: number[] = [];
  for (const [i, value] of numbers.entries()) {
    if (i === 0) continue;
    const step = value - (numbers[i - 1] ?? value);
    if (step < 0) falls++;
    if (step === 1) ones++;
    if (step > 0) steps.push(step);
  }
  // A summary line or a garbled row is no end of the range.
  const aside = numbers.length < 20 ? 0 : Math.max(1, Math.floor(numbers.length / 20));
  const sorted = numbers.toSorted((a, b) => a - b);
  const min = sorted[aside] ?? NaN,
    max = sorted[numbers.length - 1 - aside] ?? NaN;
  const medianStep = steps.toSorted((a, b) => a - b)[steps.length >> 1] ?? null;
  const alike = (step: number, other: number, share: number): boolean =>
    Math.abs(step - other) <= share * other;
  const few = Math.max(1, (numbers.length - 1) / 50);
  const mostAlike = (share: number): boolean =>
    medianStep !== null &&
    steps.filter((step) => alike(step, medianStep, share)).length >= 0.9 * (numbers.length - 1);
  return {
    rises: numbers.length === 1 || (steps.length > 0 && falls <= few && falls < steps.length),
    falls: falls >= 10 && falls > 9 * steps.length,
    cycles: falls > 0 || steps.length === 0,
    countsUp: numbers.length > 1 && ones >= 0.9 * (numbers.length - 1),
    min,
    max,
    medianStep,
    steady: mostAlike(0.02),
    even: mostAlike(0.5),
    meanStep: steps.length === 0 ? null : steps.reduce((sum, step) => sum + step, 0) / steps.length,
    roundSteps:
      medianStep !== null &&
      alike(medianStep, Number(medianStep.toPrecision(3)), 1e-6) &&
      steps.filter((step) => alike(step, medianStep, 1e-6)).length >= 0.9 * steps.length,
  };
}
