import { partsOf, type LogFile, type LogPart } from '#worker/messages.ts';
import type { Desk } from './desk.ts';
import type { Draft, Place, State, Waiting } from './state.ts';

/** Everything that was said of a log, as far as it cannot be read again out of the log itself. */
export type SaidOfLog = Pick<
  Draft,
  | 'file'
  | 'sample'
  | 'rig'
  | 'layout'
  | 'timeMissing'
  | 'corrections'
  | 'answers'
  | 'limits'
  | 'unitRecord'
  | 'unitBefore'
>;
/** The same without the log: it holds for another one too, or for the same when it has grown. */
export function saidOf(draft: Draft): Omit<SaidOfLog, 'file'> {
  const { sample, rig, layout, timeMissing, corrections, answers, limits, unitRecord, unitBefore } = draft;
  return { sample, rig, layout, timeMissing, corrections, answers, limits, unitRecord, unitBefore };
}
/** Logs that were brought in and not judged yet. */
export interface Unjudged {
  batch: Waiting[];
  draft: SaidOfLog | null;
}

/** The logs of an earlier page beside what was brought in since, which they wait behind; `draft`: the one to be asked about. */
export function besideUnjudged(now: Pick<State, 'batch' | 'draft'>, { batch, draft }: Unjudged): Unjudged {
  const others = now.batch.filter(({ file }) => !batch.some((known) => known.file.key === file.key));
  if (now.draft === null) return { batch: [...batch, ...others], draft };
  const again = batch.map((each) => (each.state === 'asked' ? { ...each, state: 'waiting' as const } : each));
  const alone = draft !== null && !batch.some(({ file }) => file.key === draft.file.key);
  return {
    batch: [
      ...others,
      ...again,
      ...(alone ? [{ file: draft.file, state: 'waiting' as const, verdict: null }] : []),
    ],
    draft: null,
  };
}

/** What is not judged yet and would be lost if something else came instead; what could not be read is not. */
export function stillWaiting({ batch, draft }: Pick<State, 'batch' | 'draft'>): LogFile[] {
  const refused = draft !== null && draft.understood === null && draft.trouble !== null ? draft.file.key : '';
  const waiting = batch
    .filter(({ state, file }) => (state === 'waiting' || state === 'asked') && file.key !== refused)
    .map(({ file }) => file);
  const alone =
    draft !== null &&
    draft.understood !== null &&
    draft.sample === null &&
    !waiting.some(({ key }) => key === draft.file.key);
  return alone ? [draft.file, ...waiting] : waiting;
}

const DATABASE = 'overdrive-bench-unjudged';
const LOGS = 'logs';
const SAID = 'said';
const NOW = 'now';
/** One page keeps them: two would write over each other. */
const LOCK = 'overdrive-bench-unjudged';
/** A page that was loaded anew may have to wait for its own end. */
const LOOKS = 10;
const BETWEEN_LOOKS_MS = 100;

const answerOf = <T>(asked: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    asked.addEventListener('success', () => resolve(asked.result));
    asked.addEventListener('error', () => reject(asked.error ?? new Error('not kept')));
  });
const ended = (writing: IDBTransaction): Promise<void> =>
  new Promise((resolve, reject) => {
    writing.addEventListener('complete', () => resolve());
    writing.addEventListener('abort', () => reject(writing.error ?? new Error('not kept')));
  });

function opened(): Promise<IDBDatabase> {
  const asked = indexedDB.open(DATABASE, 1);
  asked.addEventListener('upgradeneeded', () => {
    asked.result.createObjectStore(LOGS);
    asked.result.createObjectStore(SAID);
  });
  return answerOf(asked);
}

/** What is worth keeping; null where nothing waits. */
function unjudgedOf({ batch, draft, run }: State): Unjudged | null {
  // A verdict that is on its way into the book: until it is there, its log is not let go.
  if (draft === null && run?.kept === 'keeping') return null;
  const waits = batch.some(({ state }) => state === 'waiting' || state === 'asked');
  if (draft === null && !waits) return { batch: [], draft: null };
  if (draft === null) return { batch, draft: null };
  return { batch: waits ? batch : [], draft: { file: draft.file, ...saidOf(draft) } };
}
const filesOf = ({ batch, draft }: Unjudged): Map<string, Blob> =>
  new Map(
    [
      ...batch.filter(({ state }) => state === 'waiting' || state === 'asked').map(({ file }) => file),
      ...(draft === null ? [] : [draft.file]),
    ]
      .flatMap(partsOf)
      .map(({ key, blob }) => [key, blob]),
  );
/** The same without the bytes, which are kept once for themselves. */
function withoutBytes({ batch, draft }: Unjudged): unknown {
  const named = ({ key, name }: LogPart) => ({ key, name });
  const bare = <T extends { file: LogFile }>(holder: T) => ({
    ...holder,
    file: { ...named(holder.file), ...(holder.file.more ? { more: holder.file.more.map(named) } : {}) },
  });
  return { batch: batch.map(bare), draft: draft === null ? null : bare(draft) };
}

