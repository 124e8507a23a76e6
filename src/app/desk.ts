import { readRig, readSpec, readUnitRecord } from '#formats/check.ts';
import { verdictWords } from './shown-numbers.ts';
import type { Result } from '#formats/problem.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import type { Asked, Outcome, WorkerClient } from '#worker/client.ts';
import type {
  ColumnOverride,
  Judging,
  LogFile,
  Progress,
  Reading,
  RecordChoices,
  SavedKind,
} from '#worker/messages.ts';
import { createColumnDesk } from './column-desk.ts';
import { rigToRead, withChange, type FileLayout } from './column-rig.ts';
import { createBorderMove } from './border-move.ts';
import { goingBy } from './going.ts';
import { corrected, merged, questionsOf, type LoggedChannel } from './questions.ts';
import { createRecordDesk } from './record-desk.ts';
import { createRunFiles, filesText, waitingOf } from './files-of-run.ts';
import { createRunKeeping } from './run-in-book.ts';
import { withSaid } from './run-steps.ts';
import { openSample, sampleList, type SampleRun } from './sample-runs.ts';
import { savedName } from './saved-name.ts';
import { besideUnjudged, saidOf, stillWaiting, type Unjudged } from './unjudged-logs.ts';
import { places, type Draft, type Limits, type Place, type Run, type State } from './state.ts';
import { troubleOf } from './trouble-of.ts';

/** What the desk needs of the page, so that a test can stand in for it. */
export interface Page {
  now: () => Date;
  /** Offers bytes as a file to be put down somewhere. */
  putDown: (name: string, bytes: Uint8Array<ArrayBuffer>, type: string) => void;
  showPlace: (place: Place) => void;
  /** The book holds something new. */
  bookChanged?: () => void;
  /** The run that this window had on its sheet, by its id in the book. */
  lastRun?: () => string | null;
  /** Until the page has drawn what it was told. */
  atRest?: () => Promise<void>;
}

const empty: State = {
  place: 'book',
  field: null,
  opening: true,
  draft: null,
  run: null,
  batch: [],
  samples: null,
  samplesShown: false,
  saving: null,
  noLogIn: null,
  keptProblem: null,
  said: '',
};

/** How a log without time is shown until somebody says how far apart its rows are. */
const oneASecond: FileLayout = { time: { form: 'sample-number', interval_s: 1 } };

/** Progress is shown from here on; a quick reading shows none. */
const PROGRESS_EACH_MS = 100;

export type Desk = ReturnType<typeof createDesk>;

/**
 * Everything that happens in the app, apart from how it looks: files come in, are understood, asked about, judged, saved. React
 * listens to it; it knows nothing of React.
 */
