import { entryPath } from '#book/place.ts';
import { newUnit, unitOfSerial } from '#book/new-unit.ts';
import type { BroughtBackHead } from '#book/take-back.ts';
import { unitLines, type UnitLine } from '#book/search.ts';
import type { BookRun, BookUnit, KeptRig, KeptSpec } from '#formats/book.ts';
import type { Spec } from '#formats/spec.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import type { Asked, WorkerClient } from '#worker/client.ts';
import type { Answers, BookEdit, BookProblem, CopySource } from '#worker/messages.ts';
import type { RecordsLook } from '#worker/record-messages.ts';
import { createFolderKeeping, type FolderPage, type FolderState } from './book-folder.ts';
import { createShelf } from './book-shelf-desk.ts';
import { createCopyDesk, LAST_COPY } from './book-copy-desk.ts';
import { logName } from '#book/new-run.ts';
import { bookTrouble, recordsSentence } from './book-words.ts';
import { createTogether } from './book-together.ts';
import { goingBy, type Going } from './going.ts';
import { createSampleShopDesk } from './sample-shop-desk.ts';
import { createUndoSteps, type Told } from './undo-steps.ts';

/** What the book needs of the page, so that a test can stand in for it. */
export interface BookPage extends FolderPage {
  newId: () => string;
  /** Asks the browser to keep the book; null where it cannot be asked. */
  persist: () => Promise<boolean | null>;
  /** Whether the browser gave its word already; asks nobody. */
  persisted: () => Promise<boolean | null>;
  /** Where a copy is to be written: a place that was chosen, "refused" when the choosing was broken off, null where there is none to choose. */
  choosePlace: (name: string, what: string) => Promise<FileSystemFileHandle | 'refused' | null>;
  putDown: (name: string, bytes: Blob) => void;
  /** Small things that outlast a visit: when the last copy was put aside. */
  recall: (key: string) => string | null;
  remember: (key: string, value: string) => void;
  /** Tells the other windows that the book was changed. */
  tellOthers: () => void;
  showUnit: (id: string) => void;
}

/** A copy that somebody wants to bring back: what it would change. */
export interface Look {
  copy: CopySource;
  name: string;
  plan: Extract<Answers['look-at-copy'], { steps: unknown }>;
}
/** A copy that is being looked at or brought back. */
export interface Bringing {
  name: string;
  /** 'back': the book is made as it was before. */
  what: 'look' | 'bring' | 'back';
  going: Going | null;
}

export interface BookState {
  /** Until the book was read for the first time. */
  loading: boolean;
  units: BookUnit[];
  runs: BookRun[];
  /** Kept limits and benches, the bin included. */
  specs: KeptSpec[];
  rigs: KeptRig[];
  /** Outlines of the runs that were drawn, by id. */
  outlines: ReadonlyMap<string, Outlined>;
  lines: UnitLine[];
  /** The book cannot be opened, or something in it cannot be read. */
  problem: BookProblem | null;
  damaged: number;
  /** … because a later version of the program wrote them. */
  later: number;
  unitId: string | null;
  /** What was just done or went wrong, until the next thing. */
  told: Told | null;
  canUndo: boolean;
  persisted: boolean | null;
  /** ISO 8601 instant. */
  lastCopy: string | null;
  copying: Going | null;
  /** While records are made. */
  recording: Going | null;
  look: Look | null;
  bringing: Bringing | null;
  /** The folder that the book is linked with. */
  folder: FolderState | null;
  canLink: boolean;
  /** The copy that was brought back last and can be taken back. */
  broughtBack: BroughtBackHead | null;
  /** While the sample shop is brought in. */
  shopComing: Going | null;
  /** When the book was last read: dates are told from it. */
  today: Date;
}

/** A run's outline as it was at a revision of the run. */
export interface Outlined {
  revision: number;
  outline: BookRun['outline'];
}

/** A change that can be taken back: fields as they were and as they are, by path. */
export interface Step {
  said: string;
  before: Fields[];
  after: Fields[];
}
/** Whatever of the book a hand can remove. */
export type Removable = BookUnit | BookRun | KeptSpec | KeptRig;
type Change = Extract<BookEdit, { change: unknown }>['change'];
interface Fields {
  path: string;
  change: Change;
}

