import { describe, expect, test } from 'vitest';
import { civilDate, dayInOrder, dayNumber, fullYear } from '#log/civil-day.ts';
import { newClockParts, NO_OFFSET, readClockBytes, readClockText, type ClockShape } from '#log/read-clock.ts';

function read(text: string, shape: ClockShape = 'date-time'): Record<string, number> | null {
  const parts = newClockParts();
  if (!readClockText(text, shape, parts)) return null;
  const { a, b, c, clock_ns, offset_min } = parts;
  return { a, b, c, clock_ns, ...(offset_min === NO_OFFSET ? {} : { offset_min }) };
}
const at = (hour: number, minute: number, second: number): number =>
  (hour * 3600 + minute * 60 + second) * 1e9;

describe('RFC 3339', () => {
  // Section 5.8, the examples as printed there.
  test('5.8: April 12th, 1985, 20 minutes and 50.52 seconds after the 23rd hour, UTC', () => {
    expect(read('1985-04-12T23:20:50.52Z')).toEqual({
      a: 1985,
      b: 4,
      c: 12,
      clock_ns: at(23, 20, 50) + 52e7,
      offset_min: 0,
    });
  });
  test('5.8: December 19th, 1996, 16:39:57 with an offset of -08:00', () => {
    expect(read('1996-12-19T16:39:57-08:00')).toEqual({
      a: 1996,
      b: 12,
      c: 19,
      clock_ns: at(16, 39, 57),
      offset_min: -480,
    });
  });
  test('5.8: the leap second inserted at the end of 1990', () => {
    expect(read('1990-12-31T23:59:60Z')).toEqual({
      a: 1990,
      b: 12,
      c: 31,
      clock_ns: at(24, 0, 0),
      offset_min: 0,
    });
    expect(read('1990-12-31T15:59:60-08:00')).toEqual({
      a: 1990,
      b: 12,
      c: 31,
      clock_ns: at(16, 0, 0),
      offset_min: -480,
    });
  });
  test('5.8: Netherlands time in 1937, 19 minutes and 32.13 seconds ahead, given as +00:20', () => {
    expect(read('1937-01-01T12:00:27.87+00:20')).toEqual({
      a: 1937,
      b: 1,
      c: 1,
      clock_ns: at(12, 0, 27) + 87e7,
      offset_min: 20,
    });
  });
  test('5.6: T and Z may be lower case, a blank may stand for T', () => {
    expect(read('1985-04-12t23:20:50z')).toEqual(read('1985-04-12T23:20:50Z'));
    expect(read('1985-04-12 23:20:50Z')).toEqual(read('1985-04-12T23:20:50Z'));
  });
  test('5.7: hours, minutes and seconds beyond their range are no time', () => {
    for (const text of ['1985-04-12T24:00:00Z', '1985-04-12T23:60:00Z', '1985-04-12T23:20:61Z'])
      expect([text, read(text)]).toEqual([text, null]);
  });
  test('appendix C: leap years', () => {
    for (const year of [1996, 2000, 2004, 2024, 2400])
      expect(Number.isNaN(dayNumber(year, 2, 29))).toBe(false);
    for (const year of [1900, 2001, 2023, 2100, 2200]) expect(dayNumber(year, 2, 29)).toBeNaN();
  });
});

describe('other ways to write a time', () => {
  test.each<[string, Record<string, number>]>([
    ['20260304T081500', { a: 2026, b: 3, c: 4, clock_ns: at(8, 15, 0) }],
    ['04.03.2026 08:15', { a: 4, b: 3, c: 2026, clock_ns: at(8, 15, 0) }],
    ['3/4/26 8:15:07 pm', { a: 3, b: 4, c: 26, clock_ns: at(20, 15, 7) }],
    ['3/4/2026, 12:00:00 a.m.', { a: 3, b: 4, c: 2026, clock_ns: 0 }],
    ['3/4/2026 12:30:00 PM', { a: 3, b: 4, c: 2026, clock_ns: at(12, 30, 0) }],
    ['2026-03-04_08:15:00', { a: 2026, b: 3, c: 4, clock_ns: at(8, 15, 0) }],
    ['2026-03-04 08:15:00,250', { a: 2026, b: 3, c: 4, clock_ns: at(8, 15, 0) + 25e7 }],
    ['2026-03-04 08:15:00:250', { a: 2026, b: 3, c: 4, clock_ns: at(8, 15, 0) + 25e7 }],
    ['4 Mar 2026 08:15:00', { a: 2026, b: 3, c: 4, clock_ns: at(8, 15, 0) }],
    ['March 4, 2026 08:15:00', { a: 2026, b: 3, c: 4, clock_ns: at(8, 15, 0) }],
    ['2026-03-04T08:15:00+0130', { a: 2026, b: 3, c: 4, clock_ns: at(8, 15, 0), offset_min: 90 }],
    [' "2026-03-04 08:15:00" ', { a: 2026, b: 3, c: 4, clock_ns: at(8, 15, 0) }],
    ['2026-03-04', { a: 2026, b: 3, c: 4, clock_ns: 0 }],
  ])('%s', (text, parts) => {
    expect(read(text)).toEqual(parts);
  });
  test.each<[string, ClockShape, number]>([
    ['8:15:07', 'time', at(8, 15, 7)],
    ['08:15', 'time', at(8, 15, 0)],
    ['11:00:00 odp.', 'time', at(23, 0, 0)],
    ['12:00:00 dop.', 'time', 0],
    ['0:00:00.5', 'elapsed', 5e8],
    ['100:00:01', 'elapsed', at(100, 0, 1)],
    ['1.02:03:04', 'elapsed', at(26, 3, 4)],
    ['2d 00:00:01', 'elapsed', at(48, 0, 1)],
    ['12:34.5', 'elapsed', at(0, 12, 34) + 5e8],
  ])('%s as %s', (text, shape, clock_ns) => {
    expect(read(text, shape)?.['clock_ns']).toBe(clock_ns);
  });
  test.each([
    '',
    'noon',
    '12',
    '410.1',
    '2026-3',
    '2026-03-041',
    '2026-03-04 08',
    '2026-03-04 08:15:00 XM',
    '1.2.3.4',
    '2026.03.04.05',
    '2026-03/04',
    '123-03-04',
    '08:15:00',
    'Foo 4, 2026 08:15:00',
  ])('"%s" is no date and time', (text) => {
    expect(read(text)).toBe(null);
  });
});

