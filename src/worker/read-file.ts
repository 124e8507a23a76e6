import { readingsOf, type LogReadings } from '#assessment/assess.ts';
import type { Log } from '#formats/log.ts';
import type { Result } from '#formats/problem.ts';
import { createLogReader } from '#log/read-log.ts';
import { isPacked } from '#log/sheet-rows.ts';
import { excerptOf, tokenToShow, verbatimCells, type Excerpt } from './excerpt.ts';
import { fileHash } from './file-hash.ts';
import { createLineScout, findLine } from './line-scout.ts';
import type { LogFile, Progress, Reading, RunTrace } from './messages.ts';
import { runTrace } from './outline.ts';
import { readWorkbook } from './read-workbook.ts';

export interface ReadFile {
  log: Log;
  /** What is read out of it stays with it: a border that is moved judges it anew each time. */
  readings: LogReadings;
  excerpt: Excerpt;
  trace: RunTrace | null;
}

const LINES_AT_END = 2;

/**
 * Streams a file through the log reader, so that a file larger than memory's ease never stands in it whole.
 * @param onProgress with the last one comes the run's trace: what follows it takes its time with a long log
 * @param cancelled asked between pieces
 */
export async function readFile(
  file: LogFile,
  reading: Reading,
  onProgress: (progress: Progress) => void,
  cancelled: () => boolean,
): Promise<Result<ReadFile>> {
  const { blob, name } = file;
  const reader = createLogReader({
    fileName: name,
    rig: reading.rig,
    overrides: reading.overrides,
    size: blob.size,
  });
  const scout = createLineScout(reading.rig?.dialect?.encoding ?? null);
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
      onProgress({ stage: 'reading', bytesDone, bytesTotal: blob.size, rows: scout.count() });
    }
  } catch (error) {
    return { ok: false, problems: [notReadable(name, error)] };
  } finally {
    await stream.cancel().catch(() => undefined);
  }
  // A spreadsheet is shown by the text that stands for its sheet.
  let text: Blob = blob,
    log: Log;
  if (packed) {
    const { rig, overrides } = reading;
    const read = await readWorkbook(blob, { fileName: name, rig, overrides }, null);
    if (!read.ok) return read;
    log = read.value.log;
    scout.push(read.value.text);
    text = new Blob([read.value.text.slice()]);
  } else {
    const read = reader.finish({ bytes: bytesDone, sha256: null });
    if (!read.ok) return read;
    log = read.value;
  }
  const trace = runTrace(log);
  onProgress({ stage: 'reading', bytesDone: blob.size, bytesTotal: blob.size, rows: log.rows, trace });
  try {
    // Once the run can be seen: bytes that changed since are refused by the browser itself.
    log = { ...log, source: { ...log.source, sha256: await fileHash(blob) } };
  } catch (error) {
    return { ok: false, problems: [notReadable(name, error)] };
  }
  scout.end();
  const token = tokenToShow(log);
  const example =
    token === null
      ? null
      : await findLine(
          text,
          log.dialect.encoding,
          token.token,
          (text) => cellText(verbatimCells(text, log.dialect.delimiter)[token.place]) === token.token,
        );
  const excerpt = excerptOf(
    log,
    scout.head(),
    example === null || token === null ? null : { lines: example, place: token.place },
    scout.tail(LINES_AT_END),
  );
  return { ok: true, value: { log, readings: readingsOf(log, reading.rig), excerpt, trace } };
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
