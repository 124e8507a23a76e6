import { SetAside } from '#formats/log.ts';
import { rounded } from '#formats/number.ts';
import { readUnit } from '#units/read-unit.ts';
import { convert, unitKind, type UnitName } from '#units/unit.ts';
import { ClockCells } from './clock-cells.ts';
import { isClockPart, isWholeClock, Kind } from './column-kind.ts';
import { newClockParts, readHalfOfDay, type ClockParts } from './read-clock.ts';
import { readNumber, type NumberMarks } from './read-number.ts';
import { switchState } from './switch-words.ts';

/** Rows in a block; the first is small so that a short file costs little. */
const FIRST_BLOCK = 4096;
const BLOCK = 65536;
/** Readings in a block: of ten thousand columns, 65,536 rows would take six gigabytes. */
const BLOCK_READINGS = 8e6;
const FEWEST_ROWS = 16;
/** Distinct tokens and skipped rows that are kept word for word; all are counted. */
const KEPT_TOKENS = 20;
const KEPT_SKIPPED = 50;
/** Readings for which room is made at once, half a gigabyte of them; a larger file goes on in blocks. */
const MOST_RESERVED = 64e6;
const KEPT_GROUPED = 200_000;

/** A date as written and the first row that has it. */
export interface DateRun {
  row: number;
  line: number;
  a: number;
  b: number;
  c: number;
  digitsA: number;
  digitsC: number;
  offset_min: number;
  separator: number;
}
/** A column of the file as the reader fills it. */
export interface TableColumn {
  /** Of the heading or unit row; else of the first cell that carries one. */
  unit: UnitName | null;
  unitFromCell: boolean;
  tokens: Map<string, number>;
  tokenCount: number;
  /** Most digits after the mark so far; -1 once an exponent or a conversion made that meaningless. */
  decimals: number;
  /** The column says on and off in words. */
  inWords: boolean;
  /** Readings that bear a unit of their own. */
  unitCells: number;
}

/** A table as another thread needs it to go on in its columns; can be sent, the columns are shared. */
export interface TableOnward extends Pick<
  LogTable,
  | 'kinds'
  | 'marks'
  | 'unitOf'
  | 'unitWords'
  | 'columns'
  | 'timeUnit'
  | 'timeDecimals'
  | 'values'
  | 'flags'
  | 'time'
> {
  /** The row to begin with, and the one behind the last that there is room for. */
  row: number;
  capacity: number;
}
/** What the rows are besides what stands in the columns; can be sent. */
export type RowsOnward = Pick<
  LogTable,
  'rows' | 'line' | 'columns' | 'dates' | 'timeDecimals' | 'fractionDigits'
>;

/** A column before a cell gave it a unit. */
const noUnit = { unit: null, unitFromCell: false };

/**
 * Rows becoming columns. Both readers write into it: the byte reader straight into the arrays, the other by {@link cell}; a row
 * counts only once {@link commit} was called, so that whatever an abandoned row left behind is gone.
 */
