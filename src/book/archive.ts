import { Unzip, UnzipInflate, UnzipPassThrough, Zip, ZipDeflate, ZipPassThrough } from 'fflate';
import type { OnProgress } from './bytes.ts';
import { crc32 } from './crc32.ts';
import { BOOK_FILE, BOOK_FILE_TEXT, isBookPath, isEntryPath } from './place.ts';
import { entryBytes } from './read-entry.ts';
import type { BookStore } from './store.ts';
import { zipDirectory } from './zip-directory.ts';

/** A zip holds no time zone and nothing before 1980; one fixed instant keeps the same book the same bytes. */
const ZIP_TIME = new Date(Date.UTC(1980, 0, 1, 12));

/**
 * Writes the whole book as a zip of plain files, one file in memory at a time. The same book gives the same bytes.
 * @param sink gets the zip piece by piece; awaited, so that a slow disk holds the writing back
 * @param progress files done and in all
 * @param cancelled asked before each file
 * @returns how many files went in, or null when cancelled
 */
export async function writeArchive(
  store: BookStore,
  sink: (piece: Uint8Array) => Promise<void>,
  progress: OnProgress = () => undefined,
  cancelled: () => boolean = () => false,
): Promise<number | null> {
  const pieces: Uint8Array[] = [];
  let failure: unknown = null;
  const zip = new Zip((error, piece) => {
    if (error) failure = error;
    else pieces.push(piece);
  });
  const drain = async (): Promise<void> => {
    if (failure !== null)
      throw failure instanceof Error ? failure : new Error('the archive could not be made');
    for (const piece of pieces.splice(0)) await sink(piece);
  };
  // What else lies in a folder is not the book's.
  const paths = (await store.paths()).filter(isBookPath);
  const add = async (path: string, bytes: Uint8Array): Promise<void> => {
    // What is compressed already is stored as it is.
    const file = path.endsWith('.gz') ? new ZipPassThrough(path) : new ZipDeflate(path, { level: 6 });
    file.mtime = ZIP_TIME;
    zip.add(file);
    file.push(bytes, true);
    await drain();
  };
  await add(BOOK_FILE, new TextEncoder().encode(BOOK_FILE_TEXT));
  let done = 0;
  for (const path of paths) {
    if (cancelled()) {
      zip.terminate();
      return null;
    }
    const bytes = isEntryPath(path) ? await entryAsBytes(store, path) : await store.file(path);
    if (bytes !== null) await add(path, bytes);
    await progress(++done, paths.length);
  }
  zip.end();
  await drain();
  return paths.length + 1;
}

async function entryAsBytes(store: BookStore, path: string): Promise<Uint8Array | null> {
  const entry = await store.entry(path);
  // A damaged entry goes along as it lies there: somebody may still read it.
  return entry === null ? store.file(path) : entryBytes(entry);
}

/** What was found in an archive: whole files by path, and what could not be read, by name. */
export interface ArchiveContent {
  files: Map<string, Uint8Array>;
  damaged: { path: string; reason: string }[];
  /** False when the archive ends before its end, or is no zip at all. */
  whole: boolean;
}

/** The table at a zip's end takes under 200 bytes a file: enough for over 80,000 files. */
const DIRECTORY_AT_MOST = 16 * 1024 * 1024;

/** The reader goes one call deeper with each file that a piece holds: thousands of small ones in one piece would be too deep. */
const SLICE = 8 * 1024;

/** Paths that could leave the folder they are unpacked into, or that are no part of a book, are refused. */
const isSafePath = (path: string): boolean =>
  /^[A-Za-z0-9][A-Za-z0-9./-]*$/.test(path) &&
  !path.split('/').some((part) => part === '' || part === '.' || part === '..');

/**
 * Reads a zip piece by piece. A damaged archive gives what is whole in it and names the rest.
 * @param pieces the archive's bytes in order
 */
export async function readArchive(
  pieces: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
): Promise<ArchiveContent> {
  const content: ArchiveContent = { files: new Map(), damaged: [], whole: true };
  const open = new Set<string>();
  const unzip = new Unzip((file) => {
    const path = file.name;
    if (path.endsWith('/')) return;
    if (!isSafePath(path)) {
      content.damaged.push({ path, reason: 'its name is not one of a book, it was left out' });
      return;
    }
    const parts: Uint8Array[] = [];
    open.add(path);
    file.ondata = (error, part, final) => {
      if (error) {
        open.delete(path);
        content.damaged.push({ path, reason: error.message });
        return;
      }
      parts.push(part);
      if (!final) return;
      open.delete(path);
      content.files.set(path, joined(parts));
    };
    file.start();
  });
  unzip.register(UnzipInflate);
  unzip.register(UnzipPassThrough);
  let seen = 0;
  let tail: Uint8Array[] = [];
  let kept = 0;
  let start: Uint8Array = new Uint8Array(0);
  let broken = false;
  const take = (piece: Uint8Array, last: boolean): void => {
    try {
      for (let at = 0; at < piece.length; at += SLICE) unzip.push(piece.subarray(at, at + SLICE), false);
      if (last) unzip.push(new Uint8Array(0), true);
    } catch (error) {
      broken = true;
      if (open.size > 0) return;
      const reason = error instanceof Error ? error.message : String(error);
      content.damaged.push({ path: 'the archive', reason });
    }
  };
  // A source that cannot be read is its own trouble: it is thrown, and not told of the archive.
  for await (const piece of pieces) {
    if (seen < 4) start = joined([start, piece.subarray(0, 4)]);
    seen += piece.length;
    if (!startsLikeZip(start)) return { files: new Map(), damaged: [], whole: false };
    tail.push(piece);
    kept += piece.length;
    for (let first = tail[0]; first && kept - first.length >= DIRECTORY_AT_MOST; first = tail[0]) {
      tail = tail.slice(1);
      kept -= first.length;
    }
    if (!broken) take(piece, false);
  }
  if (!broken) take(new Uint8Array(0), true);
  if (broken) content.whole = false;
  for (const path of open) content.damaged.push({ path, reason: 'it ends before its end' });
  const sums = zipDirectory(joined(tail));
  if (sums === null) content.whole = false;
  for (const [path, sum] of sums ?? []) {
    const bytes = content.files.get(path);
    if (bytes === undefined) {
      if (!content.damaged.some((damage) => damage.path === path))
        content.damaged.push({ path, reason: 'the archive names it, and it is not to be found in it' });
    } else if (crc32(bytes) !== sum) {
      content.files.delete(path);
      content.damaged.push({ path, reason: 'its bytes are not those that were put in (CRC-32)' });
    }
  }
  return content;
}

const startsLikeZip = (bytes: Uint8Array): boolean =>
  bytes.length < 2 || (bytes[0] === 0x50 && bytes[1] === 0x4b);

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const result = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    result.set(part, at);
    at += part.length;
  }
  return result;
}