/** A place for them in the browser. */
interface Keeper {
  recall: () => Promise<Unjudged | null>;
  keep: (unjudged: Unjudged) => Promise<void>;
}

async function keeperInBrowser(): Promise<Keeper> {
  const database = await opened();
  const kept = new Set<string>(
    (await answerOf(database.transaction(LOGS).objectStore(LOGS).getAllKeys())).map(String),
  );
  return {
    async recall() {
      const reading = database.transaction([LOGS, SAID]);
      const said = (await answerOf(reading.objectStore(SAID).get(NOW))) as Unjudged | undefined;
      if (said === undefined) return null;
      const logs = new Map<string, Blob>();
      for (const key of kept) logs.set(key, (await answerOf(reading.objectStore(LOGS).get(key))) as Blob);
      // What was judged or put back has no bytes any more: it is told of by its name alone.
      const withBytes = <T extends { key: string }>(part: T): T & { blob: Blob } => ({
        ...part,
        blob: logs.get(part.key) ?? new Blob([]),
      });
      const whole = <T extends { file: LogFile }>(holder: T): T => ({
        ...holder,
        file: {
          ...withBytes(holder.file),
          ...(holder.file.more ? { more: holder.file.more.map(withBytes) } : {}),
        },
      });
      const there = (file: LogFile): boolean => partsOf(file).every(({ key }) => logs.has(key));
      const waiting = said.batch.filter(
        ({ file, state }) => there(file) || (state !== 'waiting' && state !== 'asked'),
      );
      return {
        batch: waiting.map(whole),
        draft: said.draft !== null && there(said.draft.file) ? whole(said.draft) : null,
      };
    },
    async keep(unjudged) {
      const files = filesOf(unjudged);
      const writing = database.transaction([LOGS, SAID], 'readwrite');
      const logs = writing.objectStore(LOGS);
      for (const key of kept) if (!files.has(key)) logs.delete(key);
      for (const [key, blob] of files) if (!kept.has(key)) logs.put(blob, key);
      if (files.size === 0) writing.objectStore(SAID).delete(NOW);
      else writing.objectStore(SAID).put(withoutBytes(unjudged), NOW);
      await ended(writing);
      kept.clear();
      for (const key of files.keys()) kept.add(key);
    },
  };
}

/** Takes the lock for as long as the page lives; false where another page has it. */
async function takeLock(): Promise<boolean> {
  if (!('locks' in navigator)) return true;
  for (let looks = 0; looks < LOOKS; looks++) {
    const got = await new Promise<boolean>((tell) => {
      void navigator.locks.request(LOCK, { ifAvailable: true }, (lock) => {
        tell(lock !== null);
        return lock === null ? undefined : new Promise(() => undefined);
      });
    });
    if (got) return true;
    await new Promise((go) => setTimeout(go, BETWEEN_LOOKS_MS));
  }
  return false;
}

/**
 * Keeps logs that were brought in, with what was said of them, until they are judged or put back: after a reload or a closed page
 * they are there again. Where that is not possible the browser asks before the page is left.
 * @param restoring until the last run was looked for
 * @param place that the address named at the start
 */
export async function keepUnjudged(desk: Desk, restoring: Promise<void>, place: Place): Promise<void> {
  let keeper: Keeper | null = null;
  /** The state that is kept, as it was asked for and as it was written. */
  let wanted = '';
  let written = '';
  let last: Promise<void> = Promise.resolve();

  function follow(): void {
    const unjudged = unjudgedOf(desk.state());
    if (unjudged === null) return;
    const text = JSON.stringify(withoutBytes(unjudged), (_, value: unknown) =>
      value instanceof Map ? [...value] : value,
    );
    if (text === wanted) return;
    wanted = text;
    const at = keeper;
    if (at === null) return;
    last = last
      .then(() => at.keep(unjudged))
      .then(() => void (written = text))
      .catch(() => undefined);
  }
  window.addEventListener('beforeunload', (event) => {
    const { draft, batch } = desk.state();
    if ((draft !== null || batch.some(({ state }) => state === 'waiting')) && written !== wanted)
      event.preventDefault();
  });
  desk.subscribe(follow);
  try {
    if (await takeLock()) {
      const found = await keeperInBrowser();
      const unjudged = await found.recall();
      await restoring;
      if (unjudged !== null && (unjudged.draft !== null || unjudged.batch.length > 0))
        desk.goOnWith(unjudged, place);
      keeper = found;
      wanted = '';
    }
  } catch {
    // A private window, a browser without a database: asked before leaving, as said above.
  }
  follow();
}
