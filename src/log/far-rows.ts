import { LogTable, type RowsOnward, type TableOnward } from './log-table.ts';
import { readPlainRows, type PlainLayout } from './plain-rows.ts';
import { RowKernel } from './row-kernel.ts';

// The thread that reads them takes what this one has compiled of the kernels.
export { compiledKernels, takeCompiled } from '#kernels/load.ts';

/** What another thread needs to read the far rows of a log while this one reads the near ones; can be sent, its columns are shared. */
export interface FarRequest {
  layout: PlainLayout;
  table: TableOnward;
}

/** Rows that were read far behind. Can be sent; their readings stand in the columns. */
export interface FarRows {
  /** Positions in the file of the first row, and of what follows the last one. */
  start: number;
  end: number;
  table: RowsOnward;
}

/** Reads bytes from a position of a file on into a buffer; returns how many, 0 at its end. */
export type ReadAt = (into: Uint8Array, position: number) => number;

const PIECE = 1024 * 1024;
const LF = 10;

/** Just behind the first LF; -1 without one. Behind it a line starts, however the lines of the file end. */
export function behindLineFeed(bytes: Uint8Array): number {
  return bytes.indexOf(LF) + 1 || -1;
}

/**
 * Reads the rows from the first line end at or behind a position on, as far as they are plain: cells that are numbers or faults, a time that
 * is one. The first row of another kind ends it.
 * @param from position in the file
 * @returns null where there is no such row, or the rows leave more behind than can be put together
 */
export function readFarRows(
  { layout, table: onward }: FarRequest,
  from: number,
  readAt: ReadAt,
): FarRows | null {
  const table = LogTable.goingOn(onward),
    kernel = RowKernel.of(table, layout);
  const buffer = new Uint8Array(PIECE);
  const oddRow = (): number => -1;
  let start = -1,
    /** Position of the first byte in the buffer, and how many stand there. */
    at = from,
    held = 0;
  for (;;) {
    const more = readAt(buffer.subarray(held), at + held);
    held += more;
    let done = 0;
    if (start < 0) {
      const first = behindLineFeed(buffer.subarray(0, held));
      if (first < 0) return null;
      start = at + first;
      done = first;
    }
    const to = buffer.subarray(0, held).lastIndexOf(LF) + 1;
    done += readPlainRows(buffer.subarray(done, to), 0, to - done, layout, table, oddRow, kernel);
    at += done;
    const isOdd = done < to;
    if (more === 0 || isOdd || (done === 0 && held === PIECE)) break;
    buffer.copyWithin(0, done, held);
    held -= done;
  }
  const rows = table.further(onward);
  return rows === null || rows.rows === 0 ? null : { start, end: at, table: rows };
}