export class LogTable {
  /** Rows committed, and the place of the row being read in the current block. */
  rows = 0;
  row = 0;
  capacity = FIRST_BLOCK;
  /** Current blocks, by column of the file; for columns without numbers of their own, an empty array. */
  values: Float64Array[] = [];
  flags: Uint8Array[] = [];
  time: Float64Array = new Float64Array(0);
  fraction: Float64Array = new Float64Array(0);
  /** Line of the row being read, from 1. */
  line = 0;
  readonly columns: TableColumn[];
  readonly dates: DateRun[] = [];
  readonly datePart: ClockParts = newClockParts();
  readonly timePart: ClockParts = newClockParts();
  fractionDigits = 0;
  /** Of the row being read, where a column of its own says so. */
  afternoon = false;
  /** Digits after the mark of a numeric time; -1 after an exponent. */
  timeDecimals = 0;
  /** Digits after the mark that the row being read would set, by column; the time's own at the end. */
  readonly newDecimals: Int16Array;
  /** Nothing further is to be read: what follows stands under another heading. */
  stopped = false;
  /** Something of the row being read is to be taken over on commit. */
  pending = false;
  skippedRowCount = 0;
  readonly skippedRows: { line: number; reason: string }[] = [];
  /** NUL bytes in readings and in rows that were left out. */
  nulBytes = 0;
  private newNuls = 0;
  groupsProven = false;
  private readonly grouped: { column: number; row: number; value: number; token: string }[] = [];
  private readonly newTokens: { column: number; token: string }[] = [];
  private newGrouped = 0;
  /** Columns whose cells bear a unit, and those that had none before; whether thousands were proven, all by the row being read. */
  private readonly newUnitCells: TableColumn[] = [];
  private readonly newUnits: TableColumn[] = [];
  private newProof = false;
  private readonly blocks: Block[] = [];
  /** Columns lie where several threads can read them. */
  private shared = false;
  private lastDate: DateRun | null = null;
  readonly kinds: Uint8Array;
  /** Rows carry a date; rows carry a time of day or an elapsed time in a cell of its own. */
  readonly dated: boolean;
  readonly timed: boolean;
  /** Before or after noon stands in a cell of its own. */
  readonly halved: boolean;
  /** The clock is put together from several cells. */
  readonly parted: boolean;
  /** Hours and minutes are among them. */
  readonly clockParted: boolean;
  /** Either of the two: the time as read is not yet the row's. */
  readonly pieced: boolean;
  readonly clockCells = new ClockCells();
  /** What the numbers of a numeric time bear. */
  timeUnit: UnitName | null = null;
  /** Rows have no time of their own: each is one sample. */
  readonly counted: boolean;
  readonly marks: NumberMarks;
  /** For a unit column: the column of its values. */
  readonly unitOf: Int32Array;
  /** For a unit column: what it holds in the first row. */
  readonly unitWords: readonly string[];

  constructor(
    kinds: Uint8Array,
    marks: NumberMarks,
    units: readonly (UnitName | null)[],
    unitOf: Int32Array,
    unitWords: readonly string[],
  ) {
    this.unitWords = unitWords;
    this.kinds = kinds;
    this.halved = kinds.includes(Kind.half);
    this.parted = kinds.some(isClockPart);
    this.clockParted = kinds.some(
      (kind) => kind >= Kind.hour && kind !== Kind.shortDate && !isWholeClock(kind),
    );
    this.pieced = this.halved || this.parted;
    this.dated =
      kinds.includes(Kind.clock) ||
      kinds.includes(Kind.date) ||
      kinds.includes(Kind.year) ||
      kinds.includes(Kind.shortDate) ||
      kinds.some(isWholeClock);
    this.counted = !this.parted && !kinds.some((kind) => kind > Kind.number && kind < Kind.fraction);
    // Seconds beside a date with hours and minutes belong to that.
    this.timed =
      kinds.includes(Kind.time) ||
      kinds.includes(Kind.elapsed) ||
      (this.clockParted && !kinds.includes(Kind.clock));
    this.marks = marks;
    this.unitOf = unitOf;
    this.columns = Array.from(kinds, (_, i) => ({
      unit: units[i] ?? null,
      unitFromCell: false,
      tokens: new Map<string, number>(),
      tokenCount: 0,
      decimals: 0,
      inWords: false,
      unitCells: 0,
    }));
    this.newDecimals = new Int16Array(kinds.length + 1).fill(-2);
    this.capacity = this.blockOf(FIRST_BLOCK);
    this.open();
  }

  /** The rows taken over so far as a table of its own, each column in one piece: finishing it leaves this one as it is. */
  copy(): LogTable {
    const units = this.columns.map(({ unit }) => unit);
    const twin = new LogTable(this.kinds, this.marks, units, this.unitOf, this.unitWords);
    twin.values = this.values.map((last, column) =>
      this.kinds[column] === Kind.number
        ? this.wholeOf(last, (block) => block.values[column] ?? last)
        : new Float64Array(0),
    );
    twin.flags = this.flags.map((last, column) => {
      const whole = new Uint8Array(last.length === 0 ? 0 : this.rows);
      let at = 0;
      if (whole.length > 0)
        for (const part of [
          ...this.blocks.map((block) => block.flags[column] ?? last),
          last.subarray(0, this.row),
        ]) {
          whole.set(part, at);
          at += part.length;
        }
      return whole;
    });
    twin.time = this.wholeOf(this.time, (block) => block.time);
    twin.fraction = this.kinds.includes(Kind.fraction)
      ? this.wholeOf(this.fraction, (block) => block.fraction)
      : new Float64Array(0);
    twin.rows = twin.row = twin.capacity = this.rows;
    twin.line = this.line;
    twin.timeUnit = this.timeUnit;
    twin.fractionDigits = this.fractionDigits;
    twin.timeDecimals = this.timeDecimals;
    twin.stopped = this.stopped;
    twin.skippedRowCount = this.skippedRowCount;
    for (const skipped of this.skippedRows) twin.skippedRows.push(skipped);
    twin.nulBytes = this.nulBytes;
    twin.groupsProven = this.groupsProven && !this.newProof;
    // Those of a row that was begun and waits for its end are not taken over yet.
    for (const waiting of this.grouped.slice(0, this.grouped.length - this.newGrouped))
      twin.grouped.push(waiting);
    for (const run of this.dates) twin.dates.push(run);
    for (const [column, own] of this.columns.entries())
      twin.columns[column] = {
        ...own,
        ...(this.newUnits.includes(own) && noUnit),
        tokens: new Map(own.tokens),
      };
    return twin;
  }

