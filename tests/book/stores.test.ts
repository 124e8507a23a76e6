import 'fake-indexeddb/auto';
import { gunzipSync } from 'fflate';
import { openDB } from 'idb';
import { describe, expect, it, vi } from 'vitest';
import { openBrowserBook } from '#book/browser-store.ts';
import { findingSentence } from '#book/check-book.ts';
import { planMerge, soundFiles, writesOf } from '#book/merge.ts';
import { entryBytes } from '#book/read-entry.ts';
import type { BookStore } from '#book/store.ts';
import { entryPath } from '#book/place.ts';
import type { BookEntry } from '#formats/book.ts';
import { memoryTree, treeStore } from '#book/tree-store.ts';
import { madeRun, madeUnit, sha256 } from './made-book.ts';

let books = 0;
const stores: Record<string, () => Promise<BookStore>> = {
  'browser database': async () => {
    const opened = await openBrowserBook(`test-${++books}`, () => undefined);
    if (!opened.ok) throw new Error(opened.problem.code);
    return opened.value;
  },
  folder: async () => treeStore(memoryTree()),
};

for (const [name, open] of Object.entries(stores)) {
  describe(`the book in a ${name}`, () => {
    it('keeps a unit and a run, and gives the log back unchanged', async () => {
      const store = await open();
      const { run, files } = madeRun('r1', 'u1', 'elapsed_s,pressure_psi\n0,410\n');
      expect(await store.write([madeUnit('u1'), run], files)).toEqual({ ok: true, value: null });
      const { entries, damaged } = await store.entries();
      expect(damaged).toEqual([]);
      expect(entries.map((entry) => entry.id).sort()).toEqual(['r1', 'u1']);
      const kept = await store.file('runs/r1/log.gz');
      expect(new TextDecoder().decode(gunzipSync(kept ?? new Uint8Array()))).toBe(
        'elapsed_s,pressure_psi\n0,410\n',
      );
      expect(await store.entry('runs/r1/run.json')).toEqual(run);
      store.close();
    });

    it('refuses a change made on an older state and says what is kept now', async () => {
      const store = await open();
      await store.write([madeUnit('u1')], []);
      const first = await store.write([madeUnit('u1', { revision: 2, goneOutOn: '2026-03-06' })], []);
      expect(first.ok).toBe(true);
      const second = await store.write([madeUnit('u1', { revision: 2, goneOutOn: '2026-03-09' })], []);
      expect(second).toMatchObject({
        ok: false,
        problem: { code: 'changed-elsewhere', current: { goneOutOn: '2026-03-06' } },
      });
      expect(await store.entry('units/u1.json')).toMatchObject({ goneOutOn: '2026-03-06', revision: 2 });
      store.close();
    });

    it('writes nothing of a step when one entry of it is refused', async () => {
      const store = await open();
      await store.write([madeUnit('u1')], []);
      const { run, files } = madeRun('r1', 'u1', 'x');
      const written = await store.write([run, madeUnit('u1', { revision: 1 })], files);
      expect(written.ok).toBe(false);
      expect(await store.entry('runs/r1/run.json')).toBeNull();
      expect(await store.file('runs/r1/log.gz')).toBeNull();
      store.close();
    });

    it('removes for good only what it is told to', async () => {
      const store = await open();
      const { run, files } = madeRun('r1', null, 'x');
      await store.write([run, madeUnit('u1')], files);
      await store.remove(['runs/r1/run.json', 'runs/r1/log.gz', 'runs/r1/assessment-1.json']);
      expect((await store.paths()).filter((path) => path !== 'book.json')).toEqual(['units/u1.json']);
      store.close();
    });
  });
}

describe('places that fail', () => {
  it('a full disk is told, and the entry is not half there', async () => {
    const tree = memoryTree();
    let writes = 0;
    const store = treeStore({
      ...tree,
      write: async (path, bytes) => {
        if (++writes > 2) throw Object.assign(new Error('no space left on device'), { code: 'ENOSPC' });
        await tree.write(path, bytes);
      },
    });
    const { run, files } = madeRun('r1', null, 'x');
    expect(await store.write([run], files)).toEqual({ ok: false, problem: { code: 'no-room' } });
    expect(await store.entry('runs/r1/run.json')).toBeNull();
  });
  it('a damaged entry is named and the others are still listed', async () => {
    const store = treeStore(memoryTree(new Map([['units/u9.json', new TextEncoder().encode('{ "half": ')]])));
    await store.write([madeUnit('u1')], []);
    const { entries, damaged } = await store.entries();
    expect(entries.map((entry) => entry.id)).toEqual(['u1']);
    expect(damaged).toMatchObject([{ code: 'entry-damaged', path: 'units/u9.json' }]);
  });
});

describe('a write that breaks off in the browser’s database', () => {
  it('leaves no entry without its files, also where the browser throws at once', async () => {
    const opened = await openBrowserBook('throws', () => undefined);
    if (!opened.ok) throw new Error('not opened');
    const { run, files } = madeRun('r1', null, 'x');
    const put = vi.spyOn(IDBObjectStore.prototype, 'put');
    // The first is the entry's; its files come after it.
    put.mockImplementationOnce(function (this: IDBObjectStore, ...given) {
      put.mockRestore();
      const asked = this.put(...given);
      vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
        throw new DOMException('full', 'QuotaExceededError');
      });
      return asked;
    });
    expect(await opened.value.write([run], files)).toEqual({ ok: false, problem: { code: 'no-room' } });
    vi.restoreAllMocks();
    expect(await opened.value.paths()).toEqual([]);
    opened.value.close();
  });
});

