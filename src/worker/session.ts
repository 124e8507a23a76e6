import { assess } from '#assessment/assess.ts';
import { inspect } from '#assessment/inspect.ts';
import { readTable } from '#log/read-table.ts';
import { advise, predictChange } from '#relief/advise.ts';
import { checkGauge, correctedGaugeBand, gaugeBandCheck } from '#relief/check-gauge.ts';
import { gaugeReadingsOf } from '#relief/gauge-table.ts';
import { isPressureUnit } from '#units/unit.ts';
import type { Problem, Result } from '#formats/problem.ts';
import type { BookProblem, BookResult, BookStore } from '#book/store.ts';
import { nothingMerged } from '#book/merge.ts';
import type { RecordFonts } from '#record/fonts.ts';
import type { RecordedTest } from '#record/record-input.ts';
import { runOutline } from '#book/run-outline.ts';
import {
  bookContents,
  bringBack,
  takeCopyBack,
  copyBook,
  edit,
  emptyBin,
  limitsBefore,
  lookAtCopy,
  outlinesOf,
  removeSampleShop,
} from './book-questions.ts';
import { linkedFolder, linkFolder, syncFolder } from './linked-folder.ts';
import { keepRun, restoreRun } from './kept-run.ts';
import { firstRows } from './first-rows.ts';
import { createFirstTest } from './first-test.ts';
import { createFileLooks } from './follow-file.ts';
import { recogniseRig, rememberRig } from './kept-rigs.ts';
import type {
  Answers,
  Judging,
  LogFile,
  Progress,
  Reading,
  RecordChoices,
  Reply,
  Request,
  RequestKind,
} from './messages.ts';
import { layOver, type RunToLay } from './lay-over.ts';
import { outline } from './outline.ts';
import { attachedFiles, readFile, type AssessedFiles, type ReadFile } from './read-file.ts';
import { checkRecord, cleanLogo } from './record-questions.ts';
import { recordsOfRuns } from './records-of-runs.ts';
import { recordPages, savedBytes, savedTypes } from './saved-files.ts';
import { seriesToPost } from './series-to-post.ts';
import { trailOf } from './trail.ts';
import { Stopped, watching, type Watch } from './watch.ts';

/** What the worker needs from outside, so that a test can give it something else. */
export interface Surroundings {
  programVersion: string;
  fonts: () => Promise<RecordFonts>;
  openBook: () => Promise<BookResult<BookStore>>;
  post: (reply: Reply, transfer: Transferable[]) => void;
}

const OUTLINE_COLUMNS = 96;
/** Rows that show how the file is read. */
const ROWS_SHOWN = 4;