  /**
   * What a reader on another thread needs to read rows far behind into the same columns, from a row on that this one will surely not
   * come to. From now on this one has room up to there only.
   * @returns null where the columns are not shared, or there is something about the rows that their order counts for
   */
  onward(row: number): TableOnward | null {
    // Without a decimal mark the next number would set it.
    if (!this.shared || this.blocks.length > 0 || this.marks.decimal === null || this.stopped) return null;
    if (row <= this.row || row >= this.capacity) return null;
    const { kinds, marks, unitOf, unitWords, timeUnit, timeDecimals, values, flags, time, capacity } = this;
    this.capacity = row;
    const columns = this.columns.map((column) => ({ ...column, tokens: new Map<string, number>() }));
    return {
      kinds,
      marks,
      unitOf,
      unitWords,
      columns,
      timeUnit,
      timeDecimals,
      values,
      flags,
      time,
      row,
      capacity,
    };
  }

  /** The table that goes on in the columns of another; its rows count from the other's, its lines from 0. */
  static goingOn(onward: TableOnward): LogTable {
    const { kinds, marks, unitOf, unitWords, columns, timeUnit, timeDecimals, values, flags, time } = onward;
    const units = columns.map(({ unit }) => unit);
    const table = new LogTable(kinds, marks, units, unitOf, unitWords);
    for (const [column, own] of columns.entries())
      table.columns[column] = { ...own, tokenCount: 0, unitCells: 0, tokens: new Map() };
    table.rows = table.row = onward.row;
    return Object.assign(table, { timeUnit, timeDecimals, values, flags, time, capacity: onward.capacity });
  }

  /** What {@link append} needs of a table that went on in the columns of another; null where their rows are more than that. */
  further(from: TableOnward): RowsOnward | null {
    const { columns, dates, timeDecimals, fractionDigits, line } = this;
    const isPlain =
      this.blocks.length === 0 &&
      !this.stopped &&
      !this.groupsProven &&
      this.skippedRowCount + this.grouped.length + this.nulBytes === 0 &&
      // Beyond so many tokens it counts which of them came first.
      columns.every(({ tokens, unitCells }) => tokens.size < KEPT_TOKENS && unitCells === 0);
    const rows = this.rows - from.row;
    return isPlain ? { rows, line, columns, dates, timeDecimals, fractionDigits } : null;
  }

  /**
   * Puts the rows that were read far behind, from the next line on, in their place; or makes their room free again.
   * @param onward as it was given out
   * @param read null where nothing came of it
   * @returns whether they are rows of this table now
   */
  append(onward: TableOnward, read: RowsOnward | null): boolean {
    const isJoined = this.blocks.length > 0;
    if (!isJoined) this.capacity = onward.capacity;
    if (read === null || isJoined || this.stopped) {
      // Whatever was read, its flags must not stay.
      if (!isJoined) for (const flags of this.flags) flags.fill(0, this.row);
      return false;
    }
    const { row } = this,
      end = onward.row + read.rows;
    for (const column of [...this.values, ...this.flags, this.time]) column.copyWithin(row, onward.row, end);
    for (const flags of this.flags) flags.fill(0, row + read.rows, end);
    for (const [column, { tokens, tokenCount, decimals }] of read.columns.entries()) {
      const own = this.columns[column];
      if (own === undefined) continue;
      own.tokenCount += tokenCount;
      for (const [token, count] of tokens) countToken(own.tokens, token, count);
      own.decimals = mostDigits(own.decimals, decimals);
    }
    this.timeDecimals = mostDigits(this.timeDecimals, read.timeDecimals);
    this.fractionDigits = Math.max(this.fractionDigits, read.fractionDigits);
    for (const run of read.dates) {
      const moved = { ...run, row: run.row - onward.row + row, line: run.line + this.line };
      const last = this.lastDate;
      if (last !== null && last.offset_min === moved.offset_min && isSameDate(last, moved)) continue;
      this.lastDate = moved;
      this.dates.push(moved);
    }
    this.row += read.rows;
    this.rows += read.rows;
    this.line += read.line;
    return true;
  }

