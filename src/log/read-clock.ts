import { civilDate, dayNumber, dayOfWeekDate } from './civil-day.ts';
import { letteredTime } from './lettered-time.ts';
import { plainText } from './plain-text.ts';

/**
 * A point in time as written, in numbers whose meaning the whole column decides later (day before month or after).
 * One reused record: the readers of 2 million rows make no object a row.
 */
export interface ClockParts {
  /** The date's three numbers in the order written; -1 where the cell has no date. */
  a: number;
  b: number;
  c: number;
  /** Digits of the first and the third number: which can be a year. */
  digitsA: number;
  digitsC: number;
  /** Nanoseconds since midnight (or since zero, for an elapsed time); a whole number. */
  clock_ns: number;
  /** Minutes east of UTC; {@link NO_OFFSET} where none is written. */
  offset_min: number;
  /** Digits of the second's fraction, 9 at most. */
  fractionDigits: number;
  /** Separator of the date's numbers as a character code; 45 is the hyphen of ISO 8601. */
  separator: number;
}
/** Stands for "no offset written"; a number of its own since NaN never equals itself. */
export const NO_OFFSET = 1e6;
/** An empty set of clock parts, to be filled again and again without new objects. */
export const newClockParts = (): ClockParts => ({
  a: -1,
  b: -1,
  c: -1,
  digitsA: 0,
  digitsC: 0,
  // Not a small integer from the start: the engine then keeps the field as a double and need not change the record's shape.
  clock_ns: NaN,
  offset_min: NO_OFFSET,
  fractionDigits: 0,
  separator: 0,
});

export const NS_PER_S = 1e9;
export const NS_PER_DAY = 86400e9;
/** 10^(9 − digits): what one unit of a fraction with so many digits is in nanoseconds. */
export const fractionUnit_ns = [1e9, 1e8, 1e7, 1e6, 1e5, 1e4, 1e3, 1e2, 10, 1] as const;

/** What a time cell holds: date and time of day, a date alone, a time of day, or an elapsed time in hours, minutes, seconds. */
export type ClockShape = 'date-time' | 'date' | 'time' | 'elapsed';

