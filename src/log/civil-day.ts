/** Order in which a date's three numbers stand. */
export type DateOrder = 'year-month-day' | 'day-month-year' | 'month-day-year';

/**
 * Days from 1970-01-01 of a date of the proleptic Gregorian calendar (ISO 8601, 4.2.1), or NaN for a date that does not exist.
 * Counted in eras of 400 years (146,097 days); whole numbers all the way.
 */
export function dayNumber(year: number, month: number, day: number): number {
  if (month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) return NaN;
  const y = month <= 2 ? year - 1 : year;
  const era = Math.floor(y / 400);
  const yearOfEra = y - era * 400;
  const dayOfYear = Math.floor((153 * (month + (month > 2 ? -3 : 9)) + 2) / 5) + day - 1;
  const dayOfEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + dayOfYear;
  return era * 146097 + dayOfEra - 719468;
}

/** Gregorian leap years (RFC 3339, appendix C). */
function daysInMonth(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}

/** Year, month, day of a day number; the inverse of {@link dayNumber}. */
export function civilDate(day: number): { year: number; month: number; day: number } {
  const z = day + 719468;
  const era = Math.floor(z / 146097);
  const dayOfEra = z - era * 146097;
  const yearOfEra = Math.floor(
    (dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) /
      365,
  );
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const mp = Math.floor((5 * dayOfYear + 2) / 153);
  const month = mp < 10 ? mp + 3 : mp - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    day: dayOfYear - Math.floor((153 * mp + 2) / 5) + 1,
  };
}

/**
 * Day number of a week date: week 1 is the one with the year's first Thursday, day 1 is Monday (ISO 8601, 4.1.4; from memory). NaN for
 * a week that the year has not.
 * @example dayOfWeekDate(2026, 10, 3) === dayNumber(2026, 3, 4)
 */
export function dayOfWeekDate(year: number, week: number, day: number): number {
  // 1970-01-01 was a Thursday.
  const thursday = (number: number): number => number - ((((number + 3) % 7) + 7) % 7) + 3;
  const first = thursday(dayNumber(year, 1, 4));
  const own = first + 7 * (week - 1);
  return week >= 1 && civilDate(own).year === year ? own - 3 + (day - 1) : NaN;
}

/** Full year of a written one. Two digits: 1970 to 2069 (common practice of loggers, no source; no log is older than its bench). */
export function fullYear(year: number, digits: number): number {
  return digits > 2 ? year : year < 70 ? 2000 + year : 1900 + year;
}

/** Day number of three numbers in a given order; NaN when they are no date in it. */
export function dayInOrder(
  numbers: readonly [number, number, number],
  yearDigits: number,
  order: DateOrder,
): number {
  const [a, b, c] = numbers;
  if (order === 'year-month-day') return dayNumber(fullYear(a, yearDigits), b, c);
  return order === 'day-month-year'
    ? dayNumber(fullYear(c, yearDigits), b, a)
    : dayNumber(fullYear(c, yearDigits), a, b);
}
