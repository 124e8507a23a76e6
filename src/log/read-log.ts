import type { Log, LogSource, Role } from '#formats/log.ts';
import type { Problem, Result } from '#formats/problem.ts';
import type { Rig } from '#formats/rig.ts';
import type { UnitName } from '#units/unit.ts';
import { findEncoding, joined, textOf, toUtf8, type ToUtf8 } from './encoding.ts';
import type { FarRequest, FarRows } from './far-rows.ts';
import { finishLog } from './finish-log.ts';
import { OddRows } from './odd-rows.ts';
import { readPlainRows } from './plain-rows.ts';
import { RowKernel } from './row-kernel.ts';
import { planTable, type TableSetup } from './plan-table.ts';
import { settleLayout } from './settle-layout.ts';
import { stampedWith, stampsAsColumn } from './stamped-lines.ts';
import { whyConsole } from './why-no-table.ts';

/** A user's correction of one column, made in the app. */
export interface ColumnOverride {
  column: string;
  role?: Role;
  unit?: UnitName;
}
/** What a log is read with: its name for the sentences, what the rig file states, and a user's corrections. */
export interface ReadOptions {
  /** For the problems' sentences and the result; null for standard input. */
  fileName: string | null;
  rig: Rig | null;
  overrides?: readonly ColumnOverride[];
  /** One of several files of a run: a correction of a column that it lacks is meant for the others. */
  part?: boolean;
  /** Bytes of the file, where they are known before it is read: the columns are then made at their full length at once. */
  size?: number;
  /** The columns are to lie where several threads can read them. */
  shared?: boolean;
  /** Day numbers count from 1904: a spreadsheet file says so of itself. */
  dates1904?: boolean;
}

/** Takes a log's bytes as they come. */
export interface LogReader {
  /** The next bytes of the file, in any portion; they are not kept, and may be reused after the call. */
  push(chunk: Uint8Array): void;
  /**
   * The log as far as it has come, of whole lines only: a last line that is still being written waits. Reading goes on afterwards;
   * the result is that of {@link finish} on the bytes up to the last line end. Costs a copy of the columns.
   */
  soFar(source: { bytes: number; sha256: string | null }): Result<Log>;
  /**
   * Rows from about a position on may be read elsewhere at the same time. Call it between two pushes; then push no more than up to the first
   * row of the far ones ({@link behindLineFeed} from the position on), and {@link takeFar} before anything else.
   * @param from position in the file, of the size that was told
   * @param rowBytes bytes of a row on the way there, as samples show; undefined: as in the head
   * @returns null where the rows can only be read one after the other
   */
  far(from: number, rowBytes?: number): FarRequest | null;
  /**
   * Takes the far rows over; null for none.
   * @returns whether it did: what is to be pushed next stands behind them, else where their first one would be
   */
  takeFar(far: FarRows | null): boolean;
  /** Everything was pushed: the log, or why there is none. */
  finish(source: { bytes: number; sha256: string | null }): Result<Log>;
}

/**
 * How rows are read: `bytes` is the fast way, with a kernel compiled ahead where the engine has one; `script` the same without it;
 * `papaparse` takes every row the long way. All give the same log; tests hold them together.
 */
export type Lane = 'bytes' | 'script' | 'papaparse';

/** The head by which encoding and layout are settled; a longer preamble doubles it, up to the limit. */
const HEAD = 65536;
const LONGEST_HEAD = 8 * 1024 * 1024;
/** Where a table was found that cannot be read, so much is looked at once more: its lines may have been a preamble. */
const SECOND_LOOK = 512 * 1024;
/** Rows that room is made for, over those that the head lets expect; and of the near rows, where the far ones stand behind them. */
const SPARE = 1.02,
  SPARE_WITH_FAR = 1.1,
  SPARE_NEAR = 1.01;
const LF = 10,
  CR = 13,
  BLANK = 32;