/** Answers the page's questions one by one; the log that was read last stays at hand. */
export function createSession(surroundings: Surroundings): (request: Request) => Promise<void> {
  const cancelled = new Set<number>();
  let lastRead: { key: string; read: Promise<Result<ReadFile>> } | null = null;
  const looks = createFileLooks(surroundings.programVersion);
  let lastAssessed: { key: string; assessed: Result<AssessedFiles> } | null = null;

  const firstTest = createFirstTest(surroundings.openBook);

  const readingKey = (file: LogFile, reading: Reading): string => JSON.stringify([file.key, reading]);

  async function logOf(id: number, file: LogFile, reading: Reading): Promise<Result<ReadFile>> {
    const key = readingKey(file, reading);
    for (;;) {
      const own = lastRead?.key !== key;
      lastRead =
        lastRead !== null && lastRead.key === key
          ? lastRead
          : { key, read: readFile(file, reading, progressOf(id), () => cancelled.has(id)) };
      const read = await lastRead.read.catch((error: unknown) => {
        lastRead = null;
        throw error;
      });
      if (read.ok) return read;
      if (lastRead?.key === key) lastRead = null;
      // Another question's reading was stopped, not this one's.
      if (!own && read.problems[0]?.code === 'cancelled' && !cancelled.has(id)) continue;
      return read;
    }
  }

  async function judged(
    id: number,
    file: LogFile,
    reading: Reading,
    judging: Judging,
  ): Promise<Result<AssessedFiles>> {
    const key = `${readingKey(file, reading)}${JSON.stringify(judging)}`;
    if (lastAssessed?.key === key) return lastAssessed.assessed;
    const read = await logOf(id, file, reading);
    if (!read.ok) return read;
    const assessed = assessedLog(id, read.value, reading, judging);
    lastAssessed = { key, assessed };
    return assessed;
  }

  function assessedLog(
    id: number,
    read: ReadFile,
    reading: Reading,
    judging: Judging,
  ): Result<AssessedFiles> {
    const { source, rows } = read.log;
    progressOf(id)({ stage: 'judging', bytesDone: source.bytes, bytesTotal: source.bytes, rows });
    return assessedQuietly(read, reading, judging);
  }
  const assessedQuietly = (
    { log, readings, files }: ReadFile,
    reading: Reading,
    judging: Judging,
  ): Result<AssessedFiles> => {
    const { programVersion } = surroundings;
    const assessed = assess({ log, readings, rig: reading.rig, ...judging, programVersion });
    return assessed.ok ? { ok: true, value: { ...assessed.value, files } } : assessed;
  };

  /** The run in hand stays read and judged meanwhile. */
  const earlierOf = async (
    id: number,
    { firstTest: run }: RecordChoices,
    { spec }: Judging,
  ): Promise<Result<RecordedTest | null>> =>
    run === undefined || run === null
      ? { ok: true, value: null }
      : firstTest(run, spec, async (file, reading, judging) => {
          const read = await readFile(file, reading, progressOf(id), () => cancelled.has(id));
          return read.ok ? assessedLog(id, read.value, reading, judging) : read;
        });

  const progressOf =
    (id: number) =>
    (progress: Progress): void =>
      surroundings.post({ id, kind: 'progress', progress }, []);
  function answer<K extends RequestKind>(id: number, value: Answers[K], transfer: Transferable[] = []): void {
    surroundings.post({ id, kind: 'answer', answer: value }, transfer);
  }
  const refuse = (id: number, problems: Problem[]): void =>
    surroundings.post({ id, kind: 'refused', problems }, []);

  async function answerInspect({ id, file, reading }: Request & { kind: 'inspect' }): Promise<void> {
    const read = await logOf(id, file, reading);
    if (!read.ok) return refuse(id, read.problems);
    const { log, readings, excerpt, trace } = read.value;
    answer<'inspect'>(id, {
      trace,
      inspection: inspect(log, reading.rig, readings),
      excerpt,
      firstRows: firstRows(log, ROWS_SHOWN),
      outlines: log.channels.map((channel) =>
        outline(log.time_s, channel.values, channel.flags, OUTLINE_COLUMNS),
      ),
    });
  }

  async function answerAssess({ id, file, reading, judging }: Request & { kind: 'assess' }): Promise<void> {
    const assessed = await judged(id, file, reading, judging);
    if (!assessed.ok) return refuse(id, assessed.problems);
    const { series, transfer } = seriesToPost(assessed.value.series);
    answer<'assess'>(id, { assessment: assessed.value.assessment, series }, transfer);
  }

  async function answerFollow({ id, file, reading, judging }: Request & { kind: 'follow' }): Promise<void> {
    const { run, ...look } = await looks.look(file, reading, judging);
    if (run === null) return answer<'follow'>(id, { run, ...look });
    const { series, transfer } = seriesToPost(run.series);
    answer<'follow'>(id, { run: { ...run, series }, ...look }, transfer);
  }

  async function answerSave(request: Request & { kind: 'save' }): Promise<void> {
    const { id, file, reading, judging, choices, as } = request;
    const assessed = await judged(id, file, reading, judging);
    if (!assessed.ok) return refuse(id, assessed.problems);
    const earlier = await earlierOf(id, choices, judging);
    if (!earlier.ok) return refuse(id, earlier.problems);
    const { assessment, series, files } = assessed.value;
    progressOf(id)({ stage: 'writing', bytesDone: 0, bytesTotal: 0, rows: assessment.log.rows });
    const logs = await attachedFiles(files);
    if (!logs.ok) return refuse(id, logs.problems);
    const whole = { assessment, series, logs: logs.value };
    const bytes = await savedBytes(
      as,
      { ...whole, ...choices, earlier: earlier.value, columns: reading.overrides },
      surroundings.fonts,
    );
    answer<'save'>(id, { bytes, type: savedTypes[as] }, [bytes.buffer]);
  }

  async function answerPreview(request: Request & { kind: 'preview' }): Promise<void> {
    const { id, file, reading, judging, choices } = request;
    const assessed = await judged(id, file, reading, judging);
    if (!assessed.ok) return refuse(id, assessed.problems);
    const earlier = await earlierOf(id, choices, judging);
    if (!earlier.ok) return refuse(id, earlier.problems);
    answer<'preview'>(id, {
      pages: await recordPages(
        { ...assessed.value, logs: [], ...choices, earlier: earlier.value, columns: reading.overrides },
        surroundings.fonts,
      ),
    });
  }

  function answerResult<K extends RequestKind>(id: number, result: Result<Answers[K]>): void {
    if (result.ok) answer<K>(id, result.value);
    else refuse(id, result.problems);
  }

  async function answerKeep(request: Request & { kind: 'keep' }): Promise<void> {
    const { id, file, reading, judging, unitRecord, at, seen, sample } = request;
    const assessed = await judged(id, file, reading, judging);
    if (!assessed.ok) return refuse(id, assessed.problems);
    const { assessment, series, files } = assessed.value;
    const opened = await surroundings.openBook();
    if (!opened.ok) return answer<'keep'>(id, { problem: opened.problem });
    try {
      const kept = await keepRun(opened.value, {
        files,
        reading,
        judging,
        unitRecord,
        assessment,
        at,
        outline: runOutline(series),
        seen,
        sample: sample ?? false,
      });
      answer<'keep'>(id, kept);
    } catch (error) {
      answer<'keep'>(id, {
        problem: { code: 'not-kept', reason: error instanceof Error ? error.message : String(error) },
      });
    } finally {
      opened.value.close();
    }
  }

  async function answerAdvise(request: Request & { kind: 'advise' }): Promise<void> {
    const { id, file, reading, judging, relief, history, change_mm } = request;
    const assessed = await judged(id, file, reading, judging);
    if (!assessed.ok) return refuse(id, assessed.problems);
    const input = { assessment: assessed.value.assessment, relief, history };
    const advised = advise(input);
    if (!advised.ok) return refuse(id, advised.problems);
    const predicted = change_mm === null ? null : predictChange(input, change_mm);
    answer<'advise'>(id, { advice: advised.value, predicted });
  }

  /** Each run is judged again from its kept bytes: a drawing needs its readings, and they are kept nowhere else. */
  async function answerLayOver({ id, runs }: Request & { kind: 'lay-over' }): Promise<void> {
    const opened = await surroundings.openBook();
    if (!opened.ok) return answer<'lay-over'>(id, { problem: opened.problem });
    try {
      const laid: RunToLay[] = [];
      for (const runId of runs) {
        const { run, problem } = await restoreRun(opened.value, runId);
        if (run === null || run.id !== runId) {
          const gone: BookProblem = { code: 'not-kept', reason: 'the run is not in the book any more' };
          return answer<'lay-over'>(id, { problem: problem ?? gone });
        }
        const assessed = await judged(id, run.file, run.reading, run.judging);
        if (!assessed.ok) return refuse(id, assessed.problems);
        laid.push({ id: run.id, name: run.file.name ?? 'run', ...assessed.value });
      }
      const over = layOver(laid);
      answer<'lay-over'>(id, over ?? { problem: { code: 'not-kept', reason: 'no run was named' } });
    } finally {
      opened.value.close();
    }
  }

  function answerCheckGauge(request: Request & { kind: 'check-gauge' }): void {
    const { id, text, stated, calibratedOn, dueOn, band } = request;
    const table = readTable(new TextEncoder().encode(text), { fileName: null });
    if (!table.ok) return refuse(id, table.problems);
    const readings = gaugeReadingsOf(table.value, null);
    if (!readings.ok) return refuse(id, readings.problems);
    const checked = checkGauge(readings.value, {
      ...(stated === null ? {} : { stated }),
      ...(calibratedOn === null ? {} : { calibratedOn }),
      ...(dueOn === null ? {} : { dueOn }),
    });
    if (!checked.ok) return refuse(id, checked.problems);
    const { unit } = readings.value;
    answer<'check-gauge'>(id, {
      check: checked.value,
      corrected: band === null ? null : correctedGaugeBand(checked.value, band),
      asStated:
        band === null || stated === null || !isPressureUnit(unit)
          ? null
          : gaugeBandCheck(
              { range: { ...stated.range, unit }, accuracyPercentOfSpan: stated.percentOfSpan },
              band,
            ),
    });
  }

  /** Asks the book; a place that refuses to keep anything is an answer. */
  async function withBook<K extends RequestKind>(
    id: number,
    ask: (store: BookStore) => Promise<Answers[K]>,
    refused: (problem: BookProblem) => Answers[K],
  ): Promise<void> {
    const opened = await surroundings.openBook();
    if (!opened.ok) return answer<K>(id, refused(opened.problem));
    try {
      answer<K>(id, await ask(opened.value));
    } finally {
      opened.value.close();
    }
  }
  const copying =
    (id: number) =>
    (done: number, total: number): void =>
      progressOf(id)({ stage: 'copying', bytesDone: done, bytesTotal: total, rows: 0 });

  const watch = (id: number): Watch => watching(progressOf(id), () => cancelled.has(id));

  async function dispatch(request: Request): Promise<void> {
    switch (request.kind) {
      case 'inspect':
        return answerInspect(request);
      case 'assess':
        return answerAssess(request);
      case 'follow':
        return answerFollow(request);
      case 'recognise':
        return withBook<'recognise'>(
          request.id,
          async (store) => ({ rig: await recogniseRig(store, request.file.blob) }),
          () => ({ rig: null }),
        );
      case 'remember':
        return withBook<'remember'>(
          request.id,
          (store) => rememberRig(store, request.file.blob, request.rig, request.at),
          (problem) => ({ problem }),
        );
      case 'save':
        return answerSave(request);
      case 'preview':
        return answerPreview(request);
      case 'check-record':
        return answerResult<'check-record'>(
          request.id,
          await checkRecord(request, surroundings.programVersion, surroundings.fonts),
        );
      case 'clean-logo':
        return answerResult<'clean-logo'>(request.id, await cleanLogo(request.logo));
      case 'records':
        return withBook<'records'>(
          request.id,
          (store) =>
            recordsOfRuns(store, request.runs, request.look, request.to, {
              judge: async (file, reading, judging) => {
                const read = await readFile(
                  file,
                  reading,
                  () => undefined,
                  () => cancelled.has(request.id),
                );
                return read.ok ? assessedQuietly(read.value, reading, judging) : read;
              },
              fonts: surroundings.fonts,
              progress: copying(request.id),
              cancelled: () => cancelled.has(request.id),
            }),
          (problem) => ({ problem }),
        );
      case 'keep':
        return answerKeep(request);
      case 'restore':
        return withBook<'restore'>(
          request.id,
          (store) => restoreRun(store, request.run ?? null),
          (problem) => ({ run: null, problem }),
        );
      case 'book':
        return withBook<'book'>(request.id, bookContents, (problem) => ({
          units: [],
          runs: [],
          specs: [],
          rigs: [],
          damaged: [],
          broughtBack: null,
          problem,
        }));
      case 'outlines':
        return withBook<'outlines'>(
          request.id,
          (store) => outlinesOf(store, request.runs),
          () => ({}),
        );
      case 'limits-before':
        return withBook<'limits-before'>(
          request.id,
          (store) => limitsBefore(store, request.run),
          () => [],
        );
      case 'linked-folder':
        return answer<'linked-folder'>(request.id, await linkedFolder());
      case 'link-folder':
        return answer<'link-folder'>(request.id, await linkFolder(request.folder));
      case 'sync-folder':
        return withBook<'sync-folder'>(
          request.id,
          (store) => syncFolder(store, request.at, watch(request.id).write),
          () => ({ problem: 'the book of this browser cannot be read' }),
        );
      case 'remove-sample-shop':
        return withBook<'remove-sample-shop'>(request.id, removeSampleShop, () => ({ removed: 0 }));
      case 'edit':
        return withBook<'edit'>(
          request.id,
          (store) => edit(store, request.edits, request.at),
          (problem) => problem,
        );
      case 'empty-bin':
        return withBook<'empty-bin'>(
          request.id,
          (store) => emptyBin(store, request.removedBefore),
          (problem) => problem,
        );
      case 'copy':
        return withBook<'copy'>(
          request.id,
          (store) => copyBook(store, request.to, watch(request.id)),
          (problem) => ({ problem }),
        );
      case 'look-at-copy':
        return withBook<'look-at-copy'>(
          request.id,
          (store) => lookAtCopy(store, request.copy, watch(request.id)),
          (problem) => ({ problem }),
        );
      case 'bring-back':
        return withBook<'bring-back'>(
          request.id,
          (store) =>
            bringBack(store, { source: request.copy, name: request.name, at: request.at }, watch(request.id)),
          (problem) => ({ ...nothingMerged(0, problem), twice: [] }),
        );
      case 'take-back':
        return withBook<'take-back'>(
          request.id,
          (store) => takeCopyBack(store, request.at, watch(request.id)),
          (problem) => ({ problem }),
        );
      case 'advise':
        return answerAdvise(request);
      case 'trail':
        return withBook<'trail'>(
          request.id,
          (store) => trailOf(store, request.run, request.at),
          (problem) => ({ problem }),
        );
      case 'lay-over':
        return answerLayOver(request);
      case 'check-gauge':
        return answerCheckGauge(request);
      case 'cancel':
        cancelled.add(request.id);
    }
  }

  return async (request) => {
    try {
      await dispatch(request);
    } catch (error) {
      if (error instanceof Stopped) return refuse(request.id, [{ code: 'cancelled' }]);
      // A rejection inside a message handler is silent: the page would wait for ever.
      surroundings.post(
        { id: request.id, kind: 'failed', message: error instanceof Error ? error.message : String(error) },
        [],
      );
    } finally {
      if (request.kind !== 'cancel') cancelled.delete(request.id);
    }
  };
}
