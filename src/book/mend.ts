import type { BookEntry, BookRun, KeptAssessment } from '#formats/book.ts';
import { equalBytes, type Digest } from './bytes.ts';
import { disagreements, fileFinding, keptFiles, type KeptFile } from './check-book.ts';
import type { Joined } from './join.ts';
import { runFilePath } from './place.ts';
import type { BookStore } from './store.ts';

/** What of a run is not as it was kept, and is made whole again. */
export interface Mended {
  what: 'log' | 'verdict' | 'entry';
  why: 'missing' | 'damaged';
}

/** Where both books' files lie. */
interface Both {
  store: BookStore;
  files: ReadonlyMap<string, Uint8Array>;
  digest: Digest;
}

/**
 * What a copy can mend of a run in the book: its log and its verdicts, each held against the SHA-256 that the book's own entry keeps of
 * it, and what the entry repeats of a verdict. Only what is damaged or missing here and whole there; what is whole here stays.
 * @param joined both entries put together
 * @returns the joined entry, mended; and the files that mend
 */
export async function mendsOf(
  current: BookEntry,
  incoming: BookEntry,
  joined: Joined,
  { store, files, digest }: Both,
): Promise<{ entry: BookEntry; files: { from: string; to: string }[]; mends: Mended[] }> {
  const result = { entry: joined.entry, files: [] as { from: string; to: string }[], mends: [] as Mended[] };
  if (
    current.format !== 'overdrive-bench/book-run' ||
    incoming.format !== current.format ||
    joined.entry.format !== current.format
  )
    return result;
  const there = new Map([...joined.names].map(([from, to]) => [to, from]));
  let { assessments } = joined.entry;
  for (const kept of keptFiles(current)) {
    const name = kept.path.slice(runFilePath(current.id, '').length);
    const nameThere = kept.what === 'log' ? name : there.get(name);
    const from = runFilePath(current.id, nameThere ?? '');
    const theirs = files.get(from);
    if (nameThere === undefined || theirs === undefined) continue;
    const own = await store.file(kept.path);
    const whole = await isWhole(current, kept, own, { digest, other: theirs });
    if (!whole) {
      if ((await fileFinding(current.id, kept, theirs, digest)) !== null) continue;
      result.files.push({ from, to: kept.path });
      result.mends.push({ what: kept.what, why: own === null ? 'missing' : 'damaged' });
    }
    if (kept.what === 'log') continue;
    const right = rightly(current, incoming, [name, nameThere], whole && own !== null ? own : theirs);
    if (right === null) continue;
    assessments = assessments.map((each) => (each.file === name ? right : each));
    result.mends.push({ what: 'entry', why: 'damaged' });
  }
  return { ...result, entry: { ...joined.entry, assessments } };
}

/**
 * Whether a file of the book is as it was kept.
 * @param other the copy's: the same bytes on both sides need no unpacking, one cannot mend the other
 */
export const isWhole = async (
  run: BookRun,
  kept: KeptFile,
  own: Uint8Array | null,
  { digest, other }: { digest: Digest; other: Uint8Array },
): Promise<boolean> =>
  own !== null && (equalBytes(own, other) || (await fileFinding(run.id, kept, own, digest)) === null);

/** What an entry has to say of a verdict, where the book's says something else than the verdict's own file and the copy's does not. */
function rightly(
  current: BookRun,
  incoming: BookRun,
  [name, nameThere]: readonly [string, string],
  bytes: Uint8Array,
): KeptAssessment | null {
  const here = current.assessments.find(({ file }) => file === name);
  const there = incoming.assessments.find(({ file }) => file === nameThere);
  if (here === undefined || there === undefined) return null;
  const wrong = disagreements(here, bytes).length > 0 && disagreements(there, bytes).length === 0;
  return wrong ? { ...there, file: name } : null;
}

const nouns: Readonly<Record<Mended['what'], string>> = {
  log: 'the log',
  verdict: 'a verdict',
  entry: 'what is listed of a verdict',
};
const states = { missing: 'is missing here', damaged: 'is damaged here' };

/** What comes whole, in words: "the log is damaged here and comes whole". */
export const mendWords = (mends: readonly Mended[]): string =>
  [...new Set(mends.map(({ what, why }) => `${nouns[what]} ${states[why]} and comes whole`))].join(', ');
