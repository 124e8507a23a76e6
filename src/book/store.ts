import type { BookEntry } from '#formats/book.ts';

/** Files that go with an entry, written in the same step: log bytes, assessments. */
export interface BookFile {
  path: string;
  bytes: Uint8Array;
}

export type BookProblem =
  /** Somebody else changed the entry since it was read: nothing was written. */
  | { code: 'changed-elsewhere'; path: string; current: BookEntry | null }
  /** An entry's file cannot be read as one. `newer`: it is of a later version of the program, which can. */
  | { code: 'entry-damaged'; path: string; reason: string; newer?: true }
  /** No room: nothing was written. */
  | { code: 'no-room' }
  /** The place refuses to keep anything (private window, storage switched off, read-only folder): nothing was written. */
  | { code: 'not-kept'; reason: string };

export type BookResult<T> = { ok: true; value: T } | { ok: false; problem: BookProblem };

/**
 * A book, wherever it is kept. Entries are small and listed without touching the bytes of logs. One `write` is all or nothing:
 * a crash between leaves the old state or the new one, never half.
 */
export interface BookStore {
  /** Every entry, the bin included; damaged ones are named and left out. */
  entries(): Promise<{ entries: BookEntry[]; damaged: BookProblem[] }>;
  /** Every entry as a list needs it: runs without their outlines. Quick also where `entries` is not. */
  list(): Promise<{ entries: BookEntry[]; damaged: BookProblem[] }>;
  /** An entry by its path, null when there is none. */
  entry(path: string): Promise<BookEntry | null>;
  /** Bytes of a file, null when there is none. */
  file(path: string): Promise<Uint8Array | null>;
  /** Every path, for copies and checks. */
  paths(): Promise<string[]>;
  /**
   * Writes entries and files in one step. Each entry's `revision` must be one more than what is kept (1 for a new one).
   * Files are never overwritten by other bytes: the log of a run and its verdicts stay as they came.
   */
  write(entries: BookEntry[], files: BookFile[]): Promise<BookResult<null>>;
  /** Takes paths out for good (emptying the bin, putting back a restore). */
  remove(paths: string[]): Promise<BookResult<null>>;
  close(): void;
}
