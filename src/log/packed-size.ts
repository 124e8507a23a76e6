import type { Problem } from '#formats/problem.ts';
import { packedEntries } from './packed-entries.ts';
import { farthestCell } from './sheet-extent.ts';

/** Larger sheets are beyond what a text can hold, and what a page can. */
const MOST_UNPACKED = 500_000_000;
/** What spreadsheet programs hold, rows by columns (from memory). */
const MOST_ROWS = 1_048_576;
const MOST_COLUMNS = 16_384;
/** Its reader makes a place for every cell up to the farthest one; a run of a million rows and thirty channels has fewer. */
const MOST_CELLS = 40_000_000;
const SHEET = /^xl\/worksheets\/[^/]+\.xml$/u;

/** How many bytes a packed file says that it unpacks to: a file of a megabyte may hold gigabytes of blanks. */
const unpackedSize = (bytes: Uint8Array): number =>
  packedEntries(bytes).reduce((sum, { size }) => sum + size, 0);

/**
 * Why a packed file is not unpacked at all; null where it may be: too large, or a sheet with a cell so far out that the empty ones before
 * it are too many.
 */
export function packedTooLarge(bytes: Uint8Array, file: string | null): Problem | null {
  const refuse = (reason: string): Problem => ({ code: 'no-table', file, reason });
  const size = unpackedSize(bytes);
  if (size > MOST_UNPACKED)
    return refuse(
      `it is a packed file that unpacks to ${Math.round(size / 1e6)} MB, more than is read of one`,
    );
  for (const entry of packedEntries(bytes)) {
    if (!SHEET.test(entry.name)) continue;
    const { row, column } = farthestCell(bytes, entry);
    if (row > MOST_ROWS || column > MOST_COLUMNS)
      return refuse(
        `a sheet has a cell in row ${row}, column ${column}, and no spreadsheet has more than ${MOST_ROWS} rows and ${MOST_COLUMNS} columns: the file is damaged, or was written wrongly`,
      );
    if (row * column > MOST_CELLS)
      return refuse(
        `a sheet has cells as far out as row ${row} and column ${column}, which makes more cells than are read of one: delete what stands outside of the readings`,
      );
  }
  return null;
}
