import type { Remark } from '#formats/remark.ts';
import { readUnit } from '#units/read-unit.ts';
import { isTimeClass } from './cell-class.ts';
import type { HeadRow } from './head-rows.ts';
import type { HeadingRows } from './heading-rows.ts';
import { recordName, saysTime, timeName } from './heading-words.ts';
import { readHalfOfDay } from './read-clock.ts';
import { BLANKS } from './split-row.ts';

/** Where each column's name stands in the heading's row; -1 for a column without one. */
type Places = readonly number[];

/**
 * Brings a heading to the columns of its rows where it has more or fewer fields than they: a name may hold the blank or the comma that
 * parts the columns (`Oil temp`, `P (psi)`, `Oil, °C`), one name may stand over a date and its time, a column that only counts the rows
 * often bears none. Names over the wrong columns are worse than none: where nothing tells, the columns go by their places.
 * @param data rows of readings of the head
 */
export function fitHeading(
  heading: HeadingRows,
  data: readonly HeadRow[],
  width: number,
  delimiter: string,
): { heading: HeadingRows; remarks: Remark[]; cutFraction: { column: number; digits: number } | null } {
  const cutFraction = null;
  const lowest = heading.names.at(-1);
  if (lowest === undefined) return { heading, remarks: [], cutFraction };
  const filled = filledWidth(data, width);
  const own = trimmed(lowest, width);
  const again = own.length > width ? refitted(lowest, width, delimiter) : null;
  const remarks: Remark[] = [];
  const counts = `Line ${lowest.line} names ${own.length} columns and the rows have ${filled}`;
  if (again !== null || (own.length <= width && own.length >= filled))
    return {
      heading: withUnits(refit(heading, width, delimiter), lowest, null, width, delimiter),
      remarks,
      cutFraction,
    };
  const cut = own.length === filled - 1 && delimiter === ',' ? fractionCutOff(data) : null;
  if (cut !== null) {
    const behindTime = Array.from({ length: filled }, (_, i) =>
      i < cut.column ? i : i === cut.column ? -1 : i - 1,
    );
    const names = heading.names.map((row) => placed(row, behindTime));
    const shown = (data[0]?.cells[cut.column] ?? '').trim();
    remarks.push({
      code: 'fraction-behind-a-comma',
      text: `${counts}: the numbers behind the times ("${shown}") were taken for the fractions of their seconds.`,
    });
    return {
      heading: withUnits({ ...heading, names }, lowest, behindTime, width, delimiter),
      remarks,
      cutFraction: cut,
    };
  }
  const places =
    own.length < filled ? shortHeading(own, data, filled, delimiter) : delimiter === BLANKS ? null : 'left';
  if (places === null) {
    remarks.push({
      code: 'heading-does-not-fit',
      text: `${counts}: which name belongs to which column cannot be told, so the columns go by their places. Name them in a rig file as "column 1", "column 2" and so on.`,
    });
    return { heading: { names: [], units: null, others: heading.others }, remarks, cutFraction };
  }
  if (places === 'left')
    remarks.push({
      code: 'heading-from-the-left',
      text: `${counts}: the names were given from the left. Check that each stands over its own column.`,
    });
  else if (places[0] === -1)
    remarks.push({
      code: 'heading-behind-the-count',
      text: `${counts}, the first of which counts the rows: the names were given from the second column on.`,
    });
  const moved = places === 'left' ? null : places;
  return {
    heading: withUnits(
      moved === null ? heading : { ...heading, names: heading.names.map((row) => placed(row, moved)) },
      lowest,
      moved,
      width,
      delimiter,
    ),
    remarks,
    cutFraction,
  };
}

/**
 * `08:15:00,500,410.1`: the comma before a second's fraction, unquoted between commas. Behind a time to the second stand whole numbers
 * of three, six or seven digits, as many in every row.
 */
function fractionCutOff(data: readonly HeadRow[]): { column: number; digits: number } | null {
  const [first] = data;
  const time = first?.classes.findIndex((found) => found === 'time' || found === 'date-time') ?? -1;
  const digits = (first?.cells[time + 1] ?? '').trim().length;
  if (time < 0 || data.length < 2 || !FRACTION_DIGITS.has(digits)) return null;
  const cut = data.every(
    (row) =>
      /:\d{2}$/u.test((row.cells[time] ?? '').trim()) &&
      new RegExp(`^\\d{${digits}}$`, 'u').test((row.cells[time + 1] ?? '').trim()),
  );
  if (!cut) return null;
  // `08:15:00,400` may be whole psi under a heading that lacks a name. A zero in front tells, or rows of one second in their order.
  const fractions = data.map((row) => (row.cells[time + 1] ?? '').trim());
  if (fractions.some((text) => text.startsWith('0'))) return { column: time + 1, digits };
  let within = 0,
    falls = 0;
  for (let i = 1; i < data.length; i++)
    if (data[i]?.cells[time] === data[i - 1]?.cells[time]) {
      within++;
      if (Number(fractions[i]) <= Number(fractions[i - 1])) falls++;
    }
  return within > 0 && falls <= within / 50 ? { column: time + 1, digits } : null;
}
const FRACTION_DIGITS = new Set([3, 6, 7]);

