import { folderLink, setFolderLink } from '#book/folder-link.ts';
import { bringFolderUpToDate } from '#book/keep-folder.ts';
import type { BookStore } from '#book/store.ts';
import { alone } from './alone.ts';
import type { BookAnswers } from './book-messages.ts';
import { folderTree } from './folder-tree.ts';
import { sha256Of } from './sha256.ts';
import type { Watch } from './watch.ts';

/** The browser's database that the link belongs to. */
const BOOK = 'overdrive-bench';

/** The folder as it is linked now, and whether this window may write into it without asking again. */
export async function linkedFolder(): Promise<BookAnswers['linked-folder']> {
  const link = await folderLink(BOOK);
  return link === null ? null : { folder: link.folder, upTo: link.upTo };
}

/** @param folder null: unlinked */
export async function linkFolder(folder: FileSystemDirectoryHandle | null): Promise<null> {
  await setFolderLink(BOOK, folder === null ? null : { folder, written: {}, upTo: null });
  return null;
}

/** Brings the linked folder up to the book; two windows one after the other. */
export async function syncFolder(
  store: BookStore,
  at: string,
  progress: Watch['write'],
): Promise<BookAnswers['sync-folder']> {
  const sync = async (): Promise<BookAnswers['sync-folder']> => {
    const link = await folderLink(BOOK);
    if (link === null) return { changed: 0, newer: [], joined: [], upTo: null };
    try {
      const { written, changed, newer, joined } = await bringFolderUpToDate(
        store,
        folderTree(link.folder),
        link.written,
        sha256Of,
        progress,
      );
      // Another folder may have been chosen while this one was written.
      const now = await folderLink(BOOK);
      if (now !== null && (await now.folder.isSameEntry(link.folder)))
        await setFolderLink(BOOK, { folder: link.folder, written, upTo: at });
      return { changed, newer, joined, upTo: at };
    } catch (error) {
      return { problem: error instanceof Error ? error.message : String(error) };
    }
  };
  return alone('folder', sync);
}
