import { SetAside } from '#formats/log.ts';
import { cellEnd, cellText } from './cell-end.ts';
import { Kind } from './column-kind.ts';
import type { LogTable } from './log-table.ts';
import type { RowKernel } from './row-kernel.ts';
import { NO_OFFSET, readClockBytes, readClockText } from './read-clock.ts';

/** What the byte reader needs to know of the layout. */
export interface PlainLayout {
  delimiter: number;
  minWidth: number;
  /** For each unit column the bytes that it holds while nothing changes. */
  unitBytes: (Uint8Array | null)[];
}

/** Powers of ten that are exact doubles; an integer below 2^53 divided by one of them is rounded once, as `Number` would. */
const powersOfTen = Float64Array.from([
  1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
]);
const MOST_DIGITS = 15;
const HOUR_NS = 3600e9;
const QUOTE = 34,
  LF = 10,
  CR = 13,
  BLANK = 32;

/**
 * Reads complete rows straight from their bytes. What it cannot take exactly (a field with escaped quotes, an unusable time, too
 * few or too many fields, a line that is no reading) goes to `oddRow`; a single cell that is no plain number goes to
 * {@link LogTable.cell} as text.
 * @param to just behind a line end
 * @param oddRow reads the record that starts at a position and returns the position behind it, or -1 when it needs more bytes
 * @param kernel takes rows that are like the last one, many at a time; null where there is none
 * @returns the position up to which rows were read
 */
export function readPlainRows(
  bytes: Uint8Array,
  from: number,
  to: number,
  layout: PlainLayout,
  table: LogTable,
  oddRow: (bytes: Uint8Array, start: number, to: number) => number,
  kernel: RowKernel | null = null,
): number {
  const { delimiter, minWidth, unitBytes } = layout;
  const { kinds, datePart, timePart, newDecimals } = table;
  const width = kinds.length;
  const decimals = new Int16Array(width + 1);
  // -1: no number with a mark was seen yet; such a row goes the long way, which decides.
  let decimalMark = -1;
  const refresh = (): void => {
    decimalMark = table.marks.decimal === null ? -1 : table.marks.decimal.charCodeAt(0);
    for (let i = 0; i < width; i++) decimals[i] = known(table.columns[i]?.decimals ?? 0);
    decimals[width] = known(table.timeDecimals);
  };
  refresh();
  let p = from;
  while (p < to) {
    if (kernel !== null) {
      p = kernel.read(bytes, p, to, table, decimalMark);
      if (p >= to) break;
    }
    const start = p;
    let code = bytes[p] ?? 0;
    if (code === LF || code === CR) {
      p += code === CR && bytes[p + 1] === LF ? 2 : 1;
      table.line++;
      continue;
    }
    const row = table.row;
    const { values, flags, time } = table;
    let plain = table.rows > 0 && !table.stopped;
    let column = 0;
    for (; plain && column < width; column++) {
      const kind = kinds[column];
      const cellStart = p;
      code = bytes[p] ?? 0;
      const quoted = code === QUOTE;
      if (quoted) code = bytes[++p] ?? 0;
      if (kind === Kind.number || kind === Kind.timeNumber) {
        while (code === BLANK) code = bytes[++p] ?? 0;
        let negative = false;
        if (code === 45) {
          negative = true;
          code = bytes[++p] ?? 0;
        } else if (code === 43) code = bytes[++p] ?? 0;
        let mantissa = 0,
          digit = code - 48,
          digits = p,
          places = 0;
        while (digit >= 0 && digit <= 9) {
          mantissa = mantissa * 10 + digit;
          digit = (code = bytes[++p] ?? 0) - 48;
        }
        digits = p - digits;
        if (code === decimalMark && (code !== delimiter || quoted)) {
          code = bytes[++p] ?? 0;
          places = p;
          digit = code - 48;
          while (digit >= 0 && digit <= 9) {
            mantissa = mantissa * 10 + digit;
            digit = (code = bytes[++p] ?? 0) - 48;
          }
          places = p - places;
          digits += places;
        }
        while (code === BLANK) code = bytes[++p] ?? 0;
        if (quoted && code === QUOTE) code = bytes[++p] ?? 0;
        else if (quoted) digits = 0;
        if (digits > 0 && digits <= MOST_DIGITS && (code === delimiter || code === LF || code === CR)) {
          let value = places === 0 ? mantissa : mantissa / (powersOfTen[places] ?? 1);
          if (negative) value = -value;
          if (kind === Kind.number) {
            (values[column] ?? time)[row] = value;
            if (places > (decimals[column] ?? 0)) {
              newDecimals[column] = places;
              table.pending = true;
            }
          } else {
            time[row] = value;
            if (places > (decimals[width] ?? 0)) {
              newDecimals[width] = places;
              table.pending = true;
            }
          }
        } else if (
          kind === Kind.number &&
          p === cellStart &&
          (code === delimiter || code === LF || code === CR)
        ) {
          (values[column] ?? time)[row] = NaN;
          const flag = flags[column];
          if (flag !== undefined) flag[row] = SetAside.missing;
        } else {
          p = cellEnd(bytes, cellStart, delimiter);
          if (p < 0 || (decimalMark < 0 && hasMark(bytes, cellStart, p))) plain = false;
          else {
            const text = cellText(bytes, cellStart, p);
            if (kind === Kind.number) table.cell(column, text);
            else plain = table.timeNumber(text);
          }
        }
      } else if (kind === Kind.skip) {
        p = cellEnd(bytes, cellStart, delimiter);
        if (p < 0) plain = false;
      } else if (kind === Kind.unit) {
        p = sameUnit(bytes, cellStart, delimiter, unitBytes[column] ?? null);
        if (p < 0) plain = false;
      } else if (kind !== undefined && kind >= Kind.half) {
        p = cellEnd(bytes, cellStart, delimiter);
        plain = p >= 0 && table.clockCell(kind, cellText(bytes, cellStart, p));
      } else if (kind === Kind.fraction) {
        p = cellEnd(bytes, cellStart, delimiter);
        plain = p >= 0 && table.fractionNumber(cellText(bytes, cellStart, p));
      } else {
        const shape = kind === Kind.time ? 1 : kind === Kind.elapsed ? 2 : 0;
        const parts = kind === Kind.time || kind === Kind.elapsed ? timePart : datePart;
        p = readClockBytes(bytes, p, delimiter, shape, parts);
        if (p >= 0) {
          code = bytes[p] ?? 0;
          while (code === BLANK) code = bytes[++p] ?? 0;
          if (quoted && code === QUOTE) code = bytes[++p] ?? 0;
          else if (quoted) code = 0;
        }
        if (p < 0 || (code !== delimiter && code !== LF && code !== CR)) {
          p = cellEnd(bytes, cellStart, delimiter);
          plain =
            p >= 0 &&
            readClockText(
              cellText(bytes, cellStart, p),
              kind === Kind.time ? 'time' : kind === Kind.elapsed ? 'elapsed' : 'date-time',
              parts,
            );
        }
      }
      if (!plain) break;
      code = bytes[p] ?? 0;
      if (code === delimiter && column < width - 1) p++;
      else if (code !== delimiter) {
        column++;
        break;
      }
    }
    if (plain && column < width) plain = shortRow(table, column, minWidth);
    // Delimiters behind the last column, with nothing between them.
    if (plain) {
      while (code === delimiter || code === BLANK) code = bytes[++p] ?? 0;
      plain = code === LF || code === CR;
    }
    if (!plain) {
      table.clearRow();
      p = oddRow(bytes, start, to);
      if (p < 0) return start;
      refresh();
      continue;
    }
    placeTime(table);
    if (table.pending) {
      table.commit();
      refresh();
    } else table.commit();
    kernel?.seen(bytes, start, table);
    p += code === CR && bytes[p + 1] === LF ? 2 : 1;
    table.line++;
  }
  return p;
}