export function createDesk(client: WorkerClient, page: Page) {
  let state = empty;
  const listeners = new Set<() => void>();
  let reading: Asked<'inspect'> | null = null;
  let judging: Asked<'assess'> | null = null;
  let fileCount = 0;

  function set(patch: Partial<State>): void {
    state = { ...state, ...patch };
    for (const listener of listeners) listener();
  }
  const setDraft = (patch: Partial<Draft>): void => {
    if (state.draft !== null) set({ draft: { ...state.draft, ...patch } });
  };
  const setRun = (patch: Partial<Run>): void => {
    if (state.run !== null) set({ run: { ...state.run, ...patch } });
  };
  const say = (said: string): void => set({ said });

  function goTo(place: Place, field: string | null = null): void {
    if (state.place === place) return;
    set({ place, field, saving: null, noLogIn: null });
    page.showPlace(place);
  }

  const wasStopped = (outcome: Outcome<unknown>): boolean =>
    outcome.kind === 'refused' && outcome.problems[0]?.code === 'cancelled';

  /** Rare enough to be drawn, the last one always. */
  function throttled(show: (progress: NonNullable<Draft['progress']>) => void): (progress: Progress) => void {
    const going = goingBy(page.now);
    let last = 0;
    return (progress) => {
      const now = page.now().getTime();
      if (now - last < PROGRESS_EACH_MS && progress.bytesDone < progress.bytesTotal) return;
      last = now;
      show({ ...progress, left_s: going(progress).left_s });
    };
  }

  // — Bringing in —

  const logFile = (blob: Blob, name: string | null): LogFile => {
    fileCount++;
    return { key: `${page.now().getTime()}-${fileCount}`, blob, name };
  };

  const markBatch = (file: LogFile, mark: 'asked' | 'judged' | 'put-back', verdict: string | null): void =>
    set({
      batch: state.batch.map((waiting) =>
        waiting.file.key === file.key ? { ...waiting, state: mark, verdict } : waiting,
      ),
    });

  function begin(file: LogFile, known: Partial<Draft>, place: Place | null = 'bring-in'): void {
    reading?.stop();
    judging?.stop();
    markBatch(file, 'asked', null);
    set({
      samplesShown: false,
      draft: {
        file,
        sample: null,
        rig: null,
        layout: {},
        timeMissing: false,
        absent: [],
        remembered: null,
        firstRead: null,
        corrections: [],
        answers: new Map(),
        limits: null,
        unitRecord: null,
        unitBefore: null,
        asRead: null,
        understood: null,
        progress: null,
        trace: null,
        stage: 'reading',
        trouble: null,
        fileTrouble: null,
        ...known,
      },
    });
    if (place !== null) goTo(place);
    void read();
    // A bench that was named, or a file that grew, needs no recognising.
    if (state.draft !== null && known.rig === undefined) void columns.recognise(state.draft);
  }

  function readingOf(draft: Draft): Reading {
    const base = draft.rig?.rig ?? null;
    const unsaid = draft.timeMissing && draft.layout.time === undefined;
    const rig = rigToRead(base, unsaid ? withChange(draft.layout, oneASecond) : draft.layout);
    return { rig, overrides: overridesOf(draft) };
  }

  /** Corrections by hand and by answers. */
  function overridesOf(draft: Draft): ColumnOverride[] {
    const { corrections } = questionsOf(channelsAsked(draft), draft.answers);
    const said = merged([...draft.corrections, ...corrections]);
    return said.filter(({ column }) => !draft.absent.includes(column));
  }

  async function read(): Promise<void> {
    const { draft } = state;
    if (draft === null) return;
    reading?.stop();
    const asked = client.ask(
      { kind: 'inspect', file: draft.file, reading: readingOf(draft) },
      throttled((progress) => {
        const { trace } = progress;
        if (reading === asked) setDraft({ progress, ...(trace === undefined ? {} : { trace }) });
      }),
    );
    reading = asked;
    const outcome = await asked.outcome;
    if (reading !== asked || state.draft?.file.key !== draft.file.key) return;
    reading = null;
    if (outcome.kind === 'answer') {
      const understood = outcome.answer;
      const first = state.draft.asRead === null;
      setDraft({
        understood,
        trace: understood.trace,
        asRead: state.draft.asRead ?? understood,
        firstRead: state.draft.firstRead ?? understood,
        stage: 'ready',
        progress: null,
        trouble: null,
      });
      if (first) say(`${filesText(draft.file)} was read.`);
      return;
    }
    if (wasStopped(outcome)) return;
    const problem = outcome.kind === 'refused' ? outcome.problems[0] : undefined;
    if (problem?.code === 'no-usable-time' && problem.line === null && !state.draft.timeMissing) {
      // Rows without a time are samples: how far apart they are is asked, meanwhile they are shown.
      setDraft({ timeMissing: true });
      return read();
    }
    if (
      problem?.code === 'column-not-in-log' &&
      overridesOf(draft).some(({ column }) => column === problem.column)
    ) {
      // What was said of a column is kept for when the table has it again.
      setDraft({ absent: [...state.draft.absent, problem.column] });
      return read();
    }
    setDraft({ stage: 'ready', progress: null, trouble: troubleOf(outcome) });
  }

  /** Stops a reading or judging and goes back to where one came from. */
  function putBack(): void {
    const { draft } = state;
    if (draft === null) return;
    reading?.stop();
    judging?.stop();
    reading = judging = null;
    markBatch(draft.file, 'put-back', null);
    set({ draft: null });
    if (!runFiles.askNext()) goTo(state.run === null ? 'book' : 'run');
    say(`${filesText(draft.file)} was put back. Nothing of it is kept.`);
  }

  /** Stops the judging; what was answered stays. */
  function stopJudging(): void {
    judging?.stop();
    judging = null;
    setDraft({ stage: 'ready', progress: null });
  }

  // — Answers —

  function answer(question: string, choice: string): void {
    if (state.draft === null) return;
    setDraft({ answers: new Map([...state.draft.answers, [question, choice]]) });
    void read();
  }

  function correct(correction: ColumnOverride): void {
    if (state.draft === null) return;
    setDraft({ corrections: merged([...state.draft.corrections, correction]) });
    void read();
  }

  const setLimits = (limits: Limits | null): void => setDraft({ limits, fileTrouble: null });
  const setRig = (rig: Draft['rig']): void => {
    if (state.draft === null) return;
    // Another bench reads the file anew: what was asked about the old reading no longer holds. A gauge alone changes no column.
    const columnsFrom = (of: Draft['rig']): Draft['rig'] => (of?.from === 'stated' ? (of.over ?? null) : of);
    const columnsStay = columnsFrom(rig) === columnsFrom(state.draft.rig);
    setDraft({ rig, fileTrouble: null, ...(columnsStay ? {} : { answers: new Map(), asRead: null }) });
    void read();
  };

  /** A spec, rig or unit file: told apart by what it says it is. */
  async function takeFile(file: File): Promise<void> {
    const text = await file.text();
    const format = /"format"\s*:\s*"([^"]*)"/u.exec(text)?.[1];
    const use = <T>(result: Result<T>, take: (value: T) => void): void => {
      if (result.ok) take(result.value);
      else setDraft({ fileTrouble: { kind: 'problems', problems: result.problems } });
    };
    if (format === 'overdrive-bench/rig')
      use(readRig(text, file.name), (rig) => setRig({ rig, from: 'file' }));
    else if (format === 'overdrive-bench/unit-record')
      use(readUnitRecord(text, file.name), (unitRecord) => setDraft({ unitRecord, fileTrouble: null }));
    else use(readSpec(text, file.name), (spec) => setLimits({ spec, from: 'file', fileName: file.name }));
  }

  // — Judging —

  async function judge(): Promise<void> {
    const { draft } = state;
    if (draft === null || draft.stage !== 'ready' || draft.limits === null) return;
    const { file, unitRecord, unitBefore } = draft;
    const how = readingOf(draft);
    const by: Judging = { spec: draft.limits.spec, judge: null };
    setDraft({ stage: 'judging', trouble: null });
    const asked = client.ask(
      { kind: 'assess', file, reading: how, judging: by },
      throttled((progress) => {
        if (judging === asked) setDraft({ progress });
      }),
    );
    judging = asked;
    const outcome = await asked.outcome;
    if (judging !== asked || state.draft?.file.key !== file.key) return;
    judging = null;
    if (outcome.kind !== 'answer') {
      setDraft({ stage: 'ready', progress: null, trouble: wasStopped(outcome) ? null : troubleOf(outcome) });
      return;
    }
    const { verdict } = outcome.answer.assessment;
    markBatch(file, 'judged', verdictWords[verdict]);
    const run: Run = {
      file,
      reading: how,
      judging: by,
      unitRecord,
      judged: outcome.answer,
      trial: null,
      undo: [],
      redo: [],
      id: null,
      seen: unitBefore === null ? null : { verdict: null, unitRecord: unitBefore },
      kept: 'keeping',
    };
    set({ draft: null, run, said: `Judged: ${verdictWords[verdict]}.` });
    goTo('run');
    // Packing six hours of readings would take the processor from the sheet that is being built.
    await page.atRest?.();
    void keep(state.run?.file.key === file.key ? state.run : run);
  }

  /** What the shop knows of the unit that the log is of. */
  const setDraftUnit = (unitRecord: UnitRecord | null, unitBefore: UnitRecord | null = null): void =>
    setDraft({ unitRecord, unitBefore });

  // — Samples —

  async function showSamples(): Promise<void> {
    set({ samplesShown: true });
    if (Array.isArray(state.samples)) return;
    const list = await sampleList();
    set({ samples: list.ok ? list.value : { kind: 'problems', problems: list.problems } });
  }

  async function trySample(sample: SampleRun): Promise<void> {
    const opened = await openSample(sample);
    if (!opened.ok) {
      set({ samples: { kind: 'problems', problems: opened.problems } });
      return;
    }
    const { blob, spec, rig, unitRecord } = opened.value;
    set({ batch: waitingOf(stillWaiting(state)) });
    begin(logFile(blob, sample.log), {
      sample,
      unitRecord,
      rig: rig === null ? null : { rig, from: 'sample' },
      limits: { spec, from: 'sample', fileName: sample.spec },
    });
  }

  // — Saving —

  /** The file as bytes, for looking at it. */
  async function make(
    as: SavedKind,
    choices: RecordChoices,
  ): Promise<Outcome<{ bytes: Uint8Array; type: string }>> {
    const { run } = state;
    if (run === null) return { kind: 'failed', message: 'there is no run' };
    const { file, reading: how, judging: by } = run;
    return client.ask({ kind: 'save', file, reading: how, judging: by, choices, as }).outcome;
  }

  async function save(as: SavedKind, choices: RecordChoices): Promise<void> {
    const { run } = state;
    if (run === null) return;
    set({ saving: { as, state: 'making' } });
    const outcome = await make(as, choices);
    if (outcome.kind !== 'answer') {
      set({ saving: { as, state: troubleOf(outcome) } });
      return;
    }
    const name = savedName(run, choices.unitRecord, as);
    page.putDown(name, outcome.answer.bytes.slice(), outcome.answer.type);
    set({ saving: { as, state: 'done' }, said: `Saved ${name}.` });
  }

  /** What the shop says of the unit; kept with the run. */
  function setUnitRecord(unitRecord: UnitRecord | null): void {
    if (state.run === null) return;
    setRun({ unitRecord, ...withSaid(state.run, unitRecord) });
    if (state.run !== null) void keep(state.run);
  }

  const { keep, ...kept } = createRunKeeping({
    client,
    state: () => state,
    set,
    setRun,
    goTo,
    at: () => page.now().toISOString(),
    lastRun: () => page.lastRun?.() ?? null,
  });
  const runFiles = createRunFiles({ state: () => state, set, begin, logFile, goTo, say });
  const columns = createColumnDesk({
    client,
    draft: () => state.draft,
    setDraft,
    read: () => void read(),
    setRig,
    overrides: overridesOf,
    putDown: page.putDown,
    say,
    at: () => page.now().toISOString(),
    bookChanged: () => page.bookChanged?.(),
  });
  const borders = createBorderMove({
    client,
    state: () => state,
    setRun,
    say,
    keep,
    today: () => dayOf(page.now()),
  });

  /** What another way of judging would say; nothing of it is kept. */
  const tryBy = (run: Pick<Run, 'file' | 'reading' | 'judging'>): Asked<'assess'> =>
    client.ask({ kind: 'assess', file: run.file, reading: run.reading, judging: run.judging });

  const layOver = (runs: string[]): Asked<'lay-over'> => client.ask({ kind: 'lay-over', runs });

  return {
    ...borders,
    ...runFiles,
    tryBy,
    layOver,
    ...columns,
    state: () => state,
    subscribe: (listener: () => void): (() => void) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    goTo: (place: Place, field: string | null = null): void => {
      const there =
        (place === 'run' || place === 'relief' || place === 'record') && state.run === null
          ? 'book'
          : place === 'bring-in' && state.draft === null
            ? 'book'
            : place;
      goTo(there, field);
    },
    /**
     * Logs that an earlier page left unjudged. Whoever looks at something else is not fetched away; nor is a log that was brought in since
     * pushed aside, the others wait behind it.
     */
    goOnWith: (unjudged: Unjudged, place: Place): void => {
      const { batch, draft } = besideUnjudged(state, unjudged);
      set({ batch });
      if (draft !== null) begin(draft.file, draft, place === 'bring-in' ? place : null);
    },
    /** The file that is asked about has grown: read anew, with everything that was said of it. */
    readAgain: (file: File): void => {
      const { draft } = state;
      if (draft === null) return runFiles.bringIn([file]);
      begin(logFile(file, file.name), saidOf(draft));
    },
    /** How the log that is asked about is read, with everything that was said of it. */
    reading: (): Reading | null => (state.draft === null ? null : readingOf(state.draft)),
    putBack,
    answer,
    correct,
    setLimits,
    setRig,
    takeFile,
    judge,
    stopJudging,
    keep,
    ...kept,
    setDraftUnit,
    showSamples,
    hideSamples: () => set({ samplesShown: false }),
    trySample,
    make,
    save,
    record: createRecordDesk(client, () => state.run),
    setUnitRecord,
    say,
  };
}

/** The channels that questions are asked about: as the file and the rig have them, corrected by hand. */
export function channelsAsked(draft: Draft): LoggedChannel[] {
  return corrected(draft.asRead?.inspection.log.channels ?? [], draft.corrections);
}

/** A day by the calendar on the wall of the shop, "2026-03-06". */
export function dayOf(now: Date): string {
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** The place that an address names: "#/run". */
export function placeOf(hash: string): Place {
  return places.find((place) => hash.split('/')[1] === place) ?? 'book';
}
