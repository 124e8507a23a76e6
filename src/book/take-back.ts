import type { BookEntry, BookUnit } from '#formats/book.ts';
import { writeJson } from '#formats/number.ts';
import { equalBytes, type Digest, type OnProgress } from './bytes.ts';
import { writesOf, type MergePlan } from './merge.ts';
import { entryPath } from './place.ts';
import type { BookFile, BookProblem, BookStore } from './store.ts';

/**
 * What bringing a copy back did, kept beside the book before it is done, so that it can be taken back as a whole: also after a reload,
 * and also where it was broken off half way.
 */
export interface BroughtBack extends BroughtBackHead {
  steps: {
    path: string;
    /** As it was; null: it came in. */
    before: BookEntry | null;
    /** Of the entry as it was written: what somebody changed since is not taken back. */
    written: string;
    /** Files that the book did not have before. */
    fresh: string[];
    /** Damaged files that were written over: where each lies now, and where it lay. Left out in notes of before there were any. */
    mended?: { kept: string; path: string }[];
  }[];
}
export interface BroughtBackHead {
  /** Of the copy. */
  name: string;
  /** ISO 8601 instant. */
  at: string;
  /** Entries that came in, and entries that were replaced or joined. */
  came: number;
  changed: number;
}

/** Rows beside the book's files; the short one is read with every list. */
const WHOLE = '~brought-back',
  HEAD = '~brought-back-head',
  /** Damaged files as they were before a copy mended them. */
  MENDED = '~brought-back-file/';

/** What an entry says, whatever its revision, its time and the order of its fields. */
const bareBytes = (entry: BookEntry): Uint8Array =>
  new TextEncoder().encode(writeJson(sorted({ ...entry, revision: 0, changedAt: '' })));
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, each]) => each !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, each]) => [key, sorted(each)]),
  );
}

/** Notes what a plan is about to do. */
export async function noteBroughtBack(
  store: BookStore,
  plan: MergePlan,
  copy: { name: string; at: string },
  digest: Digest,
): Promise<BookProblem | null> {
  const there = new Set(await store.paths());
  const steps: BroughtBack['steps'] = [];
  const damaged: BookFile[] = [];
  const before = await readNote<BroughtBack>(store, WHOLE);
  for (const step of writesOf(plan)) {
    const mended: { kept: string; path: string }[] = [];
    for (const { to } of step.files) {
      const bytes = there.has(to) ? await store.file(to) : null;
      if (bytes === null) continue;
      const kept = `${MENDED}${copy.at}/${to}`;
      damaged.push({ path: kept, bytes });
      mended.push({ kept, path: to });
    }
    steps.push({
      path: step.path,
      before: step.what === 'add' ? null : await store.entry(step.path),
      written: await digest(bareBytes(step.entry)),
      fresh: step.files.map(({ to }) => to).filter((to) => !there.has(to)),
      mended,
    });
  }
  const came = steps.filter(({ before }) => before === null).length;
  const head: BroughtBackHead = { ...copy, came, changed: steps.length - came };
  const whole: BroughtBack = { ...head, steps };
  const written = await store.write(
    [],
    [
      ...damaged,
      { path: WHOLE, bytes: new TextEncoder().encode(JSON.stringify(whole)) },
      { path: HEAD, bytes: new TextEncoder().encode(JSON.stringify(head)) },
    ],
  );
  if (!written.ok) return written.problem;
  // Of the copy before nothing can be taken back any more; what is left of it would only take room.
  const old = keptOf(before);
  if (old.length > 0) await store.remove(old);
  return null;
}

const keptOf = (note: BroughtBack | null): string[] =>
  note?.steps.flatMap(({ mended }) => mended?.map(({ kept }) => kept) ?? []) ?? [];

const readNote = async <T>(store: BookStore, path: string): Promise<T | null> => {
  const bytes = await store.file(path);
  if (bytes === null) return null;
  try {
    // Our own row, written above.
    return JSON.parse(new TextDecoder().decode(bytes)) as T;
  } catch {
    return null;
  }
};

