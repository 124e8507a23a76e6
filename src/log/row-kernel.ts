import { SetAside } from '#formats/log.ts';
import { loadKernels, type Kernels } from '#kernels/load.ts';
import { cellEnd, cellText } from './cell-end.ts';
import { Kind } from './column-kind.ts';
import { textOf } from './encoding.ts';
import type { LogTable } from './log-table.ts';
import type { PlainLayout } from './plain-rows.ts';
import { fractionUnit_ns, type ClockParts } from './read-clock.ts';

/** Where things stand in the kernel's memory, in bytes; as `kernels/rows.ts` has it. */
const PLANS = 4096,
  PLAN = 64,
  MOST_COLUMNS = 64,
  TEMPLATES = 8192,
  TEMPLATE = 128,
  MASK_BEHIND = 64,
  ODD_CELLS = 16_384,
  ODD_CELL = 16,
  INPUT = 32_768,
  PIECE = 131_072,
  /** A number is read eight bytes at a time, a template as well: behind the last byte stands room for that. */
  ROOM = 128,
  OUTPUT = INPUT + PIECE + ROOM,
  ROWS = 8192;
/** What a column is to the kernel. */
const NUMBER = 1,
  CLOCK = 2,
  CONSTANT = 3,
  SKIPPED = 4;
const LF = 10;
/** So few rows in one go are no gain: the next try waits, twice as long each time, for so many rows at most. */
const FEW = 8,
  LONGEST_REST = 4096;
/** A rest of a piece that may be a row cut off. */
const CUT = 1024;
const HOUR_NS = 3600e9;

/**
 * One memory for all logs: an engine sets gigabytes of addresses aside for each. Which log the plans in it are for: rows are read within
 * one call, and a log that comes between has its own plans made.
 */
let kernels: Kernels | null | undefined;
let planned = 0;
let numbered = 0;

/**
 * Reads rows whose cells are numbers (others it hands over as text) and whose clock differs from the row before in minutes, seconds and fraction alone, many at a
 * time. How the clock is written it takes from the last row that {@link readPlainRows} read: nothing about a form of date or time
 * is known twice. The first row that is not like that ends it, and the other reader takes it.
 */
export class RowKernel {
  private readonly kernels: Kernels;
  private readonly layout: PlainLayout;
  private readonly bytes: Uint8Array;
  private readonly view: DataView;
  /** Blocks of read rows in the kernel's memory, by column: null for one without numbers. */
  private readonly values: (Float64Array | null)[];
  private readonly flags: (Uint8Array | null)[];
  private readonly time: Float64Array;
  private readonly number = ++numbered;
  private learned = false;
  /** How long the next rest is, and how much of this one is left. */
  private nextRest = 1;
  private rest = 1;

  /** @returns null where the engine or the table does not allow it */
  static of(table: LogTable, layout: PlainLayout): RowKernel | null {
    const { kinds } = table;
    if (
      kinds.length > MOST_COLUMNS ||
      table.pieced ||
      !kinds.every((kind) => kind <= Kind.timeNumber || kind === Kind.unit)
    )
      return null;
    // A number of the time beside a date is put together with it elsewhere.
    if (kinds.includes(Kind.timeNumber) && (table.dated || table.timed)) return null;
    if (layout.unitBytes.some((bytes) => (bytes?.length ?? 0) > MASK_BEHIND)) return null;
    kernels ??= loadKernels(OUTPUT + (MOST_COLUMNS + 1) * ROWS * 9);
    return kernels === null ? null : new RowKernel(kernels, table, layout);
  }

  private constructor(kernels: Kernels, table: LogTable, layout: PlainLayout) {
    this.kernels = kernels;
    this.layout = layout;
    const { buffer } = kernels.memory;
    this.bytes = new Uint8Array(buffer);
    this.view = new DataView(buffer);
    this.time = new Float64Array(buffer, OUTPUT, ROWS);
    this.values = Array.from(table.kinds, (kind, column) =>
      kind === Kind.number ? new Float64Array(buffer, OUTPUT + (column + 1) * ROWS * 8, ROWS) : null,
    );
    // Behind the values of the widest table: they hold nothing but flags, and are cleared after each use.
    const flags = OUTPUT + (MOST_COLUMNS + 1) * ROWS * 8;
    this.flags = Array.from(table.kinds, (kind, column) =>
      kind === Kind.number ? new Uint8Array(buffer, flags + column * ROWS, ROWS) : null,
    );
    kernels.prepare();
  }

