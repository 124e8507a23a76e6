import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { BookEntry } from '#formats/book.ts';
import { listed, packList, patchedList, unpackList, type ListedEntries } from './packed-list.ts';
import { entryPath, isEntryPath } from './place.ts';
import { readEntry } from './read-entry.ts';
import type { BookProblem, BookResult, BookStore } from './store.ts';

interface BookDatabase extends DBSchema {
  /** Small rows: listed and searched. */
  entries: { key: string; value: unknown };
  /** Bytes by path: never listed. */
  files: { key: string; value: Uint8Array };
}

/** Rows among the files that are no file of the book: all entries packed for lists, and the paths that changed since they were packed. */
const LIST = '~list',
  CHANGED = '~list-changed';
const isBooks = (key: string): boolean => !key.startsWith('~');
const pathsIn = (bytes: Uint8Array | undefined): string[] =>
  bytes === undefined || bytes.length === 0 ? [] : new TextDecoder().decode(bytes).split('\n');
const pathBytes = (paths: readonly string[]): Uint8Array => new TextEncoder().encode(paths.join('\n'));

/**
 * The book in the browser's database. Entries and bytes lie in two stores, written in one transaction.
 * @param onTakenOver called when another window needs a newer layout: this one must be closed
 */
export async function openBrowserBook(name: string, onTakenOver: () => void): Promise<BookResult<BookStore>> {
  let database: IDBPDatabase<BookDatabase>;
  try {
    database = await openDB<BookDatabase>(name, 1, {
      upgrade(db) {
        db.createObjectStore('entries');
        db.createObjectStore('files');
      },
      blocking() {
        database.close();
        onTakenOver();
      },
    });
  } catch (error) {
    return { ok: false, problem: problemOf(error) };
  }
  return { ok: true, value: browserStore(database) };
}