/** The copy that was brought back last and can be taken back; null: none. */
export const broughtBack = (store: BookStore): Promise<BroughtBackHead | null> =>
  readNote<BroughtBackHead>(store, HEAD);

export interface TakenBack {
  /** Entries that went out again, and entries that are as they were before. */
  out: number;
  back: number;
  /** Entries that stay as they are, because they were changed since or something in the book belongs to them. */
  left: BookEntry[];
}

/** Makes the book as it was before the copy was brought back, but for what somebody changed since. Done twice, it does nothing more. */
export async function takeBack(
  store: BookStore,
  at: string,
  digest: Digest,
  progress: OnProgress = () => undefined,
): Promise<{ ok: true; value: TakenBack } | { ok: false; problem: BookProblem }> {
  const note = await readNote<BroughtBack>(store, WHOLE);
  const value: TakenBack = { out: 0, back: 0, left: [] };
  if (note === null) return { ok: true, value };
  const writes: BookEntry[] = [];
  const files: BookFile[] = [];
  const removes: string[] = [];
  const out: { entry: BookEntry; paths: string[]; damaged: BookFile[] }[] = [];
  let done = 0;
  for (const { path, before, written, fresh, mended = [] } of note.steps) {
    await progress(done++, note.steps.length);
    const now = await store.entry(path);
    if (now === null) continue;
    const digestNow = await digest(bareBytes(now));
    if (before !== null && digestNow === (await digest(bareBytes(before)))) {
      // Only files of it were mended, or somebody put the entry itself back by hand, or it was never written.
      const damaged = await damagedAgain(store, mended);
      const came = await thereOf(store, digestNow === written ? fresh : []);
      files.push(...damaged);
      removes.push(...came);
      if (damaged.length + came.length > 0) value.back++;
      continue;
    }
    if (digestNow !== written) value.left.push(now);
    else if (before === null)
      out.push({ entry: now, paths: [path, ...fresh], damaged: await damagedAgain(store, mended) });
    else {
      writes.push({ ...before, revision: now.revision + 1, changedAt: at });
      files.push(...(await damagedAgain(store, mended)));
      removes.push(...fresh);
      value.back++;
    }
  }
  const going = new Set(out.map(({ entry }) => entryPath(entry)));
  const { entries } = await store.list();
  // A unit that runs or changes of its setting were given to since stays with them.
  const needed = new Set(
    entries.flatMap((entry) => ('unitId' in entry && !going.has(entryPath(entry)) ? [entry.unitId] : [])),
  );
  for (const { entry, paths, damaged } of out)
    if (isUnit(entry) && needed.has(entry.id)) value.left.push(entry);
    else {
      removes.push(...paths);
      files.push(...damaged);
      value.out++;
    }
  const put = await store.write(writes, files);
  if (!put.ok) return put;
  const removed = await store.remove([...removes, WHOLE, HEAD, ...keptOf(note)]);
  return removed.ok ? { ok: true, value } : removed;
}

/** Files as they were before they were mended; those that are as they were are left out. */
async function damagedAgain(
  store: BookStore,
  mended: readonly { kept: string; path: string }[],
): Promise<BookFile[]> {
  const files: BookFile[] = [];
  for (const { kept, path } of mended) {
    const bytes = await store.file(kept);
    const now = await store.file(path);
    if (bytes !== null && !(now !== null && equalBytes(now, bytes))) files.push({ path, bytes });
  }
  return files;
}
async function thereOf(store: BookStore, paths: readonly string[]): Promise<string[]> {
  const there: string[] = [];
  for (const path of paths) if ((await store.file(path)) !== null) there.push(path);
  return there;
}

const isUnit = (entry: BookEntry): entry is BookUnit => entry.format === 'overdrive-bench/book-unit';
