import { readUnit } from '#units/read-unit.ts';
import type { UnitName } from '#units/unit.ts';
import { plainText } from './plain-text.ts';

/** How the file writes numbers; `decimal` is null until the first number with a mark shows it. */
export interface NumberMarks {
  decimal: '.' | ',' | null;
}

/** What one cell says. `grouped`: reads as a number only if the file proves thousands separators (`1,234`). */
export type CellReading =
  | { kind: 'missing' }
  | { kind: 'number'; value: number; decimals: number | null; unit: UnitName | null; provesGroups: boolean }
  | { kind: 'grouped'; value: number; token: string }
  | { kind: 'token'; token: string };

const MISSING: CellReading = { kind: 'missing' };
const pointNumber = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/u;
const commaNumber = /^[+-]?(?:\d+,?\d*|,\d+)(?:[eE][+-]?\d+)?$/u;
/** As Fortran prints a double: `4.101D+02`, always with a mark and a sign. */
const fortran = /^([+-]?(?:\d+[.,]\d*|[.,]\d+))[dD]([+-]\d{1,3})$/u;
/** Digits in threes: sign and first group, separator, rest, decimal part. */
const groups = /^([+-]?\d{1,3})([.,'’ \u00a0\u202f])(\d{3}(?:\2\d{3})*)(?:([.,])(\d*))?$/u;
const maybeGroups = /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/u;
const withUnit =
  /^([+-]?(?:\d{1,3}(?:[ \u00a0\u202f'’]\d{3})+(?:[.,]\d+)?|[\d.,]+)(?:[eE][+-]?\d+)?)[ \u00a0]*([^\d.,+-].*)$/u;

/** The longest token that is kept word for word. */
const TOKEN_LENGTH = 40;

/**
 * Reads a cell as a number under the file's marks.
 *
 * Never a guess: `100,000` in a decimal-comma file is one hundred; a separator of thousands counts only where the cell itself
 * (`1,234.5`, `1.234.567`) or another cell of the file proves it. A cell with a NUL byte inside lost something and is no number.
 * More than 15 digits and exponents are read by `Number` (round to nearest). Infinity is no number.
 * @param text the cell as written, quotes taken off
 */
export function readNumber(text: string, marks: NumberMarks): CellReading {
  let cell = plainText(text.trim());
  if (cell.includes('\0')) {
    if (cell.replaceAll('\0', '').trim() === '') return MISSING;
    return token(cell.replaceAll('\0', '␀'));
  }
  if (cell.length >= 2 && cell.startsWith('"') && cell.endsWith('"')) cell = cell.slice(1, -1).trim();
  if (cell === '') return MISSING;
  const first = cell.charCodeAt(0);
  const signed = isMinus(first) ? `-${cell.slice(1)}` : cell;
  const plain = signed.replace(fortran, '$1e$2');
  const number = bareNumber(plain, marks);
  if (number !== null) return number;
  const parts = withUnit.exec(plain);
  if (parts !== null) {
    const unit = readUnit(parts[2] ?? '');
    const value = unit === null ? null : bareNumber(parts[1] ?? '', marks);
    if (unit !== null && value?.kind === 'number') return { ...value, unit };
  }
  return token(cell);
}

/** U+2212 minus sign; what exports put for it: the hyphens and dashes U+2010 to U+2013, and the small form of East Asian text. */
const isMinus = (code: number): boolean =>
  code === 0x2212 || (code >= 0x2010 && code <= 0x2013) || code === 0xfe63;

function token(cell: string): CellReading {
  return { kind: 'token', token: cell.length > TOKEN_LENGTH ? `${cell.slice(0, TOKEN_LENGTH)}…` : cell };
}

function bareNumber(cell: string, marks: NumberMarks): CellReading | null {
  const decimal = marks.decimal ?? (cell.includes(',') && !cell.includes('.') ? ',' : '.');
  if ((decimal === '.' ? pointNumber : commaNumber).test(cell)) {
    const value = Number(decimal === ',' ? cell.replace(',', '.') : cell);
    if (!Number.isFinite(value)) return null;
    const mark = cell.indexOf(decimal);
    // The first mark of the file: "1.002" may be a thousand and two as well, until another number shows which.
    if (marks.decimal === null && mark >= 0 && maybeGroups.test(cell))
      return { kind: 'grouped', value: Number(cell.replace(decimal, '')), token: cell };
    const exponent = /[eE]/u.test(cell);
    if (mark >= 0) marks.decimal ??= decimal;
    return {
      kind: 'number',
      value,
      decimals: exponent ? null : mark < 0 ? 0 : cell.length - mark - 1,
      unit: null,
      provesGroups: false,
    };
  }
  const grouped = groups.exec(cell);
  if (grouped === null) return null;
  const [, head = '', separator = '', rest = '', mark, fraction = ''] = grouped;
  if (separator === mark || (mark !== undefined && marks.decimal !== null && mark !== marks.decimal))
    return null;
  const several = rest.length > 3;
  // "1.234.567": the point stands twice, so it is no decimal mark, whatever the file uses elsewhere.
  if (mark === undefined && separator === marks.decimal && !several) return null;
  const digits = head + rest.replaceAll(separator, '');
  const value = Number(mark === undefined ? digits : `${digits}.${fraction}`);
  const proven = mark !== undefined || several || !/[., ]/u.test(separator);
  if (!proven) return { kind: 'grouped', value, token: cell };
  if (mark === '.' || mark === ',') marks.decimal ??= mark;
  return { kind: 'number', value, decimals: fraction.length, unit: null, provesGroups: true };
}