describe('an entry of a later version of the program', () => {
  it('is named as such, and neither a write nor a copy goes over it', async () => {
    const later = { ...madeUnit('u1'), version: 2, more: 'than this version knows' };
    const bytes = new TextEncoder().encode(JSON.stringify(later));
    const tree = memoryTree(new Map([['units/u1.json', bytes]]));
    const book = treeStore(tree);
    expect((await book.entries()).damaged).toMatchObject([
      { newer: true, reason: expect.stringContaining('later version of this program (entry version 2)') },
    ]);
    expect(await book.write([madeUnit('u1')], [])).toMatchObject({
      ok: false,
      problem: { code: 'entry-damaged', newer: true },
    });
    const copy = new Map([['units/u1.json', entryBytes(madeUnit('u1'))]]);
    const plan = await planMerge(book, copy, sha256);
    expect(writesOf(plan)).toEqual([]);
    expect(plan.damaged).toMatchObject([{ reason: expect.stringContaining('later version') }]);
    expect(await tree.read('units/u1.json')).toEqual(bytes);
    const opened = await openBrowserBook('later', () => undefined);
    if (!opened.ok) throw new Error('not opened');
    const database = await openDB('later');
    await database.put('entries', later, 'units/u1.json');
    database.close();
    expect((await opened.value.write([madeUnit('u1')], [])).ok).toBe(false);
    expect(writesOf(await planMerge(opened.value, copy, sha256))).toEqual([]);
    opened.value.close();
  });
  it('in a copy is left out and named, what else is in it comes', async () => {
    const files = new Map([
      ['units/u1.json', new TextEncoder().encode(JSON.stringify({ ...madeUnit('u1'), version: 9 }))],
      ['units/u2.json', entryBytes(madeUnit('u2'))],
    ]);
    const sound = await soundFiles(files, sha256);
    expect(sound.findings.map(findingSentence)).toEqual([
      'units/u1.json cannot be read: it was written by a later version of this program (entry version 9), which can read it. Use that version for it.',
    ]);
    expect(writesOf(await planMerge(treeStore(memoryTree()), sound.files, sha256))).toMatchObject([
      { what: 'add', path: 'units/u2.json' },
    ]);
  });
});

describe('the packed list of a browser’s book', () => {
  const open = async (name: string): Promise<BookStore> => {
    const opened = await openBrowserBook(name, () => undefined);
    if (!opened.ok) throw new Error('not opened');
    return opened.value;
  };
  const byPath = (entries: readonly BookEntry[]): Record<string, BookEntry> =>
    Object.fromEntries(entries.map((entry) => [entryPath(entry), entry]));
  const sorted = ({ entries }: Awaited<ReturnType<BookStore['list']>>) => byPath(entries);
  const whole = async (store: BookStore) =>
    byPath(
      (await store.entries()).entries.map((entry) =>
        entry.format === 'overdrive-bench/book-run' ? { ...entry, outline: null } : entry,
      ),
    );

  it('says what the entries say, after every kind of change, from every window, and is no file of the book', async () => {
    const store = await open('packed');
    const other = await open('packed');
    expect((await store.list()).entries).toEqual([]);
    const { run, files } = madeRun('r1', 'u1', 'a');
    await store.write([madeUnit('u1'), run], files);
    expect(sorted(await store.list())).toEqual(await whole(store));
    await other.write([{ ...run, revision: 2, note: 'from the other window' }], []);
    await other.write([{ ...run, revision: 3, note: 'twice' }], []);
    expect(sorted(await store.list())).toEqual(await whole(store));
    expect(sorted(await other.list())).toEqual(await whole(store));
    await store.remove(['units/u1.json']);
    expect(sorted(await other.list())).toEqual(await whole(store));
    expect((await store.list()).entries).toHaveLength(1);
    expect((await store.paths()).every((path) => !path.startsWith('~'))).toBe(true);
    store.close();
    other.close();
  });

  it('a change that comes while the list is packed is not lost to it', async () => {
    const store = await open('packed-late');
    const { run, files } = madeRun('r1', null, 'a');
    await store.write([run], files);
    await store.list();
    const changes = Array.from({ length: 12 }, (_, index) => index + 2);
    await Promise.all(
      changes.flatMap((revision) => [
        store.write([{ ...run, revision, note: String(revision) }], []),
        store.list(),
      ]),
    );
    expect(sorted(await store.list())).toEqual(await whole(store));
    store.close();
  });

  it('that is harmed, or of something that knew of no list, is made anew', async () => {
    const store = await open('packed-harmed');
    const { run, files } = madeRun('r1', null, 'a');
    await store.write([run], files);
    await store.list();
    await store.write([], [{ path: '~list', bytes: new Uint8Array([1, 2, 3, 4, 5, 6, 7, 8]) }]);
    expect(sorted(await store.list())).toEqual(await whole(store));
    store.close();
  });
});