const numericDate = /^(\d{1,4})([-./])(\d{1,2})\2(\d{1,4})/u;
const monthFirst = /^(?<name>\p{L}{3,10})\.? (?<day>\d{1,2}),? (?<year>\d{4}|\d{2})/iu;
const namedDates = [
  /^(?<day>\d{1,2})([-./ ])(?<name>\p{L}{3,10})\.?\2(?<year>\d{4}|\d{2})/iu,
  /^(?<day>\d{1,2})(?:\. | de )(?<name>\p{L}{3,10})\.?(?: | de )(?<year>\d{4}|\d{2})/iu,
  monthFirst,
] as const;
/** Stands for the separator of a date whose month is a name. */
export const NAMED_MONTH = 0;
/** A weekday before a date; `Wed Mar 04 08:15:00 2026` has the year at its end, perhaps behind the zone. */
export const weekday = /^(\p{L}{2,10})[.,]? (?=\d|\p{L}{3,10}\.? )/u;
const wholeDate = /^\d{1,2}(?:[-./ ]|\. | de )\p{L}{3}|^\d{1,4}([-./])\d{1,2}\1\d/u;
/** `2026-W10-3`, `2026W103` (ISO 8601, 4.1.4: week date) and `2026-063` (4.1.3: ordinal date; its basic form is like any number). */
const weekDate = /^(\d{4})(-?)W(\d{2})\2([1-7])(?!\d)/u;
const ordinalDate = /^((?:19[7-9]|20\d)\d)-(\d{3})(?=[Tt ]\d|$)/u;
const yearLast = /^(\p{L}{3,10}) +(\d{1,2}) (\d{1,2}:\d{2}:\d{2}(?:[.,]\d+)?)(?: [A-Z]{3,5})? (\d{4})$/u;
const compactDate = /^(\d{4})(\d{2})(\d{2})(?=[T_ -]?\d{6}(?!\d)|[T_ -]\d{1,2}:|$)/u;
/** `20260304081500250`: date, time and thousandths of a second without marks. */
const thousandths = /^(?:19|20)\d{15}$/u;
/** `13. 3. 2026`, `2026. 03. 13.`: blanks behind the points, and a point behind the last number. */
const spacedDate = /^(\d{1,4})\. (\d{1,2})\. (\d{1,4})\.?(?= |$)/u;
/** Hours, minutes and seconds between points, as some countries write them. */
const dottedTime = /^(\d{1,2})\.(\d{2})\.(\d{2})(?:[.,](\d+))?/u;
const timeOfDay = /^(\d{1,2}):(\d{1,2})(?::(\d{1,2})(?:[.,](\d+)|:(\d{3})(?!\d))?)?/u;
/** `a. m.`, as Spanish has it. */
const spacedHalf = /^ ?([ap])\. m\.$/iu;
/** No-break and thin blanks, as newer exports put them before AM. */
const oddBlanks = /[\u00a0\u2007\u2009\u202f]/gu;
const compactTime = /^(\d{2})(\d{2})(\d{2})(?:[.,](\d+))?/u;
const offset = /^ ?(?:(Z|UTC|GMT)|(?:(?:UTC|GMT)([+-])(\d{1,2})|([+-])(\d{2})):?(\d{2})?)(?: \([^)]*\))?$/iu;
/** No clock on Earth is further from UTC (the Line Islands are +14:00); 15 h leaves room for what history had. */
const FARTHEST_ZONE_MIN = 900;
/** A zone's name in brackets behind the offset, as RFC 9557 has it (from memory); the offset alone counts. */
const zoneInBrackets = /\[!?[\w/+-]{1,40}\]$/u;
/** Names of zones in the usual letters (CET, CEST, EST, MEZ …): one name stands for several zones, so it gives no offset. */
const zoneName = /^ ?(?:[A-Z]{1,4}T|MEZ|MESZ|MSK)$/u;
const elapsed = /^(?:(\d+)(?:[.d]| |d | days? ))?(\d+):(\d{1,2})(?::(\d{1,2}))?(?:[.,](\d+)|:(\d{3}))?$/u;
/**
 * Beginnings of the names of the months, in order: English, then German, French, Spanish, Italian and Dutch where they begin
 * otherwise, and Danish, Swedish, Norwegian and Portuguese (from memory of such exports).
 */
const months = [
  ['jan', 'ene', 'gen'],
  ['feb', 'fév', 'fev'],
  ['mar', 'mär', 'mrz', 'mae', 'maa', 'mrt'],
  ['apr', 'avr', 'abr'],
  ['may', 'mai', 'mag', 'mei', 'maj'],
  ['jun', 'juin', 'giu'],
  ['jul', 'juil', 'lug'],
  ['aug', 'aoû', 'aou', 'ago'],
  ['sep', 'set'],
  ['oct', 'okt', 'ott', 'out'],
  ['nov'],
  ['dec', 'dez', 'déc', 'dic', 'des'],
];
/** Words for before and after noon: English, Czech and Slovak, Swedish, German, Hungarian, Greek (from memory of such exports). */
const beforeNoon = new Set(['am', 'a', 'dop', 'fm', 'vorm', 'de', 'πμ']);
const afterNoon = new Set(['pm', 'p', 'odp', 'em', 'nachm', 'du', 'μμ']);

/**
 * Reads a time cell from its text; the byte reader takes the common shapes and must agree with this one.
 * Forms: RFC 3339 (with a blank for T too), ISO 8601 basic, numeric dates with `-`, `.` or `/` in any order and unpadded,
 * English month names, 12-hour clocks, `Z` and offsets, `08h15m00s`. Second 60 is taken (RFC 3339, 5.7: a leap second).
 * @param inLetters takes `08h15m00s` as well
 * @returns whether the cell could be read; `parts` holds the numbers then
 */
