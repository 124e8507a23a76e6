import type { Remark } from '#formats/remark.ts';
import type { Rig } from '#formats/rig.ts';
import { readUnit } from '#units/read-unit.ts';
import { isNumberClass, isTimeClass, isWord, type CellClass } from './cell-class.ts';
import { decimalMark } from './decimal-mark.ts';
import { fitHeading } from './fit-heading.ts';
import { readRows, recordsOf, type HeadRow } from './head-rows.ts';
import { headingAbove, joinedNames, lowestNames, statedHeading } from './heading-rows.ts';
import { BLANKS } from './split-row.ts';
import { isHeadingOnly, isNoText, whyNoTable } from './why-no-table.ts';

/** How the file's table is laid out; everything about columns counts from 0. */
export interface Layout {
  delimiter: string;
  /** null: no number with a mark in the head, the first one further down decides. */
  decimal: '.' | ',' | null;
  /** First line of the heading, null without one. */
  headerLine: number | null;
  unitLine: number | null;
  firstDataLine: number;
  /** Fields in a full row, and the fewest that a row of this file has. */
  width: number;
  minWidth: number;
  /** Headings as written, joined where they take several rows; '' where there is none. Length `width`. */
  headings: string[];
  /** The lowest name of each column alone: what it is, without the group above it. Length `width`. */
  lowestHeadings: string[];
  /** The heading's rows as they stand, to know them again further down. */
  headingRows: string[][];
  /** Texts of the unit row, '' where there is none. Length `width`. */
  unitTexts: string[];
  /** Rows of readings in the head. */
  rows: HeadRow[];
  /** Times with a comma before the fraction of the second, between commas: the column that it makes, and its digits. */
  cutFraction: { column: number; digits: number } | null;
  remarks: Remark[];
}

const candidates = [';', '\t', '|', ',', BLANKS] as const;

export type LayoutResult = { ok: true; layout: Layout } | { ok: false; reason: string; headingOnly: boolean };

/**
 * Settles delimiter, decimal mark, heading, unit row and first row of readings from the file's head.
 *
 * Every candidate delimiter is tried; the one under which most cells of equally long rows read as numbers or times wins. The
 * table is the longest run of such rows: smaller tables and key–value lines above it are preamble.
 * @param text the head as text, whole lines only (the last may be without line end when the file ends there)
 * @param dialect what the rig file states; overrides what is found
 */
export function settleLayout(text: string, dialect: Rig['dialect']): LayoutResult {
  const lines = recordsOf(text);
  const refuse = (reason: string): LayoutResult => ({
    ok: false,
    reason,
    headingOnly: isHeadingOnly(lines),
  });
  if (isNoText(text))
    return {
      ok: false,
      reason: 'it is not text (a picture, a program or a packed file)',
      headingOnly: false,
    };
  const beyond = [dialect?.headerLine, dialect?.unitLine].find(
    (line) => typeof line === 'number' && !lines.some((found) => found.line === line),
  );
  if (typeof beyond === 'number')
    return {
      ok: false,
      reason: `the rig file says that a heading or its units stand in line ${beyond}, and no line begins there; correct that first`,
      headingOnly: false,
    };
  const stated = dialect?.delimiter ?? /^\uFEFF?"?sep=(.)"?\s*$/iu.exec(lines[0]?.text ?? '')?.[1];
  let best: { delimiter: string; rows: HeadRow[]; width: number; score: number } | null = null;
  for (const delimiter of stated === undefined ? candidates : [stated]) {
    // Without the mark there is nothing to part by.
    if (delimiter !== BLANKS && !text.includes(delimiter)) continue;
    const rows = readRows(lines, delimiter);
    const { width, score } = usualWidth(rows);
    // Blanks stand in titles and times too: they delimit only where nothing else does about as well, and in most of the lines.
    const toBeat = (best?.score ?? 0) * (delimiter === BLANKS ? 1.5 : 1);
    if (delimiter === BLANKS && stated === undefined && !mostly(rows, width)) continue;
    if (width >= 2 && score > toBeat) best = { delimiter, rows, width, score };
  }
  if (best === null || best.score <= 0) {
    const rows = readRows(lines, stated ?? '\n');
    const single = usualWidth(rows);
    if (single.width !== 1 || single.score < 2 || !mostly(rows, 1))
      return refuse(
        dialect?.delimiter === undefined
          ? whyNoTable(lines)
          : `with "${dialect.delimiter}" between the fields, as the rig file says, no lines have the same number of columns of numbers; correct that first, or leave it out`,
      );
    best = { delimiter: stated ?? ',', rows, width: 1, score: single.score };
  }
  const layout = describe(best.rows, best.delimiter, best.width, dialect);
  const names = layout.headingRows[0]?.length ?? layout.width;
  const points = layout.rows.some((row) => row.classes.includes('point') || row.classes.includes('grouped'));
  if (layout.delimiter === ',' && names < layout.width && !points && stated === undefined)
    return {
      ok: false,
      reason: `its heading has ${names} columns and its rows have ${layout.width} fields without a decimal point: decimal commas between commas cannot be told apart (export with semicolons, tabs or quotes)`,
      headingOnly: false,
    };
  if (
    layout.delimiter === ',' &&
    layout.headerLine === null &&
    layout.minWidth < layout.width &&
    !points &&
    stated === undefined
  )
    return {
      ok: false,
      reason: `its rows have ${layout.minWidth} to ${layout.width} fields and none has a decimal point: decimal commas between commas cannot be told apart (export with semicolons, tabs or quotes)`,
      headingOnly: false,
    };
  const anyNumber = layout.rows.some((row) => row.classes.some(isNumberClass));
  if (!anyNumber && (layout.headerLine === null || layout.delimiter === BLANKS))
    return refuse(whyNoTable(lines));
  // Sentences, perhaps with a number at their end.
  if (layout.delimiter === BLANKS && layout.headerLine === null && stated === undefined && moreWords(layout))
    return refuse(whyNoTable(lines));
  return { ok: true, layout };
}