  /** A column of all blocks, copied. */
  private wholeOf(last: Float64Array, part: (block: Block) => Float64Array): Float64Array {
    return this.blocks.length === 0 ? last.slice(0, this.row) : this.joined(last, part);
  }

  /** Makes room for about so many rows at once, so that the columns need no putting together; call before the first row. */
  reserve(rows: number, shared = false): void {
    this.shared = shared;
    const most = MOST_RESERVED / Math.max(1, this.kinds.length);
    this.capacity = Math.max(1, Math.ceil(Math.min(rows, most)));
    this.open();
  }

  /** Rows of a block, fewer in a very wide table. */
  private blockOf(rows: number): number {
    return Math.max(FEWEST_ROWS, Math.min(rows, Math.floor(BLOCK_READINGS / this.kinds.length)));
  }

  private open(): void {
    const has = (kind: number): boolean => kind === Kind.number;
    const bytes = (rows: number, each: number): ArrayBuffer | SharedArrayBuffer =>
      this.shared ? new SharedArrayBuffer(rows * each) : new ArrayBuffer(rows * each);
    this.values = Array.from(this.kinds, (kind) => new Float64Array(bytes(has(kind) ? this.capacity : 0, 8)));
    this.flags = Array.from(this.kinds, (kind) => new Uint8Array(bytes(has(kind) ? this.capacity : 0, 1)));
    this.time = new Float64Array(bytes(this.capacity, 8));
    this.fraction = new Float64Array(this.kinds.includes(Kind.fraction) ? this.capacity : 0);
    this.row = 0;
  }

  /** Forgets what an abandoned row left: flags, tokens, digits, units. */
  clearRow(): void {
    for (const flags of this.flags) if (flags.length > 0) flags[this.row] = 0;
    if (!this.pending) return;
    for (const target of this.newUnits) Object.assign(target, noUnit);
    if (this.newProof) this.groupsProven = false;
    this.grouped.length -= this.newGrouped;
    this.nothingNew();
  }

  private nothingNew(): void {
    this.pending = this.newProof = false;
    this.newTokens.length = this.newUnitCells.length = this.newUnits.length = 0;
    this.newNuls = this.newGrouped = 0;
    this.newDecimals.fill(-2);
  }

  /** Takes the row being read over. The time must be in place. */
  commit(): void {
    if (this.pending) this.takeOver();
    this.row++;
    this.rows++;
    if (this.row === this.capacity) this.nextBlock();
  }

  /** Takes over rows, a line each, that stand in the current block from `row` on: no more than fit into it, all of the last date. */
  took(rows: number): void {
    this.row += rows;
    this.rows += rows;
    this.line += rows;
    if (this.row === this.capacity) this.nextBlock();
  }

  /** A cell that is no plain number, of a row so far ahead that {@link took} will take over; in the order of the file. */
  cellAhead(rows: number, column: number, text: string): void {
    this.row += rows;
    this.rows += rows;
    this.cell(column, text);
    if (this.pending) this.takeOver();
    this.row -= rows;
    this.rows -= rows;
  }

  private nextBlock(): void {
    this.blocks.push({
      rows: this.capacity,
      values: this.values,
      flags: this.flags,
      time: this.time,
      fraction: this.fraction,
    });
    this.capacity = this.blockOf(BLOCK);
    this.open();
  }

  private takeOver(): void {
    for (const { column, token } of this.newTokens) {
      const target = this.columns[column];
      if (target === undefined) continue;
      target.tokenCount++;
      countToken(target.tokens, token, 1);
    }
    for (const target of this.newUnitCells) target.unitCells++;
    this.nulBytes += this.newNuls;
    for (const [i, column] of this.columns.entries())
      column.decimals = mostDigits(column.decimals, this.newDecimals[i] ?? -2);
    this.timeDecimals = mostDigits(this.timeDecimals, this.newDecimals[this.columns.length] ?? -2);
    this.nothingNew();
  }

