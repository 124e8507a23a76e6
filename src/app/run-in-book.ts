import type { UnitRecord } from '#formats/unit-record.ts';
import type { WorkerClient } from '#worker/client.ts';
import type { Place, Run, State } from './state.ts';

/** What keeping runs in the book needs of the desk. */
export interface KeepingSide {
  client: WorkerClient;
  state: () => State;
  set: (patch: Partial<State>) => void;
  setRun: (patch: Partial<Run>) => void;
  goTo: (place: Place) => void;
  at: () => string;
  /** The run that this window had on its sheet, by its id in the book. */
  lastRun: () => string | null;
}

/** Runs go into the book as they are judged, and come out of it onto the sheet. */
export function createRunKeeping(side: KeepingSide): {
  keep: (run: Run) => Promise<void>;
  keepAllTheSame: () => Promise<void>;
  followUnit: (unitRecord: UnitRecord | null) => void;
  open: (place: Place) => Promise<void>;
  openRun: (id: string | null, place?: 'run' | 'relief' | 'record') => Promise<void>;
} {
  const { client, set, setRun, goTo } = side;

  /** One at a time: each stands on what the one before it wrote. */
  let keepingBefore: Promise<void> = Promise.resolve();
  function keep(run: Run): Promise<void> {
    // Another run may have come onto the sheet since: of that one nothing is being kept.
    if (side.state().run?.file.key === run.file.key) setRun({ kept: 'keeping' });
    keepingBefore = keepingBefore.then(() => keepNow(run));
    return keepingBefore;
  }

  async function keepNow(run: Run): Promise<void> {
    const { file, reading: how, judging: by, unitRecord } = run;
    // What this window knows may have grown while this waited.
    const { run: before } = side.state();
    const seen = before?.file.key === file.key ? before.seen : run.seen;
    const outcome = await client.ask({
      kind: 'keep',
      file,
      reading: how,
      judging: by,
      unitRecord,
      at: side.at(),
      seen,
    }).outcome;
    const { run: now } = side.state();
    if (now?.file.key !== file.key) return;
    const later = now !== run && (now.judging !== by || now.unitRecord !== unitRecord);
    const kept = outcome.kind === 'answer' ? outcome.answer : null;
    if (kept !== null && 'problem' in kept) setRun({ kept: kept.problem });
    else if (kept !== null) {
      // What was typed since stays, and is kept next.
      const done = later ? {} : { kept: 'kept' as const, unitRecord: kept.seen.unitRecord };
      setRun({ id: kept.run, seen: kept.seen, ...done });
      set({ keptProblem: null });
    } else
      setRun({
        kept: {
          code: 'not-kept',
          reason: outcome.kind === 'failed' ? outcome.message : 'it was stopped',
        },
      });
  }

  /** Keeps what lies here although another window kept something else: that stays in the book as an earlier verdict. */
  async function keepAllTheSame(): Promise<void> {
    const { run } = side.state();
    if (run === null) return;
    setRun({ seen: null });
    await keep(run);
  }

  /** The unit's record was changed in the book, here or in another window: the sheet shows it, unless it was changed here meanwhile. */
  function followUnit(unitRecord: UnitRecord | null): void {
    const { run } = side.state();
    if (run === null || run.kept !== 'kept' || run.seen === null) return;
    if (JSON.stringify(run.unitRecord) !== JSON.stringify(run.seen.unitRecord)) return;
    if (JSON.stringify(unitRecord) === JSON.stringify(run.unitRecord)) return;
    setRun({ unitRecord, seen: { ...run.seen, unitRecord } });
  }

  /** On opening the page at a run: the one that lay here last. */
  async function open(place: Place): Promise<void> {
    if (place === 'gauge') goTo(place);
    if (place === 'run' || place === 'relief' || place === 'record') await openRun(side.lastRun(), place);
    set({ opening: false });
  }

  let opening = 0;
  /**
   * A run of the book on its sheet, judged again from its kept bytes. Where this version of the program comes to another verdict, it is
   * kept behind the earlier one.
   * @param id null: the run that was changed last
   */
  async function openRun(id: string | null, place: 'run' | 'relief' | 'record' = 'run'): Promise<void> {
    const own = ++opening;
    // Whoever went somewhere else meanwhile is not fetched back.
    const { place: from } = side.state();
    const left = (): boolean => own !== opening || side.state().place !== from || side.state().draft !== null;
    const outcome = await client.ask({ kind: 'restore', run: id ?? undefined }).outcome;
    if (outcome.kind !== 'answer') {
      const reason = outcome.kind === 'failed' ? outcome.message : 'it was stopped';
      set({ keptProblem: { code: 'not-kept', reason } });
      return;
    }
    set({ keptProblem: outcome.answer.problem });
    const kept = outcome.answer.run;
    if (kept === null || left()) return;
    const { file, reading: how, judging: by, unitRecord } = kept;
    const assessed = await client.ask({ kind: 'assess', file, reading: how, judging: by }).outcome;
    if (left()) return;
    if (assessed.kind !== 'answer') {
      set({ keptProblem: { code: 'not-kept', reason: 'the run could not be judged again' } });
      return;
    }
    const run: Run = {
      file,
      reading: how,
      judging: by,
      unitRecord,
      judged: assessed.answer,
      trial: null,
      undo: [],
      redo: [],
      id: kept.id,
      seen: kept.seen,
      kept: 'kept',
    };
    set({ run });
    goTo(place);
    const { program } = assessed.answer.assessment;
    if (kept.programVersion !== null && kept.programVersion !== program?.version) void keep(run);
  }

  return { keep, keepAllTheSame, followUnit, open, openRun };
}
