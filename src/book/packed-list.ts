import type { BookEntry, BookRun } from '#formats/book.ts';
import { crc32 } from './crc32.ts';
import { entryPath } from './place.ts';
import type { BookProblem } from './store.ts';

/** What a list needs of every entry, and what could not be read. Runs come without their outlines. */
export interface ListedEntries {
  entries: BookEntry[];
  damaged: BookProblem[];
}

/** Rises when what is packed changes: an older list is made anew from the entries. */
const VERSION = 1;
const HEAD_BYTES = 4;

type PackedRun = Omit<BookRun, 'spec' | 'rig' | 'outline'> & { spec: number; rig: number };
interface Packed {
  version: typeof VERSION;
  /** Limits and benches once each: thousands of runs share a few. */
  shared: unknown[];
  runs: PackedRun[];
  others: Exclude<BookEntry, BookRun>[];
  damaged: BookProblem[];
}

/** An entry as the list holds it. */
export const listed = (entry: BookEntry): BookEntry =>
  entry.format === 'overdrive-bench/book-run' ? { ...entry, outline: null } : entry;

/**
 * All entries in one piece of bytes: a browser's database takes about as long for one big row as for a few small ones, and seconds for
 * thousands. A checksum stands in front.
 */
export function packList({ entries, damaged }: ListedEntries): Uint8Array {
  const places = new Map<string, number>();
  const packed: Packed = { version: VERSION, shared: [], runs: [], others: [], damaged };
  const share = (value: unknown): number => {
    if (value === null) return -1;
    const text = JSON.stringify(value);
    const known = places.get(text);
    if (known !== undefined) return known;
    places.set(text, packed.shared.length);
    return packed.shared.push(value) - 1;
  };
  for (const entry of entries) {
    if (entry.format !== 'overdrive-bench/book-run') {
      packed.others.push(entry);
      continue;
    }
    const { spec, rig, outline: _outline, ...rest } = entry;
    packed.runs.push({ ...rest, spec: share(spec), rig: share(rig) });
  }
  const text = new TextEncoder().encode(JSON.stringify(packed));
  const bytes = new Uint8Array(HEAD_BYTES + text.length);
  new DataView(bytes.buffer).setUint32(0, crc32(text));
  bytes.set(text, HEAD_BYTES);
  return bytes;
}

/** null where it is not whole, or of another version: the entries themselves are asked then. Each was checked when it was packed. */
export function unpackList(bytes: Uint8Array): ListedEntries | null {
  if (bytes.length < HEAD_BYTES) return null;
  const text = bytes.subarray(HEAD_BYTES);
  const sum = new DataView(bytes.buffer, bytes.byteOffset).getUint32(0);
  if (sum !== crc32(text)) return null;
  const packed = JSON.parse(new TextDecoder().decode(text)) as Packed;
  if (packed.version !== VERSION) return null;
  const shared = (at: number): never => (at < 0 ? null : packed.shared[at]) as never;
  const runs = packed.runs.map((run): BookRun => ({
    ...run,
    spec: shared(run.spec),
    rig: shared(run.rig),
    outline: null,
  }));
  return { entries: [...packed.others, ...runs], damaged: packed.damaged };
}

/** A list with some entries as they are now; null: there is none any more. */
export function patchedList(
  list: ListedEntries,
  now: ReadonlyMap<string, { entry: BookEntry } | { problem: BookProblem } | null>,
): ListedEntries {
  const entries = list.entries.filter((entry) => !now.has(entryPath(entry)));
  const damaged = list.damaged.filter((problem) => !('path' in problem) || !now.has(problem.path));
  for (const value of now.values()) {
    if (value === null) continue;
    if ('entry' in value) entries.push(listed(value.entry));
    else damaged.push(value.problem);
  }
  return { entries, damaged };
}