export function readClockText(text: string, shape: ClockShape, parts: ClockParts, inLetters = true): boolean {
  let rest = plainText(text.trim()).replace(oddBlanks, ' ');
  if (rest.startsWith('"') && rest.endsWith('"') && rest.length >= 2) rest = rest.slice(1, -1).trim();
  parts.a = parts.b = parts.c = -1;
  parts.clock_ns = 0;
  parts.offset_min = NO_OFFSET;
  parts.fractionDigits = 0;
  if (shape === 'elapsed') return readElapsed(letteredTime(rest, true)?.text ?? rest, parts);
  if (shape !== 'time') {
    const word = weekday.exec(rest);
    if (word !== null) {
      const behind = rest.slice(word[0].length);
      // "mar" is Tuesday in three languages and March in most: a whole date behind it tells.
      if (monthOf(word[1] ?? '') === 0 || wholeDate.test(behind)) rest = behind;
    }
    if (thousandths.test(rest)) rest = `${rest.slice(0, 14)}.${rest.slice(14)}`;
    const last = yearLast.exec(rest);
    if (rest.endsWith(']')) rest = rest.replace(zoneInBrackets, '');
    if (rest.includes('. ')) rest = rest.replace(spacedDate, '$1.$2.$3');
    if (last !== null) rest = `${last[1] ?? ''} ${last[2] ?? ''} ${last[4] ?? ''} ${last[3] ?? ''}`;
    const length = readDate(rest, parts);
    if (length === 0) return false;
    rest = rest.slice(length);
    if (rest === '') return true;
    const gap = /^(?:[Tt_]|,? +|-(?=\d{1,2}:|\d{6}(?!\d))|(?=\d{6}(?!\d)))/u.exec(rest);
    if (gap === null) return false;
    rest = rest.slice(gap[0].length);
  }
  const lettered = inLetters ? letteredTime(rest, false) : null;
  if (lettered !== null && !lettered.isLength) rest = lettered.text;
  const time =
    timeOfDay.exec(rest) ?? dottedTime.exec(rest) ?? (shape === 'time' ? null : compactTime.exec(rest));
  if (time === null) return false;
  let hour = Number(time[1]);
  const minute = Number(time[2]),
    second = Number(time[3] ?? 0);
  setFraction(time[4] ?? time[5] ?? '', parts);
  rest = rest.slice(time[0].length).replace(spacedHalf, ' $1m');
  const half = /^ ?([\p{L}.]+)$/u.exec(rest)?.[1]?.replaceAll('.', '').toLowerCase();
  if (half !== undefined && (beforeNoon.has(half) || afterNoon.has(half))) {
    if (hour === 12) hour = 0;
    if (afterNoon.has(half) && hour < 12) hour += 12;
    rest = '';
  }
  if (zoneName.test(rest) && rest.trim() !== 'GMT') rest = '';
  if (rest !== '') {
    const zone = offset.exec(rest);
    if (zone === null) return false;
    const minutes = zone[1] === undefined ? Number(zone[3] ?? zone[5]) * 60 + Number(zone[6] ?? 0) : 0;
    if (minutes > FARTHEST_ZONE_MIN || Number(zone[6] ?? 0) > 59) return false;
    parts.offset_min = (zone[2] ?? zone[4]) === '-' ? -minutes : minutes;
  }
  if (hour > 23 || minute > 59 || second > 60) return false;
  parts.clock_ns += (hour * 3600 + minute * 60 + second) * NS_PER_S;
  return true;
}

/** Whether a cell of its own says before or after noon; null for anything else. */
export function readHalfOfDay(text: string): 'before' | 'after' | null {
  const half = text.trim().replaceAll('.', '').toLowerCase();
  return beforeNoon.has(half) ? 'before' : afterNoon.has(half) ? 'after' : null;
}

