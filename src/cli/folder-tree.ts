import { mkdir, open, readdir, readFile, rename, rm, stat } from 'node:fs/promises';
import path from 'node:path';
import type { FileTree } from '#book/tree-store.ts';

/** Files being written end in this until they are whole; what a crash leaves is passed over. */
const UNFINISHED = '.unfinished';

/**
 * A folder on disk as a book's files. A file is written beside its place, flushed, and renamed, so that it is there whole or not
 * at all; folders are made as needed.
 */
export function folderTree(root: string): FileTree {
  const place = (name: string): string => path.join(root, ...name.split('/'));
  return {
    async paths() {
      const names: string[] = [];
      const walk = async (folder: string, prefix: string): Promise<void> => {
        for (const item of await readdir(folder, { withFileTypes: true })) {
          if (item.name.startsWith('.') || item.name.endsWith(UNFINISHED)) continue;
          if (item.isDirectory()) await walk(path.join(folder, item.name), `${prefix}${item.name}/`);
          else if (item.isFile()) names.push(prefix + item.name);
        }
      };
      if (await isFolder(root)) await walk(root, '');
      return names.sort();
    },
    async read(name) {
      try {
        return new Uint8Array(await readFile(place(name)));
      } catch (error) {
        if (isMissing(error)) return null;
        throw error;
      }
    },
    async write(name, bytes) {
      const target = place(name);
      await mkdir(path.dirname(target), { recursive: true });
      const unfinished = `${target}.${process.pid}${UNFINISHED}`;
      try {
        const file = await open(unfinished, 'w');
        try {
          await file.writeFile(bytes);
          await file.sync();
        } finally {
          await file.close();
        }
        await rename(unfinished, target);
      } catch (error) {
        await rm(unfinished, { force: true });
        throw error;
      }
    },
    remove: (name) => rm(place(name), { force: true }),
  };
}

export async function isFolder(name: string): Promise<boolean> {
  try {
    return (await stat(name)).isDirectory();
  } catch {
    return false;
  }
}

const isMissing = (error: unknown): boolean =>
  typeof error === 'object' &&
  error !== null &&
  'code' in error &&
  (error.code === 'ENOENT' || error.code === 'ENOTDIR');