  /** Notes the date and offset of the row being read where they are new; call before {@link commit}. */
  noteDate(parts: ClockParts, offset_min: number): void {
    const last = this.lastDate;
    // Of all but the first row of a day nothing is made.
    if (last !== null && last.offset_min === offset_min && isSameDate(last, parts)) return;
    const { a, b, c, digitsA, digitsC, separator } = parts;
    this.lastDate = { row: this.rows, line: this.line, a, b, c, digitsA, digitsC, separator, offset_min };
    this.dates.push(this.lastDate);
  }

  /** One reading from its text, into the row being read. */
  cell(column: number, text: string): void {
    const values = this.values[column],
      flags = this.flags[column],
      target = this.columns[column];
    if (values === undefined || flags === undefined || target === undefined) return;
    if (text.includes('\0')) {
      this.newNuls += nulsIn(text);
      this.pending = true;
    }
    const reading = readNumber(text, this.marks);
    switch (reading.kind) {
      case 'missing':
        values[this.row] = NaN;
        flags[this.row] = SetAside.missing;
        return;
      case 'number': {
        const value =
          reading.unit === null ? reading.value : this.inColumnUnit(target, reading.value, reading.unit);
        if (Number.isNaN(value)) return this.fault(column, text.trim());
        values[this.row] = value;
        if (reading.unit !== null) this.newUnitCells.push(target);
        this.pending = true;
        this.newDecimals[column] = value === reading.value ? (reading.decimals ?? -1) : -1;
        if (reading.provesGroups && !this.groupsProven) this.groupsProven = this.newProof = true;
        return;
      }
      case 'grouped':
        if (this.grouped.length < KEPT_GROUPED) {
          this.grouped.push({ column, row: this.rows, value: reading.value, token: reading.token });
          this.newGrouped++;
        }
        return this.fault(column, reading.token);
      case 'token': {
        const state = target.inWords ? switchState(reading.token) : null;
        if (state === null) return this.fault(column, reading.token);
        values[this.row] = state;
        return;
      }
    }
  }

  private fault(column: number, token: string): void {
    const values = this.values[column],
      flags = this.flags[column];
    if (values === undefined || flags === undefined) return;
    values[this.row] = NaN;
    flags[this.row] = SetAside.faultToken;
    this.newTokens.push({ column, token });
    this.pending = true;
  }

  /** A reading with its own unit, in the column's: a meter that changes its range writes mA, then A. NaN for a unit of another kind. */
  private inColumnUnit(target: TableColumn, value: number, unit: UnitName): number {
    if (target.unit === null) {
      this.newUnits.push(target);
      target.unit = unit;
      target.unitFromCell = true;
    }
    return unit === target.unit
      ? value
      : unitKind(unit) === unitKind(target.unit)
        ? rounded(convert(value, unit, target.unit))
        : NaN;
  }

  /** The unit column's cell of a row whose value stands already. An unknown unit, or one of another kind, makes the value a fault. */
  unitCell(column: number, text: string): void {
    const of = this.unitOf[column] ?? -1;
    const target = this.columns[of],
      values = this.values[of];
    const word = text.trim();
    if (target === undefined || values === undefined || word === '') return;
    const value = values[this.row] ?? NaN;
    const unit = readUnit(word);
    if (Number.isNaN(value) || (unit === target.unit && (unit !== null || word === this.unitWords[column])))
      return;
    const converted = unit === null ? NaN : this.inColumnUnit(target, value, unit);
    if (Number.isNaN(converted)) return this.fault(of, `${value} ${word}`);
    values[this.row] = converted;
    this.newDecimals[of] = -1;
    this.pending = true;
  }

  /** A numeric time from its text; false when it is none. */
  timeNumber(text: string): boolean {
    const reading = readNumber(text, this.marks);
    // "1 min" among "59 s" is no number of the same count.
    if (reading.kind !== 'number' || (reading.unit !== null && reading.unit !== this.timeUnit)) return false;
    this.time[this.row] = reading.value;
    this.newDecimals[this.columns.length] = reading.decimals ?? -1;
    this.pending = true;
    return true;
  }

  /** A part of the clock from a cell of its own; false when it is none. */
  clockCell(kind: number, text: string): boolean {
    return kind === Kind.half ? this.halfOfDay(text) : this.clockCells.read(kind, text, this.marks);
  }

