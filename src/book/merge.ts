import type { BookEntry } from '#formats/book.ts';
import { checkBook, isGrave, type BookFinding } from './check-book.ts';
import { entryPath, isBookPath, isEntryPath, runOfPath } from './place.ts';
import { entryBytes, readEntryBytes } from './read-entry.ts';
import type { BookFile, BookProblem, BookResult, BookStore } from './store.ts';
import { memoryTree, treeStore } from './tree-store.ts';

/** What bringing a copy back would do to one entry. */
export type MergeStep =
  | { what: 'add'; path: string; incoming: BookEntry }
  /** The copy's is newer. */
  | { what: 'replace'; path: string; incoming: BookEntry; current: BookEntry }
  /** The book's is as new or newer: it stays. */
  | { what: 'keep'; path: string; incoming: BookEntry; current: BookEntry }
  | { what: 'same'; path: string };

export interface MergePlan {
  steps: MergeStep[];
  /** Entries of the copy that cannot be read; they are left out and named. */
  damaged: BookProblem[];
}

const equalBytes = (a: Uint8Array, b: Uint8Array): boolean =>
  a.length === b.length && a.every((byte, index) => byte === b[index]);

/**
 * Takes out of a copy what is not whole: entries that cannot be read, and runs whose log or verdicts are missing or changed. What
 * stays is safe to bring back; what is taken out is named.
 * @param sha256 hex digest of bytes
 */
export async function soundFiles(
  files: ReadonlyMap<string, Uint8Array>,
  sha256: (bytes: Uint8Array) => string | Promise<string>,
): Promise<{ files: Map<string, Uint8Array>; findings: BookFinding[] }> {
  const { findings } = await checkBook(treeStore(memoryTree(files)), sha256);
  // A run without its unit is whole in itself, and the unit may be in the book that it comes into.
  const grave = findings.filter((finding) => isGrave(finding) && finding.code !== 'unit-missing');
  const unsound = new Set(grave.flatMap((finding) => ('run' in finding ? [finding.run] : [])));
  const entries = new Set(grave.flatMap((finding) => ('path' in finding ? [finding.path] : [])));
  const sound = new Map(
    [...files].filter(
      ([path]) => isBookPath(path) && !unsound.has(runOfPath(path) ?? '') && !entries.has(path),
    ),
  );
  return { files: sound, findings: grave };
}

/** The list of what would change, before anything does. Nothing in the book is ever taken out by it. */
export async function planMerge(
  store: BookStore,
  files: ReadonlyMap<string, Uint8Array>,
): Promise<MergePlan> {
  const plan: MergePlan = { steps: [], damaged: [] };
  for (const [path, bytes] of [...files].sort(([a], [b]) => (a < b ? -1 : 1))) {
    if (!isEntryPath(path)) continue;
    const read = readEntryBytes(path, bytes);
    if (!read.ok) {
      plan.damaged.push(read.problem);
      continue;
    }
    const incoming = read.value;
    if (entryPath(incoming) !== path) {
      plan.damaged.push({ code: 'entry-damaged', path, reason: `it says that it is ${entryPath(incoming)}` });
      continue;
    }
    const current = await store.entry(path);
    if (current === null) plan.steps.push({ what: 'add', path, incoming });
    // A revision counts the changes within one book: it says nothing of another.
    else if (equalBytes(entryBytes(current), entryBytes({ ...incoming, revision: current.revision })))
      plan.steps.push({ what: 'same', path });
    else
      plan.steps.push({
        what: incoming.changedAt > current.changedAt ? 'replace' : 'keep',
        path,
        incoming,
        current,
      });
  }
  return plan;
}

/**
 * Carries a plan out, entry by entry with its files; stops at the first refusal and says what was done until then.
 * A run comes with its log and verdicts, or not at all.
 */
export async function carryOutMerge(
  store: BookStore,
  plan: MergePlan,
  files: ReadonlyMap<string, Uint8Array>,
  progress: (done: number, total: number) => void = () => undefined,
): Promise<BookResult<{ added: number; replaced: number }>> {
  const filesOfRun = new Map<string, BookFile[]>();
  for (const [path, bytes] of files) {
    const run = runOfPath(path);
    if (run !== null && !isEntryPath(path))
      filesOfRun.set(run, [...(filesOfRun.get(run) ?? []), { path, bytes }]);
  }
  const wanted = plan.steps.filter((step) => step.what === 'add' || step.what === 'replace');
  const result = { added: 0, replaced: 0 };
  for (const step of wanted) {
    const revision = step.what === 'replace' ? step.current.revision + 1 : 1;
    const entry: BookEntry = { ...step.incoming, revision };
    const withIt = entry.format === 'overdrive-bench/book-run' ? (filesOfRun.get(entry.id) ?? []) : [];
    const written = await store.write([entry], withIt);
    if (!written.ok) return written;
    if (step.what === 'add') result.added++;
    else result.replaced++;
    progress(result.added + result.replaced, wanted.length);
  }
  return { ok: true, value: result };
}