  /**
   * Reads rows into the table as far as they are plain.
   * @param to just behind a line end
   * @param decimalMark as a character code; negative where none was seen yet
   * @returns the position of the first row that was not read
   */
  read(bytes: Uint8Array, from: number, to: number, table: LogTable, decimalMark: number): number {
    if (!this.learned || planned !== this.number || table.stopped) return from;
    const { kernels, layout } = this;
    const width = table.kinds.length;
    const before = table.rows;
    let p = from;
    while (p < to) {
      const length = Math.min(PIECE, to - p),
        end = p + length;
      this.bytes.set(bytes.subarray(p, p + length), INPUT);
      this.bytes[INPUT + length] = LF;
      let at = INPUT,
        rows = 0;
      do {
        const room = Math.min(ROWS, table.capacity - table.row);
        at = kernels.readRows(
          at,
          INPUT + length,
          room,
          width,
          layout.delimiter,
          Math.max(0, decimalMark),
          SetAside.missing,
        );
        rows = kernels.rowsRead();
        this.handOver(rows, table);
      } while (rows > 0 && at < INPUT + length);
      p += at - INPUT;
      // What is left may be a row that the piece cut off; else there is a row of another kind.
      if (p < end && (at === INPUT || end === to || end - p > CUT)) break;
    }
    if (p < to) {
      this.learned = false;
      if (table.rows - before >= FEW) this.nextRest = 1;
      this.wait();
    }
    return p;
  }

  private wait(): void {
    this.rest = this.nextRest;
    this.nextRest = Math.min(LONGEST_REST, 2 * this.nextRest);
  }

  private handOver(rows: number, table: LogTable): void {
    if (rows > 0) {
      for (const [column, values] of this.values.entries())
        if (values !== null) table.values[column]?.set(values.subarray(0, rows), table.row);
      if (table.dated || table.timed || table.kinds.includes(Kind.timeNumber))
        table.time.set(this.time.subarray(0, rows), table.row);
    }
    if (this.kernels.missingRead() > 0)
      for (const [column, flags] of this.flags.entries()) {
        if (flags === null) continue;
        if (rows > 0) table.flags[column]?.set(flags.subarray(0, rows), table.row);
        flags.fill(0);
      }
    for (let k = 0; k < this.kernels.oddCells(); k++) {
      const at = ODD_CELLS + k * ODD_CELL;
      const column = this.view.getInt32(at + 4, true);
      const text = cellText(
        this.bytes,
        this.view.getUint32(at + 8, true),
        this.view.getUint32(at + 12, true),
      );
      table.cellAhead(this.view.getInt32(at, true), column, text);
      this.digits(column, table.columns[column]?.decimals ?? 0);
    }
    if (rows > 0) table.took(rows);
  }

  /** The other reader took over the row that stands from `start` on: after a while the kernel is made ready to go on behind it. */
  seen(bytes: Uint8Array, start: number, table: LogTable): void {
    if (--this.rest > 0 || (this.learned && planned === this.number)) return;
    planned = this.number;
    this.learned = this.learn(bytes, start, table);
    if (!this.learned) this.wait();
  }

  private learn(bytes: Uint8Array, start: number, table: LogTable): boolean {
    const { kinds, columns } = table;
    let p = start;
    let timed = table.counted;
    for (const [column, kind] of kinds.entries()) {
      const end = cellEnd(bytes, p, this.layout.delimiter);
      if (end < 0) return false;
      const values = this.values[column];
      if (kind === Kind.number && values)
        this.plan(column, NUMBER, {
          decimals: columns[column]?.decimals ?? 0,
          values,
          flags: this.flags[column] ?? null,
        });
      else if (kind === Kind.timeNumber) {
        this.plan(column, NUMBER, { decimals: table.timeDecimals, values: this.time, flags: null });
        timed = true;
      } else if (kind === Kind.unit) {
        const unit = this.layout.unitBytes[column] ?? null;
        this.plan(column, unit === null ? SKIPPED : CONSTANT);
        if (unit !== null) this.template(column, unit, []);
      } else if (kind === Kind.skip) this.plan(column, SKIPPED);
      else {
        const gives = table.timed ? kind === Kind.time || kind === Kind.elapsed : kind === Kind.clock;
        if (end - p > MASK_BEHIND) return false;
        this.plan(column, CLOCK);
        if (!gives) this.template(column, bytes.subarray(p, end), []);
        else if (
          timed ||
          !this.clock(column, bytes.subarray(p, end), table.timed ? table.timePart : table.datePart)
        )
          return false;
        else timed = true;
      }
      p = end + 1;
    }
    return timed;
  }