/** Fields of a heading or unit row that has more than the table: what belongs together is joined; null where that gives no full row. */
export function refitted(row: HeadRow, width: number, delimiter: string): string[] | null {
  if (trimmed(row, width).length <= width) return null;
  if (delimiter === BLANKS) {
    const text = row.text.trim();
    const wide = text.split(/ {2,}|\s*\t\s*/u);
    if (wide.length === width) return wide;
    // A bracket and what stands in it belongs to the word before it.
    const joined = text
      .replace(/\s+(?=[[({<])/gu, '\u00a0')
      .replace(/[[({<][^\])}>]*/gu, (inside) => inside.replace(/\s/gu, '\u00a0'))
      .split(/[ \t]+/u);
    return joined.length === width ? joined.map((cell) => cell.replaceAll('\u00a0', ' ')) : null;
  }
  const cells: string[] = [];
  for (const cell of row.cells) {
    const before = cells.length - 1;
    if (/^\s/u.test(cell) && before >= 0 && readUnit(cell) !== null)
      cells[before] = `${cells[before] ?? ''}${delimiter}${cell}`;
    else cells.push(cell);
  }
  return cells.length === width ? cells : null;
}

const refit = (heading: HeadingRows, width: number, delimiter: string): HeadingRows => ({
  ...heading,
  names: heading.names.map((row) => ({ ...row, cells: refitted(row, width, delimiter) ?? row.cells })),
});

/** The unit row under the same names; one that cannot be told to stand under them is left out. */
function withUnits(
  heading: HeadingRows,
  lowest: HeadRow,
  moved: Places | null,
  width: number,
  delimiter: string,
): HeadingRows {
  const { units } = heading;
  if (units === null || units.cells.length === width) return heading;
  const again = refitted(units, width, delimiter);
  if (again !== null) return { ...heading, units: { ...units, cells: again } };
  if (moved !== null && units.cells.length === lowest.cells.length)
    return { ...heading, units: placed(units, moved) };
  // Units that begin with the time's, or with nothing over the time, begin at the left.
  const first = (units.cells[0] ?? '').trim();
  const unit = readUnit(first.replace(/^[[({<]\s*(.*?)\s*[\])}>]$/u, '$1'));
  const fromLeft =
    (first === '' && delimiter !== BLANKS) || unit === 's' || unit === 'ms' || unit === 'min' || unit === 'h';
  const whole = units.cells.length >= lowest.cells.length && delimiter !== BLANKS;
  return whole || fromLeft ? heading : { ...heading, units: null };
}

const placed = (row: HeadRow, places: Places): HeadRow => ({
  ...row,
  cells: places.map((place) => (place < 0 ? '' : (row.cells[place] ?? ''))),
});

/** The fields of a heading without empty ones behind the table's last column. */
function trimmed(row: HeadRow, width: number): string[] {
  let length = row.cells.length;
  while (length > width && (row.cells[length - 1] ?? '').trim() === '') length--;
  return row.cells.slice(0, length);
}

/** Columns up to the last one that holds anything. */
function filledWidth(data: readonly HeadRow[], width: number): number {
  let filled = 0;
  for (const row of data)
    for (let i = row.cells.length - 1; i >= filled; i--)
      if ((row.cells[i] ?? '').trim() !== '') {
        filled = i + 1;
        break;
      }
  return Math.min(filled, width);
}

/** Fewer names than columns. */
function shortHeading(
  names: readonly string[],
  data: readonly HeadRow[],
  filled: number,
  delimiter: string,
): Places | 'left' | null {
  const missing = filled - names.length;
  const group = timeGroup(data, filled);
  // One name over a date and its time.
  const named = group.length - missing;
  if (named >= 1 && !saysTime(names[group.first + named] ?? ''))
    return Array.from({ length: filled }, (_, i) =>
      i < group.first + named ? i : i < group.first + group.length ? -1 : i - missing,
    );
  if (missing === 1 && countsRows(data) && !recordName.test(names[0] ?? '')) {
    const second = data.every((row) => isTimeClass(row.classes[1] ?? 'empty'));
    if (second || !timeName.test(names[0] ?? '')) return Array.from({ length: filled }, (_, i) => i - 1);
    if (goesUp(data, 1)) return null;
  }
  return delimiter === BLANKS ? null : 'left';
}

/** Columns side by side that hold a date, a time of day and which half of the day it is. */
function timeGroup(data: readonly HeadRow[], width: number): { first: number; length: number } {
  const all = (column: number, test: (row: HeadRow) => boolean): boolean =>
    column < width && data.length > 0 && data.every(test);
  for (let first = 0; first + 1 < width; first++) {
    const dated = all(first, (row) => row.classes[first] === 'date');
    const clock = dated ? first + 1 : first;
    if (!all(clock, (row) => row.classes[clock] === 'time')) continue;
    const half = all(clock + 1, (row) => readHalfOfDay(row.cells[clock + 1] ?? '') !== null);
    const length = (dated ? 2 : 1) + (half ? 1 : 0);
    if (length > 1) return { first, length };
  }
  return { first: 0, length: 0 };
}

/** The first column's whole numbers go up one by one. */
function countsRows(data: readonly HeadRow[]): boolean {
  const counts = data.map((row) => Number(row.classes[0] === 'integer' ? row.cells[0] : NaN));
  const steps = counts.filter((count, i) => i > 0 && count - (counts[i - 1] ?? NaN) === 1).length;
  return counts.length > 2 && steps >= 0.9 * (counts.length - 1);
}
function goesUp(data: readonly HeadRow[], column: number): boolean {
  const numbers = data.map((row) => Number((row.cells[column] ?? '').trim().replace(',', '.')));
  return numbers.every((value, i) => i === 0 || value > (numbers[i - 1] ?? NaN));
}