/**
 * A reader of one log: bytes → encoding → layout from the first 64 KiB → rows straight into columns → time axis → {@link Log}.
 * The result does not depend on how the bytes are portioned. Memory: the columns (8 bytes a reading, 1 for its flag), one block to
 * spare, and the head.
 */
export function createLogReader(options: ReadOptions, lane: Lane = 'bytes'): LogReader {
  return new Reader(options, lane);
}

/** Reads a log that is in memory as a whole. */
export function readLog(
  bytes: Uint8Array,
  options: ReadOptions & { sha256: string | null },
  lane: Lane = 'bytes',
): Result<Log> {
  const reader = createLogReader({ size: bytes.length, ...options }, lane);
  reader.push(bytes);
  return reader.finish({ bytes: bytes.length, sha256: options.sha256 });
}

class Reader implements LogReader {
  private readonly options: ReadOptions;
  private readonly lane: Lane;
  /** Bytes before the encoding is known; then text bytes before the layout is. */
  private waiting: Uint8Array = nothing;
  private decoder: ToUtf8 | null = null;
  private encoding: ReturnType<typeof findEncoding> | null = null;
  private headSize = HEAD;
  private setup: TableSetup | null = null;
  private odd: OddRows | null = null;
  private kernel: RowKernel | null = null;
  private problem: Problem | null = null;
  private anyText = false;
  private isStamped = false;
  private expectedRows = 0;
  /** The far rows are being read. */
  private farRequest: FarRequest | null = null;

  constructor(options: ReadOptions, lane: Lane) {
    this.options = options;
    this.lane = lane;
  }

  push(chunk: Uint8Array): void {
    if (this.problem !== null || chunk.length === 0) return;
    if (this.decoder === null) {
      this.waiting = joined(this.waiting, chunk);
      if (this.waiting.length >= HEAD) this.settleEncoding();
      return;
    }
    this.text(this.decoder.push(chunk), false);
  }

  far(from: number, rowBytes?: number): FarRequest | null {
    const { setup, kernel, encoding } = this,
      { size } = this.options;
    if (setup === null || setup.plain === null || kernel === null || size === undefined) return null;
    // Only bytes that are read as they stand in the file can be read from anywhere.
    if (encoding?.encoding !== 'utf-8' || this.isStamped) return null;
    const near = rowBytes === undefined ? this.expectedRows * (from / size) : from / rowBytes;
    const table = setup.table.onward(Math.ceil(near * SPARE_NEAR));
    this.farRequest = table && { layout: setup.plain, table };
    return this.farRequest;
  }

  takeFar(far: FarRows | null): boolean {
    const { setup, farRequest } = this;
    if (setup === null || farRequest === null) return false;
    this.farRequest = null;
    // An open quote: the far rows may stand within it.
    const isBetween = this.waiting.length === 0;
    return setup.table.append(farRequest.table, isBetween && far !== null ? far.table : null);
  }

  finish(source: { bytes: number; sha256: string | null }): Result<Log> {
    if (this.problem === null && this.decoder === null) this.settleEncoding();
    if (this.problem === null && this.decoder !== null) this.text(this.decoder.end(), true);
    return this.result(source);
  }

  soFar(source: { bytes: number; sha256: string | null }): Result<Log> {
    if (this.setup === null) return this.wholeLines().result(source);
    return this.result(source, { ...this.setup, table: this.setup.table.copy() });
  }

  /** A reader of the whole lines of a head that is not settled yet, at its end. */
  private wholeLines(): Reader {
    const head = new Reader(this.options, this.lane);
    head.headSize = this.headSize;
    head.problem = this.problem;
    head.anyText = this.anyText;
    head.encoding = this.encoding;
    head.decoder = this.decoder;
    head.waiting = this.waiting;
    if (head.decoder === null) head.settleEncoding();
    head.waiting = head.waiting.subarray(0, lastLineEnd(head.waiting, false));
    if (head.problem === null) head.text(nothing, true);
    return head;
  }

