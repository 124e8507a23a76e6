import type { BookEntry } from '#formats/book.ts';
import { equalBytes, type Digest, type OnProgress } from './bytes.ts';
import { checkBook, isGrave, keptFiles, type BookFinding } from './check-book.ts';
import { freeName, held, joinedEntry } from './join.ts';
import { serialsTwice } from './new-unit.ts';
import { isWhole, mendsOf, type Mended } from './mend.ts';
import { sameLogs } from './new-run.ts';
import { entryPath, isBookPath, isEntryPath, runFilePath, runOfPath } from './place.ts';
import { entryBytes, readEntryBytes } from './read-entry.ts';
import type { BookFile, BookProblem, BookStore } from './store.ts';
import { memoryTree, treeStore } from './tree-store.ts';

/** What bringing a copy back would do to one entry. */
export type MergeStep = MergeWrite | MergeStay;

interface Write {
  path: string;
  incoming: BookEntry;
  /** As it would be written. */
  entry: BookEntry;
  /** Files that come with it: where they stand in the copy, and where they would stand in the book. */
  files: readonly { from: string; to: string }[];
  /** What of the book is damaged or missing, and comes whole. */
  mends: readonly Mended[];
}
export type MergeWrite =
  | (Write & { what: 'add' })
  /** The copy's is newer. */
  | (Write & { what: 'replace'; current: BookEntry })
  /** Both have verdicts, or versions, that the other lacks: all are kept. */
  | (Write & { what: 'join'; current: BookEntry; gained: number })
  /** The book's is as new or newer and stays, but for what of it is damaged or missing. */
  | (Write & { what: 'mend'; current: BookEntry });
type MergeStay =
  /** The book's is as new or newer: it stays. */
  { what: 'keep'; path: string; incoming: BookEntry; current: BookEntry } | { what: 'same'; path: string };

export interface MergePlan {
  steps: MergeStep[];
  /** Entries of the copy that cannot be read; they are left out and named. */
  damaged: BookProblem[];
  /** Serials that would then stand on several units, because each book made a unit of its own. */
  twice: string[];
}

/**
 * Takes out of a copy what is not whole: entries that cannot be read, and runs whose log or verdicts are missing or changed. What
 * stays is safe to bring back; what is taken out is named.
 */
