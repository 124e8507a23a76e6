import { bookEntry, type BookEntry } from '#formats/book.ts';
import { writeJson } from '#formats/number.ts';
import type { BookProblem } from './store.ts';

/** Checks one stored entry; a stored row is as foreign as a file. */
export function readEntry(
  path: string,
  data: unknown,
): { ok: true; value: BookEntry } | { ok: false; problem: BookProblem } {
  const checked = bookEntry.safeParse(data);
  if (checked.success) return { ok: true, value: checked.data };
  const issue = checked.error.issues[0];
  const reason =
    issue === undefined
      ? 'it is not an entry of a book'
      : `${issue.path.join('.') || 'the entry'}: ${issue.message}`;
  return { ok: false, problem: { code: 'entry-damaged', path, reason } };
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
