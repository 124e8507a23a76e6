/** What a column of the file is to the reader; numbers, since the byte reader switches on them in its innermost loop. */
export const Kind = {
  skip: 0,
  number: 1,
  clock: 2,
  date: 3,
  time: 4,
  elapsed: 5,
  timeNumber: 6,
  fraction: 7,
  unit: 8,
  half: 9,
  // Parts of the clock in columns of their own; all of them from here on.
  year: 10,
  month: 11,
  day: 12,
  dayOfYear: 13,
  hour: 14,
  minute: 15,
  second: 16,
  /** `260304`: its order is decided by the column. */
  shortDate: 17,
  /** `0930` and `093015`. */
  hourMinute: 18,
  hourMinuteSecond: 19,
  /** Date and time of day in one cell, written in no way that {@link Kind.clock} has; all of them from here on. A count from a fixed day. */
  count: 20,
  /** A date without a year and a time of day. */
  yearless: 21,
} as const;
/** Whether a kind is read like a part of the clock, and holds date and time of day. */
export const isWholeClock = (kind: number): boolean => kind >= Kind.count;
/** Whether a kind is a part of the clock in a column of its own. */
export const isClockPart = (kind: number): boolean => kind >= Kind.year;
