import { readArchive, writeArchive, type ArchiveContent } from '#book/archive.ts';
import { findingSentence, type BookFinding } from '#book/check-book.ts';
import {
  carryOutMerge,
  gainWords,
  nothingMerged,
  planMerge,
  renumbered,
  soundFiles,
  writesOf,
  type MergePlan,
  type MergeWrite,
} from '#book/merge.ts';
import { logName } from '#book/new-run.ts';
import { mendWords } from '#book/mend.ts';
import { entryPath, runFilePath, runOfPath } from '#book/place.ts';
import { readEntry, readEntryBytes } from '#book/read-entry.ts';
import { broughtBack, noteBroughtBack, takeBack } from '#book/take-back.ts';
import type { BookProblem, BookStore } from '#book/store.ts';
import type { FileTree } from '#book/tree-store.ts';
import type { BookEntry, BookRun } from '#formats/book.ts';
import { writeJson } from '#formats/number.ts';
import { specSchema, type Spec } from '#formats/spec.ts';
import { alone } from './alone.ts';
import { folderTree } from './folder-tree.ts';
import { isSampleId, pathsOf, unitsAndRuns } from './kept-run.ts';
import type { Answers, BookEdit, CopySource } from './messages.ts';
import { sha256Of } from './sha256.ts';
import type { Watch } from './watch.ts';

/** The book for its list; outlines are asked for by themselves, for the lines that are drawn. */
export async function bookContents(store: BookStore): Promise<Answers['book']> {
  const { units, runs, specs, rigs, damaged } = await unitsAndRuns(store);
  return {
    units,
    runs,
    specs,
    rigs,
    damaged,
    broughtBack: await broughtBack(store),
    problem: null,
  };
}

/** Outlines of some runs, by id; one that is gone is left out. */
export async function outlinesOf(
  store: BookStore,
  runs: readonly string[],
): Promise<Record<string, BookRun['outline']>> {
  const found: Record<string, BookRun['outline']> = {};
  await Promise.all(
    runs.map(async (id) => {
      const entry = await store.entry(entryPath({ format: 'overdrive-bench/book-run', id }));
      if (entry?.format === 'overdrive-bench/book-run') found[id] = entry.outline;
    }),
  );
  return found;
}

/** The limits that each verdict on a run was made by; a verdict that cannot be read, or was made by none, is passed over. */
export async function limitsBefore(store: BookStore, id: string): Promise<Spec[]> {
  const run = await store.entry(entryPath({ format: 'overdrive-bench/book-run', id }));
  if (run?.format !== 'overdrive-bench/book-run') return [];
  const found = new Map<string, Spec>();
  for (const { file } of run.assessments) {
    const bytes = await store.file(runFilePath(id, file));
    const spec = bytes === null ? null : specIn(bytes);
    if (spec !== null) found.set(writeJson(spec), spec);
  }
  return [...found.values()];
}

/** Only its limits are looked at: an assessment of another version may have another shape around them. */
function specIn(assessment: Uint8Array): Spec | null {
  try {
    const data: unknown = JSON.parse(new TextDecoder().decode(assessment));
    const spec = typeof data === 'object' && data !== null && 'spec' in data ? data.spec : null;
    const checked = specSchema.safeParse(spec);
    return checked.success ? checked.data : null;
  } catch {
    return null;
  }
}

/** Takes the sample shop out for good. A sample unit that was given a run of the shop's own stays with it. */
export async function removeSampleShop(store: BookStore): Promise<{ removed: number }> {
  const { units, runs } = await unitsAndRuns(store);
  const gone = [
    ...runs.filter(({ id }) => isSampleId(id)),
    ...units.filter(
      ({ id }) => isSampleId(id) && !runs.some((run) => run.unitId === id && !isSampleId(run.id)),
    ),
  ];
  const ids = new Set(gone.map(({ id }) => id));
  const paths = (await store.paths()).filter((path) => {
    const [folder = '', name = ''] = path.split('/');
    return ids.has(folder === 'runs' ? name : name.replace(/\.json$/u, ''));
  });
  const removed = await store.remove(paths);
  return { removed: removed.ok ? gone.length : 0 };
}