/** More cells are words than numbers. */
function moreWords({ rows }: Layout): boolean {
  const cells = rows.flatMap((row) => row.classes);
  return cells.filter((found) => found === 'other').length > cells.filter(isNumberClass).length;
}

/** Rows of readings of this width make up half of all that is written. */
function mostly(rows: readonly HeadRow[], width: number): boolean {
  const filled = rows.filter((row) => row.classes.some((found) => found !== 'empty')).length;
  return 2 * rows.filter((row) => row.data && row.cells.length === width).length >= filled;
}

/** What a cell counts for a delimiter. A date with its time is worth as much whole as split in two by a blank. */
const worth: Readonly<Record<CellClass, number>> = {
  'date-time': 4,
  date: 2,
  time: 2,
  lettered: 2,
  yearless: 4,
  integer: 1,
  point: 1,
  comma: 1,
  grouped: 1,
  'with-unit': 1.5,
  empty: 0,
  fault: 0,
  other: -0.5,
};

/** The number of fields that most rows of readings have, weighted by what they hold. */
function usualWidth(rows: readonly HeadRow[]): { width: number; score: number } {
  const scores = new Map<number, number>();
  for (const row of rows) {
    if (!row.data) continue;
    let score = 0;
    for (const [i, found] of row.classes.entries())
      score += found === 'other' && readUnit(row.cells[i] ?? '') !== null ? 0 : worth[found];
    scores.set(row.cells.length, (scores.get(row.cells.length) ?? 0) + score);
  }
  let width = 0,
    best = 0;
  for (const [count, score] of scores)
    if (score > best) {
      best = score;
      width = count;
    }
  return { width, score: best };
}

function describe(rows: HeadRow[], delimiter: string, width: number, dialect: Rig['dialect']): Layout {
  const stated = dialect?.headerLine;
  const above: Remark[] = [];
  const first =
    stated === undefined || stated === null
      ? firstOfTable(rows, width, delimiter, above)
      : firstAfter(rows, width, dialect?.unitLine ?? stated);
  const written =
    stated === undefined
      ? headingAbove(rows, first, width, delimiter)
      : statedHeading(rows, first, stated, dialect?.unitLine ?? null);
  const data = rows.slice(first).filter((row) => row.data && row.cells.length <= width);
  const { heading, remarks, cutFraction } = fitHeading(
    written,
    data.filter((row) => row.cells.length === width),
    width,
    delimiter,
  );
  const unitLine = dialect?.unitLine;
  // Between blanks an empty field leaves no trace: which one a short row lacks cannot be told.
  const minWidth = delimiter === BLANKS ? width : fewestFields(data, width);
  return {
    delimiter,
    decimal: dialect?.decimal ?? decimalMark(data, delimiter),
    headerLine: heading.names[0]?.line ?? null,
    unitLine: unitLine === undefined ? (heading.units?.line ?? null) : unitLine,
    firstDataLine: rows[first]?.line ?? 1,
    width,
    minWidth,
    headings: joinedNames(heading.names, width),
    lowestHeadings: lowestNames(heading.names, width),
    headingRows: [
      ...written.names,
      ...(written.units === null ? [] : [written.units]),
      ...written.others,
    ].map((row) => row.cells.map((cell) => cell.trim())),
    unitTexts: Array.from({ length: width }, (_, i) => heading.units?.cells[i]?.trim() ?? ''),
    // What the reading leaves out says nothing about the columns: "Average;12" at the end.
    rows: data.filter((row) => row.cells.length >= minWidth),
    cutFraction,
    remarks: [...above, ...remarks],
  };
}