  /** Before or after noon, from a cell of its own; false when it says neither. */
  private halfOfDay(text: string): boolean {
    const half = readHalfOfDay(text);
    this.afternoon = half === 'after';
    return half !== null;
  }

  fractionNumber(text: string): boolean {
    const reading = readNumber(text, this.marks);
    if (reading.kind !== 'number' || reading.value < 0) return false;
    this.fraction[this.row] = reading.value;
    return true;
  }

  /** Time of the last row that was taken over, as it stands in {@link time}. */
  lastTime(): number {
    if (this.row > 0) return this.time[this.row - 1] ?? NaN;
    const last = this.blocks.at(-1);
    return last?.time[last.rows - 1] ?? NaN;
  }

  skip(line: number, reason: string): void {
    this.skippedRowCount++;
    if (this.skippedRows.length < KEPT_SKIPPED) this.skippedRows.push({ line, reason });
  }

  /** Readings that wait for proof of thousands separators become numbers when the file gave it. */
  settleGrouped(values: (column: number) => Float64Array, flags: (column: number) => Uint8Array): number {
    let proven = 0;
    for (const { column, row, value, token } of this.grouped) {
      // A mark that came to be the decimal one further down.
      const again = readNumber(token, this.marks);
      if (again.kind !== 'number' && !this.groupsProven) continue;
      const target = this.columns[column];
      values(column)[row] = again.kind === 'number' ? again.value : value;
      flags(column)[row] = SetAside.kept;
      if (again.kind !== 'number') proven++;
      if (target === undefined) continue;
      if (again.kind === 'number' && target.decimals >= 0)
        target.decimals = Math.max(target.decimals, again.decimals ?? 0);
      target.tokenCount--;
      const left = (target.tokens.get(token) ?? 0) - 1;
      if (left > 0) target.tokens.set(token, left);
      else target.tokens.delete(token);
    }
    return proven;
  }

  /** One column's values as one array; its blocks are let go, so that the peak is one column above the result. */
  takeValues(column: number): Float64Array {
    const last = this.values[column] ?? new Float64Array(0);
    return this.joined(last, (block) => {
      const part = block.values[column] ?? last;
      block.values[column] = new Float64Array(0);
      return part;
    });
  }
  takeFlags(column: number): Uint8Array {
    if (this.blocks.length === 0) return (this.flags[column] ?? new Uint8Array(0)).subarray(0, this.row);
    const result = new Uint8Array(this.rows);
    let at = 0;
    for (const block of this.blocks) {
      result.set(block.flags[column] ?? new Uint8Array(0), at);
      block.flags[column] = new Uint8Array(0);
      at += block.rows;
    }
    result.set((this.flags[column] ?? new Uint8Array(0)).subarray(0, this.row), at);
    return result;
  }
  takeTime(): Float64Array {
    return this.joined(this.time, (block) => {
      const part = block.time;
      block.time = new Float64Array(0);
      return part;
    });
  }
  takeFraction(): Float64Array {
    return this.joined(this.fraction, (block) => block.fraction);
  }
  private joined(last: Float64Array, take: (block: Block) => Float64Array): Float64Array {
    if (this.blocks.length === 0) return last.subarray(0, this.row);
    const result = new Float64Array(this.rows);
    let at = 0;
    for (const block of this.blocks) {
      result.set(take(block), at);
      at += block.rows;
    }
    result.set(last.subarray(0, this.row), at);
    return result;
  }
}

type Written = Pick<DateRun, 'a' | 'b' | 'c' | 'digitsA' | 'digitsC'>;
const isSameDate = (one: Written, other: Written): boolean =>
  one.a === other.a &&
  one.b === other.b &&
  one.c === other.c &&
  one.digitsA === other.digitsA &&
  one.digitsC === other.digitsC;

function countToken(tokens: Map<string, number>, token: string, more: number): void {
  const count = tokens.get(token);
  if (count !== undefined || tokens.size < KEPT_TOKENS) tokens.set(token, (count ?? 0) + more);
}

/** Digits behind the mark of two lots of readings together; -1 once they are without meaning, -2 for none. */
const mostDigits = (one: number, other: number): number =>
  one === -1 || other === -1 ? -1 : Math.max(one, other);

/** How many NUL characters a text holds. */
export const nulsIn = (text: string): number => text.split('\0').length - 1;

interface Block {
  rows: number;
  values: Float64Array[];
  flags: Uint8Array[];
  time: Float64Array;
  fraction: Float64Array;
}
