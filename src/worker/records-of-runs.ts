import { Zip, ZipPassThrough } from 'fflate';
import type { BookStore } from '#book/store.ts';
import { beforeIssue } from '#formats/before-issue.ts';
import { readUnitRecord } from '#formats/check.ts';
import { writeJson } from '#formats/number.ts';
import { problemSentence, type Result } from '#formats/problem.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import type { RecordFonts } from '#record/fonts.ts';
import { withShop } from '#record/with-shop.ts';
import { restoreRun } from './kept-run.ts';
import type { Judging, LogFile, Reading } from './messages.ts';
import { attachedFiles, type AssessedFiles } from './read-file.ts';
import type { RecordsLook, RecordsMade } from './record-messages.ts';
import { savedBytes } from './saved-files.ts';

/** What the making of many records needs from outside. */
export interface RecordsTools {
  judge: (file: LogFile, reading: Reading, judging: Judging) => Promise<Result<AssessedFiles>>;
  fonts: () => Promise<RecordFonts>;
  progress: (done: number, total: number) => void;
  cancelled: () => boolean;
}

/** A zip needs a time for each file; this one, the first that it can say, so that the same records give the same bytes. */
const NO_TIME = new Date(1980, 0, 1);

/**
 * The delivery records of runs of the book in one zip, each the bytes that the command line's `records` writes of the same log, limits,
 * bench and unit record. A run that cannot be read or judged is named and left out; the others are made.
 * @param to where the zip is written piece by piece; null: it is gathered and given back
 */
export async function recordsOfRuns(
  store: BookStore,
  runs: readonly string[],
  look: RecordsLook,
  to: FileSystemFileHandle | null,
  { judge, fonts, progress, cancelled }: RecordsTools,
): Promise<RecordsMade | { stopped: true }> {
  const { shop, ...choices } = look;
  const gathered: Blob[] = [];
  const file = to === null ? null : await to.createWritable();
  let waiting: Uint8Array[] = [],
    bytes = 0;
  const zip = new Zip((error, piece) => {
    if (error) throw error;
    waiting.push(piece.slice());
  });
  const flush = async (): Promise<void> => {
    const pieces = waiting;
    waiting = [];
    for (const piece of pieces) {
      bytes += piece.length;
      if (file === null) gathered.push(new Blob([piece.slice()]));
      else await file.write(piece.slice());
    }
  };
  const names = new Set<string>();
  const records: RecordsMade['records'] = [],
    left: RecordsMade['left'] = [];
  try {
    for (const [index, id] of runs.entries()) {
      progress(index, runs.length);
      if (cancelled()) return await stopped();
      const made = await record(id);
      // What was asked for no more is not written.
      if (cancelled()) return await stopped();
      if ('reason' in made) {
        left.push(made);
        continue;
      }
      const name = ownName(made.name, names);
      records.push({ name, verdict: made.verdict, lacks: made.lacks });
      const entry = new ZipPassThrough(name);
      entry.mtime = NO_TIME;
      zip.add(entry);
      entry.push(made.bytes, true);
      await flush();
    }
    zip.end();
    await flush();
    progress(runs.length, runs.length);
  } catch (error) {
    await file?.abort();
    throw error;
  }
  if (records.length === 0) {
    await file?.abort();
    return { stopped: false, records, left, bytes: 0, blob: null };
  }
  await file?.close();
  return {
    stopped: false,
    records,
    left,
    bytes,
    blob: file === null ? new Blob(gathered, { type: 'application/zip' }) : null,
  };

  async function stopped(): Promise<{ stopped: true }> {
    zip.terminate();
    await file?.abort();
    return { stopped: true };
  }

  async function record(
    id: string,
  ): Promise<
    | { name: string; reason: string }
    | { name: string; bytes: Uint8Array; verdict: RecordsMade['records'][number]['verdict']; lacks: number }
  > {
    const { run, problem } = await restoreRun(store, id);
    if (run === null || run.id !== id)
      return {
        name: id,
        reason: problem?.code === 'entry-damaged' ? problem.reason : 'its run is not in the book any more',
      };
    const name = run.file.name ?? 'run';
    const judged = await judge(run.file, run.reading, run.judging);
    if (!judged.ok) return { name, reason: judged.problems.map(problemSentence).join(' ') };
    const { assessment, series, files } = judged.value;
    const unitRecord = withShop(asRead(run.unitRecord), shop);
    const logs = await attachedFiles(files);
    if (!logs.ok) return { name, reason: logs.problems.map(problemSentence).join(' ') };
    return {
      name: `${name.replace(/\.[^.]*$/u, '')}.pdf`,
      bytes: await savedBytes(
        'pdf',
        {
          ...choices,
          assessment,
          series,
          logs: logs.value,
          unitRecord,
          columns: run.reading.overrides,
        },
        fonts,
      ),
      verdict: assessment.verdict,
      lacks: beforeIssue(assessment, unitRecord, choices.date).length,
    };
  }
}

/** The unit record as a file of it is read: its keys in the same order, whoever wrote them. */
function asRead(record: UnitRecord | null): UnitRecord | null {
  if (record === null) return null;
  const read = readUnitRecord(writeJson(record), null);
  return read.ok ? read.value : record;
}

/** A name that no file of the zip has yet: of two runs with one name the second is "b-0411-2.pdf". */
function ownName(name: string, taken: Set<string>): string {
  let own = name;
  for (let count = 2; taken.has(own.toLowerCase()); count++)
    own = name.replace(/(\.[^.]*)?$/u, `-${count}$1`);
  taken.add(own.toLowerCase());
  return own;
}