/** Words and no number or time in about as many fields as the table has: a heading. A title or a remark between rows is none. */
const isText = (row: HeadRow, width: number): boolean =>
  width > 1 &&
  row.cells.length >= width / 2 &&
  row.classes.filter(isWord).length >= 2 &&
  !row.classes.some((found) => isNumberClass(found) || (isTimeClass(found) && !isWord(found)));

/** Index of the first row of the longest run of readings; an earlier run under the same heading belongs to it. */
function firstOfTable(rows: readonly HeadRow[], width: number, delimiter: string, remarks: Remark[]): number {
  const runs: { first: number; last: number; rows: number; length: number }[] = [];
  let run: { first: number; last: number; rows: number; length: number } | null = null;
  for (const [index, row] of rows.entries()) {
    if (row.data && row.cells.length === width) {
      if (run === null) runs.push((run = { first: index, last: index, rows: 0, length: 0 }));
      run.last = index;
      run.rows++;
      // Rows with a time weigh more: the small table above may be as long.
      run.length += row.classes.some(isTimeClass) ? 4 : 1;
    } else if (isText(row, width)) run = null;
  }
  let longest = runs[0];
  for (const other of runs) if (longest === undefined || other.length >= longest.length) longest = other;
  if (longest === undefined) return 0;
  const start = pastNumericHeading(rows, longest.first, width);
  const name = headingText(rows, start, width, delimiter);
  const begin = (text: string): string => text.split('\u0001')[0]?.trim().toLowerCase() ?? '';
  for (const earlier of runs) {
    if (earlier.first >= longest.first) break;
    const earlierStart = pastNumericHeading(rows, earlier.first, width);
    if (
      name !== ''
        ? headingText(rows, earlierStart, width, delimiter) === name
        : sameKinds(rows[earlierStart], rows[start])
    )
      return earlierStart;
    // A log too, by the same times or the same first name; a small table of something else is not worth a word.
    const alike =
      (sameKinds(rows[earlierStart], rows[start]) && rows[start]?.classes.some(isTimeClass) === true) ||
      (name !== '' && begin(headingText(rows, earlierStart, width, delimiter)) === begin(name));
    if (alike && earlier.rows >= 2)
      remarks.push({
        code: 'table-above-not-read',
        text: `Lines ${rows[earlierStart]?.line ?? 0} to ${rows[earlier.last]?.line ?? 0} stand under another heading and were not read. Split the file there.`,
      });
  }
  return start;
}

const headingText = (rows: readonly HeadRow[], first: number, width: number, delimiter: string): string =>
  headingAbove(rows, first, width, delimiter)
    .names.map((row) => row.cells.map((cell) => cell.trim()).join('\u0001'))
    .join('\u0002');

/** Two rows whose times stand in the same places: parts of one table without a heading. */
function sameKinds(a: HeadRow | undefined, b: HeadRow | undefined): boolean {
  if (a === undefined || b === undefined) return false;
  const places = (row: HeadRow): string =>
    row.classes.map((found) => (isTimeClass(found) ? 't' : '-')).join('');
  return places(a) === places(b);
}

/** Steps over a heading that is mostly numbers (`time,1,2,3`): text where every later row has a number or a time. */
function pastNumericHeading(rows: readonly HeadRow[], first: number, width: number): number {
  const head = rows[first];
  const later = rows.slice(first + 1, first + 60).filter((row) => row.data && row.cells.length === width);
  if (head === undefined || later.length < 2) return first;
  for (let column = 0; column < width; column++) {
    if (
      !later.every(
        ({ classes: { [column]: found = 'other' } }) =>
          isNumberClass(found) || (isTimeClass(found) && !isWord(found)),
      )
    )
      continue;
    const own = head.classes[column] ?? 'empty';
    return own === 'other' || own === 'fault' ? first + 1 : first;
  }
  return first;
}

function firstAfter(rows: readonly HeadRow[], width: number, line: number): number {
  const index = rows.findIndex((row) => row.line > line && row.data && row.cells.length === width);
  return index < 0 ? 0 : index;
}

/** Rows shorter than this are cut or foreign: a width counts that at least 5 % of the head's rows have. */
function fewestFields(rows: readonly HeadRow[], width: number): number {
  const counts = new Map<number, number>();
  for (const row of rows) counts.set(row.cells.length, (counts.get(row.cells.length) ?? 0) + 1);
  let fewest = width;
  for (const [count, times] of counts)
    if (count < fewest && times >= 2 && times >= 0.05 * rows.length) fewest = count;
  return fewest;
}