/** Carries edits out, all or none. One that was made on an older state than is kept is refused. */
export async function edit(
  store: BookStore,
  edits: readonly BookEdit[],
  at: string,
): Promise<BookProblem | null> {
  const entries: BookEntry[] = [];
  for (const each of edits) {
    if ('entry' in each) {
      entries.push(each.entry);
      continue;
    }
    const current = await store.entry(each.path);
    if (current === null || current.revision !== each.revision)
      return { code: 'changed-elsewhere', path: each.path, current };
    const changed = readEntry(each.path, {
      ...current,
      ...each.change,
      revision: current.revision + 1,
      changedAt: at,
    });
    if (!changed.ok) return changed.problem;
    entries.push(changed.value);
  }
  const written = await store.write(entries, []);
  return written.ok ? null : written.problem;
}

/**
 * Takes what lies in the bin out for good.
 * @param removedBefore only what was removed before this instant; a unit stays while a run in the book belongs to it
 */
export async function emptyBin(store: BookStore, removedBefore: string): Promise<BookProblem | null> {
  const { units, runs, specs, rigs, adjustments } = await unitsAndRuns(store);
  const old = (removedAt: string | null): boolean => removedAt !== null && removedAt < removedBefore;
  const goneRuns = runs.filter((run) => old(run.removedAt));
  const goneUnits = units.filter(
    (unit) => old(unit.removedAt) && !runs.some((run) => run.unitId === unit.id && !goneRuns.includes(run)),
  );
  const paths: string[] = [];
  for (const entry of [...goneRuns, ...goneUnits]) paths.push(...(await pathsOf(store, entry)));
  for (const entry of [...specs, ...rigs]) if (old(entry.removedAt)) paths.push(entryPath(entry));
  // A change goes with its unit: by itself it says nothing to anybody.
  const gone = new Set(goneUnits.map(({ id }) => id));
  for (const change of adjustments)
    if (old(change.removedAt) || gone.has(change.unitId)) paths.push(entryPath(change));
  if (paths.length === 0) return null;
  const removed = await store.remove(paths);
  return removed.ok ? null : removed.problem;
}

/**
 * The whole book as one zip.
 * @param to where it is written piece by piece; null: it is gathered and given back
 */
export async function copyBook(
  store: BookStore,
  to: FileSystemFileHandle | null,
  watch: Watch,
): Promise<Answers['copy']> {
  const pieces: Blob[] = [];
  let bytes = 0;
  // A browser writes beside the file and moves it there when it is closed: an older copy stays whole until then.
  const file = to === null ? null : await to.createWritable();
  let files: number | null;
  try {
    files = await writeArchive(
      store,
      async (piece) => {
        bytes += piece.length;
        if (file === null) pieces.push(new Blob([piece.slice()]));
        else await file.write(piece.slice());
      },
      watch.write,
      watch.cancelled,
    );
  } catch (error) {
    await file?.abort();
    throw error;
  }
  if (files === null) {
    await file?.abort();
    return { stopped: true };
  }
  await file?.close();
  return {
    stopped: false,
    files,
    bytes,
    blob: file === null ? new Blob(pieces, { type: 'application/zip' }) : null,
  };
}

async function openCopy(store: BookStore, copy: CopySource, { look }: Watch) {
  const content =
    copy instanceof Blob
      ? await readArchive(piecesOf(copy, look('reading')))
      : await readEntries(folderTree(copy.folder), copy.entries, look('reading'));
  const sound = await soundFiles(content.files, sha256Of, look('checking'));
  const plan = await planMerge(store, sound.files, sha256Of, look('comparing'));
  const left = [
    ...content.damaged.map(({ path, reason }) => `${path}: ${reason}.`),
    ...(content.whole ? [] : ['The copy ends before its end: what stood behind is lost.']),
    ...sound.findings.map((finding) => foundIn(finding, content.files)),
    ...plan.damaged.map((problem) =>
      problem.code === 'entry-damaged' ? `${problem.path}: ${problem.reason}.` : problem.code,
    ),
  ];
  return { plan, sound, left };
}

/** What bringing a copy back would change, before anything does. */
export async function lookAtCopy(
  store: BookStore,
  copy: CopySource,
  watch: Watch,
): Promise<Answers['look-at-copy']> {
  const { plan, left, sound } = await openCopy(store, copy, watch);
  return { steps: planWords(plan), left, twice: plan.twice, empty: sound.files.size === 0 };
}

