import { createReadStream } from 'node:fs';
import { readdir, stat } from 'node:fs/promises';
import { readArchive } from '#book/archive.ts';
import { BOOK_FILE, isBookPath } from '#book/place.ts';
import type { BookStore } from '#book/store.ts';
import { memoryTree, treeStore, type FileTree } from '#book/tree-store.ts';
import type { Result } from '#formats/problem.ts';
import { folderTree, isFolder } from './folder-tree.ts';
import { systemCode, systemReason } from './system-error.ts';

/** A book that lies somewhere, and what of it could not be read. */
export interface OpenedBook {
  store: BookStore;
  damaged: { path: string; reason: string }[];
}

/** A folder with a book in it. */
export async function openFolder(place: string): Promise<Result<OpenedBook>> {
  const tree = folderTree(place);
  return (await holdsBook(tree))
    ? { ok: true, value: { store: treeStore(tree), damaged: [] } }
    : { ok: false, problems: [{ code: 'no-book', place, reason: 'there is no book.json in this folder' }] };
}

/** A folder that a book may be put into: one that holds a book, an empty one, or one that is not there yet. */
export async function folderForBook(place: string): Promise<Result<FileTree>> {
  const tree = folderTree(place);
  try {
    const empty = !(await isFolder(place)) || (await readdir(place)).length === 0;
    if (!(await isFolder(place))) {
      const found = await stat(place).catch(() => null);
      if (found !== null) return notWritable(place, 'it is a file, a book needs a folder');
    }
    return empty || (await holdsBook(tree))
      ? { ok: true, value: tree }
      : notWritable(place, 'the folder holds other things and no book');
  } catch (error) {
    const code = systemCode(error);
    if (code === null) throw error;
    return notWritable(place, systemReason(code));
  }
}

/** The files of an archive. */
export async function openArchive(
  place: string,
): Promise<Result<OpenedBook & { files: Map<string, Uint8Array> }>> {
  try {
    const { files, damaged, whole } = await readArchive(
      createReadStream(place, { highWaterMark: 1024 * 1024 }) as AsyncIterable<Uint8Array>,
    );
    if (![...files.keys()].some((path) => path === BOOK_FILE || isBookPath(path)))
      return {
        ok: false,
        problems: [{ code: 'no-book', place, reason: 'it is not an archive of a book' }],
      };
    return {
      ok: true,
      value: {
        store: treeStore(memoryTree(files)),
        files,
        damaged: whole ? damaged : [...damaged, { path: place, reason: 'the archive ends before its end' }],
      },
    };
  } catch (error) {
    const code = systemCode(error);
    if (code === null) throw error;
    return {
      ok: false,
      problems: [{ code: 'file-not-readable', file: place, reason: systemReason(code) }],
    };
  }
}

/** A folder or an archive, whichever lies there. */
export const openPlace = async (place: string): Promise<Result<OpenedBook>> =>
  (await isFolder(place)) ? openFolder(place) : openArchive(place);

const holdsBook = async (tree: FileTree): Promise<boolean> =>
  (await tree.paths()).some((path) => path === BOOK_FILE || isBookPath(path));

const notWritable = (file: string, reason: string): Result<never> => ({
  ok: false,
  problems: [{ code: 'output-not-writable', file, reason }],
});