describe('the byte reader', () => {
  const shapes = { 'date-time': 0, date: 0, time: 1, elapsed: 2 } as const;
  test.each<[string, ClockShape]>([
    ['2026-03-04T08:15:00.123456789Z', 'date-time'],
    ['2026-03-04 08:15:00', 'date-time'],
    ['2026-03-04 08:15:00.5+02:00', 'date-time'],
    ['2026-3-4 8:5:9', 'date-time'],
    ['04.03.26 08:15', 'date-time'],
    ['3/4/2026 8:15:07 PM', 'date-time'],
    ['04.03.2026', 'date-time'],
    ['23:59:59.999', 'time'],
    ['12:00:00AM', 'time'],
    ['123:00:01.5', 'elapsed'],
  ])('takes %s as the text reader does', (text, shape) => {
    const parts = newClockParts(),
      other = newClockParts();
    const end = readClockBytes(new TextEncoder().encode(`${text};`), 0, 59, shapes[shape], parts);
    expect(end).toBe(text.length);
    expect(readClockText(text, shape, other)).toBe(true);
    const facts = ({ a, b, c, clock_ns, offset_min, fractionDigits }: typeof parts): number[] =>
      shape === 'date-time'
        ? [a, b, c, clock_ns, offset_min, fractionDigits]
        : [clock_ns, offset_min, fractionDigits];
    expect(facts(parts)).toEqual(facts(other));
  });
});

describe('days', () => {
  test('count from 1970-01-01, and back', () => {
    expect(dayNumber(1970, 1, 1)).toBe(0);
    expect(dayNumber(2000, 3, 1)).toBe(11017);
    for (let day = -800_000; day < 800_000; day += 137) {
      const { year, month, day: ofMonth } = civilDate(day);
      expect(dayNumber(year, month, ofMonth)).toBe(day);
      if (day % 5 === 0) expect(day * 86_400_000).toBe(new Date(0).setUTCFullYear(year, month - 1, ofMonth));
    }
  });
  test('that do not exist are none', () => {
    for (const [year, month, day] of [
      [2026, 2, 29],
      [2026, 4, 31],
      [2026, 13, 1],
      [2026, 0, 1],
      [2026, 1, 0],
      [2026, 1, 32],
    ] as const)
      expect(dayNumber(year, month, day)).toBeNaN();
  });
  test('in the order told; two digits are a year from 1970 to 2069', () => {
    expect(dayInOrder([4, 3, 26], 2, 'day-month-year')).toBe(dayNumber(2026, 3, 4));
    expect(dayInOrder([4, 3, 26], 2, 'month-day-year')).toBe(dayNumber(2026, 4, 3));
    expect(dayInOrder([4, 3, 26], 2, 'year-month-day')).toBe(dayNumber(2004, 3, 26));
    expect([69, 70, 99, 0].map((year) => fullYear(year, 2))).toEqual([2069, 1970, 1999, 2000]);
  });
});

describe('a weekday that is a month elsewhere, and zones in words', () => {
  test.each(['mar 14 avr 2026', 'mar. 14/04/2026', 'mar 14 de abr de 2026', 'Tue 14 Apr 2026'])(
    '%s',
    (date) => {
      expect(readClockText(`${date} 08:15:00`, 'date-time', newClockParts())).toBe(true);
    },
  );
  test('"Mar 4, 2026" stays March', () => {
    expect(read('Mar 4, 2026 08:15:00')).toMatchObject({ a: 2026, b: 3, c: 4 });
    expect(read('mar 3 mar 2026 08:15:00')).toMatchObject({ a: 2026, b: 3, c: 3 });
  });
  test.each([
    ['GMT+01:00', 60],
    ['UTC-5', -300],
    ['GMT+0530 (IST)', 330],
  ])('%s', (zone, minutes) => {
    expect(read(`2026-03-04 08:15:00 ${zone}`)).toMatchObject({ offset_min: minutes });
  });
  test('no clock is 20 hours from UTC', () => {
    expect(read('2026-03-04T08:15:00+20:00')).toBeNull();
    expect(read('2026-03-04T08:15:00+05:75')).toBeNull();
  });
});
