import { bookEntry, type BookEntry } from '#formats/book.ts';
import { writeJson } from '#formats/number.ts';
import type { BookProblem } from './store.ts';

/** Of every entry's format until now. */
const VERSION = 1;

/** Checks one stored entry; a stored row is as foreign as a file. */
export function readEntry(
  path: string,
  data: unknown,
): { ok: true; value: BookEntry } | { ok: false; problem: BookProblem } {
  const checked = bookEntry.safeParse(data);
  if (checked.success) return { ok: true, value: checked.data };
  const version = laterVersion(data);
  if (version !== null)
    return {
      ok: false,
      problem: {
        code: 'entry-damaged',
        path,
        reason: `it was written by a later version of this program (entry version ${version}), which can read it`,
        newer: true,
      },
    };
  const issue = checked.error.issues[0];
  const reason =
    issue === undefined
      ? 'it is not an entry of a book'
      : `${issue.path.join('.') || 'the entry'}: ${issue.message}`;
  return { ok: false, problem: { code: 'entry-damaged', path, reason } };
}

/** The version of an entry of ours that is later than this program knows; null: it is none. */
function laterVersion(data: unknown): number | null {
  if (typeof data !== 'object' || data === null || !('format' in data) || !('version' in data)) return null;
  const { format, version } = data;
  const ours = typeof format === 'string' && format.startsWith('overdrive-bench/book-');
  return ours && typeof version === 'number' && version > VERSION ? version : null;
}

/** The same from the bytes of a file. */
export function readEntryBytes(path: string, bytes: Uint8Array): ReturnType<typeof readEntry> {
  try {
    const data: unknown = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
    return readEntry(path, data);
  } catch (error) {
    return {
      ok: false,
      problem: {
        code: 'entry-damaged',
        path,
        reason: error instanceof Error ? error.message : String(error),
      },
    };
  }
}

/** An entry as the bytes of its file. */
export const entryBytes = (entry: BookEntry): Uint8Array => new TextEncoder().encode(writeJson(entry));
