import type { BookEntry } from '#formats/book.ts';
import { equalBytes, type Digest, type OnProgress } from './bytes.ts';
import { fileFinding, keptFiles } from './check-book.ts';
import { held, joinedEntry } from './join.ts';
import { BOOK_FILE, BOOK_FILE_TEXT, entryPath, isEntryPath, runOfPath } from './place.ts';
import { entryBytes, readEntryBytes } from './read-entry.ts';
import type { BookStore } from './store.ts';
import type { FileTree } from './tree-store.ts';

/** What a folder was brought up to: the revision of each entry that lies in it, by path. */
export type Written = Readonly<Record<string, number>>;

export interface FolderKept {
  written: Record<string, number>;
  /** Entries written now. */
  changed: number;
  /** Entries that somebody made newer in the folder: they are left as they are. */
  newer: string[];
  /** Entries of which the folder holds verdicts or versions that the book does not: there both are kept. */
  joined: string[];
}

/**
 * Brings a folder up to the book: what is new or changed is written, a run's log and verdicts before its entry, as everywhere in a
 * folder. Nothing is ever taken out of the folder: a browser that lost its book must not take the folder's with it. What was removed
 * for good in the book stays in the folder, in its bin.
 * @param before what the folder was brought up to last time; only what differs from it is looked at
 */
export async function bringFolderUpToDate(
  store: BookStore,
  tree: FileTree,
  before: Written,
  digest: Digest,
  progress: OnProgress = () => undefined,
): Promise<FolderKept> {
  const { entries } = await store.list();
  const wanted = entries.filter((entry) => before[entryPath(entry)] !== entry.revision);
  const result: FolderKept = { written: { ...before }, changed: 0, newer: [], joined: [] };
  if (wanted.length === 0) return result;
  if ((await tree.read(BOOK_FILE)) === null)
    await tree.write(BOOK_FILE, new TextEncoder().encode(BOOK_FILE_TEXT));
  const files = filesByRun(await store.paths());
  let done = 0;
  for (const each of wanted) {
    const path = entryPath(each);
    // A list holds runs without their outlines; one that went meanwhile is none any more.
    const entry = await store.entry(path);
    if (entry === null) continue;
    const there = await entryThere(tree, path);
    if (there !== null && there.changedAt > entry.changedAt) result.newer.push(path);
    else {
      const own = entry.format === 'overdrive-bench/book-run' ? (files.get(entry.id) ?? []) : [];
      // Verdicts that were made in the folder stay there, whatever their numbers.
      const both = there === null ? null : joinedEntry(there, entry, new Set());
      const written = both === null ? entry : { ...both.entry, revision: entry.revision };
      for (const file of own) {
        const bytes = await store.file(file);
        const to = `${file.slice(0, -nameOf(file).length)}${both?.names.get(nameOf(file)) ?? nameOf(file)}`;
        const lies = await tree.read(to);
        if (bytes !== null && (lies === null || (await isBetter(entry, file, { bytes, lies, digest }))))
          await tree.write(to, bytes);
      }
      await tree.write(path, entryBytes(written));
      if (held(written) > held(entry)) result.joined.push(path);
      result.written[path] = entry.revision;
      result.changed++;
    }
    await progress(++done, wanted.length);
  }
  return result;
}

/** A log and a verdict never change: one that lies in the folder is written over only where it is damaged and the book's is whole. */
async function isBetter(
  entry: BookEntry,
  path: string,
  { bytes, lies, digest }: { bytes: Uint8Array; lies: Uint8Array; digest: Digest },
): Promise<boolean> {
  if (entry.format !== 'overdrive-bench/book-run' || equalBytes(bytes, lies)) return false;
  const kept = keptFiles(entry).find((each) => each.path === path);
  if (kept === undefined) return false;
  const [own, theirs] = [
    await fileFinding(entry.id, kept, bytes, digest),
    await fileFinding(entry.id, kept, lies, digest),
  ];
  return own === null && theirs !== null;
}

/** The files of each run, without its entry. */
function filesByRun(paths: readonly string[]): Map<string, string[]> {
  const files = new Map<string, string[]>();
  for (const path of paths) {
    const run = runOfPath(path);
    if (run !== null && !isEntryPath(path)) files.set(run, [...(files.get(run) ?? []), path]);
  }
  return files;
}
const nameOf = (path: string): string => path.split('/').at(-1) ?? '';

async function entryThere(tree: FileTree, path: string): Promise<BookEntry | null> {
  const bytes = await tree.read(path);
  const read = bytes === null ? null : readEntryBytes(path, bytes);
  return read?.ok === true ? read.value : null;
}
