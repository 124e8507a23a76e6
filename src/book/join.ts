import type { BookEntry, BookRun, KeptAssessment, KeptRig, KeptSpec } from '#formats/book.ts';
import { writeJson } from '#formats/number.ts';

/** Two copies of one entry put together. */
export interface Joined {
  /** With the revision of the one that is here. */
  entry: BookEntry;
  /** Where each verdict's file of the one that comes in stands in the joined one, by its name there. */
  names: ReadonlyMap<string, string>;
}

/**
 * What two copies of one entry hold together. Verdicts on a run and versions of limits or of a bench are never overwritten: where both
 * copies have grown, each has some that the other lacks, and all are kept; a verdict that comes in under a number that stands for
 * another one here gets the next free number. Everything else is as in the copy that was changed last.
 * @param here the entry that it comes to
 * @param incoming the other copy
 * @param taken names of files that lie in the run's folder already
 */
export function joinedEntry(here: BookEntry, incoming: BookEntry, taken: ReadonlySet<string>): Joined {
  const newer = incoming.changedAt > here.changedAt ? incoming : here;
  const base = { ...newer, revision: here.revision };
  if (here.format === 'overdrive-bench/book-run' && incoming.format === here.format)
    return joinedRun(here, incoming, newer === here, taken);
  if (
    base.format === 'overdrive-bench/book-spec' &&
    here.format === base.format &&
    incoming.format === base.format
  )
    return {
      entry: { ...base, versions: bothVersions(here, incoming, ({ spec }) => spec) },
      names: new Map(),
    };
  if (
    base.format === 'overdrive-bench/book-rig' &&
    here.format === base.format &&
    incoming.format === base.format
  )
    return { entry: { ...base, versions: bothVersions(here, incoming, ({ rig }) => rig) }, names: new Map() };
  return { entry: base, names: new Map() };
}

/** The same decision: the same file, made at the same instant. One verdict may be come to again, with another between. */
const verdictKey = ({ sha256, decidedAt }: KeptAssessment): string => `${decidedAt} ${sha256}`;

function joinedRun(
  here: BookRun,
  incoming: BookRun,
  hereIsNewer: boolean,
  taken: ReadonlySet<string>,
): Joined {
  const names = new Map<string, string>();
  const used = new Set([...taken, ...here.assessments.map(({ file }) => file)]);
  const own = new Map(here.assessments.map((kept) => [verdictKey(kept), kept]));
  const added: KeptAssessment[] = [];
  for (const kept of incoming.assessments) {
    const known = own.get(verdictKey(kept));
    const file = known?.file ?? freeName(kept.file, used);
    names.set(kept.file, file);
    if (known === undefined) {
      used.add(file);
      added.push({ ...kept, file });
    }
  }
  const assessments = added.length === 0 ? here.assessments : inOrder([...here.assessments, ...added]);
  const last = assessments.at(-1);
  const isLastOf = (run: BookRun): boolean => {
    const latest = run.assessments.at(-1);
    return last !== undefined && latest !== undefined && verdictKey(latest) === verdictKey(last);
  };
  const newer = hereIsNewer ? here : incoming;
  // The verdict that counts and what it was judged by belong together, whichever copy was touched last.
  const judged = isLastOf(newer) ? newer : isLastOf(here) ? here : isLastOf(incoming) ? incoming : newer;
  const { spec, rig, judge, overrides, outline } = judged;
  return {
    entry: { ...newer, revision: here.revision, spec, rig, judge, overrides, outline, assessments },
    names,
  };
}

/** Oldest first; of one instant, as they stand. */
const inOrder = (assessments: readonly KeptAssessment[]): KeptAssessment[] =>
  assessments.toSorted((a, b) => (a.decidedAt < b.decidedAt ? -1 : a.decidedAt > b.decidedAt ? 1 : 0));

/** The name itself where it is free, else that of the next number that is. */
export function freeName(file: string, used: ReadonlySet<string>): string {
  if (!used.has(file)) return file;
  let number = 1;
  while (used.has(`assessment-${number}.json`)) number++;
  return `assessment-${number}.json`;
}

function bothVersions<K extends KeptSpec | KeptRig>(
  here: K,
  incoming: K,
  content: (version: K['versions'][number]) => unknown,
): K['versions'][number][] {
  const key = (version: K['versions'][number]): string => `${version.savedAt} ${writeJson(content(version))}`;
  const known = new Set(here.versions.map(key));
  const added = incoming.versions.filter((version) => !known.has(key(version)));
  return added.length === 0
    ? [...here.versions]
    : [...here.versions, ...added].toSorted((a, b) =>
        a.savedAt < b.savedAt ? -1 : a.savedAt > b.savedAt ? 1 : 0,
      );
}

/** How many verdicts or versions an entry holds. */
export function held(entry: BookEntry): number {
  if (entry.format === 'overdrive-bench/book-run') return entry.assessments.length;
  return 'versions' in entry ? entry.versions.length : 0;
}
