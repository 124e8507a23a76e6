import { readingsOf, type Assessed, type LogReadings } from '#assessment/assess.ts';
import type { Log } from '#formats/log.ts';
import type { Result } from '#formats/problem.ts';
import type { AttachedFile } from '#record/record-input.ts';
import { joinLogs } from '#log/join-logs.ts';
import { createLogReader } from '#log/read-log.ts';
import { isPacked } from '#log/sheet-rows.ts';
import { excerptOf, tokenToShow, verbatimCells, type Excerpt } from './excerpt.ts';
import { fileHash } from './file-hash.ts';
import { createLineScout, findLine, type LineScout } from './line-scout.ts';
import {
  partsOf,
  type LogFile,
  type LogPart,
  type Progress,
  type Reading,
  type RunTrace,
} from './messages.ts';
import { runTrace } from './outline.ts';
import { readWorkbook } from './read-workbook.ts';

export interface ReadFile {
  log: Log;
  /** What is read out of it stays with it: a border that is moved judges it anew each time. */
  readings: LogReadings;
  /** Of the file that the run begins with. */
  excerpt: Excerpt;
  trace: RunTrace | null;
  /** The files as they stand in the log: by time, each once. */
  files: LogPart[];
}

const LINES_AT_END = 2;

/**
 * Streams a log's file through the log reader, or each of its files, so that one larger than memory's ease never stands in it whole.
 * Several files are joined as the command line joins them.
 * @param onProgress with the last one comes the run's trace: what follows it takes its time with a long log
 * @param cancelled asked between pieces
 */
export async function readFile(
  file: LogFile,
  reading: Reading,
  onProgress: (progress: Progress) => void,
  cancelled: () => boolean,
): Promise<Result<ReadFile>> {
  const parts = partsOf(file);
  const bytesTotal = parts.reduce((sum, { blob }) => sum + blob.size, 0);
  const read: ReadPart[] = [];
  let bytesDone = 0,
    rows = 0;
  for (const part of parts) {
    const one = await readPart(
      part,
      { ...reading, part: parts.length > 1 },
      (bytes, rowsOfPart) =>
        onProgress({ stage: 'reading', bytesDone: bytesDone + bytes, bytesTotal, rows: rows + rowsOfPart }),
      cancelled,
    );
    if (!one.ok) return one;
    read.push(one.value);
    bytesDone += part.blob.size;
    rows += one.value.log.rows;
    // The same file twice is known by its hash, before the files are joined.
    if (parts.length > 1) {
      const hashed = await withHash(one.value);
      if (!hashed.ok) return hashed;
    }
  }
  const joined = joinLogs(read.map((part) => part.log));
  if (!joined.ok) return joined;
  const trace = runTrace(joined.value);
  onProgress({ stage: 'reading', bytesDone, bytesTotal, rows: joined.value.rows, trace });
  const files = filesOf(joined.value, read);
  const [first] = files;
  if (first === undefined) return { ok: false, problems: [{ code: 'empty-file', file: file.name }] };
  // Once the run can be seen.
  if (parts.length === 1) {
    const hashed = await withHash(first);
    if (!hashed.ok) return hashed;
  }
  const log = parts.length === 1 ? first.log : joined.value;
  return {
    ok: true,
    value: {
      log,
      readings: readingsOf(log, reading.rig),
      excerpt: await excerptOfPart(first),
      trace,
      files: files.map(({ part }) => part),
    },
  };
}

/** A judged run, and its files as they stand in its log. */
export interface AssessedFiles extends Assessed {
  files: LogPart[];
}

/** The bytes of a run's files, as they go with its record. */
export async function attachedFiles(files: readonly LogPart[]): Promise<Result<AttachedFile[]>> {
  const attached: AttachedFile[] = [];
  for (const { blob, name } of files)
    try {
      attached.push({ fileName: name ?? 'log.csv', bytes: new Uint8Array(await blob.arrayBuffer()) });
    } catch (error) {
      return { ok: false, problems: [notReadable(name, error)] };
    }
  return { ok: true, value: attached };
}