export async function soundFiles(
  files: ReadonlyMap<string, Uint8Array>,
  digest: Digest,
  progress?: OnProgress,
): Promise<{ files: Map<string, Uint8Array>; findings: BookFinding[] }> {
  const { findings } = await checkBook(treeStore(memoryTree(files)), digest, progress);
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

/**
 * The list of what would change, before anything does. Nothing in the book is ever taken out by it, and no verdict is written over:
 * one that comes in under a number that stands for another one gets the next free number. What is whole in the book is never written
 * over; what is damaged or missing there is written where the copy has it whole.
 */
export async function planMerge(
  store: BookStore,
  files: ReadonlyMap<string, Uint8Array>,
  digest: Digest,
  progress: OnProgress = () => undefined,
): Promise<MergePlan> {
  const plan: MergePlan = { steps: [], damaged: [], twice: [] };
  const inCopy = byRun(files.keys());
  const inBook = byRun(await store.paths());
  const later = new Set(
    (await store.list()).damaged.flatMap((problem) =>
      problem.code === 'entry-damaged' && problem.newer ? [problem.path] : [],
    ),
  );
  const entries = [...files].filter(([path]) => isEntryPath(path)).sort(([a], [b]) => inWriting(a, b));
  let done = 0;
  for (const [path, bytes] of entries) {
    await progress(done++, entries.length);
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
    const run = runOfPath(path);
    const here = {
      store,
      files,
      digest,
      inCopy: inCopy.get(run ?? '') ?? [],
      inBook: inBook.get(run ?? '') ?? [],
    };
    const current = await store.entry(path);
    if (later.has(path))
      plan.damaged.push({
        code: 'entry-damaged',
        path,
        reason: 'the book’s own was written by a later version of this program, and stays',
      });
    else if (current === null) {
      const { entry, names } = await asNew(incoming, here);
      plan.steps.push({
        what: 'add',
        path,
        incoming,
        entry,
        files: await lacking(entry, here, names),
        mends: [],
      });
    } else if (isAnotherLog(current, incoming))
      plan.damaged.push({
        code: 'entry-damaged',
        path,
        reason: 'the book has another log under this id, which stays; this one is left out',
      });
    else plan.steps.push(await stepFor(path, current, incoming, here));
  }
  plan.twice = await twiceAfter(store, writesOf(plan));
  return plan;
}

async function twiceAfter(store: BookStore, writes: readonly MergeWrite[]): Promise<string[]> {
  const units = new Map(
    [...(await store.list()).entries, ...writes.map(({ entry }) => entry)].flatMap((entry) =>
      entry.format === 'overdrive-bench/book-unit' ? [[entry.id, entry] as const] : [],
    ),
  );
  return serialsTwice([...units.values()], new Set(writes.map(({ entry }) => entry.id)));
}

/** What others belong to comes first: whatever breaks the writing off, no run stands in the book without its unit. */
const order = ['shop', 'specs', 'rigs', 'units', 'runs', 'adjustments'];
const rank = (path: string): number => order.indexOf(path.split('/')[0] ?? '');
const inWriting = (a: string, b: string): number => rank(a) - rank(b) || (a < b ? -1 : 1);

async function stepFor(
  path: string,
  current: BookEntry,
  incoming: BookEntry,
  here: Here,
): Promise<MergeStep> {
  // A revision counts the changes within one book: it says nothing of another.
  const theirs = { ...incoming, revision: current.revision };
  const joined = joinedEntry(current, incoming, new Set(here.inBook.map(nameOf)));
  const { entry, files, mends } = await mendsOf(current, incoming, joined, here);
  if (mends.length === 0) {
    if (equalEntries(current, theirs)) return { what: 'same', path };
    if (equalEntries(current, entry)) return { what: 'keep', path, incoming, current };
  }
  const own = new Set(
    current.format === 'overdrive-bench/book-run' ? keptFiles(current).map(({ path: at }) => at) : [],
  );
  const written = {
    path,
    incoming,
    current,
    entry: { ...entry, revision: current.revision + 1 },
    files: [
      ...files,
      ...placed(here, joined.names).filter(({ to }) => !here.inBook.includes(to) && !own.has(to)),
    ],
    mends,
  };
  if (equalEntries(current, joined.entry)) return { what: 'mend', ...written };
  if (equalEntries(theirs, entry)) return { what: 'replace', ...written };
  return { what: 'join', ...written, gained: held(entry) - held(current) };
}

/** What is known of one entry's run, in the copy and in the book: paths of its files. */
interface Here {
  store: BookStore;
  files: ReadonlyMap<string, Uint8Array>;
  digest: Digest;
  inCopy: readonly string[];
  inBook: readonly string[];
}

const equalEntries = (a: BookEntry, b: BookEntry): boolean => equalBytes(entryBytes(a), entryBytes(b));
const nameOf = (path: string): string => path.split('/').at(-1) ?? '';

const isAnotherLog = (a: BookEntry, b: BookEntry): boolean =>
  a.format === 'overdrive-bench/book-run' && b.format === 'overdrive-bench/book-run' && !sameLogs(a, b);

/** The files of each run, by its id. */
function byRun(paths: Iterable<string>): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const path of paths) {
    const run = runOfPath(path);
    if (run === null || isEntryPath(path)) continue;
    const known = found.get(run);
    if (known === undefined) found.set(run, [path]);
    else known.push(path);
  }
  return found;
}

/**
 * Where the files of a copy's run go. The log is the same in both, verdicts go by their names; a file that no entry names comes along
 * only where nothing else has its place.
 */
function placed(
  { inCopy, inBook }: Here,
  names: ReadonlyMap<string, string>,
): { from: string; to: string }[] {
  const theirs = new Set(names.values());
  return inCopy.flatMap((from) => {
    const name = nameOf(from);
    const to = `${from.slice(0, -name.length)}${names.get(name) ?? name}`;
    const goes = names.has(name) || isLogFile(name) || !(inBook.includes(from) || theirs.has(name));
    return goes ? [{ from, to }] : [];
  });
}
const isLogFile = (name: string): boolean => /^log(-\d+)?\.gz$/u.test(name);

/**
 * An entry that the book has not. Verdicts may lie there all the same, where the book's own entry is damaged: they stay, and what comes
 * in stands beside them.
 */