  private result(
    source: { bytes: number; sha256: string | null },
    setup: TableSetup | null = this.setup,
  ): Result<Log> {
    const file = this.options.fileName;
    if (!this.anyText) return { ok: false, problems: [{ code: 'empty-file', file }] };
    if (this.problem !== null) return { ok: false, problems: [this.problem] };
    if (setup === null || this.odd === null || this.encoding === null)
      return { ok: false, problems: [{ code: 'no-readings', file }] };
    const logSource: LogSource = { fileName: file, bytes: source.bytes, sha256: source.sha256 };
    return finishLog(setup, this.odd, this.options, logSource, this.encoding.encoding);
  }

  private settleEncoding(): void {
    const stated = this.options.rig?.dialect?.encoding;
    const found = findEncoding(this.waiting.subarray(0, HEAD));
    this.encoding =
      stated === undefined
        ? found
        : { encoding: stated, markLength: stated === found.encoding ? found.markLength : 0 };
    this.decoder = toUtf8(this.encoding.encoding);
    const bytes = this.waiting.subarray(this.encoding.markLength);
    this.waiting = nothing;
    let text = this.decoder.push(bytes);
    const delimiter = stampedWith(textOf(text, 0, Math.min(text.length, HEAD)));
    if (delimiter !== null) {
      const stamped = stampsAsColumn(this.decoder, delimiter);
      this.decoder = stamped;
      this.isStamped = true;
      text = stamped.take(text);
    }
    this.text(text, false);
  }

  /** The next bytes of UTF-8. */
  private text(bytes: Uint8Array, final: boolean): void {
    this.anyText ||= bytes.some((byte) => byte > BLANK);
    if (this.setup !== null) return this.rows(bytes, final);
    this.waiting = joined(this.waiting, bytes);
    for (;;) {
      const all = final && this.waiting.length <= this.headSize;
      if (!all && this.waiting.length < this.headSize) return;
      this.settle(all);
      if (this.problem !== null) return;
      if (this.setup !== null) break;
      if (all) return;
      this.headSize *= 2;
    }
    const rest = this.waiting;
    this.waiting = nothing;
    this.rows(rest, final);
  }

  /** Tries to settle the layout on the head; a failure counts only when there is no more to see. */
  private settle(last: boolean): void {
    const head = this.waiting.subarray(0, this.headSize);
    const end = last && this.waiting.length <= this.headSize ? head.length : lastLineEnd(head, false);
    const found = settleLayout(textOf(head, 0, end), this.options.rig?.dialect);
    const { fileName: file } = this.options;
    if (!found.ok) {
      if (last || this.headSize >= LONGEST_HEAD)
        this.problem = found.headingOnly
          ? { code: 'no-readings', file }
          : { code: 'no-table', file, reason: found.reason };
      return;
    }
    const planned = planTable(found.layout, this.options);
    // Lines of a long preamble may pass for a table: what stands further on is asked before it is refused.
    if (!planned.ok && !last && this.headSize < SECOND_LOOK) {
      this.headSize = SECOND_LOOK / 2;
      return;
    }
    if (!planned.ok) {
      const [first] = planned.problems;
      const reason =
        first?.code === 'no-usable-time' && first.line === null ? consoleReason(textOf(head, 0, end)) : null;
      this.problem =
        reason === null
          ? (first ?? { code: 'no-table', file, reason: 'its columns cannot be told' })
          : { code: 'no-table', file, reason };
      return;
    }
    this.setup = planned.value;
    const { table, layout, plain } = this.setup;
    this.kernel = this.lane === 'bytes' && plain !== null ? RowKernel.of(table, plain) : null;
    this.odd = new OddRows(
      table,
      layout.delimiter,
      layout.minWidth,
      layout.headingRows,
      this.setup.fixedShape,
    );
    const start = startOfLine(this.waiting, layout.firstDataLine);
    table.line = layout.firstDataLine;
    this.reserve(head, start, table);
    this.waiting = this.waiting.subarray(start);
  }

