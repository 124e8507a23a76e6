import type { BookAdjustment, BookRun, BookUnit, KeptRig, KeptSpec } from '#formats/book.ts';
import type { Assessment } from '#formats/assessment.ts';
import { writeJson } from '#formats/number.ts';
import type { UnitRecord } from '#formats/unit-record.ts';
import { fileFinding, keptFiles } from '#book/check-book.ts';
import { assessedHashes, logFilesOf, newRun, runOfLog, withVerdict, type PackedLog } from '#book/new-run.ts';
import { newUnit, unitOfSerial } from '#book/new-unit.ts';
import { entryPath, runFilePath } from '#book/place.ts';
import type { BookFile, BookProblem, BookStore } from '#book/store.ts';
import { gunzip, gzip } from './gzip.ts';
import { mergedRecords } from '#book/merge-records.ts';
import type { Answers, Judging, LogPart, Reading, SeenRun } from './messages.ts';
import { sha256Of } from './sha256.ts';

export interface RunToKeep {
  /** The log's file, or its parts as they stand in it. */
  files: readonly LogPart[];
  reading: Reading;
  judging: Judging;
  unitRecord: UnitRecord | null;
  assessment: Assessment;
  outline: BookRun['outline'];
  /** Now, as ISO 8601 with Z. */
  at: string;
  /** null: nothing is known of what the book holds. */
  seen: SeenRun | null;
  /** Of the sample shop. */
  sample: boolean;
}

/** Entries of the sample shop are known by their ids; whatever a shop makes of its own has none like it. */
const SAMPLE = 'sample-';
export const isSampleId = (id: string): boolean => id.startsWith(SAMPLE);
const newId = (sample: boolean): string => `${sample ? SAMPLE : ''}${crypto.randomUUID()}`;

/** Units, runs, limits, benches and changes of a setting, the bin included. */
export async function unitsAndRuns(store: BookStore): Promise<{
  units: BookUnit[];
  runs: BookRun[];
  specs: KeptSpec[];
  rigs: KeptRig[];
  adjustments: BookAdjustment[];
  damaged: BookProblem[];
}> {
  const { entries, damaged } = await store.list();
  return {
    specs: entries.filter((entry): entry is KeptSpec => entry.format === 'overdrive-bench/book-spec'),
    rigs: entries.filter((entry): entry is KeptRig => entry.format === 'overdrive-bench/book-rig'),
    adjustments: entries.filter(
      (entry): entry is BookAdjustment => entry.format === 'overdrive-bench/book-adjustment',
    ),
    units: entries.filter((entry): entry is BookUnit => entry.format === 'overdrive-bench/book-unit'),
    runs: entries.filter((entry): entry is BookRun => entry.format === 'overdrive-bench/book-run'),
    damaged,
  };
}

/**
 * Keeps a run in the book: the log's bytes as they came, compressed, with everything it was judged by and the verdict, in one step
 * with its unit. A log that is in the book already is the same run: its bytes are not written again unless they were damaged, a new verdict stands behind the
 * earlier ones, and if it lay in the bin it is put back. Where another window came to another verdict meanwhile, or removed the run,
 * nothing is written.
 */
export async function keepRun(store: BookStore, run: RunToKeep): Promise<Answers['keep']> {
  const { assessment, at, outline } = run;
  const { units, runs } = await unitsAndRuns(store);
  const before = runOfLog(runs, assessedHashes(assessment.log));
  const known = run.seen?.verdict ?? null;
  if (
    known !== null &&
    (before === null || before.removedAt !== null || before.assessments.at(-1)?.sha256 !== known)
  ) {
    const path = before === null ? 'runs' : entryPath(before);
    return { problem: { code: 'changed-elsewhere', path, current: before } };
  }
  const bytes = new TextEncoder().encode(writeJson(assessment));
  const verdict = { assessment, bytes, sha256: await sha256Of(bytes) };
  const made = {
    spec: run.judging.spec,
    rig: run.reading.rig,
    judge: run.judging.judge,
    overrides: run.reading.overrides,
  };
  const belongs = unitFor(units, before, run);
  if ('problem' in belongs) return belongs;
  const { unitId, entry: unit } = belongs;
  const files: BookFile[] = [];
  let entry: BookRun;
  if (before === null) {
    const logs = await packedLogs(run);
    const earlier = runs.some((each) => each.removedAt === null && each.unitId === unitId);
    const fresh = newRun({
      id: newId(run.sample),
      unitId,
      kind: unitId !== null && earlier ? 're-test' : 'test',
      at,
      logs,
      made,
      verdict,
      outline,
    });
    entry = fresh.run;
    files.push(...fresh.files);
  } else {
    const later = withVerdict(before, verdict, made, outline, at);
    entry = {
      ...(later?.run ?? { ...before, ...made, outline, revision: before.revision + 1, changedAt: at }),
      unitId,
      removedAt: null,
    };
    files.push(...(later?.files ?? []), ...(await mendedLog(store, before, run)));
  }
  const written = await store.write(unit === null ? [entry] : [unit, entry], files);
  if (!written.ok) return { problem: written.problem };
  const record = unit?.record ?? units.find(({ id }) => id === unitId)?.record ?? null;
  return { run: entry.id, seen: { verdict: verdict.sha256, unitRecord: record } };
}

/** The log's files, packed, in the order of the log; what each is comes from the assessment that they were hashed for. */
async function packedLogs({ files, assessment: { log } }: RunToKeep): Promise<PackedLog[]> {
  const sources = log.parts ?? [{ bytes: log.bytes, sha256: log.sha256 }];
  const packed: PackedLog[] = [];
  for (const [index, { blob, name }] of files.entries()) {
    const { bytes = blob.size, sha256 = null } = sources[index] ?? {};
    packed.push({ fileName: name, bytes, sha256: sha256 ?? '', packed: await gzip(blob) });
  }
  return packed;
}

