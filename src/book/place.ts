import type { BookEntry, BookEntryFormat } from '#formats/book.ts';

/**
 * The book as plain files; a folder of them, or a zip of that folder, or rows of a browser's database under the same names:
 *   book.json                          says that this is a book, and its version
 *   shop/ID.json                       the shop
 *   units/ID.json                      one unit
 *   adjustments/ID.json                one change of the relief
 *   specs/ID.json, rigs/ID.json        kept specs and rigs, all versions of each
 *   runs/ID/run.json                   one run
 *   runs/ID/log.gz                     the log's bytes as they were brought in, gzip (parts: log-2.gz …)
 *   runs/ID/assessment-N.json          its verdicts, numbered as they came into this book; run.json has them oldest first
 */
const folderOf: Readonly<Record<BookEntryFormat, string>> = {
  'overdrive-bench/book-unit': 'units',
  'overdrive-bench/book-run': 'runs',
  'overdrive-bench/book-adjustment': 'adjustments',
  'overdrive-bench/book-spec': 'specs',
  'overdrive-bench/book-rig': 'rigs',
  'overdrive-bench/book-shop': 'shop',
};

export const BOOK_FILE = 'book.json';
export const BOOK_FILE_TEXT = `${JSON.stringify({ format: 'overdrive-bench/book-folder', version: 1 }, null, 2)}\n`;

/** Where an entry's JSON stands. */
export function entryPath(entry: Pick<BookEntry, 'format' | 'id'>): string {
  const folder = folderOf[entry.format];
  return entry.format === 'overdrive-bench/book-run'
    ? `${folder}/${entry.id}/run.json`
    : `${folder}/${entry.id}.json`;
}

/** Where a file of a run stands: "log.gz", "assessment-1.json" … */
export const runFilePath = (runId: string, file: string): string => `runs/${runId}/${file}`;

/** Whether a path is an entry's JSON (not a run's log or assessment). */
export function isEntryPath(path: string): boolean {
  return (
    /^(units|adjustments|specs|rigs|shop)\/[^/]+\.json$/.test(path) || /^runs\/[^/]+\/run\.json$/.test(path)
  );
}

/** The run that a path belongs to, or null. */
export function runOfPath(path: string): string | null {
  return /^runs\/([^/]+)\//.exec(path)?.[1] ?? null;
}

/** Whether a path is of the kind that a book has: its entries and the files of its runs. */
export const isBookPath = (path: string): boolean => isEntryPath(path) || /^runs\/[^/]+\/[^/]+$/.test(path);