  /** Room for the rows to come, by the rows of the head, and some to spare. */
  private reserve(head: Uint8Array, from: number, table: TableSetup['table']): void {
    const { size } = this.options;
    if (size === undefined) return;
    let ends = 1;
    for (let p = from; p < head.length; p++)
      if (head[p] === LF || (head[p] === CR && head[p + 1] !== LF)) ends++;
    const textBytes = this.encoding?.encoding.startsWith('utf-16') === true ? size / 2 : size;
    const rest = Math.max(0, textBytes - head.length);
    const more = rest * (ends / Math.max(1, head.length - from));
    this.expectedRows = ends + more;
    table.reserve(ends + more * (this.options.shared === true ? SPARE_WITH_FAR : SPARE), this.options.shared);
  }

  /** Reads whole rows; what is left of the last waits for the next bytes. */
  private rows(bytes: Uint8Array, final: boolean): void {
    let rest = bytes;
    if (this.waiting.length > 0) {
      // The waiting start of a row needs its end only: the portion itself is read where it lies.
      const end = final ? bytes.length : firstLineEnd(bytes);
      const row = joined(this.waiting, bytes.subarray(0, end));
      const done = this.readRows(row, final && end === bytes.length);
      if (done === row.length) rest = bytes.subarray(end);
      else if (end === bytes.length) {
        this.waiting = row.slice(done);
        return;
      } else rest = joined(row.subarray(done), bytes.subarray(end));
    }
    const done = this.readRows(rest, final);
    this.waiting = rest.slice(done);
  }

  /** @returns the position up to which rows were read */
  private readRows(bytes: Uint8Array, final: boolean): number {
    const { setup, odd } = this;
    if (setup === null || odd === null) return bytes.length;
    const to = lastLineEnd(bytes, final);
    const oddRow = (all: Uint8Array, start: number, end: number): number => odd.read(all, start, end, false);
    let p =
      this.lane !== 'papaparse' && setup.plain !== null
        ? readPlainRows(bytes, 0, to, setup.plain, setup.table, oddRow, this.kernel)
        : longRows(bytes, 0, to, oddRow);
    if (final) while (p < bytes.length) p = odd.read(bytes, p, bytes.length, true);
    return p;
  }
}

/** Every row the long way. */
function longRows(
  bytes: Uint8Array,
  from: number,
  to: number,
  oddRow: (bytes: Uint8Array, start: number, to: number) => number,
): number {
  let p = from;
  while (p < to) {
    const next = oddRow(bytes, p, to);
    if (next < 0) break;
    p = next;
  }
  return p;
}

const consoleReason = (text: string): string | null =>
  whyConsole(text.split(/\r\n|\n|\r/u).filter((line) => line.trim() !== ''));

const nothing = new Uint8Array(0);

/** Just behind the last line end that is surely complete: a CR at the very end may be half of CR LF, unless nothing follows. */
function lastLineEnd(bytes: Uint8Array, final: boolean): number {
  for (let p = bytes.length - 1; p >= 0; p--)
    if (bytes[p] === LF || (bytes[p] === CR && (final || p < bytes.length - 1))) return p + 1;
  return 0;
}
/** Just behind the first line end that is surely complete; all of it without one. */
function firstLineEnd(bytes: Uint8Array): number {
  for (let p = 0; p < bytes.length; p++) {
    if (bytes[p] === LF) return p + 1;
    if (bytes[p] === CR && p + 1 < bytes.length) return bytes[p + 1] === LF ? p + 2 : p + 1;
  }
  return bytes.length;
}

/** Position of a line, counted from 1; LF, CR LF and CR all end one. */
function startOfLine(bytes: Uint8Array, line: number): number {
  let p = 0;
  for (let count = 1; count < line && p < bytes.length; p++)
    if (bytes[p] === LF || (bytes[p] === CR && bytes[p + 1] !== LF)) count++;
  return p;
}
