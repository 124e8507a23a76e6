import 'fake-indexeddb/auto';
import { describe, expect, it } from 'vitest';
import { openBrowserBook } from '#book/browser-store.ts';
import { checkBook } from '#book/check-book.ts';
import { carryOutMerge, planMerge } from '#book/merge.ts';
import { entryPath } from '#book/place.ts';
import type { BookStore } from '#book/store.ts';
import { broughtBack, noteBroughtBack, takeBack } from '#book/take-back.ts';
import { memoryTree, treeStore } from '#book/tree-store.ts';
import type { BookEntry } from '#formats/book.ts';
import { madeRun, madeUnit, sha256 } from './made-book.ts';

const EARLY = '2026-03-05T09:00:00Z',
  LATE = '2026-04-05T09:00:00Z',
  NOW = '2026-05-05T09:00:00Z';
let books = 0;

async function openBook(): Promise<BookStore> {
  const opened = await openBrowserBook(`take-back-${++books}`, () => undefined);
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
}
/** A book with one unit of one run, and a copy that has the unit changed, a second verdict on the run, and a unit with a run more. */
async function bookAndCopy(): Promise<{ book: BookStore; copy: Map<string, Uint8Array> }> {
  const book = await openBook();
  const { run, files } = madeRun('r1', 'u1', 'the log');
  await book.write([madeUnit('u1'), run], files);
  const other = treeStore(memoryTree());
  const [first] = run.assessments;
  if (first === undefined) throw new Error('no verdict');
  const verdict = new TextEncoder().encode('{ "of": "the copy" }\n');
  const second = { ...first, decidedAt: LATE, sha256: sha256(verdict), file: 'assessment-2.json' };
  const more = madeRun('r2', 'u2', 'another log');
  await other.write(
    [
      madeUnit('u1', { changedAt: LATE, goneOutOn: '2026-04-05' }),
      { ...run, changedAt: LATE, assessments: [first, second] },
      madeUnit('u2'),
      more.run,
    ],
    [...files, { path: 'runs/r1/assessment-2.json', bytes: verdict }, ...more.files],
  );
  const copy = new Map<string, Uint8Array>();
  for (const path of await other.paths()) {
    const bytes = await other.file(path);
    if (bytes !== null) copy.set(path, bytes);
  }
  return { book, copy };
}
async function bringBack(book: BookStore, copy: ReadonlyMap<string, Uint8Array>): Promise<void> {
  const plan = await planMerge(book, copy, sha256);
  expect(await noteBroughtBack(book, plan, { name: 'copy.zip', at: EARLY }, sha256)).toBeNull();
  expect(await carryOutMerge(book, plan, copy)).toMatchObject({ left: 0, problem: null });
}
/** The whole book, each entry without what any change moves on. */
async function state(book: BookStore): Promise<unknown> {
  const { entries } = await book.entries();
  const bare = (entry: BookEntry) => [entryPath(entry), { ...entry, revision: 0, changedAt: '' }] as const;
  const files: Record<string, string> = {};
  for (const path of await book.paths()) files[path] = sha256((await book.file(path)) ?? new Uint8Array());
  return { entries: Object.fromEntries(entries.map(bare)), files };
}

