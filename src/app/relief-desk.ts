import { entryPath } from '#book/place.ts';
import type { Advice, AdviceOption } from '#formats/advice.ts';
import { stackText } from './shown-numbers.ts';
import type { BookAdjustment, BookShop } from '#formats/book.ts';
import { writeJson } from '#formats/number.ts';
import type { Relief } from '#formats/relief.ts';
import type { Question, WorkerClient } from '#worker/client.ts';
import type { BookEdit, BookProblem, LaidOver, Trail, TrailStep } from '#worker/messages.ts';
import { bookTrouble } from './book-words.ts';
import { changedSince, drawerAfter, reliefOfRun, turnsTravel, type Drawer } from './relief-stock.ts';
import type { Run, Trouble } from './state.ts';
import { createUndoSteps, type Told } from './undo-steps.ts';
import { troubleOf } from './trouble-of.ts';

/** What the relief card needs of the page, so that a test can stand in for it. */
export interface ReliefPage {
  now: () => Date;
  newId: () => string;
  putDown: (name: string, bytes: Uint8Array<ArrayBuffer>, type: string) => void;
  /** The book was written: the list and the other windows follow. */
  bookChanged: () => Promise<void>;
}

/** What was fitted, by whom and why. */
export interface Fitting {
  /** The whole stack after; for a screw the turns, positive in. */
  after: { shims_mm: number[] } | { turns: number };
  date: string;
  by: string;
  why: string;
}

/** Two runs over each other, while that is worked out and after. */
export interface Over {
  step: string;
  laid: LaidOver | null;
  trouble: Trouble | null;
}

export interface ReliefState {
  /** File key of the run that the card is for. */
  run: string | null;
  loading: boolean;
  trail: Trail | null;
  /** As it was when this run was made; null: nothing was said of it yet. */
  relief: Relief | null;
  advice: Advice | null;
  working: boolean;
  trouble: Trouble | null;
  told: Told | null;
  /** The change that was made on this run's reading. */
  made: TrailStep | null;
  over: Over | null;
  canUndo: boolean;
}

type Change = Extract<BookEdit, { change: unknown }>['change'];
interface Fields {
  path: string;
  change: Change;
}
interface Step {
  said: string;
  before: Fields[];
  after: Fields[];
}

const empty: ReliefState = {
  run: null,
  loading: true,
  trail: null,
  relief: null,
  advice: null,
  working: false,
  trouble: null,
  told: null,
  made: null,
  over: null,
  canUndo: false,
};

/** Files that the card can be saved as; each is what the command line reads or writes. */
export const reliefFiles = ['advice', 'relief', 'adjustments'] as const;
export type ReliefFile = (typeof reliefFiles)[number];

/** The shop's entry where it has none yet: only the drawer of shims is said in it. */
const newShop = (at: string, stock: Drawer): BookShop => ({
  format: 'overdrive-bench/book-shop',
  version: 1,
  id: 'shop',
  revision: 1,
  changedAt: at,
  removedAt: null,
  name: '',
  address: '',
  contact: '',
  paper: 'a4',
  language: 'en',
  stock,
});

export type ReliefDesk = ReturnType<typeof createReliefDesk>;