/** Numbers of a date at the head of the text; returns how many characters it took, 0 for none. */
function readDate(text: string, parts: ClockParts): number {
  const numeric = numericDate.exec(text);
  if (numeric !== null) {
    const [all, a = '', separator = '', b = '', c = ''] = numeric;
    if (a.length > 2 && c.length > 2) return 0;
    if (a.length === 3 || c.length === 3) return 0;
    return setDate(all.length, a, b, c, separator.charCodeAt(0), parts);
  }
  const compact = compactDate.exec(text);
  if (compact !== null)
    return setDate(compact[0].length, compact[1] ?? '', compact[2] ?? '', compact[3] ?? '', 45, parts);
  for (const form of namedDates) {
    const found = form.exec(text);
    const { day = '', name = '', year = '' } = found?.groups ?? {};
    const month = monthOf(name);
    if (found === null || month === 0) continue;
    const { length } = found[0];
    // "26-Mar-04": which of the two is the year, the whole column tells. Behind "Mar 26" stands the year.
    if (year.length === 2 && form !== monthFirst)
      return setDate(length, day, String(month), year, NAMED_MONTH, parts);
    return setDate(length, year.length === 2 ? `20${year}` : year, String(month), day, NAMED_MONTH, parts);
  }
  const week = weekDate.exec(text);
  if (week !== null) {
    const day = dayOfWeekDate(Number(week[1]), Number(week[3]), Number(week[4]));
    return Number.isNaN(day) ? 0 : setDay(week[0].length, day, parts);
  }
  const ordinal = ordinalDate.exec(text);
  if (ordinal === null) return 0;
  const day = dayNumber(Number(ordinal[1]), 1, 1) + Number(ordinal[2]) - 1;
  return civilDate(day).year === Number(ordinal[1]) ? setDay(ordinal[0].length, day, parts) : 0;
}

function setDay(length: number, dayNumber: number, parts: ClockParts): number {
  const { year, month, day } = civilDate(dayNumber);
  return setDate(length, String(year), String(month), String(day), 45, parts);
}

/** Number of a month by its name, whole or cut off; 0 for none. */
export function monthOf(name: string): number {
  const word = name.toLowerCase();
  // Finnish for November begins as March does elsewhere.
  if (word.startsWith('marr')) return 0;
  return months.findIndex((names) => names.some((begin) => word.startsWith(begin))) + 1;
}

function setDate(
  length: number,
  a: string,
  b: string,
  c: string,
  separator: number,
  parts: ClockParts,
): number {
  parts.a = Number(a);
  parts.b = Number(b);
  parts.c = Number(c);
  parts.digitsA = a.length;
  parts.digitsC = c.length;
  parts.separator = separator;
  return length;
}

function setFraction(digits: string, parts: ClockParts): void {
  const kept = digits.slice(0, 9);
  parts.fractionDigits = kept.length;
  parts.clock_ns += kept === '' ? 0 : Number(kept) * (fractionUnit_ns[kept.length] ?? 1);
}

/** `h:mm:ss`, `h:mm:ss.fff`, `d.hh:mm:ss`; with two numbers minutes and seconds. */
function readElapsed(text: string, parts: ClockParts): boolean {
  const found = elapsed.exec(text);
  if (found === null) return false;
  const [, days = '0', first = '0', second = '0', third, fraction, millis] = found;
  const minuteFirst = third === undefined;
  const hour = minuteFirst ? 0 : Number(first);
  const minute = Number(minuteFirst ? first : second);
  const seconds = Number(minuteFirst ? second : third);
  if (seconds > 59 || (!minuteFirst && minute > 59) || hour > 1e5 || Number(days) > 1e4 || minute > 1e6)
    return false;
  setFraction(fraction ?? millis ?? '', parts);
  parts.clock_ns += (Number(days) * 86400 + hour * 3600 + minute * 60 + seconds) * NS_PER_S;
  return true;
}

/**
 * The common shapes of {@link readClockText} straight from the bytes: numeric dates, `h:mm[:ss[.fff]]`, AM and PM, `Z`, `±hh:mm`.
 * @param start first byte of the cell's content
 * @returns the position after the time, or -1 for anything else, which the text reader then judges
 */
