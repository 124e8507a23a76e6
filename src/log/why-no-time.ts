import type { ColumnSummary } from './column-summary.ts';
import { elapsedName, epochName, isOtherTime, saysTime, timeName } from './heading-words.ts';
import type { Layout } from './settle-layout.ts';
import { isOtherQuantity, secondsInUnit, secondsOfCells } from './time-headings.ts';

const dateInDigits =
  /^(?:19|20)\d{2}(?:0[1-9]|1[0-2])(?:[0-2]\d|3[01])(?:[01]\d|2[0-3])[0-5]\d(?:[0-5]\d\d*)?$/u;
const sixPairs = /^\d{12}$/u;

/**
 * What a column holds that by its heading, or by the rig file, should be the time and cannot be read as one.
 * @param named the column that a rig file names; -1 for none
 * @returns null where no column says that it is one
 */
export function whyNoTime(
  columns: readonly ColumnSummary[],
  layout: Layout,
  named: number,
): { column: number; text: string; reason: string } | null {
  const saysSo = ({ column, kind }: ColumnSummary): boolean => {
    const heading = layout.lowestHeadings[column] ?? '';
    return (
      kind !== 'empty' &&
      !isOtherTime(heading) &&
      ([timeName, elapsedName, epochName].some((name) => name.test(heading)) || saysTime(heading))
    );
  };
  const own = named >= 0 ? columns[named] : columns.find(saysSo);
  const text = layout.rows
    .map((row) => (row.cells[own?.column ?? -1] ?? '').trim())
    .find((cell) => cell !== '');
  if (own === undefined || text === undefined) return null;
  return { column: own.column, text: text.slice(0, LONGEST_SHOWN), reason: reasonOf(own, text, layout) };
}
const LONGEST_SHOWN = 40;

function reasonOf(own: ColumnSummary, text: string, layout: Layout): string {
  if (own.kind === 'date') return 'dates without a time of day';
  if (own.kind === 'time' || own.kind === 'date-time')
    return own.constant ? 'the same time in every row' : 'times that do not tell one row from the other';
  if (own.kind !== 'number' || own.min === null) return 'a form of time that is not known here';
  if (sixPairs.test(text)) return 'twelve digits, a date and a time whose order cannot be told, or a count';
  if (dateInDigits.test(text) && text.length > 8)
    return 'digits that look like a date and a time, but not to the second or the thousandth, or like a count';
  const unit_s = secondsOfCells(own, secondsInUnit(layout, own.column));
  if (isOtherQuantity(layout, own.column) || Number.isNaN(unit_s))
    return 'numbers in a unit that is not known as one of time';
  if (own.dottedClock) return 'numbers that may be hours and minutes as well as hours';
  if (own.clockDigits !== null || own.unmarkedTimes === 'unsure')
    return 'digits that may be a time of day without marks as well as a count';
  if (!own.rises) return 'numbers that do not rise from row to row';
  return 'numbers without a unit of time, which may as well be anything else';
}
