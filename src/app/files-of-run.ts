import { filesName } from '#book/new-run.ts';
import { partsOf, type LogFile, type LogPart } from '#worker/messages.ts';
import type { Dropped } from './dropped-files.ts';
import type { Draft, Place, State, Waiting } from './state.ts';
import { saidOf, stillWaiting } from './unjudged-logs.ts';

/** What putting files together needs of the desk. */
export interface FilesSide {
  state: () => State;
  set: (patch: Partial<State>) => void;
  begin: (file: LogFile, known: Partial<Draft>) => void;
  /** A file under a key of its own. */
  logFile: (blob: Blob, name: string | null) => LogFile;
  goTo: (place: Place) => void;
  say: (said: string) => void;
}

/** What a file chooser offers first; any other may still be chosen. */
export const LOG_KINDS = '.csv,.tsv,.txt,.log,.dat,.asc,.xlsx,text/csv,text/plain';

/** What a log is called, by its files. */
export const filesText = ({ name, more = [] }: Pick<LogFile, 'name' | 'more'>): string =>
  filesName(name ?? 'The log', 1 + more.length);

/** What is asked about next: the log that was begun, then the first that waits. */
export const nextLog = ({ draft, batch }: State): LogFile | undefined =>
  draft?.file ?? batch.find(({ state }) => state === 'waiting')?.file;

/** Logs as they wait to be asked about. */
export const waitingOf = (files: readonly LogFile[]): Waiting[] =>
  files.map((file) => ({ file, state: 'waiting', verdict: null }));
const open = ({ state }: Waiting): boolean => state === 'waiting' || state === 'asked';
const byName = new Intl.Collator('en', { numeric: true });
/** By their names as people count them, part 2 before part 10: files without a date are joined in this order. */
export const inOrderOfNames = <T extends { name: string | null }>(parts: readonly T[]): T[] =>
  parts.toSorted((a, b) => byName.compare(a.name ?? '', b.name ?? ''));

/** Files that came in together: each is a run, until somebody says that some of them are parts of one. */
export function createRunFiles({ state, set, begin, logFile, goTo, say }: FilesSide) {
  /** Reads these files as the run that is asked about; `waiting` are runs of their own. */
  function regroup(draft: Draft, parts: readonly LogPart[], waiting: readonly LogFile[]): void {
    const [first, ...more] = parts;
    if (first === undefined) return;
    const file = { ...logFile(first.blob, first.name), ...(more.length > 0 ? { more } : {}) };
    const done = state().batch.filter((each) => !open(each));
    const batch: Waiting[] = [...done, { file, state: 'asked', verdict: null }, ...waitingOf(waiting)];
    set({ batch: batch.length === 1 ? [] : batch });
    begin(file, saidOf(draft));
  }
  const others = (draft: Draft): LogFile[] =>
    state()
      .batch.filter((each) => open(each) && each.file.key !== draft.file.key)
      .map(({ file }) => file);

  /** The first is asked about at once; the others wait behind it, and behind them what lay here before. */
  function bringIn(files: readonly File[]): void {
    const brought = files.map((file) => logFile(file, file.name));
    const [first] = brought;
    if (first === undefined) return;
    const batch = waitingOf([...brought, ...stillWaiting(state())]);
    set({ batch: batch.length === 1 ? [] : batch, noLogIn: null });
    begin(first, {});
  }

  return {
    bringIn,
    /** What was dropped onto the page; a folder takes a moment to be opened. */
    async takeDrop(drop: Dropped): Promise<void> {
      const files = 'files' in drop ? drop.files : await drop.logs;
      if (files.length > 0) bringIn(files);
      else if ('folder' in drop) set({ noLogIn: drop.folder });
    },
    /** The log that is asked about already, or the next of several; false when none is left. */
    askNext(): boolean {
      const next = nextLog(state());
      if (next === undefined) return false;
      if (state().draft === null) begin(next, {});
      else goTo('bring-in');
      return true;
    },
    /** All files that wait are parts of the run that is asked about. */
    joinAll(): void {
      const { draft } = state();
      if (draft === null) return;
      const parts = inOrderOfNames([draft.file, ...others(draft)].flatMap(partsOf));
      regroup(draft, parts, []);
      say(`${parts.length} files are read as one run.`);
    },
    /** One that waits is a part of the run that is asked about. */
    join(key: string): void {
      const { draft } = state();
      if (draft === null) return;
      const waiting = others(draft);
      const joins = waiting.filter((file) => file.key === key);
      regroup(
        draft,
        inOrderOfNames([draft.file, ...joins].flatMap(partsOf)),
        waiting.filter((file) => file.key !== key),
      );
      say('It is read as a part of this run.');
    },
    /** Further files of the run that is asked about. */
    addParts(files: readonly File[]): void {
      const { draft } = state();
      if (draft === null || files.length === 0) return;
      const added = files.map((file) => logFile(file, file.name));
      regroup(draft, inOrderOfNames([...partsOf(draft.file), ...added]), others(draft));
      say(`${files.length === 1 ? 'One file is' : `${files.length} files are`} read as parts of this run.`);
    },
    /** A part becomes a run of its own, and waits. */
    takeOut(key: string): void {
      const { draft } = state();
      if (draft === null) return;
      const parts = partsOf(draft.file);
      const out = parts.filter((part) => part.key === key);
      regroup(
        draft,
        parts.filter((part) => part.key !== key),
        [...out.map(({ blob, name }) => logFile(blob, name)), ...others(draft)],
      );
      say('It waits as a run of its own.');
    },
    /** For files whose times do not tell which was first. */
    moveEarlier(key: string): void {
      const { draft } = state();
      if (draft === null) return;
      const parts = partsOf(draft.file);
      const at = parts.findIndex((part) => part.key === key);
      const [before, moved] = [parts[at - 1], parts[at]];
      if (before === undefined || moved === undefined) return;
      regroup(draft, parts.toSpliced(at - 1, 2, moved, before), others(draft));
      say('It stands one earlier.');
    },
  };
}
