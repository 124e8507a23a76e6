import { SetAside } from '#formats/log.ts';
import { readUnit } from '#units/read-unit.ts';
import { cellClass, isWord } from './cell-class.ts';
import { textOf } from './encoding.ts';
import { readHeading } from './header-unit.ts';
import { bare } from './heading-rows.ts';
import { timeName } from './heading-words.ts';
import { isClockPart, Kind } from './column-kind.ts';
import { nulsIn, type LogTable } from './log-table.ts';
import { placeTime } from './plain-rows.ts';
import { readClockText } from './read-clock.ts';
import { splitRow } from './split-row.ts';

/** A field in quotes may hold line ends; a quote that is not closed within so much is damage. */
const LONGEST_RECORD = 65536;
const MOST_LINES = 20;
const QUOTE = 34,
  LF = 10,
  CR = 13;

/** How the last line of the file ends. */
export type LineEnd = 'whole' | 'cut';

/**
 * The long way of a row: bytes → text → fields (papaparse where there are quotes) → readings. It says why a row is left out, and
 * it is the measure for the byte reader: both must give the same table.
 */
export class OddRows {
  /** Line of a heading that differs from the file's; nothing behind it is read, its columns may stand otherwise. */
  otherHeadingLine: number | null = null;
  /** A last reading left out since its line has no end. */
  cutReading: string | null = null;
  headingsAgain = 0;
  /** Fields of the first row of readings. */
  firstCells: readonly string[] = [];
  private readonly headingRows: string[];
  private readonly headingWords: Set<string>;
  private readonly timePlaces: readonly number[];
  /** A row of words alone as wide as the table: where the time falls back behind it, it headed another table. */
  private wordsLine: number | null = null;
  private readonly table: LogTable;
  private readonly delimiter: string;
  private readonly minWidth: number;
  readonly fixedShape: readonly (number | null)[];

  /**
   * @param fixedShape for columns whose cells in the head all have the same shape: digits behind the mark, or for whole numbers
   *   minus the number of digits; null where shapes differ
   */
  constructor(
    table: LogTable,
    delimiter: string,
    minWidth: number,
    headingRows: readonly (readonly string[])[],
    fixedShape: readonly (number | null)[],
  ) {
    this.table = table;
    this.delimiter = delimiter;
    this.minWidth = minWidth;
    this.fixedShape = fixedShape;
    this.headingRows = headingRows.map(key);
    this.headingWords = new Set(headingRows.flat().filter((cell) => cell !== ''));
    this.timePlaces = Array.from(table.kinds.keys()).filter((column) => isTimeKind(table.kinds[column]));
  }

  /**
   * Reads the record that starts at a position.
   * @param final no bytes follow `to`
   * @returns the position behind the record, -1 when its quotes are not closed yet
   */
  read(bytes: Uint8Array, start: number, to: number, final: boolean): number {
    const lineEnd = endOfLine(bytes, start, to);
    let end = this.delimiter === ' ' ? lineEnd : endOfRecord(bytes, start, to, this.delimiter.charCodeAt(0));
    if (end > to) {
      if (!final && to - start < LONGEST_RECORD) return -1;
      end = lineEnd;
    }
    let text = textOf(bytes, start, end);
    let cells = splitRow(text, this.delimiter);
    const width = this.table.kinds.length;
    if (end !== lineEnd && (cells.length < this.minWidth || cells.length > width)) {
      end = lineEnd;
      text = textOf(bytes, start, end);
      cells = splitRow(text, this.delimiter);
    }
    const next = end < to ? end + (bytes[end] === CR && bytes[end + 1] === LF ? 2 : 1) : to;
    this.accept(text, cells, end < to ? 'whole' : 'cut');
    this.table.line += end === lineEnd ? 1 : text.split(/\r\n|\n|\r/u).length;
    return next;
  }