export function readClockBytes(
  bytes: Uint8Array,
  start: number,
  delimiter: number,
  shape: 0 | 1 | 2,
  parts: ClockParts,
): number {
  let p = start;
  let code = bytes[p] ?? 0;
  let digit = 0;
  while (code === 32) code = bytes[++p] ?? 0;
  parts.offset_min = NO_OFFSET;
  parts.fractionDigits = 0;
  if (shape === 0) {
    // Ten characters that read yyyy-mm-dd, the usual case, without a loop.
    if (bytes[p + 4] === 45 && bytes[p + 7] === 45 && (bytes[p + 10] === 84 || bytes[p + 10] === 32)) {
      const rest = isoClock(bytes, p, parts);
      if (rest >= 0) {
        const next = bytes[rest] ?? 0;
        if (next === delimiter || next === 10 || next === 13 || next === 34) return rest;
        if (next === 90) {
          parts.offset_min = 0;
          return rest + 1;
        }
        parts.offset_min = NO_OFFSET;
        parts.fractionDigits = 0;
      }
    }
    let a = 0,
      b = 0,
      c = 0,
      from = p;
    while ((digit = code - 48) >= 0 && digit <= 9) {
      a = a * 10 + digit;
      code = bytes[++p] ?? 0;
    }
    const digitsA = p - from;
    if (digitsA === 0 || digitsA === 3 || digitsA > 4) return -1;
    const separator = code;
    if (separator !== 45 && separator !== 46 && separator !== 47) return -1;
    code = bytes[++p] ?? 0;
    from = p;
    while ((digit = code - 48) >= 0 && digit <= 9) {
      b = b * 10 + digit;
      code = bytes[++p] ?? 0;
    }
    if (p - from === 0 || p - from > 2 || code !== separator) return -1;
    code = bytes[++p] ?? 0;
    from = p;
    while ((digit = code - 48) >= 0 && digit <= 9) {
      c = c * 10 + digit;
      code = bytes[++p] ?? 0;
    }
    const digitsC = p - from;
    if (digitsC === 0 || digitsC === 3 || digitsC > 4 || (digitsA > 2 && digitsC > 2)) return -1;
    parts.a = a;
    parts.b = b;
    parts.c = c;
    parts.digitsA = digitsA;
    parts.digitsC = digitsC;
    parts.separator = separator;
    parts.clock_ns = 0;
    if (code === delimiter || code === 10 || code === 13 || code === 34) return p;
    if (code !== 84 && code !== 32) return -1;
    code = bytes[++p] ?? 0;
    while (code === 32) code = bytes[++p] ?? 0;
  }
  let hour = 0,
    minute = 0,
    second = 0,
    fraction = 0,
    from = p;
  while ((digit = code - 48) >= 0 && digit <= 9) {
    hour = hour * 10 + digit;
    code = bytes[++p] ?? 0;
  }
  if (p === from || p - from > (shape === 2 ? 4 : 2) || code !== 58) return -1;
  code = bytes[++p] ?? 0;
  from = p;
  while ((digit = code - 48) >= 0 && digit <= 9) {
    minute = minute * 10 + digit;
    code = bytes[++p] ?? 0;
  }
  if (p === from || p - from > 2) return -1;
  if (code === 58) {
    code = bytes[++p] ?? 0;
    from = p;
    while ((digit = code - 48) >= 0 && digit <= 9) {
      second = second * 10 + digit;
      code = bytes[++p] ?? 0;
    }
    if (p === from || p - from > 2) return -1;
    if (code === 46 || (code === 44 && delimiter !== 44)) {
      code = bytes[++p] ?? 0;
      from = p;
      while ((digit = code - 48) >= 0 && digit <= 9) {
        fraction = fraction * 10 + digit;
        code = bytes[++p] ?? 0;
      }
      const digits = p - from;
      if (digits === 0 || digits > 9) return -1;
      parts.fractionDigits = digits;
      fraction *= fractionUnit_ns[digits] ?? 1;
    }
  } else if (shape === 2) {
    // Two numbers: minutes and seconds.
    second = minute;
    minute = hour % 60;
    hour = (hour - minute) / 60;
    if (code === 46 || (code === 44 && delimiter !== 44)) return -1;
  }
  if (minute > 59) return -1;
  if (shape === 2) {
    if (second > 59) return -1;
  } else {
    if (code === delimiter || code === 10 || code === 13 || code === 34) {
      // nothing more
    } else if (code === 90 && shape === 0) {
      parts.offset_min = 0;
      p++;
    } else if ((code === 43 || code === 45) && shape === 0) {
      const h1 = (bytes[p + 1] ?? 0) - 48,
        h2 = (bytes[p + 2] ?? 0) - 48,
        m1 = (bytes[p + 4] ?? 0) - 48,
        m2 = (bytes[p + 5] ?? 0) - 48;
      if (bytes[p + 3] !== 58 || h1 < 0 || h1 > 9 || h2 < 0 || h2 > 9 || m1 < 0 || m1 > 9 || m2 < 0 || m2 > 9)
        return -1;
      const minutes = (h1 * 10 + h2) * 60 + m1 * 10 + m2;
      if (minutes > FARTHEST_ZONE_MIN || m1 > 5) return -1;
      parts.offset_min = code === 45 ? -minutes : minutes;
      p += 6;
    } else {
      if (code === 32) code = bytes[++p] ?? 0;
      const half = code | 32;
      if ((half !== 97 && half !== 112) || ((bytes[p + 1] ?? 0) | 32) !== 109) return -1;
      if (hour === 12) hour = 0;
      if (half === 112 && hour < 12) hour += 12;
      p += 2;
    }
    if (hour > 23 || second > 60) return -1;
  }
  parts.clock_ns = (hour * 3600 + minute * 60 + second) * NS_PER_S + fraction;
  return p;
}