/** The relief card: what is known of the relief, the advice, the trail of settings. It knows nothing of React. */
export function createReliefDesk(client: WorkerClient, page: ReliefPage) {
  let state = empty;
  let run: Run | null = null;
  const listeners = new Set<() => void>();
  /** Last known revision by path, of entries in the bin too. */
  const revisions = new Map<string, number>();
  let opening = 0;

  function set(patch: Partial<ReliefState>): void {
    state = { ...state, ...patch };
    for (const listener of listeners) listener();
  }
  const at = (): string => page.now().toISOString();
  const tell = (text: string, wrong = false, canPutBack = false): void =>
    set({ told: { text, wrong, canPutBack } });
  const undo = createUndoSteps({ tell, canUndo: (canUndo) => set({ canUndo }) });

  /** Lays the card for a run; the same run again is read anew from the book. */
  async function open(next: Run): Promise<void> {
    const own = ++opening;
    const same = state.run === next.file.key;
    // A run without a place in the book has what was said of it on this card alone.
    const inMemory = same && state.trail === null ? state.relief : null;
    run = next;
    if (!same) {
      undo.forget();
      set({ ...empty, run: next.file.key });
    }
    const trail = next.id === null ? null : await readTrail(next.id);
    if (own !== opening) return;
    const known = trail === null ? inMemory : reliefOfRun(trail);
    const made =
      trail?.steps.find(({ adjustment }) => adjustment.runBefore === next.id && next.id !== null) ?? null;
    set({ loading: false, trail, relief: known ?? inMemory, made });
    if (state.relief !== null) await advise();
  }

  async function readTrail(id: string): Promise<Trail | null> {
    const outcome = await client.ask({ kind: 'trail', run: id, at: at() }).outcome;
    if (outcome.kind !== 'answer') return null;
    if ('problem' in outcome.answer) {
      tell(bookTrouble(outcome.answer.problem), true);
      return null;
    }
    const trail = outcome.answer;
    for (const entry of [
      trail.unit,
      trail.shop,
      trail.run,
      ...trail.steps.map(({ adjustment }) => adjustment),
      ...trail.takenOut,
    ])
      if (entry !== null) revisions.set(entryPath(entry), entry.revision);
    return trail;
  }

  /** What the book knows of the unit of a run, for other places than the card; null where the book cannot be read. */
  async function trailOf(id: string): Promise<Trail | null> {
    const outcome = await client.ask({ kind: 'trail', run: id, at: at() }).outcome;
    return outcome.kind === 'answer' && !('problem' in outcome.answer) ? outcome.answer : null;
  }

  async function ask(relief: Relief, change_mm: number | null) {
    if (run === null) return null;
    const { file, reading, judging } = run;
    const history = state.trail?.history ?? null;
    return client.ask({ kind: 'advise', file, reading, judging, relief, history, change_mm }).outcome;
  }

  async function advise(): Promise<void> {
    const own = opening;
    const { relief } = state;
    if (relief === null) return;
    set({ working: true });
    const outcome = await ask(relief, null);
    if (own !== opening || state.relief !== relief || outcome === null) return;
    if (outcome.kind === 'answer') set({ advice: outcome.answer.advice, trouble: null, working: false });
    else set({ advice: null, trouble: troubleOf(outcome), working: false });
  }

  async function write(edits: BookEdit[]): Promise<boolean> {
    const outcome = await client.ask({ kind: 'edit', edits, at: at() }).outcome;
    const problem: BookProblem | null =
      outcome.kind === 'answer'
        ? outcome.answer
        : { code: 'not-kept', reason: outcome.kind === 'failed' ? outcome.message : 'it was stopped' };
    if (problem === null) {
      for (const edit of edits) {
        const path = 'entry' in edit ? entryPath(edit.entry) : edit.path;
        revisions.set(path, 'entry' in edit ? edit.entry.revision : edit.revision + 1);
      }
      await page.bookChanged();
    }
    if (run !== null) await open(run);
    if (problem !== null) tell(bookTrouble(problem), true);
    return problem === null;
  }
  const editsOf = (fields: readonly Fields[]): BookEdit[] =>
    fields.map(({ path, change }) => ({ path, change, revision: revisions.get(path) ?? 0 }));

  async function take(step: Step, created: (BookAdjustment | BookShop)[] = []): Promise<boolean> {
    const fresh = step.after.filter(({ path }) => !created.some((entry) => entryPath(entry) === path));
    if (!(await write([...created.map((entry) => ({ entry })), ...editsOf(fresh)]))) return false;
    const { said } = step;
    undo.did({
      said,
      back: async () => ((await write(editsOf(step.before))) ? { said: `Put back: ${said}` } : 'stays'),
      again: async () => ((await write(editsOf(step.after))) ? { said } : 'stays'),
    });
    return true;
  }

  /** Fields of the unit's relief and of the shop's drawer, and the shop's entry where it is new. */
  function reliefFields(
    relief: Relief,
    stock: Drawer,
  ): { before: Fields[]; after: Fields[]; shop: BookShop | null } | null {
    const unit = state.trail?.unit ?? null;
    if (unit === null) return null;
    const shop = state.trail?.shop ?? null;
    const path = entryPath(unit);
    const { stock: _kept, ...own } = relief;
    const fields: { before: Fields[]; after: Fields[]; shop: BookShop | null } = {
      before: [{ path, change: { relief: unit.relief } }],
      after: [{ path, change: { relief: own } }],
      shop: null,
    };
    if (relief.screw !== undefined) return fields;
    if (shop === null) fields.shop = newShop(at(), stock);
    else if (writeJson(shop.stock ?? []) !== writeJson(stock)) {
      fields.before.push({ path: entryPath(shop), change: { stock: shop.stock } });
      fields.after.push({ path: entryPath(shop), change: { stock } });
    }
    return fields;
  }

  /** What is known of the relief, kept with the unit; without a unit it holds for this card alone. */
  async function setRelief(relief: Relief): Promise<boolean> {
    const { trail } = state;
    const now = trail?.unit?.relief;
    // The shims of an older run are history; figures and limits hold for the unit.
    const fields = changedSince(trail)
      ? reliefFields({ ...relief, fitted_mm: now?.fitted_mm ?? [] }, trail?.shop?.stock ?? now?.stock ?? [])
      : reliefFields(relief, relief.stock ?? []);
    if (fields === null) {
      set({ relief, told: null });
      await advise();
      return true;
    }
    const { before, after, shop } = fields;
    return take({ said: 'Relief and shims kept.', before, after }, shop === null ? [] : [shop]);
  }

  const optionOf = (fitting: Fitting): AdviceOption | null => {
    const { after } = fitting;
    const same = (option: AdviceOption): boolean =>
      'turns' in after
        ? option.turns === after.turns
        : option.fit_mm !== null && writeJson(option.fit_mm) === writeJson(after.shims_mm);
    return state.advice?.options.find(same) ?? null;
  };

  /** Keeps a change of the setting: shims before and after, when, why, who, and what was predicted of it. */
  async function fit(fitting: Fitting): Promise<boolean> {
    const { relief, trail } = state;
    if (relief === null || trail === null || trail.unit === null || run === null) return false;
    const before = relief.fitted_mm ?? [];
    const { after } = fitting;
    const stack =
      'turns' in after
        ? turnsTravel(after.turns, relief.screw?.pitch_mm ?? 1)
        : { before_mm: before, after_mm: after.shims_mm };
    const sum = (shims: readonly number[]): number => shims.reduce((total, shim) => total + shim, 0);
    const change_mm = Math.round((sum(stack.after_mm) - sum(stack.before_mm)) * 1e4) / 1e4;
    let predicted = optionOf(fitting)?.predicted ?? null;
    if (predicted === null) {
      const outcome = await ask(relief, change_mm);
      predicted = outcome?.kind === 'answer' ? outcome.answer.predicted : null;
    }
    const now = at();
    const adjustment: BookAdjustment = {
      format: 'overdrive-bench/book-adjustment',
      version: 1,
      id: page.newId(),
      revision: 1,
      changedAt: now,
      removedAt: null,
      unitId: trail.unit.id,
      date: fitting.date,
      notedAt: now,
      ...stack,
      ...('turns' in after ? { turns: after.turns } : {}),
      by: fitting.by,
      why: fitting.why,
      runBefore: run.id,
      runAfter: null,
      predicted:
        predicted === null
          ? null
          : {
              value: predicted.value,
              standardUncertainty: predicted.standardUncertainty,
              unit: predicted.unit,
            },
    };
    const path = entryPath(adjustment);
    const kept = { ...relief, ...('turns' in after ? {} : { fitted_mm: after.shims_mm }) };
    const stock = 'turns' in after ? [] : drawerAfter(relief.stock ?? [], before, after.shims_mm);
    const fields = reliefFields(kept, stock);
    if (fields === null) return false;
    return take(
      {
        said:
          'turns' in after ? 'The turn of the screw is kept.' : `Kept: fitted ${stackText(after.shims_mm)}.`,
        before: [{ path, change: { removedAt: now } }, ...fields.before],
        after: [{ path, change: { removedAt: null } }, ...fields.after],
      },
      [adjustment, ...(fields.shop === null ? [] : [fields.shop])],
    );
  }

  const setReTest = (adjustment: BookAdjustment, runAfter: string | null): Promise<boolean> => {
    const path = entryPath(adjustment);
    return take({
      said: runAfter === null ? 'The change waits for its re-test.' : 'Re-test linked.',
      before: [{ path, change: { runAfter: adjustment.runAfter } }],
      after: [{ path, change: { runAfter } }],
    });
  };
  const removeChange = (adjustment: BookAdjustment): Promise<boolean> => {
    const path = entryPath(adjustment);
    return take({
      said: 'The change is taken out of the trail; what is fitted stays as it was said.',
      before: [{ path, change: { removedAt: null } }],
      after: [{ path, change: { removedAt: at() } }],
    });
  };

  const putBackChange = (adjustment: BookAdjustment): Promise<boolean> => {
    const path = entryPath(adjustment);
    return take({
      said: 'The change stands in the trail again.',
      before: [{ path, change: { removedAt: adjustment.removedAt } }],
      after: [{ path, change: { removedAt: null } }],
    });
  };

  /** Test and re-test of a change over each other. */
  async function layOver({ id, runBefore, runAfter }: BookAdjustment): Promise<void> {
    if (runBefore === null || runAfter === null) return;
    set({ over: { step: id, laid: null, trouble: null } });
    const outcome = await client.ask({ kind: 'lay-over', runs: [runBefore, runAfter] }).outcome;
    if (state.over?.step !== id) return;
    if (outcome.kind !== 'answer') set({ over: { step: id, laid: null, trouble: troubleOf(outcome) } });
    else if ('problem' in outcome.answer) {
      set({ over: null });
      tell(bookTrouble(outcome.answer.problem), true);
    } else set({ over: { step: id, laid: outcome.answer, trouble: null } });
  }

  function save(what: ReliefFile): void {
    const data = what === 'advice' ? state.advice : what === 'relief' ? state.relief : state.trail?.history;
    if (data === null || data === undefined) return;
    const serial = state.trail?.unit?.record.unit?.serial?.trim() ?? '';
    // Characters that a file name may not hold on some system.
    const base = (serial === '' ? 'unit' : serial).replace(/[\\/:*?"<>|\p{Cc}]/gu, '-');
    const name = `${base} ${what}.json`;
    page.putDown(name, new TextEncoder().encode(writeJson(data)), 'application/json');
    tell(`Saved ${name}.`);
  }

  /** A gauge held against a reference; nothing of it is kept but in the rig file that it is taken over into. */
  const checkGauge = (question: Omit<Extract<Question, { kind: 'check-gauge' }>, 'kind'>) =>
    client.ask({ kind: 'check-gauge', ...question }).outcome;

  return {
    checkGauge,
    putDown: page.putDown,
    state: () => state,
    subscribe: (listener: () => void): (() => void) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    open,
    setRelief,
    fit,
    setReTest,
    removeChange,
    putBackChange,
    trailOf,
    layOver,
    foldOver: () => set({ over: null }),
    save,
    undo: undo.undo,
    redo: undo.redo,
  };
}
