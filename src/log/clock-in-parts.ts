import type { ClockColumns } from './clock-columns.ts';
import { Kind } from './column-kind.ts';
import type { ColumnSummary } from './column-summary.ts';
import type { Layout } from './settle-layout.ts';
import { fractionNamed, isOtherQuantity } from './time-headings.ts';
import type { TimePlan } from './time-plan.ts';

/** A column of a second's fraction: it goes round, and its heading says so. */
export const fractionAmong = (columns: readonly ColumnSummary[], layout: Layout): ColumnSummary | undefined =>
  columns.find((c) => c.column === layout.cutFraction?.column) ??
  columns.find(
    (c) =>
      c.kind === 'number' &&
      !isOtherQuantity(layout, c.column) &&
      c.cycles &&
      c.min !== null &&
      c.max !== null &&
      c.min >= 0 &&
      c.max < (fractionNamed(layout.lowestHeadings[c.column] ?? '')?.under ?? 0),
  );

/** The clock in several columns, each with a part of it. */
export function byParts(
  plan: TimePlan,
  found: ClockColumns | null,
  date: ColumnSummary | undefined,
  columns: readonly ColumnSummary[],
  layout: Layout,
): boolean {
  const [first] = found?.parts ?? [];
  if (found === null || first === undefined) return false;
  const dated = found.dated || date !== undefined;
  plan.parts = found.parts;
  plan.source = found.elapsed ? 'elapsed' : dated ? 'date-and-time' : 'time-of-day';
  plan.form = found.elapsed ? 'elapsed-hms' : dated ? 'date-time' : 'time-of-day';
  plan.column = found.time >= 0 ? found.time : first.column;
  plan.dateColumn = found.dated ? first.column : (date?.column ?? -1);
  const own = new Set(found.parts.map(({ column }) => column));
  const fraction = fractionAmong(
    columns.filter(({ column }) => !own.has(column)),
    layout,
  );
  const seconds = found.parts.find(({ kind }) => kind === Kind.second)?.column ?? found.time;
  const whole = seconds >= 0 && columns[seconds]?.decimals === 0 && !columns[seconds]?.fractions;
  plan.fractionColumn = fraction !== undefined && whole ? fraction.column : -1;
  if (found.assumed === null) return true;
  const { column, as } = found.assumed;
  const cell = layout.rows.map((row) => (row.cells[column] ?? '').trim()).find((text) => text !== '') ?? '';
  plan.remarks.push({
    code: 'time-parts-assumed',
    text: `The times of column "${layout.lowestHeadings[column] ?? ''}" have no marks between their parts ("${cell}"); they were read as ${as}. If that is wrong, name the form in a rig file.`,
  });
  return true;
}