async function asNew(
  incoming: BookEntry,
  here: Here,
): Promise<{ entry: BookEntry; names: ReadonlyMap<string, string> }> {
  const fresh = { ...incoming, revision: 1 };
  const names = new Map<string, string>();
  if (fresh.format !== 'overdrive-bench/book-run' || here.inBook.length === 0) return { entry: fresh, names };
  const used = new Set([...here.inBook.map(nameOf), ...fresh.assessments.map(({ file }) => file)]);
  for (const { file } of fresh.assessments) {
    const path = runFilePath(fresh.id, file);
    const theirs = here.files.get(path);
    const own = await here.store.file(path);
    if (own === null || theirs === undefined || equalBytes(own, theirs)) continue;
    const free = freeName(file, used);
    names.set(file, free);
    used.add(free);
  }
  const assessments = fresh.assessments.map((kept) => ({ ...kept, file: names.get(kept.file) ?? kept.file }));
  return { entry: { ...fresh, assessments }, names };
}

/** Files that come with an entry that the book has not: all but those that lie there whole already. */
async function lacking(
  entry: BookEntry,
  here: Here,
  names: ReadonlyMap<string, string>,
): Promise<Write['files']> {
  const kept = new Map(
    entry.format === 'overdrive-bench/book-run' ? keptFiles(entry).map((each) => [each.path, each]) : [],
  );
  const files: { from: string; to: string }[] = [];
  for (const file of placed(here, names)) {
    const own = await here.store.file(file.to);
    const other = here.files.get(file.from);
    const wanted = kept.get(file.to);
    const lies =
      own !== null &&
      other !== undefined &&
      entry.format === 'overdrive-bench/book-run' &&
      (wanted === undefined
        ? equalBytes(own, other)
        : await isWhole(entry, wanted, own, { digest: here.digest, other }));
    if (!lies) files.push(file);
  }
  return files;
}

/** What a plan writes. */
export const writesOf = ({ steps }: MergePlan): MergeWrite[] =>
  steps.filter((step): step is MergeWrite => step.what !== 'keep' && step.what !== 'same');

export interface Merged {
  added: number;
  replaced: number;
  joined: number;
  /** Logs, verdicts and entries that were damaged or missing and are whole again. */
  mended: number;
  /** Entries that were to be written and were not, because it was stopped or refused. */
  left: number;
  /** Why the book would not take the next one; null where it took all, or was stopped. */
  problem: BookProblem | null;
}

/** Nothing was done yet, or nothing can be. */
export const nothingMerged = (left: number, problem: BookProblem | null = null): Merged => ({
  added: 0,
  replaced: 0,
  joined: 0,
  mended: 0,
  left,
  problem,
});

/**
 * Carries a plan out, entry by entry with its files; stops when it is told to, and at the first refusal, and says what was done until
 * then. A run comes with its log and verdicts, or not at all.
 * @param cancelled asked before each entry
 */
export async function carryOutMerge(
  store: BookStore,
  plan: MergePlan,
  files: ReadonlyMap<string, Uint8Array>,
  progress: OnProgress = () => undefined,
  cancelled: () => boolean = () => false,
): Promise<Merged> {
  const wanted = writesOf(plan);
  const result = nothingMerged(wanted.length);
  const counts = { add: 'added', replace: 'replaced', join: 'joined', mend: null } as const;
  for (const step of wanted) {
    if (cancelled()) return result;
    const withIt: BookFile[] = step.files.flatMap(({ from, to }) => {
      const bytes = files.get(from);
      return bytes === undefined ? [] : [{ path: to, bytes }];
    });
    const written = await store.write([step.entry], withIt);
    if (!written.ok) return { ...result, problem: written.problem };
    const count = counts[step.what];
    if (count !== null) result[count]++;
    result.mended += step.mends.length;
    result.left--;
    await progress(wanted.length - result.left, wanted.length);
  }
  return result;
}

/** Verdicts of a run that come in under another number than they had: "assessment-2.json" there, "assessment-3.json" here. */
export const renumbered = ({ files }: MergeWrite): { from: string; to: string }[] =>
  files.map(({ from, to }) => ({ from: nameOf(from), to: nameOf(to) })).filter(({ from, to }) => from !== to);

/** What joining adds, in words: "1 verdict comes in, the 2 here stay". */
export function gainWords({ current, gained }: MergeWrite & { what: 'join' }): string {
  const [one, many] =
    current.format === 'overdrive-bench/book-run' ? ['verdict', 'verdicts'] : ['version', 'versions'];
  const here = held(current);
  const stay = here === 1 ? `the 1 here stays` : `the ${here} here stay`;
  return gained <= 0
    ? `what was changed since comes in, ${stay}`
    : `${gained} ${gained === 1 ? `${one} comes` : `${many} come`} in, ${stay}`;
}