/** The log again, where it came anew as a file and what was kept of it is damaged or missing; verdicts and log then fit again. */
async function mendedLog(store: BookStore, before: BookRun, run: RunToKeep): Promise<BookFile[]> {
  // A run that is judged again on its sheet was held against its SHA-256 when it was opened.
  if (run.seen !== null) return [];
  const hashes = assessedHashes(run.assessment.log);
  const mended: BookFile[] = [];
  for (const log of keptFiles(before).filter(({ what }) => what === 'log')) {
    const came = run.files[hashes.indexOf(log.sha256)];
    if (came === undefined) continue;
    const finding = await fileFinding(before.id, log, await store.file(log.path), sha256Of);
    if (finding !== null) mended.push({ path: log.path, bytes: await gzip(came.blob) });
  }
  return mended;
}

/** The unit that a run belongs to, and its entry where that is new or changed. */
function unitFor(
  units: readonly BookUnit[],
  before: BookRun | null,
  { unitRecord, at, seen, sample }: RunToKeep,
): { unitId: string | null; entry: BookUnit | null } | { problem: BookProblem } {
  const own = units.find(({ id }) => id === before?.unitId) ?? null;
  if (unitRecord === null) return { unitId: own?.id ?? null, entry: null };
  const found = own ?? unitOfSerial(units, unitRecord.unit?.serial ?? '');
  if (found === null) {
    const entry = newUnit(newId(sample), unitRecord, at);
    return { unitId: entry.id, entry };
  }
  // What is known of the unit stays where a run that comes in says nothing of it; on a run that is there already, what was changed on
  // its sheet counts.
  const serial = found.record.unit?.serial;
  const said =
    own === null || seen === null
      ? {
          ...(seen?.unitRecord ?? found.record),
          ...unitRecord,
          unit: {
            ...(seen?.unitRecord ?? found.record).unit,
            ...unitRecord.unit,
            ...(serial === undefined ? {} : { serial }),
          },
        }
      : unitRecord;
  const record = mergedRecords(seen?.unitRecord ?? found.record, said, found.record);
  if (record === null)
    return { problem: { code: 'changed-elsewhere', path: entryPath(found), current: found } };
  const same = writeJson(record) === writeJson(found.record) && found.removedAt === null;
  return {
    unitId: found.id,
    entry: same ? null : { ...found, record, removedAt: null, revision: found.revision + 1, changedAt: at },
  };
}

/**
 * A run of the book for its sheet; its bytes are checked against their SHA-256 before anything is shown.
 * @param id null: the one that was changed last
 */
export async function restoreRun(store: BookStore, id: string | null): Promise<Answers['restore']> {
  const { units, runs, damaged } = await unitsAndRuns(store);
  const inBook = runs
    .filter(({ removedAt }) => removedAt === null)
    .sort((a, b) => (a.changedAt < b.changedAt ? 1 : -1));
  const found = (id === null ? null : runs.find((run) => run.id === id)) ?? inBook[0];
  const whole = found === undefined ? null : await store.entry(entryPath(found));
  const entry = whole?.format === 'overdrive-bench/book-run' ? whole : undefined;
  if (entry === undefined) return { run: null, problem: damaged[0] ?? null };
  const files: LogPart[] = [];
  for (const file of logFilesOf(entry)) {
    const path = runFilePath(entry.id, file.file);
    const bytes = await store.file(path);
    const log = bytes === null ? 'is missing' : await unpackedLog(bytes, file.sha256);
    if (typeof log === 'string') {
      const which = entry.log.parts.length > 1 ? `part ${files.length + 1} of the log` : 'the log';
      return { run: null, problem: { code: 'entry-damaged', path, reason: `${which} of the run ${log}` } };
    }
    files.push({ key: file.sha256, blob: new Blob([log]), name: file.fileName });
  }
  const [first, ...more] = files;
  if (first === undefined) return { run: null, problem: damaged[0] ?? null };
  return {
    run: {
      id: entry.id,
      seen: {
        verdict: entry.assessments.at(-1)?.sha256 ?? null,
        unitRecord: units.find((unit) => unit.id === entry.unitId)?.record ?? null,
      },
      programVersion: entry.assessments.at(-1)?.programVersion ?? null,
      file: more.length === 0 ? first : { ...first, key: files.map(({ key }) => key).join('+'), more },
      reading: {
        rig: entry.rig,
        overrides: entry.overrides.map(({ column, role, unit: columnUnit }) => ({
          column,
          ...(role === undefined ? {} : { role }),
          ...(columnUnit === undefined ? {} : { unit: columnUnit }),
        })),
      },
      judging: { spec: entry.spec, judge: entry.judge },
      unitRecord: units.find((unit) => unit.id === entry.unitId)?.record ?? null,
    },
    problem: null,
  };
}

/** The bytes that were kept; otherwise what is wrong with them. */
async function unpackedLog(packed: Uint8Array, sha256: string): Promise<Uint8Array<ArrayBuffer> | string> {
  let log: Uint8Array<ArrayBuffer>;
  try {
    log = await gunzip(packed);
  } catch {
    return 'cannot be unpacked';
  }
  return (await sha256Of(log)) === sha256 ? log : 'is not what was kept';
}

/** Paths of everything that a removed entry leaves behind. */
export async function pathsOf(store: BookStore, entry: BookRun | BookUnit): Promise<string[]> {
  if (entry.format === 'overdrive-bench/book-unit') return [entryPath(entry)];
  return (await store.paths()).filter((path) => path.startsWith(`runs/${entry.id}/`));
}
