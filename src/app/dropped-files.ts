import { inOrderOfNames, LOG_KINDS } from './files-of-run.ts';
import { rememberAgain, type FileAgain } from './follow-desk.ts';

/** What was dropped: files at once, or what is found in folders among them. */
export type Dropped = { files: File[] } | { folder: string; logs: Promise<File[]> };

/**
 * The files of a drop; of a folder the logs that lie in it, by name, for a logger that begins a file each hour writes a folder. To be
 * asked while the drop lasts: afterwards a browser tells nothing any more.
 */
export function dropped(transfer: DataTransfer | null): Dropped {
  const files = [...(transfer?.files ?? [])];
  const items = [...(transfer?.items ?? [])].filter((item) => item.kind === 'file');
  const folders: FileSystemDirectoryEntry[] = [];
  const alone: File[] = [];
  for (const [index, item] of items.entries()) {
    const entry = item.webkitGetAsEntry();
    const file = files[index];
    if (entry?.isDirectory === true) folders.push(entry as FileSystemDirectoryEntry);
    else if (file !== undefined) {
      alone.push(file);
      const way = wayOf(item);
      if (way !== null) rememberAgain(file, way);
    }
  }
  const [folder] = folders;
  if (folder === undefined) return { files };
  const logs = Promise.all(folders.map(logsIn)).then((found) => [...alone, ...found.flat()]);
  return { folder: folder.name, logs: logs.catch(() => alone) };
}

/** How a dropped file can be looked at again, where the browser says (File System Access). */
function wayOf(item: DataTransferItem): Promise<FileAgain | null> | null {
  const ask: unknown = Reflect.get(item, 'getAsFileSystemHandle');
  if (typeof ask !== 'function') return null;
  const given = ask.call(item) as Promise<(Partial<FileAgain> & { name: string }) | null>;
  return given.then(
    (way) => (way?.getFile === undefined ? null : (way as FileAgain)),
    () => null,
  );
}

const endings = LOG_KINDS.split(',').filter((kind) => kind.startsWith('.'));
const isLog = (entry: FileSystemEntry): entry is FileSystemFileEntry =>
  entry.isFile && endings.some((ending) => entry.name.toLowerCase().endsWith(ending));

/** The logs that lie in a folder; folders in it are left alone. */
async function logsIn(folder: FileSystemDirectoryEntry): Promise<File[]> {
  const reader = folder.createReader();
  const logs: FileSystemFileEntry[] = [];
  for (;;) {
    // A browser gives some at a time, and none at the end.
    const some = await new Promise<FileSystemEntry[]>((take, fail) => reader.readEntries(take, fail));
    if (some.length === 0) break;
    logs.push(...some.filter(isLog));
  }
  const files = await Promise.all(logs.map((log) => new Promise<File>((take, fail) => log.file(take, fail))));
  return inOrderOfNames(files);
}
