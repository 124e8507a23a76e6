import { plainText } from './plain-text.ts';
import { monthOf, NAMED_MONTH, readClockText, weekday, type ClockParts } from './read-clock.ts';

/** `03/04 08:15:00`, `04.03. 08:15`. */
const numeric = /^(\d{1,2})([-./])(\d{1,2})\.?(?:[T_]| +)(?=\d{1,2}:)/u;
/** `04 Mar 08:15:00` and `Mar  4 08:15:00`. */
const dayFirst = /^(\d{1,2})(?:\. ?|[- ])(\p{L}{3,10})\.?,? +(?=\d{1,2}:)/u;
const monthFirst = /^(\p{L}{3,10})\.?(?: +|-)(\d{1,2})\.?,? +(?=\d{1,2}:)/u;
/** Has all days that any year has. Where a log goes from 28 February to 1 March, the day too many is taken out as a step of its clock. */
const LEAP_YEAR = 2004;

/**
 * Reads a date without its year and the time of day behind it, as of a leap year.
 * @returns whether the cell is one; `parts` holds the numbers then
 */
export function readYearless(text: string, parts: ClockParts): boolean {
  let rest = plainText(text.trim());
  const word = weekday.exec(rest);
  if (word !== null && monthOf(word[1] ?? '') === 0) rest = rest.slice(word[0].length);
  const plain = numeric.exec(rest);
  const named = plain === null ? (dayFirst.exec(rest) ?? monthFirst.exec(rest)) : null;
  const found = plain ?? named;
  if (found === null || !readClockText(rest.slice(found[0].length), 'time', parts)) return false;
  const [, first = '', second = '', third = ''] = found;
  if (plain !== null) {
    parts.a = Number(first);
    parts.b = Number(third);
    parts.separator = second.charCodeAt(0);
  } else {
    const name = /\d/u.test(first) ? second : first;
    parts.a = Number(name === first ? second : first);
    parts.b = monthOf(name);
    parts.separator = NAMED_MONTH;
  }
  parts.c = LEAP_YEAR;
  parts.digitsA = 2;
  parts.digitsC = 4;
  const isDay = (value: number): boolean => value >= 1 && value <= 31;
  return isDay(parts.a) && isDay(parts.b) && Math.min(parts.a, parts.b) <= 12;
}

/** Years on from one such date to the next: 1 over the end of December, -1 back over it, where the months can be told. */
export function yearsOn(last: ClockParts, now: ClockParts): number {
  const named = now.separator === NAMED_MONTH;
  const isLast = ({ a, b }: ClockParts): boolean =>
    named ? b === 12 : a + b === 43 && (a === 12 || b === 12);
  const isFirst = ({ a, b }: ClockParts): boolean => b === 1 && (named || a === 1);
  return isLast(last) && isFirst(now) ? 1 : isFirst(last) && isLast(now) ? -1 : 0;
}
