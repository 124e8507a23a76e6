import 'fake-indexeddb/auto';
import { gzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { openBrowserBook } from '#book/browser-store.ts';
import { checkBook } from '#book/check-book.ts';
import { mendWords } from '#book/mend.ts';
import { carryOutMerge, nothingMerged, planMerge, soundFiles, writesOf } from '#book/merge.ts';
import type { BookStore } from '#book/store.ts';
import { broughtBack, noteBroughtBack, takeBack } from '#book/take-back.ts';
import { memoryTree, treeStore } from '#book/tree-store.ts';
import type { BookRun } from '#formats/book.ts';
import { madeRun, madeUnit, sha256 } from './made-book.ts';

const LOG = 'runs/r1/log.gz',
  VERDICT = 'runs/r1/assessment-1.json',
  ENTRY = 'runs/r1/run.json',
  EARLY = '2026-03-05T09:00:00Z',
  LATE = '2026-04-05T09:00:00Z';
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const text = Array.from({ length: 300 }, (_, i) => `${i},${400 + (i % 7)}`).join('\n');
const VERDICT_TEXT = `{ "verdict": "fail", "quantities": { "operatingPressure": { "value": 425.1, "expandedUncertainty": 3.5, "unit": "psi" } } }\n`;

/** A run whose verdict's file says what its entry says. */
function judgedRun(change: Partial<BookRun> = {}): ReturnType<typeof madeRun> {
  const { run, files } = madeRun('r1', 'u1', text, change);
  const verdict = bytesOf(VERDICT_TEXT);
  return {
    run: { ...run, assessments: run.assessments.map((each) => ({ ...each, sha256: sha256(verdict) })) },
    files: files.map((file) => (file.path === VERDICT ? { ...file, bytes: verdict } : file)),
  };
}
async function copyOf(change: Partial<BookRun> = {}): Promise<Map<string, Uint8Array>> {
  const store = treeStore(memoryTree());
  const { run, files } = judgedRun(change);
  await store.write([madeUnit('u1'), run], files);
  const found = new Map<string, Uint8Array>();
  for (const path of await store.paths()) found.set(path, (await store.file(path)) ?? new Uint8Array());
  return found;
}
let books = 0;
/** A book in the browser's database, harmed. */
async function harmedBook(harm: (store: BookStore) => Promise<unknown>): Promise<BookStore> {
  const opened = await openBrowserBook(`mend-${++books}`, () => undefined);
  if (!opened.ok) throw new Error(opened.problem.code);
  const { run, files } = judgedRun();
  await opened.value.write([madeUnit('u1'), run], files);
  await harm(opened.value);
  return opened.value;
}
const over = (path: string, bytes: Uint8Array) => (store: BookStore) => store.write([], [{ path, bytes }]);
/** What every test begins with: the book is not whole; and the bytes as they were damaged. */
async function stateOf(store: BookStore): Promise<Record<string, string>> {
  const found: Record<string, string> = {};
  for (const path of await store.paths()) {
    const bytes = await store.file(path);
    found[path] = bytes === null ? '' : sha256(bytes);
  }
  return found;
}

const harms: readonly (readonly [string, (store: BookStore) => Promise<unknown>, string])[] = [
  [
    'a log that is another one',
    over(LOG, gzipSync(bytesOf(text.replace('400', '401')), { mtime: 0 })),
    'the log is damaged here',
  ],
  [
    'a log that cannot be unpacked',
    over(LOG, new Uint8Array([0x1f, 0x8b, 8, 0, 1])),
    'the log is damaged here',
  ],
  ['a log that is missing', (store) => store.remove([LOG]), 'the log is missing here'],
  ['a verdict that was changed', over(VERDICT, bytesOf('{}\n')), 'a verdict is damaged here'],
  ['a verdict that is missing', (store) => store.remove([VERDICT]), 'a verdict is missing here'],
  [
    'an entry that says another number than its verdict',
    async (store) => {
      const entry = await store.entry(ENTRY);
      if (entry?.format !== 'overdrive-bench/book-run') throw new Error('no run');
      const assessments = entry.assessments.map((each) => ({ ...each, operatingPressure: 411 }));
      return store.write([{ ...entry, revision: 2, assessments }], []);
    },
    'what is listed of a verdict is damaged here',
  ],
];

describe('a whole copy mends a damaged book', () => {
  for (const [name, harm, words] of harms)
    it(`${name}, shown before and taken back after`, async () => {
      const book = await harmedBook(harm);
      expect((await checkBook(book, sha256)).findings).toHaveLength(1);
      const before = await stateOf(book);
      const files = (await soundFiles(await copyOf(), sha256)).files;
      const plan = await planMerge(book, files, sha256);
      expect(writesOf(plan)).toHaveLength(1);
      const [step] = writesOf(plan);
      if (step === undefined) throw new Error('no step');
      expect(step).toMatchObject({ what: 'mend', path: ENTRY });
      expect(mendWords(step.mends)).toBe(`${words} and comes whole`);
      expect(await noteBroughtBack(book, plan, { name: 'copy.zip', at: EARLY }, sha256)).toBeNull();
      expect(await carryOutMerge(book, plan, files)).toEqual({ ...nothingMerged(0), mended: 1 });
      expect((await checkBook(book, sha256)).findings).toEqual([]);
      expect(await broughtBack(book)).toMatchObject({ came: 0, changed: 1 });
      // A second time there is nothing to mend.
      expect(writesOf(await planMerge(book, files, sha256))).toEqual([]);
      const entry = await book.entry(ENTRY);
      expect(await takeBack(book, LATE, sha256)).toEqual({ ok: true, value: { out: 0, back: 1, left: [] } });
      expect(await stateOf(book)).toEqual(before);
      expect((await checkBook(book, sha256)).findings).toHaveLength(1);
      // Nothing of it stays behind.
      expect(await book.file(`~brought-back-file/${EARLY}/${LOG}`)).toBeNull();
      expect(entry?.revision).toBeGreaterThan(1);
      book.close();
    });

  it('also where the book’s entry is newer, which stays', async () => {
    const book = await harmedBook(async (store) => {
      const { run } = judgedRun();
      await store.write([{ ...run, revision: 2, changedAt: LATE, note: 'lock nut was loose' }], []);
      await store.remove([LOG]);
    });
    const files = await copyOf();
    await carryOutMerge(book, await planMerge(book, files, sha256), files);
    expect((await checkBook(book, sha256)).findings).toEqual([]);
    expect(await book.entry(ENTRY)).toMatchObject({
      note: 'lock nut was loose',
      changedAt: LATE,
      revision: 3,
    });
  });

  it('also where the copy’s entry is newer, or both have grown', async () => {
    const book = await harmedBook(over(LOG, new Uint8Array([1])));
    const files = await copyOf({ changedAt: LATE, note: 'from the copy' });
    const plan = await planMerge(book, files, sha256);
    expect(writesOf(plan)).toMatchObject([{ what: 'replace', mends: [{ what: 'log', why: 'damaged' }] }]);
    expect(await carryOutMerge(book, plan, files)).toMatchObject({ replaced: 1, mended: 1 });
    expect((await checkBook(book, sha256)).findings).toEqual([]);
    expect(await book.entry(ENTRY)).toMatchObject({ note: 'from the copy' });
  });

  it('what was changed since stays mended', async () => {
    const book = await harmedBook(over(LOG, new Uint8Array([1])));
    const files = await copyOf();
    const plan = await planMerge(book, files, sha256);
    await noteBroughtBack(book, plan, { name: 'copy.zip', at: EARLY }, sha256);
    await carryOutMerge(book, plan, files);
    const entry = await book.entry(ENTRY);
    if (entry?.format !== 'overdrive-bench/book-run') throw new Error('no run');
    await book.write([{ ...entry, revision: entry.revision + 1, note: 'since' }], []);
    expect(await takeBack(book, LATE, sha256)).toMatchObject({ value: { back: 0, left: [{ id: 'r1' }] } });
    expect((await checkBook(book, sha256)).findings).toEqual([]);
  });

  it('noted and never carried out, nothing is taken back', async () => {
    const book = await harmedBook((store) => store.remove([LOG]));
    const files = await copyOf();
    const plan = await planMerge(book, files, sha256);
    await noteBroughtBack(book, plan, { name: 'copy.zip', at: EARLY }, sha256);
    const before = await stateOf(book);
    expect(await takeBack(book, LATE, sha256)).toMatchObject({ value: { out: 0, back: 0, left: [] } });
    expect(await stateOf(book)).toEqual(before);
  });

  it('a second copy lets go of what the first one mended', async () => {
    const book = await harmedBook(over(LOG, new Uint8Array([1])));
    const files = await copyOf();
    for (const at of [EARLY, LATE]) {
      const plan = await planMerge(book, files, sha256);
      await noteBroughtBack(book, plan, { name: 'copy.zip', at }, sha256);
      await carryOutMerge(book, plan, files);
    }
    expect(await book.file(`~brought-back-file/${EARLY}/${LOG}`)).toBeNull();
  });
});

describe('a damaged copy', () => {
  const cut = new Uint8Array([0x1f, 0x8b, 8, 0, 1]);
  it('is never written over a whole log, even where nobody took out what is not sound', async () => {
    for (const change of [{}, { changedAt: LATE, note: 'newer' }]) {
      const book = await harmedBook(async () => undefined);
      const before = await book.file(LOG);
      const files = (await copyOf(change)).set(LOG, cut).set(VERDICT, bytesOf('{}'));
      await carryOutMerge(book, await planMerge(book, files, sha256), files);
      expect(await book.file(LOG)).toEqual(before);
      expect((await checkBook(book, sha256)).findings).toEqual([]);
    }
  });
  it('mends nothing, and is no step where both are damaged', async () => {
    const book = await harmedBook(over(LOG, new Uint8Array([1])));
    const files = (await copyOf()).set(LOG, cut);
    expect(writesOf(await planMerge(book, files, sha256))).toEqual([]);
    expect(await book.file(LOG)).toEqual(new Uint8Array([1]));
  });
  it('leaves a whole log whose entry is damaged in the book', async () => {
    const book = treeStore(memoryTree());
    const { files: own } = judgedRun();
    await book.write([], [...own, { path: ENTRY, bytes: bytesOf('{ "half') }]);
    const files = (await copyOf()).set(LOG, cut);
    await carryOutMerge(book, await planMerge(book, files, sha256), files);
    expect((await checkBook(book, sha256)).findings).toEqual([]);
  });
});