describe('taking back a copy that was brought back', () => {
  it('leaves everything as it was before, and says what it did', async () => {
    const { book, copy } = await bookAndCopy();
    const before = await state(book);
    await bringBack(book, copy);
    expect(await broughtBack(book)).toEqual({ name: 'copy.zip', at: EARLY, came: 2, changed: 2 });
    expect(await state(book)).not.toEqual(before);
    expect(await takeBack(book, NOW, sha256)).toEqual({ ok: true, value: { out: 2, back: 2, left: [] } });
    expect(await state(book)).toEqual(before);
    expect((await checkBook(book, sha256)).findings).toEqual([]);
    expect(await broughtBack(book)).toBeNull();
    // And again: there is nothing more to do, and it can be brought back anew.
    expect(await takeBack(book, NOW, sha256)).toEqual({ ok: true, value: { out: 0, back: 0, left: [] } });
    await bringBack(book, copy);
    expect(await book.entry('units/u1.json')).toMatchObject({ goneOutOn: null, changedAt: NOW });
    book.close();
  });

  it('leaves what somebody changed since, and the unit that a run was given to since', async () => {
    const { book, copy } = await bookAndCopy();
    await bringBack(book, copy);
    const changed = await book.entry('units/u1.json');
    if (changed?.format !== 'overdrive-bench/book-unit') throw new Error('no unit');
    await book.write([{ ...changed, revision: changed.revision + 1, goneOutOn: '2026-05-01' }], []);
    const own = madeRun('r3', 'u2', 'a third log');
    await book.write([own.run], own.files);
    const taken = await takeBack(book, NOW, sha256);
    expect(taken.ok && taken.value.left.map(({ id }) => id).toSorted()).toEqual(['u1', 'u2']);
    expect(await book.entry('units/u1.json')).toMatchObject({ goneOutOn: '2026-05-01' });
    expect(await book.entry('runs/r2/run.json')).toBeNull();
    expect(await book.entry('runs/r3/run.json')).not.toBeNull();
    expect((await checkBook(book, sha256)).findings).toEqual([]);
    book.close();
  });

  it('a change that was put back by hand is none', async () => {
    const { book, copy } = await bookAndCopy();
    const before = await state(book);
    await bringBack(book, copy);
    const unit = await book.entry('units/u1.json');
    if (unit?.format !== 'overdrive-bench/book-unit') throw new Error('no unit');
    await book.write([{ ...unit, revision: unit.revision + 1, goneOutOn: null, changedAt: NOW }], []);
    await book.write([{ ...unit, revision: unit.revision + 2, changedAt: NOW }], []);
    await takeBack(book, NOW, sha256);
    expect(await state(book)).toEqual(before);
    book.close();
  });

  it('takes back what was broken off half way', async () => {
    const { book, copy } = await bookAndCopy();
    const before = await state(book);
    const plan = await planMerge(book, copy, sha256);
    await noteBroughtBack(book, plan, { name: 'copy.zip', at: EARLY }, sha256);
    await carryOutMerge(book, { ...plan, steps: plan.steps.slice(1, 3) }, copy);
    expect(await state(book)).not.toEqual(before);
    expect((await takeBack(book, NOW, sha256)).ok).toBe(true);
    expect(await state(book)).toEqual(before);
    book.close();
  });

  it('stopped at any place, the book is whole, and what came is said and can be taken back', async () => {
    for (let stopAt = 0; stopAt <= 4; stopAt++) {
      const { book, copy } = await bookAndCopy();
      const before = await state(book);
      const plan = await planMerge(book, copy, sha256);
      await noteBroughtBack(book, plan, { name: 'copy.zip', at: EARLY }, sha256);
      let written = 0;
      const merged = await carryOutMerge(
        book,
        plan,
        copy,
        () => void written++,
        () => written === stopAt,
      );
      expect(merged).toMatchObject({ left: 4 - stopAt, problem: null });
      expect(merged.added + merged.replaced + merged.joined).toBe(stopAt);
      // No run without its unit, no verdict without its file: only what nobody names may lie about, and it does not.
      expect((await checkBook(book, sha256)).findings).toEqual([]);
      expect((await takeBack(book, NOW, sha256)).ok).toBe(true);
      expect(await state(book)).toEqual(before);
      book.close();
    }
  });

  it('refused half way, it says what came before and how much did not', async () => {
    const { book, copy } = await bookAndCopy();
    const plan = await planMerge(book, copy, sha256);
    let writes = 0;
    const full: BookStore = {
      ...book,
      write: async (entries, files) =>
        ++writes > 2 ? { ok: false, problem: { code: 'no-room' } } : book.write(entries, files),
    };
    const merged = await carryOutMerge(full, plan, copy);
    expect(merged).toMatchObject({ left: 2, problem: { code: 'no-room' } });
    expect(merged.added + merged.replaced + merged.joined).toBe(2);
    expect((await checkBook(book, sha256)).findings).toEqual([]);
    book.close();
  });
});
