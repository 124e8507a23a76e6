import type { TimeForm } from '#formats/log.ts';
import { dayNumber } from './civil-day.ts';
import { fractionUnit_ns, NS_PER_DAY, NS_PER_S } from './read-clock.ts';

/** A count from a fixed day that is read from its digits: as one number the last of them would be lost. */
export type CountForm = Extract<
  TimeForm,
  | 'epoch-microseconds'
  | 'epoch-nanoseconds'
  | 'ticks-from-1601'
  | 'ticks-from-1'
  | 'julian-day'
  | 'modified-julian-day'
>;
/** What a count of each form counts from, and in what. */
export interface CountScale {
  /** Digits of the count that are parts of a second; null for a count of days. */
  secondDigits: number | null;
  /** Day number of its zero. */
  zeroDay: number;
  /** Nanoseconds of that day that had passed then. */
  zero_ns: number;
  /** It counts UTC. */
  universal: boolean;
}
const NOON_NS = 43200e9;
/**
 * Microseconds and nanoseconds count as the seconds of the epoch do. Ticks of 100 ns count from 1601-01-01 as UTC or from 0001-01-01 in
 * whatever time the program means. Julian day 2440587.5 and modified Julian day 40587 are 1970-01-01 0:00. What
 * each counts from is from memory; SQLite 3.40.1 gives julianday('1970-01-01') as 2440587.5 and that of 1858-11-17, day 0 of the modified
 * ones, as 2400000.5 (run).
 */
export const countScales: Readonly<Record<CountForm, CountScale>> = {
  'epoch-microseconds': { secondDigits: 6, zeroDay: 0, zero_ns: 0, universal: true },
  'epoch-nanoseconds': { secondDigits: 9, zeroDay: 0, zero_ns: 0, universal: true },
  'ticks-from-1601': { secondDigits: 7, zeroDay: dayNumber(1601, 1, 1), zero_ns: 0, universal: true },
  'ticks-from-1': { secondDigits: 7, zeroDay: dayNumber(1, 1, 1), zero_ns: 0, universal: false },
  'julian-day': { secondDigits: null, zeroDay: -2440588, zero_ns: NOON_NS, universal: false },
  'modified-julian-day': { secondDigits: null, zeroDay: -40587, zero_ns: 0, universal: false },
};
export const countForms = Object.keys(countScales) as CountForm[];

/** A time by its count: no log is older, or younger. */
export const EARLIEST_COUNT_DAY = dayNumber(2000, 1, 1);
export const LATEST_COUNT_DAY = dayNumber(2100, 1, 1);
const DAY_S = 86400;
const FINEST = 9;
const wholeCount = /^(\d+)(?:[.,](\d*))?$/u;

/** A point in time: days from 1970-01-01, nanoseconds of the day, and the digits of the second's fraction that count. */
export interface CountedTime {
  day: number;
  clock_ns: number;
  fractionDigits: number;
}

/**
 * Reads a count's digits.
 * @param places digits of a second that a count of days is good for
 * @returns null where it is none, or lies before 2000 or beyond 2099
 */
export function readCount(text: string, form: CountForm, places: number): CountedTime | null {
  const [, whole = '', fraction = ''] = wholeCount.exec(text) ?? [];
  const { secondDigits, zeroDay, zero_ns } = countScales[form];
  if (whole === '') return null;
  let day = 0,
    clock_ns = 0,
    fractionDigits = places;
  if (secondDigits === null) {
    const step_ns = fractionUnit_ns[places] ?? 1;
    day = Number(whole) + zeroDay;
    clock_ns = Math.round((Number(`0.${fraction}`) * NS_PER_DAY) / step_ns) * step_ns + zero_ns;
    const over = Math.floor(clock_ns / NS_PER_DAY);
    day += over;
    clock_ns -= over * NS_PER_DAY;
  } else {
    const seconds = Number(whole.slice(0, -secondDigits));
    const parts = (whole.slice(-secondDigits).padStart(secondDigits, '0') + fraction).slice(0, FINEST);
    day = Math.floor(seconds / DAY_S);
    clock_ns = (seconds - day * DAY_S) * NS_PER_S + Number(parts.padEnd(FINEST, '0'));
    day += zeroDay;
    fractionDigits = parts.length;
  }
  return day >= EARLIEST_COUNT_DAY && day < LATEST_COUNT_DAY ? { day, clock_ns, fractionDigits } : null;
}