/**
 * `yyyy-mm-ddThh:mm:ss` and up to nine digits of a fraction at fixed places.
 * @returns the position after it, or -1 where anything else stands there
 */
function isoClock(bytes: Uint8Array, p: number, parts: ClockParts): number {
  if (bytes[p + 13] !== 58 || bytes[p + 16] !== 58) return -1;
  const y1 = (bytes[p] ?? 0) - 48,
    y2 = (bytes[p + 1] ?? 0) - 48,
    y3 = (bytes[p + 2] ?? 0) - 48,
    y4 = (bytes[p + 3] ?? 0) - 48,
    m1 = (bytes[p + 5] ?? 0) - 48,
    m2 = (bytes[p + 6] ?? 0) - 48,
    d1 = (bytes[p + 8] ?? 0) - 48,
    d2 = (bytes[p + 9] ?? 0) - 48,
    h1 = (bytes[p + 11] ?? 0) - 48,
    h2 = (bytes[p + 12] ?? 0) - 48,
    n1 = (bytes[p + 14] ?? 0) - 48,
    n2 = (bytes[p + 15] ?? 0) - 48,
    s1 = (bytes[p + 17] ?? 0) - 48,
    s2 = (bytes[p + 18] ?? 0) - 48;
  // A digit minus 48 has no bit above the fourth and 9 less it is not negative.
  const wrong =
    y1 |
    y2 |
    y3 |
    y4 |
    m1 |
    m2 |
    d1 |
    d2 |
    h1 |
    h2 |
    n1 |
    n2 |
    s1 |
    s2 |
    (9 - y1) |
    (9 - y2) |
    (9 - y3) |
    (9 - y4) |
    (9 - m1) |
    (9 - m2) |
    (9 - d1) |
    (9 - d2) |
    (9 - h1) |
    (9 - h2) |
    (9 - n1) |
    (9 - n2) |
    (9 - s1) |
    (9 - s2);
  if (wrong < 0) return -1;
  const hour = h1 * 10 + h2,
    minute = n1 * 10 + n2,
    second = s1 * 10 + s2;
  if (hour > 23 || minute > 59 || second > 60) return -1;
  let at = p + 19,
    fraction = 0,
    digits = 0;
  if (bytes[at] === 46) {
    let digit = (bytes[++at] ?? 0) - 48;
    while (digit >= 0 && digit <= 9) {
      fraction = fraction * 10 + digit;
      digits++;
      digit = (bytes[++at] ?? 0) - 48;
    }
    if (digits === 0 || digits > 9) return -1;
    fraction *= fractionUnit_ns[digits] ?? 1;
  }
  parts.a = y1 * 1000 + y2 * 100 + y3 * 10 + y4;
  parts.b = m1 * 10 + m2;
  parts.c = d1 * 10 + d2;
  parts.digitsA = 4;
  parts.digitsC = 2;
  parts.separator = 45;
  parts.fractionDigits = digits;
  parts.clock_ns = (hour * 3600 + minute * 60 + second) * NS_PER_S + fraction;
  return at;
}
