import { isSurelyLettered } from './lettered-time.ts';
import { plainText } from './plain-text.ts';
import { readClockText, newClockParts } from './read-clock.ts';
import { readYearless } from './yearless-date.ts';

/**
 * What a cell of the file's head looks like. `integer`, `point` and `comma` are numbers by their mark; `grouped` has both marks;
 * `other` is text.
 */
export type CellClass =
  | 'empty'
  | 'integer'
  | 'point'
  | 'comma'
  | 'grouped'
  | 'date-time'
  | 'date'
  | 'time'
  /** Times that are words as well: in letters, `5m 3s`, and dates without a year. Whether they are times the column's heading tells. */
  | 'lettered'
  | 'yearless'
  | 'with-unit'
  | 'fault'
  | 'other';

const LONGEST_CELL = 200;
const parts = newClockParts();
const integer = /^[+\-−‐-–﹣]?\d+(?:[eE][+-]?\d+)?$/u;
const point = /^[+\-−‐-–﹣]?(?:\d+\.\d*|\.\d+)(?:[eE][+-]?\d+|[dD][+-]\d{1,3})?$/u;
const comma = /^[+\-−‐-–﹣]?(?:\d+,\d*|,\d+)(?:[eE][+-]?\d+|[dD][+-]\d{1,3})?$/u;
const grouped = /^[+\-−‐-–﹣]?\d{1,3}(?:([.,'’\u00a0\u202f])\d{3})+(?:[.,]\d+)?$/u;
const numberWithUnit = /^[+\-−‐-–﹣]?\d[\d.,]*[ \u00a0]?(?:1\/)?(?:[a-z°µ%"#][\wµ°²³/%.()-]{0,9})$/iu;
const elapsed = /^(?:\d+(?:[. d] ?| days? ))?\d+:\d{1,2}(?::\d{1,2})?(?:[.,:]\d+)?$/u;
/** Texts that rigs write in place of a reading: nothing measured, wire open, over or under range (common practice, no source). */
const faults =
  /^(?:-+|\*+|#+|\?+|\.+|n\/?a|nan|#?n\/?a!?|#-?\d+|null|none|nil|ol|-ol|\+ol|o\.l\.?|ovl|ovr|over|overrange|under|underrange|open|opn|short|err|error|fault|fail|bad|inf|-inf|\+inf|1\.#\w+|burnout|-{1,4}\.-*)$/iu;

/** Class of one cell as it stands in the file, quotes taken off. Cost: a handful of patterns; used on the head only. */
export function cellClass(text: string): CellClass {
  const cell = plainText(text.trim());
  if (cell === '') return 'empty';
  const first = cell.charCodeAt(0);
  const numeric =
    (first >= 48 && first <= 57) ||
    first === 43 ||
    first === 45 ||
    first === 46 ||
    first === 44 ||
    first > 127;
  if (numeric) {
    if (integer.test(cell)) return 'integer';
    if (point.test(cell)) return 'point';
    if (comma.test(cell)) return 'comma';
    if (grouped.test(cell)) return 'grouped';
  }
  if (faults.test(cell)) return 'fault';
  // No date, time or number with a unit is without a digit, and none is so long.
  if (cell.length > LONGEST_CELL || !/\d/u.test(cell)) return 'other';
  if (readClockText(cell, 'date-time', parts))
    return /:|T\d|\d ?h|\d[ _]\d{1,2}\.\d{2}\.\d{2}/u.test(cell) ? 'date-time' : 'date';
  if (readClockText(cell, 'time', parts, false) || elapsed.test(cell)) return 'time';
  if (numberWithUnit.test(cell)) return 'with-unit';
  if (isSurelyLettered(cell)) return 'lettered';
  return readYearless(cell, parts) ? 'yearless' : 'other';
}

/** Whether a cell holds a number, however it is written. */
export const isNumberClass = (found: CellClass): boolean =>
  found === 'integer' ||
  found === 'point' ||
  found === 'comma' ||
  found === 'grouped' ||
  found === 'with-unit';
/** Whether a cell may be a time or a word. */
export const isDoubtfulTime = (found: CellClass): boolean => found === 'lettered' || found === 'yearless';
/** Whether a cell is a word, or may be one as well as a time. */
export const isWord = (found: CellClass): boolean => found === 'other' || isDoubtfulTime(found);
/** Whether a cell holds a date, a time of day or both. */
export const isTimeClass = (found: CellClass): boolean =>
  found === 'date-time' || found === 'date' || found === 'time' || isDoubtfulTime(found);
