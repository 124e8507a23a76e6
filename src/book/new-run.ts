import type { Assessment } from '#formats/assessment.ts';
import type { BookRun, KeptAssessment } from '#formats/book.ts';
import { freeName } from './join.ts';
import { runFilePath } from './place.ts';
import type { BookFile } from './store.ts';

/** One file of a log: its bytes packed with gzip, and what the unpacked bytes are. */
export interface PackedLog {
  fileName: string | null;
  bytes: number;
  sha256: string;
  packed: Uint8Array;
}

/** Everything a run is made of; clock, random and hash belong to the caller. */
export interface NewRun {
  id: string;
  unitId: string | null;
  kind: BookRun['kind'];
  /** Now, ISO 8601 with Z. */
  at: string;
  /** The files of the run in order, at least one. */
  logs: readonly PackedLog[];
  /** What it was read with and judged by. */
  made: Pick<BookRun, 'spec' | 'rig' | 'judge' | 'overrides'>;
  verdict: DecidedRun;
  outline: BookRun['outline'];
}

/** An assessment and the very bytes of its file. */
export interface DecidedRun {
  assessment: Assessment;
  bytes: Uint8Array;
  sha256: string;
}

/** Name of the log's bytes within a run; parts are log.gz, log-2.gz … */
const logFile = (index: number): string => (index === 0 ? 'log.gz' : `log-${index + 1}.gz`);

/** A run as the book keeps it, and the files that are written with it in one step. */
export function newRun(given: NewRun): { run: BookRun; files: BookFile[] } {
  const { id, at, logs, verdict } = given;
  const { log } = verdict.assessment;
  const kept = keptAssessment(verdict, at, 'assessment-1.json');
  const run: BookRun = {
    format: 'overdrive-bench/book-run',
    version: 1,
    id,
    revision: 1,
    changedAt: at,
    removedAt: null,
    unitId: given.unitId,
    kind: given.kind,
    broughtInAt: at,
    log: {
      fileName: logs[0]?.fileName ?? null,
      bytes: logs.reduce((sum, part) => sum + part.bytes, 0),
      sha256: logs[0]?.sha256 ?? '',
      start: log.start,
      duration_s: log.duration_s,
      rows: log.rows,
      parts:
        logs.length < 2
          ? []
          : logs.map(({ fileName, bytes, sha256 }, index) => ({
              fileName,
              bytes,
              sha256,
              file: logFile(index),
            })),
    },
    ...given.made,
    assessments: [kept],
    note: '',
    outline: given.outline,
  };
  const files = logs.map(({ packed }, index) => ({ path: runFilePath(id, logFile(index)), bytes: packed }));
  return { run, files: [...files, { path: runFilePath(id, kept.file), bytes: verdict.bytes }] };
}

/**
 * A later verdict on the same run: by other limits, choices by hand, or another version of the program. The earlier ones stay. null
 * where nothing came out differently.
 */
export function withVerdict(
  run: BookRun,
  verdict: DecidedRun,
  made: Partial<NewRun['made']>,
  outline: BookRun['outline'],
  at: string,
): { run: BookRun; files: BookFile[] } | null {
  if (run.assessments.at(-1)?.sha256 === verdict.sha256) return null;
  const used = new Set(run.assessments.map(({ file }) => file));
  const kept = keptAssessment(verdict, at, freeName(`assessment-${used.size + 1}.json`, used));
  return {
    run: {
      ...run,
      ...made,
      revision: run.revision + 1,
      changedAt: at,
      assessments: [...run.assessments, kept],
      outline,
    },
    files: [{ path: runFilePath(run.id, kept.file), bytes: verdict.bytes }],
  };
}

function keptAssessment({ assessment, sha256 }: DecidedRun, at: string, file: string): KeptAssessment {
  const { operatingPressure } = assessment.quantities;
  return {
    programVersion: assessment.program.version,
    decidedAt: at,
    verdict: assessment.verdict,
    operatingPressure: operatingPressure.value,
    expandedUncertainty: operatingPressure.expandedUncertainty,
    unit: operatingPressure.unit,
    deciding:
      assessment.criteria.find(({ verdict }) => verdict === assessment.verdict) ??
      assessment.criteria[0] ??
      null,
    sha256,
    file,
  };
}

/** The files that a run's log is made of, as they lie in the book. */
export const logFilesOf = ({ log }: BookRun): { file: string; fileName: string | null; sha256: string }[] =>
  log.parts.length > 0 ? log.parts : [{ file: logFile(0), fileName: log.fileName, sha256: log.sha256 }];
/** "hour-1.csv", or "hour-1.csv and 2 more" for a run in several files. */
export const filesName = (first: string, count: number): string =>
  count < 2 ? first : `${first} and ${count - 1} more`;
/** What the log is called; null where it has no name. */
export const logName = ({ log }: BookRun): string | null =>
  log.fileName === null ? null : filesName(log.fileName, log.parts.length);
const logHashes = (run: BookRun): string[] => logFilesOf(run).map(({ sha256 }) => sha256);

/**
 * The run in the book, the bin included, that was made of these very files: all of them, and no others. A run of one hour is not the
 * run of the six that it is a part of.
 * @param hashes SHA-256 of each file, in any order
 */
export const runOfLog = (runs: readonly BookRun[], hashes: readonly string[]): BookRun | null => {
  const sought = [...new Set(hashes)].sort().join();
  return runs.find((run) => [...new Set(logHashes(run))].sort().join() === sought) ?? null;
};

/** Whether two runs were made of the same files. */
export const sameLogs = (a: BookRun, b: BookRun): boolean => logHashes(a).join() === logHashes(b).join();

/** Another run in the book that one of the files is of. */
export const runSharingLog = (runs: readonly BookRun[], hashes: readonly string[]): BookRun | null => {
  const same = runOfLog(runs, hashes);
  return (
    runs.find(
      (run) => run !== same && run.removedAt === null && logHashes(run).some((hash) => hashes.includes(hash)),
    ) ?? null
  );
};

/** SHA-256 of the files of a judged run. */
export const assessedHashes = ({ sha256, parts }: Assessment['log']): string[] =>
  (parts ?? [{ sha256 }]).flatMap((file) => file.sha256 ?? []);