  /** How a clock cell is written, with the time that the other reader found in it. */
  private clock(column: number, cell: Uint8Array, parts: ClockParts): boolean {
    const found = minutesAndSeconds.exec(textOf(cell, 0, cell.length));
    const { minute, second, fraction = '' } = found?.groups ?? {};
    if (found === null || minute === undefined || second === undefined || fraction.length > 8) return false;
    // Bytes and letters are the same up to here only where each letter is one byte.
    if (cell.some((byte) => byte > 127)) return false;
    const unit_ns = fractionUnit_ns[fraction.length] ?? NaN;
    const hour_ns =
      parts.clock_ns - (Number(minute) * 60 + Number(second)) * 1e9 - Number(fraction) * unit_ns;
    // Hours before it or half a day for the afternoon; were it anything else, the digits would mean something else.
    if (!(
      hour_ns >= 0 &&
      hour_ns % HOUR_NS === 0 &&
      (hour_ns / HOUR_NS - Number(found.groups?.['hour'])) % 12 === 0
    ))
      return false;
    const [minuteAt = 0] = found.indices?.groups?.['minute'] ?? [];
    const [secondAt = 0] = found.indices?.groups?.['second'] ?? [];
    const [fractionAt = 0] = found.indices?.groups?.['fraction'] ?? [];
    const at = PLANS + column * PLAN;
    this.view.setUint32(at + 8, this.time.byteOffset, true);
    this.view.setInt32(at + 24, minuteAt, true);
    this.view.setInt32(at + 28, secondAt, true);
    this.view.setInt32(at + 32, fractionAt, true);
    this.view.setInt32(at + 36, fraction.length, true);
    this.view.setFloat64(at + 40, hour_ns, true);
    this.view.setFloat64(at + 48, unit_ns, true);
    this.template(column, cell, [
      [minuteAt, 2],
      [secondAt, 2],
      [fractionAt, fraction.length],
    ]);
    return true;
  }

  private plan(
    column: number,
    kind: number,
    numbers: { decimals: number; values: Float64Array; flags: Uint8Array | null } | null = null,
  ): void {
    const at = PLANS + column * PLAN;
    this.bytes.fill(0, at, at + PLAN);
    this.view.setInt32(at, kind, true);
    this.view.setInt32(at + 24, -1, true);
    if (numbers === null) return;
    this.digits(column, numbers.decimals);
    this.view.setUint32(at + 8, numbers.values.byteOffset, true);
    this.view.setUint32(at + 12, numbers.flags?.byteOffset ?? 0, true);
  }

  /** Digits behind the mark that a column is known to have; after an exponent or a conversion (-1) they no longer count. */
  private digits(column: number, decimals: number): void {
    this.view.setInt32(PLANS + column * PLAN + 4, decimals < 0 ? ROWS : decimals, true);
  }

  /** A cell that must come again, but for some places. */
  private template(
    column: number,
    cell: Uint8Array,
    free: readonly (readonly [at: number, length: number])[],
  ): void {
    const at = TEMPLATES + column * TEMPLATE;
    this.bytes.fill(0, at, at + TEMPLATE);
    this.bytes.set(cell, at);
    this.bytes.fill(255, at + MASK_BEHIND, at + MASK_BEHIND + cell.length);
    for (const [from, length] of free)
      this.bytes.fill(0, at + MASK_BEHIND + from, at + MASK_BEHIND + from + length);
    this.view.setUint32(PLANS + column * PLAN + 16, at, true);
    this.view.setInt32(PLANS + column * PLAN + 20, cell.length, true);
  }
}

/** Hours, minutes and seconds that nothing else of the kind stands beside. */
const minutesAndSeconds =
  /(?<![\d:.,])(?<hour>\d{1,4}):(?<minute>\d{2}):(?<second>\d{2})(?:[.,](?<fraction>\d+))?(?![\d:.,])/du;
