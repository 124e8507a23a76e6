import type { BookEntry } from '#formats/book.ts';
import { BOOK_FILE, BOOK_FILE_TEXT, entryPath, isEntryPath } from './place.ts';
import { entryBytes, readEntryBytes } from './read-entry.ts';
import type { BookProblem, BookStore } from './store.ts';

/** A folder, a zip held open, a linked folder: whatever has files by path. `write` replaces a file whole or not at all. */
export interface FileTree {
  paths(): Promise<string[]>;
  read(path: string): Promise<Uint8Array | null>;
  write(path: string, bytes: Uint8Array): Promise<void>;
  remove(path: string): Promise<void>;
}

/** Files by path in memory, for tests and for archives being looked at. */
export function memoryTree(files: ReadonlyMap<string, Uint8Array> = new Map()): FileTree {
  const kept = new Map(files);
  return {
    paths: async () => [...kept.keys()].sort(),
    read: async (path) => kept.get(path) ?? null,
    write: async (path, bytes) => void kept.set(path, bytes),
    remove: async (path) => void kept.delete(path),
  };
}

/**
 * The book as files. A folder has no transactions: a run's log and verdicts are written before its run.json, so that a crash
 * between leaves files that no entry names (found by the check), never an entry without its files.
 */
export function treeStore(tree: FileTree): BookStore {
  const entryAt = async (path: string): Promise<BookEntry | null> => {
    const bytes = await tree.read(path);
    const read = bytes === null ? null : readEntryBytes(path, bytes);
    return read?.ok ? read.value : null;
  };
  async function allEntries(): Promise<{ entries: BookEntry[]; damaged: BookProblem[] }> {
    const entries: BookEntry[] = [];
    const damaged: BookProblem[] = [];
    for (const path of await tree.paths()) {
      if (!isEntryPath(path)) continue;
      const bytes = await tree.read(path);
      if (bytes === null) continue;
      const read = readEntryBytes(path, bytes);
      if (read.ok) entries.push(read.value);
      else damaged.push(read.problem);
    }
    return { entries, damaged };
  }
  return {
    entries: allEntries,
    list: allEntries,
    entry: entryAt,
    file: (path) => tree.read(path),
    paths: () => tree.paths(),
    async write(entries, files) {
      try {
        for (const entry of entries) {
          const path = entryPath(entry);
          const bytes = await tree.read(path);
          const read = bytes === null ? null : readEntryBytes(path, bytes);
          const current = read?.ok ? read.value : null;
          // A later version of the program wrote it and can read it: it is not damaged.
          if (read?.ok === false && read.problem.code === 'entry-damaged' && read.problem.newer)
            return { ok: false, problem: read.problem };
          if (entry.revision !== (current?.revision ?? 0) + 1)
            return { ok: false, problem: { code: 'changed-elsewhere', path, current } };
        }
        if ((await tree.read(BOOK_FILE)) === null)
          await tree.write(BOOK_FILE, new TextEncoder().encode(BOOK_FILE_TEXT));
        for (const file of files) await tree.write(file.path, file.bytes);
        for (const entry of entries) await tree.write(entryPath(entry), entryBytes(entry));
        return { ok: true, value: null };
      } catch (error) {
        return { ok: false, problem: problemOf(error) };
      }
    },
    async remove(paths) {
      try {
        for (const path of paths) await tree.remove(path);
        return { ok: true, value: null };
      } catch (error) {
        return { ok: false, problem: problemOf(error) };
      }
    },
    close: () => undefined,
  };
}

function problemOf(error: unknown): BookProblem {
  const code = typeof error === 'object' && error !== null && 'code' in error ? error.code : null;
  const name = error instanceof Error ? error.name : '';
  if (code === 'ENOSPC' || code === 'EDQUOT' || name === 'QuotaExceededError') return { code: 'no-room' };
  return { code: 'not-kept', reason: error instanceof Error ? error.message : String(error) };
}