/** Brings a copy back. Stopped before anything is written it throws; stopped later it says what is in the book by then. */
export const bringBack = (
  store: BookStore,
  copy: { source: CopySource; name: string; at: string },
  watch: Watch,
): Promise<Answers['bring-back']> => alone('copy', () => bringBackAlone(store, copy, watch));
async function bringBackAlone(
  store: BookStore,
  copy: { source: CopySource; name: string; at: string },
  watch: Watch,
): Promise<Answers['bring-back']> {
  const { plan, sound } = await openCopy(store, copy.source, watch);
  // Nothing to do leaves nothing to take back: what was brought back before can still be.
  if (writesOf(plan).length === 0) return { ...nothingMerged(0), twice: [] };
  // Noted before it is done: what cannot be taken back is not begun.
  const refused = await noteBroughtBack(store, plan, { name: copy.name, at: copy.at }, sha256Of);
  if (refused !== null) return { ...nothingMerged(writesOf(plan).length, refused), twice: [] };
  const merged = await carryOutMerge(store, plan, sound.files, watch.write, watch.cancelled);
  // Units are written first: where anything came, they did.
  return { ...merged, twice: merged.added + merged.replaced + merged.joined === 0 ? [] : plan.twice };
}

/** The book as it was before the last copy was brought back. */
export async function takeCopyBack(
  store: BookStore,
  at: string,
  { look }: Watch,
): Promise<Answers['take-back']> {
  const done = await alone('copy', () => takeBack(store, at, sha256Of, look('comparing')));
  return done.ok ? { ...done.value, left: done.value.left.map(entryName) } : { problem: done.problem };
}

const planWords = ({ steps }: MergePlan): { what: MergePlan['steps'][number]['what']; name: string }[] =>
  steps.map((step) => ({
    what: step.what,
    name:
      step.what === 'same'
        ? step.path
        : step.what === 'join'
          ? `${entryName(step.incoming)}: ${gainWords(step)}${renumberedWords(step)}${alsoMended(step)}`
          : step.what === 'mend'
            ? `${entryName(step.current)}: ${mendWords(step.mends)}`
            : `${entryName(step.incoming)}${step.what === 'replace' ? alsoMended(step) : ''}`,
  }));

const alsoMended = ({ mends }: MergeWrite): string => (mends.length === 0 ? '' : `; ${mendWords(mends)}`);
const renumberedWords = (step: MergeWrite): string =>
  renumbered(step)
    .map(
      ({ from, to }) =>
        `; ${from} of the copy as ${to}, because another verdict stands here under its number`,
    )
    .join('');

/** What is wrong in a copy; of a run whose entry is whole, with what the run is called: its path says nothing to anybody. */
function foundIn(finding: BookFinding, files: ReadonlyMap<string, Uint8Array>): string {
  const said = findingSentence(finding);
  if (!('run' in finding)) return said;
  const path = entryPath({ format: 'overdrive-bench/book-run', id: finding.run });
  const bytes = files.get(path);
  const read = bytes === undefined ? null : readEntryBytes(path, bytes);
  return read?.ok ? `${entryName(read.value)}: ${said}` : said;
}

function entryName(entry: BookEntry): string {
  switch (entry.format) {
    case 'overdrive-bench/book-unit':
      return `unit ${entry.record.unit?.serial ?? 'without a serial'}`;
    case 'overdrive-bench/book-run':
      return `run ${logName(entry) ?? 'without a name'}`;
    default:
      return entryPath(entry);
  }
}

/** Some entries of a folder, with the files of those that are runs. */
async function readEntries(
  tree: FileTree,
  entries: readonly string[],
  progress: (done: number, total: number) => Promise<void>,
): Promise<ArchiveContent> {
  const wanted = new Set(entries);
  const runs = new Set(entries.flatMap((path) => runOfPath(path) ?? []));
  const paths = (await tree.paths()).filter((path) => wanted.has(path) || runs.has(runOfPath(path) ?? ''));
  const files = new Map<string, Uint8Array>();
  for (const path of paths) {
    const bytes = await tree.read(path);
    if (bytes !== null) files.set(path, bytes);
    await progress(files.size, paths.length);
  }
  return { files, damaged: [], whole: true };
}

async function* piecesOf(
  blob: Blob,
  progress: (done: number, total: number) => Promise<void>,
): AsyncIterable<Uint8Array> {
  const reader = blob.stream().getReader();
  let read = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return;
    yield value;
    read += value.length;
    await progress(read, blob.size);
  }
}
