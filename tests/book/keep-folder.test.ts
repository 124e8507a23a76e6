import { describe, expect, it } from 'vitest';
import { checkBook } from '#book/check-book.ts';
import { bringFolderUpToDate } from '#book/keep-folder.ts';
import { entryBytes } from '#book/read-entry.ts';
import { memoryTree, treeStore, type FileTree } from '#book/tree-store.ts';
import { madeRun, madeUnit, sha256 } from './made-book.ts';

/** A book of one unit with one run. */
async function book() {
  const store = treeStore(memoryTree());
  const { run, files } = madeRun('r1', 'u1', 'the log');
  await store.write([madeUnit('u1'), run], files);
  return { store, run };
}
/** A tree that counts what is written into it. */
function counted(): { tree: FileTree; written: string[] } {
  const tree = memoryTree();
  const written: string[] = [];
  return {
    written,
    tree: {
      ...tree,
      write: (path, bytes) => {
        written.push(path);
        return tree.write(path, bytes);
      },
    },
  };
}

describe('a folder that is kept up to date', () => {
  it('is a whole book by itself, each run’s files before its entry; later only what changed is written', async () => {
    const { store, run } = await book();
    const { tree, written } = counted();
    const first = await bringFolderUpToDate(store, tree, {}, sha256);
    expect(first).toMatchObject({ changed: 2, newer: [] });
    expect((await checkBook(treeStore(tree), sha256)).findings).toEqual([]);
    expect(written.indexOf('runs/r1/run.json')).toBeGreaterThan(written.indexOf('runs/r1/log.gz'));
    written.length = 0;
    await store.write([{ ...run, revision: 2, note: 'lock nut was loose' }], []);
    const second = await bringFolderUpToDate(store, tree, first.written, sha256);
    expect(second.changed).toBe(1);
    expect(written).toEqual(['runs/r1/run.json']);
    expect(await bringFolderUpToDate(store, tree, second.written, sha256)).toMatchObject({ changed: 0 });
  });

  it('leaves what is newer in the folder, and names it', async () => {
    const { store, run } = await book();
    const tree = memoryTree();
    const newer = entryBytes({ ...run, note: 'by the command line', changedAt: '2027-01-01T00:00:00Z' });
    await tree.write('runs/r1/run.json', newer);
    const kept = await bringFolderUpToDate(store, tree, {}, sha256);
    expect(kept.newer).toEqual(['runs/r1/run.json']);
    expect(await tree.read('runs/r1/run.json')).toEqual(newer);
  });

  it('takes nothing out of the folder: a browser that lost its book does not take the folder’s with it', async () => {
    const { store } = await book();
    const tree = memoryTree();
    await bringFolderUpToDate(store, tree, {}, sha256);
    const before = await tree.paths();
    await bringFolderUpToDate(treeStore(memoryTree()), tree, {}, sha256);
    expect(await tree.paths()).toEqual(before);
  });

  it('writes a damaged log of the book over no whole one, and a whole one over a damaged one', async () => {
    const { store, run } = await book();
    const tree = memoryTree();
    const first = await bringFolderUpToDate(store, tree, {}, sha256);
    const whole = await tree.read('runs/r1/log.gz');
    if (whole === null) throw new Error('no log');
    const cut = whole.slice(0, 12);
    // Damaged in the book, and the run was changed since.
    await store.write([{ ...run, revision: 2, note: 'a' }], [{ path: 'runs/r1/log.gz', bytes: cut }]);
    const second = await bringFolderUpToDate(store, tree, first.written, sha256);
    expect(second.changed).toBe(1);
    expect(await tree.read('runs/r1/log.gz')).toEqual(whole);
    // Damaged in the folder, without another length.
    const flipped = whole.map((byte, index) => (index === 15 ? byte ^ 1 : byte));
    await tree.write('runs/r1/log.gz', flipped);
    await store.write([{ ...run, revision: 3, note: 'b' }], [{ path: 'runs/r1/log.gz', bytes: whole }]);
    await bringFolderUpToDate(store, tree, second.written, sha256);
    expect(await tree.read('runs/r1/log.gz')).toEqual(whole);
  });
});
