import { describe, expect, it } from 'vitest';
import { checkBook } from '#book/check-book.ts';
import { bringFolderUpToDate } from '#book/keep-folder.ts';
import { carryOutMerge, nothingMerged, planMerge, renumbered, writesOf } from '#book/merge.ts';
import { entryBytes } from '#book/read-entry.ts';
import type { BookStore } from '#book/store.ts';
import { memoryTree, treeStore } from '#book/tree-store.ts';
import { withVerdict } from '#book/new-run.ts';
import type { BookRun, KeptAssessment, KeptSpec } from '#formats/book.ts';
import { madeRun, sha256 } from './made-book.ts';

const PATH = 'runs/r1/run.json';
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A run with one verdict, grown by a second one that is made at an instant. */
async function grown(
  store: BookStore,
  decidedAt: string,
  text: string,
  change: Partial<BookRun> = {},
): Promise<BookRun> {
  const { run, files } = madeRun('r1', null, 'the log');
  const [first] = run.assessments;
  if (first === undefined) throw new Error('no verdict');
  const second: KeptAssessment = {
    ...first,
    decidedAt,
    verdict: 'pass',
    sha256: sha256(bytesOf(text)),
    file: 'assessment-2.json',
  };
  const entry = { ...run, assessments: [first, second], changedAt: decidedAt, ...change };
  await store.write([entry], [...files, { path: 'runs/r1/assessment-2.json', bytes: bytesOf(text) }]);
  return entry;
}
async function filesOf(store: BookStore): Promise<Map<string, Uint8Array>> {
  const found = new Map<string, Uint8Array>();
  for (const path of await store.paths()) {
    const bytes = await store.file(path);
    if (bytes !== null) found.set(path, bytes);
  }
  return found;
}
const runIn = async (store: BookStore): Promise<BookRun> => {
  const entry = await store.entry(PATH);
  if (entry?.format !== 'overdrive-bench/book-run') throw new Error('no run');
  return entry;
};
/** Every verdict of a run by what its file says, oldest first. */
const said = async (store: BookStore): Promise<string[]> =>
  Promise.all(
    (await runIn(store)).assessments.map(async ({ file }) =>
      new TextDecoder().decode((await store.file(`runs/r1/${file}`)) ?? new Uint8Array()),
    ),
  );