const known = (decimals: number): number => (decimals < 0 ? 32767 : decimals);

/** Puts the row's time in place; a numeric time stands there already. */
export function placeTime(table: LogTable): void {
  const { datePart, timePart } = table;
  if (table.pieced) {
    const clock = table.timed ? timePart : datePart;
    if (table.parted) table.clockCells.into(datePart, table.clockParted ? clock : null);
    const hour = Math.floor(clock.clock_ns / HOUR_NS);
    if (table.halved && table.afternoon && hour < 12) clock.clock_ns += 12 * HOUR_NS;
    else if (table.halved && !table.afternoon && hour === 12) clock.clock_ns -= 12 * HOUR_NS;
  }
  if (table.dated) {
    const clock = table.timed ? timePart : datePart;
    table.time[table.row] = clock.clock_ns;
    if (clock.fractionDigits > table.fractionDigits) table.fractionDigits = clock.fractionDigits;
    table.noteDate(datePart, clock.offset_min === NO_OFFSET ? datePart.offset_min : clock.offset_min);
  } else if (table.timed) {
    table.time[table.row] = timePart.clock_ns;
    if (timePart.fractionDigits > table.fractionDigits) table.fractionDigits = timePart.fractionDigits;
  }
}

/** The rest of a row that ends early is missing, if this file has such rows and the time is not in the rest. */
function shortRow(table: LogTable, fields: number, minWidth: number): boolean {
  const { kinds, values, flags, row } = table;
  if (fields < minWidth) return false;
  for (let column = fields; column < kinds.length; column++) {
    const kind = kinds[column];
    if (kind === Kind.number) {
      const value = values[column],
        flag = flags[column];
      if (value !== undefined) value[row] = NaN;
      if (flag !== undefined) flag[row] = SetAside.missing;
    } else if (kind !== Kind.skip && kind !== Kind.unit) return false;
  }
  return true;
}

function hasMark(bytes: Uint8Array, start: number, end: number): boolean {
  for (let p = start; p < end; p++) if (bytes[p] === 44 || bytes[p] === 46) return true;
  return false;
}

/** End of a unit cell that is empty or holds what it always holds; else -1. */
function sameUnit(bytes: Uint8Array, start: number, delimiter: number, expected: Uint8Array | null): number {
  const end = cellEnd(bytes, start, delimiter);
  if (end < 0 || end === start || expected === null) return end;
  if (end - start !== expected.length) return -1;
  for (let i = 0; i < expected.length; i++) if (bytes[start + i] !== expected[i]) return -1;
  return end;
}
