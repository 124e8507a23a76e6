import type { TimeForm } from '#formats/log.ts';
import type { Remark } from '#formats/remark.ts';
import type { UnitName } from '#units/unit.ts';
import type { DateOrder } from './civil-day.ts';
import type { CountForm } from './clock-count.ts';
import type { ClockColumn } from './clock-columns.ts';

/** Where a row's time stands and how it is read. Columns count from 0, -1 for none. */
export interface TimePlan {
  form: TimeForm;
  /** `clock`: date and time in one cell; `date-and-time`: in two; `number`: seconds, days … as a number; `rows`: one row is one sample. */
  source: 'clock' | 'date-and-time' | 'time-of-day' | 'elapsed' | 'number' | 'rows';
  column: number;
  dateColumn: number;
  /** A second's fraction in a column of its own. */
  fractionColumn: number;
  /** Digits of the second's fraction that one of it stands for, by its heading; null: by its size. */
  fractionDigits: number | null;
  /** AM and PM in a column of their own. */
  halfColumn: number;
  /** A clock beside an elapsed time: it only says when the log started. */
  startColumn: number;
  /** Columns that hold one part of the clock each. */
  parts: ClockColumn[];
  /** A count from a fixed day, and the digits of a second that one of days is good for. */
  count: { form: CountForm; places: number } | null;
  /** The dates of {@link column} have no year. */
  yearless: boolean;
  /** Counts the rows; settles the order where the clock steps. */
  recordColumn: number;
  /** Seconds in one unit of a numeric time. */
  unit_s: number;
  /** What a count of seconds since another year than 1970 is ahead by. */
  ahead_s: number;
  /** `12:34` may be minutes and seconds as well as hours and minutes: the rows tell, or nothing does. */
  twoParts: boolean;
  /** The unit that a numeric time's cells bear. */
  cellUnit: UnitName | null;
  /** Day numbers count from 1904. */
  dates1904: boolean;
  /** A numeric time is hours, minutes and seconds without marks: 81500. */
  unmarked: boolean;
  dateOrder: DateOrder | null;
  /** What the date's heading says of it. */
  dateOrderHint: DateOrder | null;
  /** Further columns of times, of no use. */
  otherClocks: number[];
  remarks: Remark[];
}
