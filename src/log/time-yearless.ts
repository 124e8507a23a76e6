import type { ColumnSummary } from './column-summary.ts';
import { isOtherDate, isOtherTime, maySayDate } from './heading-words.ts';
import type { RawTime } from './raw-time.ts';
import type { Layout } from './settle-layout.ts';
import type { TimePlan } from './time-plan.ts';

const DAY_S = 86400;

/** Takes such a column for the time where nothing else is one. */
export function byYearless(plan: TimePlan, columns: readonly ColumnSummary[], layout: Layout): boolean {
  const heading = (c: ColumnSummary): string => layout.lowestHeadings[c.column] ?? '';
  const own = columns.find(
    (c) =>
      c.yearless &&
      (c.changes > 1 || layout.rows.length === 1) &&
      maySayDate(heading(c)) &&
      !isOtherDate(heading(c)) &&
      !isOtherTime(heading(c)),
  );
  return own !== undefined && setYearless(plan, own, layout);
}

/** Takes a column of dates without a year for the time, and says so. */
export function setYearless(plan: TimePlan, own: ColumnSummary, layout: Layout): true {
  plan.source = 'clock';
  plan.column = own.column;
  plan.form = 'time-of-day';
  plan.yearless = true;
  const first = layout.rows.map((row) => (row.cells[own.column] ?? '').trim()).find((cell) => cell !== '');
  plan.remarks.push({
    code: 'dates-without-year',
    text: `The dates of column "${layout.lowestHeadings[own.column] ?? ''}" have no year ("${first ?? ''}"): the times within the run were read, but it has no date.`,
  });
  return true;
}

/** Leaves of a time that was read in some year what is true in any: times from the first row, and the time of day at which it begins. */
export function forgetYear(result: RawTime): void {
  const [read] = result.dateOrders;
  result.start = read?.start?.slice(11) ?? null;
  result.origin_s -= Math.floor(result.origin_s / DAY_S) * DAY_S;
  result.dateOrders = [];
  result.remarks = result.remarks.filter(({ code }) => code !== 'date-order-undecided');
}