  private accept(text: string, cells: string[], ending: LineEnd): void {
    const { table } = this;
    const { line, kinds } = table;
    if (cells.every((cell) => /^[\s\0]*$/u.test(cell))) {
      table.nulBytes += nulsIn(text);
      return;
    }
    const reason = this.whyLeftOut(text, cells, ending);
    if (reason !== null) {
      table.clearRow();
      table.nulBytes += nulsIn(text);
      table.skip(line, reason);
      return;
    }
    for (const [column, kind] of kinds.entries())
      if (kind === Kind.number) this.reading(column, cells[column] ?? '');
    for (const [column, kind] of kinds.entries())
      if (kind === Kind.unit) table.unitCell(column, cells[column] ?? '');
    if (ending === 'cut') this.checkLast(cells);
    if (table.rows === 0) this.firstCells = cells;
    placeTime(table);
    table.commit();
  }

  private reading(column: number, cell: string): void {
    this.table.cell(column, cell);
  }

  /** Why a row is no reading of this table; null when it is one, with its time then in place. */
  private whyLeftOut(text: string, cells: string[], ending: LineEnd): string | null {
    const { table } = this;
    const { kinds } = table;
    const width = kinds.length;
    if (this.otherHeadingLine !== null) return `behind another heading in line ${this.otherHeadingLine}`;
    const own = key(cells);
    if (this.headingRows.includes(own)) {
      this.endSuspicion();
      if (own === this.headingRows[0]) this.headingsAgain++;
      return 'the heading again';
    }
    const failure = this.time(cells);
    if (failure !== null) {
      if (this.isOtherHeading(cells)) {
        this.otherHeadingLine = table.line;
        table.stopped = true;
        return 'another heading: what follows may stand in other columns and is not read';
      }
      if (width >= 3 && cells.length >= width && cells.every((cell) => isWord(cellClass(cell)))) {
        this.wordsLine = table.line;
        // The next row is to come here.
        table.stopped = true;
      }
      if (/^\s*(?:#|\/\/|%|!|\*)/u.test(text)) return 'a comment';
      if (ending === 'cut' && cells.length < width) return 'the last line is cut short';
      return failure;
    }
    if (this.wordsLine !== null) {
      if (this.fallsBack()) {
        this.otherHeadingLine = this.wordsLine;
        return `behind another heading in line ${this.otherHeadingLine}`;
      }
      this.endSuspicion();
    }
    if (cells.length < this.minWidth)
      return ending === 'cut'
        ? 'the last line is cut short'
        : `${cells.length} fields where the others have ${width}: it may be cut`;
    if (cells.slice(width).some((cell) => cell.trim() !== ''))
      return `${cells.length} fields where the others have ${width}`;
    if (ending === 'cut' && (cells.length < width || this.lastIsTime(cells)))
      return 'the last line is cut short';
    return null;
  }

  private endSuspicion(): void {
    if (this.wordsLine === null) return;
    this.wordsLine = null;
    this.table.stopped = false;
  }

  /** A count or an elapsed time that is less than that of the row before. */
  private fallsBack(): boolean {
    const { table } = this;
    if (table.kinds.includes(Kind.timeNumber)) return (table.time[table.row] ?? NaN) < table.lastTime();
    return table.kinds.includes(Kind.elapsed) && table.timePart.clock_ns < table.lastTime();
  }

  /**
   * Words of the heading in other places; the time's heading with other names beside it; names with other units; another unit row. What
   * stands under it may be in other columns or other units.
   */
  private isOtherHeading(cells: readonly string[]): boolean {
    const width = this.table.kinds.length;
    const words = cells.map((cell) => cell.trim()).filter((cell) => cell !== '');
    if (words.length < 2 || words.length < width / 2) return false;
    if (words.filter((word) => this.headingWords.has(word)).length >= 2) return true;
    if (words.some((word) => !isWord(cellClass(word)) && cellClass(word) !== 'fault')) return false;
    if (words.every((word) => readUnit(bare(word)) !== null)) return true;
    const times = this.timePlaces.map((place) => (cells[place] ?? '').trim());
    if (times.some((word) => word !== '' && this.headingWords.has(word))) return true;
    return words.some((word) => readHeading(word).unit !== null) && times.some((word) => timeName.test(word));
  }

  /** Reads the row's time into the table; says what is wrong with it otherwise. */
  private time(cells: readonly string[]): string | null {
    const { table } = this;
    let anyNumber = false;
    for (const [column, kind] of table.kinds.entries()) {
      const cell = cells[column] ?? '';
      let fine = true;
      if (kind === Kind.clock || kind === Kind.date) fine = readClockText(cell, 'date-time', table.datePart);
      else if (kind === Kind.time) fine = readClockText(cell, 'time', table.timePart);
      else if (kind === Kind.elapsed) fine = readClockText(cell, 'elapsed', table.timePart);
      else if (kind === Kind.timeNumber) fine = table.timeNumber(cell);
      else if (kind >= Kind.half) fine = table.clockCell(kind, cell);
      else if (kind === Kind.fraction) fine = table.fractionNumber(cell);
      else if (kind === Kind.number && /^[^a-z]*\d/iu.test(cell)) anyNumber = true;
      if (!fine) return cell.trim() === '' ? 'no time' : `no usable time: "${shortened(cell)}"`;
    }
    return table.counted && !anyNumber ? `no reading: "${shortened(cells.join(' '))}"` : null;
  }

  private lastIsTime(cells: readonly string[]): boolean {
    const kind = this.table.kinds[cells.length - 1];
    return kind !== Kind.number && kind !== Kind.skip && kind !== Kind.unit && (cells.at(-1) ?? '') !== '';
  }

  /**
   * A line without line end may have been cut within its last field: "41" of "411.2". The reading counts only if its shape is
   * that of every other in its column; otherwise it is missing.
   */
  private checkLast(cells: readonly string[]): void {
    const { table } = this;
    let column = cells.length - 1;
    const cell = (cells[column] ?? '').trim();
    if (cell === '') return;
    if (table.kinds[column] === Kind.unit) column = table.unitOf[column] ?? column;
    else if (table.kinds[column] === Kind.number) {
      const shape = this.fixedShape[column];
      // Whole numbers have no end that tells: "28" of "28432" looks like the 28 of every row at rest before it.
      if (shape !== undefined && shape !== null && shape > 0 && shape === cellShape(cell)) return;
    } else return;
    const values = table.values[column],
      flags = table.flags[column];
    if (values === undefined || flags === undefined || flags[table.row] !== SetAside.kept) return;
    values[table.row] = NaN;
    flags[table.row] = SetAside.missing;
    this.cutReading = cell;
  }
}

const isTimeKind = (kind: number | undefined): boolean =>
  kind === Kind.clock ||
  kind === Kind.date ||
  kind === Kind.time ||
  kind === Kind.elapsed ||
  kind === Kind.timeNumber ||
  (kind !== undefined && isClockPart(kind));
const key = (cells: readonly string[]): string => cells.map((cell) => cell.trim()).join('\u0001');
const shortened = (text: string): string => {
  const trimmed = text.trim().replaceAll('\0', '␀');
  return trimmed.length > 40 ? `${trimmed.slice(0, 40)}…` : trimmed;
};

/** Shape by which a cut number is told from a whole one: places behind the mark, or minus the digits of a whole number; null for text. */
export function cellShape(cell: string): number | null {
  const number = /^[+-]?(\d*)(?:[.,](\d*))?$/u.exec(cell.trim());
  if (number === null) return null;
  const places = number[2]?.length ?? 0;
  return places > 0 ? places : -(number[1]?.length ?? 0);
}

function endOfLine(bytes: Uint8Array, start: number, to: number): number {
  let p = start;
  while (p < to && bytes[p] !== LF && bytes[p] !== CR) p++;
  return p;
}

/** End of the record by RFC 4180: line ends within quoted fields belong to it. Beyond `to` when a quote is not closed before. */
function endOfRecord(bytes: Uint8Array, start: number, to: number, delimiter: number): number {
  let p = start,
    lines = 0,
    fieldStart = true;
  while (p < to) {
    const code = bytes[p];
    if (fieldStart && code === QUOTE) {
      for (p++; ; p++) {
        if (p >= to || lines > MOST_LINES) return lines > MOST_LINES ? endOfLine(bytes, start, to) : to + 1;
        if (bytes[p] === LF) lines++;
        if (bytes[p] !== QUOTE) continue;
        if (bytes[p + 1] !== QUOTE || p + 1 >= to) break;
        p++;
      }
      fieldStart = false;
      p++;
      continue;
    }
    if (code === LF || code === CR) return p;
    fieldStart = code === delimiter;
    p++;
  }
  return to;
}