/** Removed entries stay so long. */
export const BIN_DAYS = 30;
const DAY_MS = 86_400_000;

const empty: Omit<BookState, 'today' | 'canLink'> = {
  loading: true,
  units: [],
  runs: [],
  specs: [],
  rigs: [],
  outlines: new Map(),
  lines: [],
  problem: null,
  damaged: 0,
  later: 0,
  unitId: null,
  told: null,
  canUndo: false,
  persisted: null,
  lastCopy: null,
  copying: null,
  recording: null,
  look: null,
  bringing: null,
  folder: null,
  broughtBack: null,
  shopComing: null,
};

const isLater = (problem: BookProblem): boolean => problem.code === 'entry-damaged' && problem.newer === true;

export type BookDesk = ReturnType<typeof createBookDesk>;

/** The book as the app shows it: what is in it, every edit and its undoing, copies. It knows nothing of React. */
export function createBookDesk(client: WorkerClient, page: BookPage) {
  let state: BookState = {
    ...empty,
    today: page.now(),
    lastCopy: page.recall(LAST_COPY),
    canLink: page.chooseFolder !== undefined,
  };
  const listeners = new Set<() => void>();
  let recording: Asked<'records'> | null = null;
  let refreshing = 0;
  /** Some browsers put the question to whoever sits there: once a visit. */
  let persistAsked = false;

  function set(patch: Partial<BookState>): void {
    state = { ...state, ...patch };
    for (const listener of listeners) listener();
  }
  const tell = (text: string, wrong = false, canPutBack = false): void =>
    set({ told: { text, wrong, canPutBack } });
  const at = (): string => page.now().toISOString();
  const undo = createUndoSteps({ tell, canUndo: (canUndo) => set({ canUndo }) });

  /** Reads the book anew; of several readings the last one counts. */
  async function refresh(): Promise<void> {
    const own = ++refreshing;
    const outcome = await client.ask({ kind: 'book' }).outcome;
    if (own !== refreshing) return;
    if (outcome.kind !== 'answer') {
      const reason = outcome.kind === 'failed' ? outcome.message : 'it was stopped';
      set({ loading: false, problem: { code: 'not-kept', reason } });
      return;
    }
    const { units, runs, specs, rigs, problem, damaged, broughtBack } = outcome.answer;
    set({
      loading: false,
      units,
      runs,
      specs,
      rigs,
      lines: unitLines(units, runs),
      problem,
      damaged: damaged.filter((each) => !isLater(each)).length,
      later: damaged.filter(isLater).length,
      broughtBack,
      today: page.now(),
    });
    // What was kept on an earlier visit, or by another window: nothing is said of the browser's word that it did not give.
    if (state.persisted === null && runs.length > 0) set({ persisted: await page.persisted() });
  }

  let wanted: BookRun[] = [];
  /** Asks for a run's outline; many asked for at once are one question. */
  function wantOutline(run: BookRun): void {
    if (state.outlines.get(run.id)?.revision === run.revision) return;
    wanted.push(run);
    if (wanted.length > 1) return;
    queueMicrotask(() => {
      const runs = wanted;
      wanted = [];
      void fetchOutlines(runs);
    });
  }
  async function fetchOutlines(runs: readonly BookRun[]): Promise<void> {
    const outcome = await client.ask({ kind: 'outlines', runs: runs.map(({ id }) => id) }).outcome;
    if (outcome.kind !== 'answer') return;
    const outlines = new Map(state.outlines);
    for (const { id, revision } of runs) outlines.set(id, { revision, outline: outcome.answer[id] ?? null });
    set({ outlines });
  }

  /** On opening the page: what lay in the bin for long enough goes, then the book is read. */
  async function open(): Promise<void> {
    const removedBefore = new Date(page.now().getTime() - BIN_DAYS * DAY_MS).toISOString();
    await client.ask({ kind: 'empty-bin', removedBefore }).outcome;
    await refresh();
    await folder.open();
  }

  /** After something was kept: the list, the other windows, and the browser's word that it will stay. */
  async function changed(): Promise<void> {
    page.tellOthers();
    await refresh();
    void folder.sync();
    if (state.persisted === true || persistAsked) return;
    persistAsked = true;
    set({ persisted: await page.persist() });
  }

  const folder = createFolderKeeping({
    client,
    page,
    folder: () => state.folder,
    set: (next) => set({ folder: next }),
  });

  const entryAt = (path: string): Removable | undefined =>
    [...state.units, ...state.runs, ...state.specs, ...state.rigs].find((entry) => entryPath(entry) === path);

  async function write(edits: BookEdit[]): Promise<boolean> {
    const outcome = await client.ask({ kind: 'edit', edits, at: at() }).outcome;
    const problem: BookProblem | null =
      outcome.kind === 'answer'
        ? outcome.answer
        : { code: 'not-kept', reason: outcome.kind === 'failed' ? outcome.message : 'it was stopped' };
    if (problem === null) {
      await changed();
      return true;
    }
    await refresh();
    tell(bookTrouble(problem), true);
    return false;
  }

  const editsOf = (fields: readonly Fields[]): BookEdit[] =>
    fields.map(({ path, change }) => ({ path, change, revision: entryAt(path)?.revision ?? 0 }));

  /** An edit that Ctrl Z takes back. */
  async function edit(step: Step, created: (BookUnit | KeptSpec | KeptRig)[] = []): Promise<boolean> {
    const fields = step.after.filter(({ path }) => !created.some((entry) => entryPath(entry) === path));
    if (!(await write([...created.map((entry) => ({ entry })), ...editsOf(fields)]))) return false;
    const { said } = step;
    undo.did({
      said,
      back: async () => ((await write(editsOf(step.before))) ? { said: `Put back: ${said}` } : 'stays'),
      again: async () => ((await write(editsOf(step.after))) ? { said } : 'stays'),
    });
    return true;
  }

  const name = (entry: Removable): string => {
    switch (entry.format) {
      case 'overdrive-bench/book-unit':
        return entry.record.unit?.serial ?? 'The unit';
      case 'overdrive-bench/book-run':
        return logName(entry) ?? 'The run';
      case 'overdrive-bench/book-spec':
        return entry.versions.at(-1)?.spec.name ?? 'The limits';
      case 'overdrive-bench/book-rig':
        return entry.versions.at(-1)?.rig.name ?? 'The bench';
    }
  };

  function setUnit(
    unit: BookUnit,
    change: Partial<Pick<BookUnit, 'record' | 'goneOutOn'>>,
    said: string,
  ): Promise<boolean> {
    const path = entryPath(unit);
    const before: Change = {
      ...(change.record === undefined ? {} : { record: unit.record }),
      ...(change.goneOutOn === undefined ? {} : { goneOutOn: unit.goneOutOn }),
    };
    return edit({ said, before: [{ path, change: before }], after: [{ path, change }] });
  }

  /** Removes an entry, a unit with its runs, or puts it back. */
  function setRemoved(entry: Removable, removedAt: string | null): Promise<boolean> {
    const together =
      entry.format === 'overdrive-bench/book-unit'
        ? [entry, ...state.runs.filter((run) => run.unitId === entry.id && run.removedAt === entry.removedAt)]
        : [entry];
    return edit({
      said: `${name(entry)} ${removedAt === null ? 'put back' : `removed; kept ${BIN_DAYS} days under Removed`}.`,
      before: together.map((each) => ({ path: entryPath(each), change: { removedAt: each.removedAt } })),
      after: together.map((each) => ({ path: entryPath(each), change: { removedAt } })),
    });
  }

  /** Gives a run to the unit of a serial; a unit that is not in the book yet is made. */
  async function giveTo(run: BookRun, serial: string): Promise<void> {
    // Where two units have this serial, the other one is meant: the run has its own already.
    const found =
      unitOfSerial(
        state.units.filter(({ id }) => id !== run.unitId),
        serial,
      ) ?? unitOfSerial(state.units, serial);
    const record: UnitRecord = {
      format: 'overdrive-bench/unit-record',
      version: 1,
      unit: { serial: serial.trim() },
    };
    const made = found === null ? newUnit(page.newId(), record, at()) : null;
    const unit = found ?? made;
    if (unit === null || unit.id === run.unitId) return;
    const path = entryPath(run);
    const unitPath = entryPath(unit);
    await edit(
      {
        said: `${name(run)} given to ${serial.trim()}.`,
        before: [
          { path, change: { unitId: run.unitId } },
          ...(made === null ? [] : [{ path: unitPath, change: { removedAt: at() } }]),
        ],
        after: [
          { path, change: { unitId: unit.id } },
          ...(made === null ? [] : [{ path: unitPath, change: { removedAt: null } }]),
        ],
      },
      made === null ? [] : [made],
    );
  }

  async function emptyBin(): Promise<void> {
    const outcome = await client.ask({ kind: 'empty-bin', removedBefore: '9999' }).outcome;
    const problem = outcome.kind === 'answer' ? outcome.answer : null;
    // What is gone cannot be put back: the steps that would are gone with it.
    undo.forget();
    await changed();
    if (problem === null) tell('The bin is empty.');
    else tell(bookTrouble(problem), true);
  }

  // — Records of many runs —

  async function makeRecords(runs: readonly string[], look: RecordsLook, file: string): Promise<void> {
    if (recording !== null) return;
    const to = await page.choosePlace(file, 'Delivery records');
    if (to === 'refused') return;
    set({ recording: { stage: 'copying', done: 0, total: runs.length, left_s: null }, told: null });
    const going = goingBy(page.now);
    recording = client.ask({ kind: 'records', runs: [...runs], look, to }, (progress) => {
      // Reading and judging again have progress of their own within each record.
      if (progress.stage === 'copying') set({ recording: going(progress) });
    });
    const outcome = await recording.outcome;
    recording = null;
    set({ recording: null });
    if (outcome.kind === 'refused') tell('Stopped. No records were written.');
    else if (outcome.kind === 'failed') tell(`No records were written: ${outcome.message}.`, true);
    else if ('problem' in outcome.answer) tell(bookTrouble(outcome.answer.problem), true);
    else if (outcome.answer.stopped) tell('Stopped. No records were written.');
    else {
      if (outcome.answer.blob !== null) page.putDown(file, outcome.answer.blob);
      tell(recordsSentence(outcome.answer, file), outcome.answer.left.length > 0);
    }
  }

  return {
    state: () => state,
    subscribe: (listener: () => void): (() => void) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    open,
    refresh,
    changed,
    wantOutline,
    showUnit: (id: string): void => {
      if (state.unitId !== id) set({ unitId: id, told: null });
      page.showUnit(id);
    },
    setGoneOut: (unit: BookUnit, day: string | null) =>
      setUnit(
        unit,
        { goneOutOn: day },
        `${name(unit)} ${day === null ? 'is on the bench again' : 'has gone out'}.`,
      ),
    setRecord: (unit: BookUnit, record: UnitRecord) => setUnit(unit, { record }, `${name(unit)} changed.`),
    setNote: (run: BookRun, note: string) =>
      edit({
        said: `Note on ${name(run)} kept.`,
        before: [{ path: entryPath(run), change: { note: run.note } }],
        after: [{ path: entryPath(run), change: { note } }],
      }),
    /** The limits of each verdict on a run: also those that were typed by hand and are kept nowhere else. */
    async limitsBefore(run: string): Promise<Spec[]> {
      const outcome = await client.ask({ kind: 'limits-before', run }).outcome;
      return outcome.kind === 'answer' ? outcome.answer : [];
    },
    remove: (entry: Removable) => setRemoved(entry, at()),
    putBack: (entry: Removable) => setRemoved(entry, null),
    ...createShelf({ state: () => state, edit, newId: page.newId, at }),
    ...createSampleShopDesk({ client, now: page.now, state: () => state, set, tell, changed, undo }),
    linkFolder: folder.link,
    goOnWithFolder: folder.goOn,
    unlinkFolder: folder.unlink,
    giveTo,
    ...createTogether({
      client,
      state: () => state,
      at,
      tell,
      revision: (path) => entryAt(path)?.revision ?? 0,
      write,
      undo,
    }),
    undo: undo.undo,
    redo: undo.redo,
    emptyBin,
    makeRecords,
    stopRecords: () => recording?.stop(),
    ...createCopyDesk({
      client,
      page,
      state: () => state,
      set,
      tell,
      changed,
      undo,
      folderAhead: folder.ahead,
    }),
  };
}
