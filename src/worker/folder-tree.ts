import type { FileTree } from '#book/tree-store.ts';

const isMissing = (error: unknown): boolean =>
  error instanceof DOMException && error.name === 'NotFoundError';

/** A folder that somebody chose, as files by path. A file is written beside itself and moved into its place when it is whole. */
export function folderTree(folder: FileSystemDirectoryHandle): FileTree {
  async function folderOf(path: string, create: boolean): Promise<[FileSystemDirectoryHandle, string]> {
    const parts = path.split('/');
    const name = parts.pop() ?? '';
    let at = folder;
    for (const part of parts) at = await at.getDirectoryHandle(part, { create });
    return [at, name];
  }
  async function gather(at: FileSystemDirectoryHandle, before: string, into: string[]): Promise<void> {
    for await (const [name, handle] of at.entries()) {
      if (handle.kind === 'file') into.push(`${before}${name}`);
      else if (handle.kind === 'directory')
        await gather(await at.getDirectoryHandle(name), `${before}${name}/`, into);
    }
  }
  return {
    async paths() {
      const found: string[] = [];
      await gather(folder, '', found);
      return found.sort();
    },
    async read(path) {
      try {
        const [at, name] = await folderOf(path, false);
        const file = await (await at.getFileHandle(name)).getFile();
        return new Uint8Array(await file.arrayBuffer());
      } catch (error) {
        if (isMissing(error)) return null;
        throw error;
      }
    },
    async write(path, bytes) {
      const [at, name] = await folderOf(path, true);
      const file = await (await at.getFileHandle(name, { create: true })).createWritable();
      try {
        await file.write(bytes.slice());
      } catch (error) {
        await file.abort();
        throw error;
      }
      await file.close();
    },
    async remove(path) {
      try {
        const [at, name] = await folderOf(path, false);
        await at.removeEntry(name);
      } catch (error) {
        if (!isMissing(error)) throw error;
      }
    },
  };
}
