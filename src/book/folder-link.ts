import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Written } from './keep-folder.ts';

/** The folder that a browser's book is linked with, and what it was brought up to. */
export interface FolderLink {
  folder: FileSystemDirectoryHandle;
  written: Written;
  /** ISO 8601 instant of the last time that it was brought up to date; null: never yet. */
  upTo: string | null;
}

interface LinkDatabase extends DBSchema {
  link: { key: 'folder'; value: FolderLink };
}

/** Beside the book, not in it: a copy of the book brought into another browser brings no link. */
const open = (name: string): Promise<IDBPDatabase<LinkDatabase>> =>
  openDB<LinkDatabase>(`${name}-folder`, 1, { upgrade: (db) => void db.createObjectStore('link') });

export async function folderLink(name: string): Promise<FolderLink | null> {
  const database = await open(name);
  try {
    return (await database.get('link', 'folder')) ?? null;
  } finally {
    database.close();
  }
}

/** @param link null: unlinked; the folder keeps what is in it */
export async function setFolderLink(name: string, link: FolderLink | null): Promise<void> {
  const database = await open(name);
  try {
    if (link === null) await database.delete('link', 'folder');
    else await database.put('link', link, 'folder');
  } finally {
    database.close();
  }
}
