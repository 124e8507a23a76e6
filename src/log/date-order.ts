import { dayInOrder, type DateOrder } from './civil-day.ts';
import type { DateRun } from './log-table.ts';
import { NAMED_MONTH } from './read-clock.ts';

/** Day numbers of a log's dates, and what decided the order of day and month. */
export interface DaysFound {
  order: DateOrder;
  /** Nothing decides: the dates read as well in another order (all rows bear one date). Times within the log are not touched by it. */
  undecided: DateOrder | null;
  /** Day number of each run; NaN for a date that does not exist. */
  days: Float64Array;
}

const STOP = 46;

/**
 * Decides the order of a date's numbers from the whole column: the order in which every date exists; among those the one in which
 * the log goes forward with the fewest days between its rows (04.08 followed by 04.09 within a quarter of an hour is April in both).
 * Dates with full stops and a four-digit year are day first where nothing else decides (DIN 5008 and common practice).
 * @param rows rows of the log, to weigh runs of dates by
 * @param stated by the rig file
 * @param hinted by the heading, `Date (dd/mm/yy)`: counts where the dates decide nothing
 */
export function settleDays(
  runs: readonly DateRun[],
  rows: number,
  stated: DateOrder | null,
  hinted: DateOrder | null = null,
): DaysFound {
  const first = runs[0];
  const yearFirst = first !== undefined && first.digitsA > 2;
  const yearLast = first !== undefined && first.digitsC > 2;
  const orders: DateOrder[] = yearFirst
    ? ['year-month-day']
    : yearLast
      ? ['day-month-year', 'month-day-year']
      : first?.separator === NAMED_MONTH
        ? ['day-month-year', 'year-month-day']
        : ['day-month-year', 'month-day-year', 'year-month-day'];
  if (stated !== null && !yearFirst) return { order: stated, undecided: null, days: daysOf(runs, stated) };
  const judged = orders.map((order) => judge(runs, rows, order));
  const byHint = (order: DateOrder): number => (order === hinted ? 0 : 1);
  judged.sort(
    (a, b) =>
      a.badRows - b.badRows || a.falls - b.falls || a.travel - b.travel || byHint(a.order) - byHint(b.order),
  );
  const best = judged[0] ?? judge(runs, rows, 'year-month-day');
  const second = judged[1];
  const tie =
    second !== undefined &&
    second.badRows === best.badRows &&
    second.falls === best.falls &&
    second.travel === best.travel &&
    second.days.some((day, i) => day !== best.days[i]);
  const settledByCustom = yearLast && first.separator === STOP && best.order === 'day-month-year';
  return {
    order: best.order,
    undecided: tie && !settledByCustom && best.order !== hinted ? second.order : null,
    days: best.days,
  };
}

/** Day number of each run of dates when they are read in an order; NaN for a date that does not exist. */
export function daysOf(runs: readonly DateRun[], order: DateOrder): Float64Array {
  return Float64Array.from(runs, (run) => {
    // Month names and compact dates come year first, whatever the numeric ones do.
    const own =
      run.digitsA > 2
        ? 'year-month-day'
        : (run.digitsC > 2 && order === 'year-month-day') ||
            (run.separator === NAMED_MONTH && order === 'month-day-year')
          ? 'day-month-year'
          : order;
    return dayInOrder([run.a, run.b, run.c], own === 'year-month-day' ? run.digitsA : run.digitsC, own);
  });
}

function judge(
  runs: readonly DateRun[],
  rows: number,
  order: DateOrder,
): { order: DateOrder; days: Float64Array; badRows: number; falls: number; travel: number } {
  const days = daysOf(runs, order);
  let badRows = 0,
    falls = 0,
    travel = 0,
    last = NaN;
  for (const [i, run] of runs.entries()) {
    const day = days[i] ?? NaN;
    if (Number.isNaN(day)) {
      badRows += (runs[i + 1]?.row ?? rows) - run.row;
      continue;
    }
    if (day < last) falls++;
    if (!Number.isNaN(last)) travel += Math.abs(day - last);
    last = day;
  }
  return { order, days, badRows, falls, travel };
}