function browserStore(database: IDBPDatabase<BookDatabase>): BookStore {
  async function allEntries(): Promise<ListedEntries> {
    const transaction = database.transaction('entries');
    const [keys, values] = await Promise.all([transaction.store.getAllKeys(), transaction.store.getAll()]);
    const entries: BookEntry[] = [];
    const damaged: BookProblem[] = [];
    values.forEach((value, index) => {
      const read = readEntry(keys[index] ?? '', value);
      if (read.ok) entries.push(read.value);
      else damaged.push(read.problem);
    });
    return { entries, damaged };
  }

  /** The packed list and what changed since, as they stand together; no list where there is none that fits the entries. */
  async function packed(): Promise<{ list: ListedEntries | null; changed: string[] }> {
    const transaction = database.transaction(['entries', 'files']);
    const files = transaction.objectStore('files');
    const [bytes, changedBytes, count] = await Promise.all([
      files.get(LIST),
      files.get(CHANGED),
      transaction.objectStore('entries').count(),
    ]);
    const list = bytes === undefined ? null : unpackList(bytes);
    const changed = pathsIn(changedBytes);
    // Written by something that knows of no list: then it is made anew.
    const fits = list !== null && (changed.length > 0 || list.entries.length + list.damaged.length === count);
    return { list: fits ? list : null, changed };
  }

  /** Keeps a list for the next time; a full disk only makes that slower. */
  async function keepList(list: ListedEntries, changedBefore: readonly string[]): Promise<void> {
    try {
      const transaction = database.transaction('files', 'readwrite', { durability: 'relaxed' });
      const now = pathsIn(await transaction.store.get(CHANGED));
      // Another window packed it meanwhile: its list stands.
      if (!changedBefore.every((path, index) => now[index] === path)) return;
      // What was changed while the list was made is looked at the next time, also what was changed a second time.
      await transaction.store.put(pathBytes(now.slice(changedBefore.length)), CHANGED);
      await transaction.store.put(packList(list), LIST);
      await transaction.done;
    } catch {
      // Nothing of the book hangs on it.
    }
  }

  return {
    entries: allEntries,
    async list() {
      const before = await packed();
      if (before.list === null) {
        const { entries, damaged } = await allEntries();
        const list = { entries: entries.map(listed), damaged };
        await keepList(list, before.changed);
        return list;
      }
      if (before.changed.length === 0) return before.list;
      const rows = database.transaction('entries').store;
      const now = new Map<string, { entry: BookEntry } | { problem: BookProblem } | null>();
      await Promise.all(
        before.changed.filter(isEntryPath).map(async (path) => {
          const value: unknown = await rows.get(path);
          const read = value === undefined ? null : readEntry(path, value);
          now.set(path, read === null ? null : read.ok ? { entry: read.value } : { problem: read.problem });
        }),
      );
      const list = patchedList(before.list, now);
      await keepList(list, before.changed);
      return list;
    },
    async entry(path) {
      const value = await database.get('entries', path);
      const read = value === undefined ? null : readEntry(path, value);
      return read?.ok ? read.value : null;
    },
    async file(path) {
      return (await database.get('files', path)) ?? null;
    },
    async paths() {
      const transaction = database.transaction(['entries', 'files']);
      const [entries, files] = await Promise.all([
        transaction.objectStore('entries').getAllKeys(),
        transaction.objectStore('files').getAllKeys(),
      ]);
      return [...entries, ...files.filter(isBooks)].sort();
    },
    async write(entries, files) {
      // Relaxed durability could lose the last seconds on a power cut; a verdict is worth the disk's time.
      const transaction = database.transaction(['entries', 'files'], 'readwrite', { durability: 'strict' });
      const done = transaction.done.then(
        () => null,
        (error: unknown) => error,
      );
      try {
        const rows = transaction.objectStore('entries');
        const bytes = transaction.objectStore('files');
        for (const entry of entries) {
          const path = entryPath(entry);
          const value: unknown = await rows.get(path);
          const kept = value === undefined ? null : readEntry(path, value);
          const current = kept?.ok ? kept.value : null;
          // A later version of the program wrote it and can read it: it is not damaged.
          if (kept?.ok === false && kept.problem.code === 'entry-damaged' && kept.problem.newer) {
            transaction.abort();
            await done;
            return { ok: false, problem: kept.problem };
          }
          if (entry.revision !== (current?.revision ?? 0) + 1) {
            transaction.abort();
            await done;
            return { ok: false, problem: { code: 'changed-elsewhere', path, current } };
          }
          await rows.put(entry, path);
        }
        for (const file of files) await bytes.put(file.bytes, file.path);
        await noteChanged(bytes, entries.map(entryPath));
        const failure = await done;
        return failure === null ? { ok: true, value: null } : { ok: false, problem: problemOf(failure) };
      } catch (error) {
        // What was put before it must not stay by itself.
        undo(transaction);
        await done;
        return { ok: false, problem: problemOf(error) };
      }
    },
    async remove(paths) {
      const transaction = database.transaction(['entries', 'files'], 'readwrite');
      const done = transaction.done.then(
        () => null,
        (error: unknown) => error,
      );
      try {
        for (const path of paths) {
          await transaction.objectStore('entries').delete(path);
          await transaction.objectStore('files').delete(path);
        }
        await noteChanged(transaction.objectStore('files'), paths.filter(isEntryPath));
        const failure = await done;
        return failure === null ? { ok: true, value: null } : { ok: false, problem: problemOf(failure) };
      } catch (error) {
        undo(transaction);
        await done;
        return { ok: false, problem: problemOf(error) };
      }
    },
    close: () => database.close(),
  };
}

/** Breaks a transaction off; one that broke off by itself is over already. */
function undo(transaction: { abort: () => void }): void {
  try {
    transaction.abort();
  } catch {
    // It is.
  }
}

/** In the step that changes entries: a list that was packed before is patched by them. */
async function noteChanged(
  files: {
    get: (key: string) => Promise<Uint8Array | undefined>;
    put: (bytes: Uint8Array, key: string) => Promise<string>;
  },
  paths: readonly string[],
): Promise<void> {
  if (paths.length > 0) await files.put(pathBytes([...pathsIn(await files.get(CHANGED)), ...paths]), CHANGED);
}

function problemOf(error: unknown): BookProblem {
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  if (name === 'QuotaExceededError') return { code: 'no-room' };
  return { code: 'not-kept', reason: error instanceof Error ? error.message : String(error) };
}