describe('two copies of a book that both grew a verdict under one number', () => {
  const early = '2026-03-05T09:00:00Z',
    late = '2026-03-06T09:00:00Z';
  for (const [name, here, there] of [
    ['the copy’s is newer', early, late],
    ['the book’s is newer', late, early],
  ] as const)
    it(`keeps both, each under a number of its own, where ${name}`, async () => {
      const book = treeStore(memoryTree()),
        copy = treeStore(memoryTree());
      await grown(book, here, '{ "of": "the book" }\n', { note: 'book' });
      await grown(copy, there, '{ "of": "the copy" }\n', { note: 'copy' });
      const files = await filesOf(copy);
      const plan = await planMerge(book, files, sha256);
      const [step] = writesOf(plan);
      expect(step).toMatchObject({ what: 'join', path: PATH, gained: 1 });
      expect(step && renumbered(step)).toEqual([{ from: 'assessment-2.json', to: 'assessment-3.json' }]);
      expect(await carryOutMerge(book, plan, files)).toEqual({
        ...nothingMerged(0),
        added: 0,
        replaced: 0,
        joined: 1,
      });
      expect(await said(book)).toEqual([
        '{ "made": "for the test of r1" }\n',
        here < there ? '{ "of": "the book" }\n' : '{ "of": "the copy" }\n',
        here < there ? '{ "of": "the copy" }\n' : '{ "of": "the book" }\n',
      ]);
      // What counts is the latest decision, and what else is said is of the copy that was touched last.
      expect((await runIn(book)).note).toBe(here < there ? 'copy' : 'book');
      expect((await checkBook(book, sha256)).findings).toEqual([]);
      // Brought back a second time it changes nothing; brought the other way it is the same book.
      expect(writesOf(await planMerge(book, files, sha256))).toEqual([]);
      const back = await filesOf(book);
      await carryOutMerge(copy, await planMerge(copy, back, sha256), back);
      expect(await said(copy)).toEqual(await said(book));
      expect((await checkBook(copy, sha256)).findings).toEqual([]);
    });

  it('a copy that was only changed since, with fewer verdicts, takes none away', async () => {
    const book = treeStore(memoryTree()),
      copy = treeStore(memoryTree());
    await grown(book, early, '{ "of": "the book" }\n');
    const { run, files } = madeRun('r1', null, 'the log', { changedAt: late, note: 'written down later' });
    await copy.write([run], files);
    const incoming = await filesOf(copy);
    await carryOutMerge(book, await planMerge(book, incoming, sha256), incoming);
    expect((await runIn(book)).note).toBe('written down later');
    expect(await said(book)).toHaveLength(2);
    expect((await checkBook(book, sha256)).findings).toEqual([]);
  });

  it('a verdict whose entry is damaged in the book is not written over', async () => {
    const book = treeStore(memoryTree()),
      copy = treeStore(memoryTree());
    await grown(copy, late, '{ "of": "the copy" }\n');
    await book.write([], [{ path: PATH, bytes: bytesOf('{ "half') }]);
    await book.write([], [{ path: 'runs/r1/assessment-2.json', bytes: bytesOf('{ "of": "the book" }\n') }]);
    const incoming = await filesOf(copy);
    await carryOutMerge(book, await planMerge(book, incoming, sha256), incoming);
    expect((await said(book))[1]).toBe('{ "of": "the copy" }\n');
    expect(await book.file('runs/r1/assessment-2.json')).toEqual(bytesOf('{ "of": "the book" }\n'));
  });

  it('another log under the same id is left out and named, and the book’s stays', async () => {
    const book = treeStore(memoryTree()),
      copy = treeStore(memoryTree());
    const own = madeRun('r1', null, 'the log');
    const other = madeRun('r1', null, 'another log', { changedAt: late });
    await book.write([own.run], own.files);
    await copy.write([other.run], other.files);
    const plan = await planMerge(book, await filesOf(copy), sha256);
    expect(writesOf(plan)).toEqual([]);
    expect(plan.damaged).toMatchObject([{ path: PATH, reason: expect.stringContaining('another log') }]);
  });

  it('a later verdict takes a number that is free, also after numbers were given out of order', async () => {
    const { run } = madeRun('r1', null, 'the log');
    const [first] = run.assessments;
    if (first === undefined) throw new Error('no verdict');
    const gap = { ...run, assessments: [first, { ...first, sha256: 'b', file: 'assessment-3.json' }] };
    const verdict = { assessment: assessmentLike(), bytes: bytesOf('{}'), sha256: 'c' };
    const later = withVerdict(gap, verdict, {}, null, late);
    expect(later?.run.assessments.map(({ file }) => file)).toEqual([
      'assessment-1.json',
      'assessment-3.json',
      'assessment-2.json',
    ]);
  });

  it('versions of limits of both copies are kept', async () => {
    const spec = (high: number) => ({
      format: 'overdrive-bench/spec' as const,
      version: 1 as const,
      name: 'Type R',
      pressureBand: { low: 400, high, unit: 'psi' as const },
    });
    const kept = (changedAt: string, high: number): KeptSpec => ({
      format: 'overdrive-bench/book-spec',
      version: 1,
      id: 's1',
      revision: 1,
      changedAt,
      removedAt: null,
      versions: [
        { savedAt: '2026-03-01T09:00:00Z', spec: spec(420) },
        { savedAt: changedAt, spec: spec(high) },
      ],
    });
    const book = treeStore(memoryTree());
    await book.write([kept(late, 430)], []);
    const files = new Map([['specs/s1.json', entryBytes(kept(early, 425))]]);
    await carryOutMerge(book, await planMerge(book, files, sha256), files);
    const entry = await book.entry('specs/s1.json');
    const highs =
      entry?.format === 'overdrive-bench/book-spec'
        ? entry.versions.map((version) => version.spec.pressureBand.high)
        : [];
    expect(highs).toEqual([420, 425, 430]);
  });
});

describe('a linked folder that grew a verdict of its own', () => {
  it('keeps it beside the book’s, under another number, and says so', async () => {
    const book = treeStore(memoryTree());
    const tree = memoryTree();
    const folder = treeStore(tree);
    const run = await grown(book, '2026-03-06T09:00:00Z', '{ "of": "the book" }\n');
    // As many bytes: a length tells nothing.
    await grown(folder, '2026-03-05T09:00:00Z', '{ "of": "fold  r" }\n');
    const kept = await bringFolderUpToDate(book, tree, {}, sha256);
    expect(kept).toMatchObject({ changed: 1, newer: [], joined: [PATH] });
    expect((await said(folder)).toSorted()).toEqual([
      '{ "made": "for the test of r1" }\n',
      '{ "of": "fold  r" }\n',
      '{ "of": "the book" }\n',
    ]);
    expect((await checkBook(folder, sha256)).findings).toEqual([]);
    // A later change of the book takes it away as little.
    await book.write([{ ...run, revision: 2, note: 'later', changedAt: '2026-03-07T09:00:00Z' }], []);
    await bringFolderUpToDate(book, tree, kept.written, sha256);
    expect(await said(folder)).toHaveLength(3);
    expect((await runIn(folder)).note).toBe('later');
    expect((await checkBook(folder, sha256)).findings).toEqual([]);
  });
});

function assessmentLike() {
  const made: unknown = {
    program: { version: '0.1.0' },
    verdict: 'pass',
    criteria: [],
    quantities: { operatingPressure: { value: 410, expandedUncertainty: 1, unit: 'psi' } },
  };
  return made as Parameters<typeof withVerdict>[1]['assessment'];
}