/** One file as it was read, before it is joined with others. */
interface ReadPart {
  part: LogPart;
  log: Log;
  scout: LineScout;
  /** A spreadsheet is shown by the text that stands for its sheet. */
  text: Blob;
}

async function readPart(
  file: LogPart,
  { rig, overrides, part }: Reading & { part: boolean },
  onProgress: (bytesDone: number, rows: number) => void,
  cancelled: () => boolean,
): Promise<Result<ReadPart>> {
  const { blob, name } = file;
  const options = { fileName: name, rig, overrides, part };
  const reader = createLogReader({ ...options, size: blob.size });
  const scout = createLineScout(rig?.dialect?.encoding ?? null);
  let bytesDone = 0,
    packed = false;
  const stream = blob.stream().getReader();
  try {
    for (;;) {
      const { done, value } = await stream.read();
      if (done) break;
      if (cancelled()) return { ok: false, problems: [{ code: 'cancelled' }] };
      if (bytesDone === 0) packed = isPacked(value);
      if (!packed) {
        reader.push(value);
        scout.push(value);
      }
      bytesDone += value.length;
      onProgress(bytesDone, scout.count());
    }
  } catch (error) {
    return { ok: false, problems: [notReadable(name, error)] };
  } finally {
    await stream.cancel().catch(() => undefined);
  }
  if (packed) {
    const read = await readWorkbook(blob, options, null);
    if (!read.ok) return read;
    scout.push(read.value.text);
    scout.end();
    return {
      ok: true,
      value: { part: file, log: read.value.log, scout, text: new Blob([read.value.text.slice()]) },
    };
  }
  const read = reader.finish({ bytes: bytesDone, sha256: null });
  if (!read.ok) return read;
  scout.end();
  return { ok: true, value: { part: file, log: read.value, scout, text: blob } };
}

/** Bytes that changed since they were read are refused by the browser itself. */
async function withHash(read: ReadPart): Promise<Result<null>> {
  try {
    const sha256 = await fileHash(read.part.blob);
    read.log = { ...read.log, source: { ...read.log.source, sha256 } };
    return { ok: true, value: null };
  } catch (error) {
    return { ok: false, problems: [notReadable(read.part.name, error)] };
  }
}

/** The files as the joined log has them. */
function filesOf(log: Log, read: readonly ReadPart[]): ReadPart[] {
  if (read.length === 1) return [...read];
  const sources = log.parts.length > 0 ? log.parts : [log.source];
  return sources.flatMap(({ sha256 }) => read.find((part) => part.log.source.sha256 === sha256) ?? []);
}

async function excerptOfPart({ log, scout, text }: ReadPart): Promise<Excerpt> {
  const token = tokenToShow(log);
  const example =
    token === null
      ? null
      : await findLine(
          text,
          log.dialect.encoding,
          token.token,
          (line) => cellText(verbatimCells(line, log.dialect.delimiter)[token.place]) === token.token,
        );
  return excerptOf(
    log,
    scout.head(),
    example === null || token === null ? null : { lines: example, place: token.place },
    scout.tail(LINES_AT_END),
  );
}

const cellText = (cell: string | undefined): string =>
  (cell ?? '')
    .trim()
    .replace(/^"(.*)"$/u, '$1')
    .trim();

/** A file that went away, or changed, between choosing and reading. */
export function notReadable(
  name: string | null,
  error: unknown,
): { code: 'file-not-readable'; file: string; reason: string } {
  const reason =
    error instanceof DOMException && error.name === 'NotReadableError'
      ? 'it was changed, moved or locked after it was chosen'
      : error instanceof Error
        ? error.message
        : String(error);
  return { code: 'file-not-readable', file: name ?? 'the file', reason };
}
