import { readUnit } from '#units/read-unit.ts';
import { cellClass, isDoubtfulTime, isNumberClass, isTimeClass, type CellClass } from './cell-class.ts';
import { splitRow } from './split-row.ts';

/** One line of the file's head, taken apart. */
export interface HeadRow {
  /** From 1. */
  line: number;
  /** As it stands in the file. */
  text: string;
  cells: string[];
  classes: CellClass[];
  /** Reads like a row of readings: numbers or times make up half of what it holds. */
  data: boolean;
}

/** Rows that are enough to settle a layout by. */
const ENOUGH_ROWS = 400;
/** Marks of a remark at the head of a line. */
export const commentMark = /^\s*(?:#|\/\/|%|!|\*|--)+\s*(?=\S)/u;

/** One record of the head and the line that it starts in. */
export interface HeadLine {
  line: number;
  text: string;
}
const openQuote = /(?:^|[,;\t|])"(?:[^"]|"")*$/u;
/** A field in quotes may hold line ends; one that is not closed within so many lines is damage. */
const MOST_LINES = 20;
/** After so many quotes that are not closed they are no quotes. */
const MOST_UNCLOSED = 1000;
/** Longer lines, and lines of more fields, are no rows of a log; taking them apart would take minutes. */
const LONGEST_LINE = 1024 * 1024;
const MOST_FIELDS = 50_000;

/** The head's records: lines, with those inside a quoted field joined to the one that opens it. */
export function recordsOf(text: string): HeadLine[] {
  const lines = text.split(/\r\n|\n|\r/u);
  if (lines.at(-1) === '') lines.pop();
  const records: HeadLine[] = [];
  let blanks = 0,
    unclosed = 0;
  for (let i = 0; i < lines.length; i++) {
    const own = lines[i] ?? '';
    // Two blank lines in a row say as much as a million.
    blanks = own.trim() === '' ? blanks + 1 : 0;
    if (blanks > 2) continue;
    let whole = own,
      end = i;
    const most = unclosed < MOST_UNCLOSED && own.length < LONGEST_LINE ? MOST_LINES : 0;
    while (end - i < most && end + 1 < lines.length && openQuote.test(whole))
      whole += `\n${lines[++end] ?? ''}`;
    const closed = end > i && !openQuote.test(whole);
    records.push({ line: i + 1, text: closed ? whole : own });
    if (closed) i = end;
    else if (end > i) unclosed++;
  }
  return records;
}

/** Lines taken apart; after a table is found to go on and on, the rest of the head is left. */
export function readRows(lines: readonly HeadLine[], delimiter: string): HeadRow[] {
  const rows: HeadRow[] = [];
  let data = 0;
  for (const { line, text } of lines) {
    if (data >= ENOUGH_ROWS) break;
    const parted = text.length > LONGEST_LINE ? [] : splitRow(text, delimiter);
    const cells = parted.length > MOST_FIELDS || parted.length === 0 ? [text.slice(0, MOST_LINES)] : parted;
    const classes = cells.map(cellClass);
    // Fault tokens, units and what may be a time speak neither for nor against.
    const filled = classes.filter(
      (found, j) =>
        found !== 'empty' &&
        found !== 'fault' &&
        !isDoubtfulTime(found) &&
        (found !== 'other' || readUnit(cells[j] ?? '') === null),
    ).length;
    const good = classes.filter(
      (found) => isNumberClass(found) || (isTimeClass(found) && !isDoubtfulTime(found)),
    ).length;
    const isData =
      good > 0 &&
      !commentMark.test(text) &&
      (2 * good >= filled || classes.some((found) => found === 'date-time' || found === 'time'));
    if (isData) data++;
    rows.push({ line, text, cells, classes, data: isData });
  }
  return rows;
}
